from crewtrack.prints.listing import CELL, Column, Listing, section

COLUMNS = (Column("Who", 100), Column("What", 300))


def listing(*texts: str) -> Listing:
    entries = tuple(((("Ana", CELL),), ((text, CELL),)) for text in texts)
    return Listing("Lapsed", "some", COLUMNS, entries, "Nothing has lapsed.")


def test_an_empty_list_says_so_without_headings() -> None:
    found = section(listing())
    assert found.rows[0].texts() == ("Nothing has lapsed.",)
    assert "Who" not in found.opening.texts()


def test_headings_stand_on_the_first_page_and_on_every_further_one() -> None:
    found = section(listing("x"))
    assert found.opening.texts() == ("Lapsed", "some", "Who", "What")
    assert found.again.texts() == ("Lapsed", "continued", "Who", "What")


def test_a_very_long_entry_is_parted_into_rows_that_a_page_can_hold() -> None:
    found = section(listing("one more recovery " * 400))
    assert max(row.height for row in found.rows) < 300
    told = " ".join(text for row in found.rows for text in row.texts() if text != "Ana")
    assert told.split() == ("one more recovery " * 400).split()
