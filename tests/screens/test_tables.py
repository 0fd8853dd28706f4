"""Tables as values."""

from datetime import date

from crewtrack.screens.tables import TableColumn, as_text, day_order

NAME = TableColumn("Name", lambda row: str(row[0]))
COUNT = TableColumn("Count", lambda row: str(row[1]), order=lambda row: row[1], right=True)


def test_a_cell_is_read_aloud_with_its_column() -> None:
    assert NAME.said(("Aino", 3)) == "Name: Aino"


def test_an_empty_cell_is_read_aloud_as_such() -> None:
    assert NAME.said(("", 3)) == "Name: –"


def test_a_column_can_say_a_sentence_of_its_own() -> None:
    spoken = TableColumn("Name", str, spoken=lambda row: f"It is {row[0]}.")
    assert spoken.said(("Aino",)) == "It is Aino."


def test_text_sorts_without_regard_to_capitals_and_numbers_as_numbers() -> None:
    assert sorted([("b", 10), ("A", 9)], key=NAME.rank) == [("A", 9), ("b", 10)]
    assert sorted([("b", 10), ("A", 9)], key=COUNT.rank) == [("A", 9), ("b", 10)]


def test_rows_are_copied_with_their_heading_and_each_on_one_line() -> None:
    rows = (("Aino\nL", 3), ("Jiří", 4))
    assert as_text((NAME, COUNT), rows) == "Name\tCount\nAino L\t3\nJiří\t4"


def test_a_missing_day_sorts_last() -> None:
    assert day_order(None) > day_order(date(2026, 11, 25))
