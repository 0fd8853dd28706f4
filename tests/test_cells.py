"""Cells: text to value, value to text, and what is told of a cell that can't be taken."""

from datetime import UTC, date, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.bad_cell import BadCell, likely, shown
from crewtrack.cells import cell_text, read_cell
from crewtrack.facts import PEOPLE, PERFORMANCES, RECORDED, SIGNOFFS, SORTIES, Column, Value

DETROIT = ZoneInfo("America/Detroit")
COLUMNS = {(kind.name, column.name): column for kind in RECORDED for column in kind.columns}


def read(kind: str, name: str, text: str) -> Value:
    return read_cell(COLUMNS[kind, name], text, DETROIT)


def refusal(kind: str, name: str, text: str) -> tuple[str, str]:
    with pytest.raises(BadCell) as caught:
        read(kind, name, text)
    return caught.value.problem, caught.value.cure


@pytest.mark.parametrize(
    ("kind", "name", "text", "value"),
    [
        ("people", "person", "K-07", "K-07"),
        ("people", "name", "  Åsa Lindqvist ", "Åsa Lindqvist"),
        ("people", "name", "Jose\u0301", "José"),
        ("people", "joined", "2026-11-25", date(2026, 11, 25)),
        ("people", "joined", "", None),
        ("people", "joined", " \u00a0 ", None),
        ("people", "duties", "", ()),
        ("people", "duties", "observer; pilot;;pilot", ("pilot", "observer")),
        ("performances", "times", "", 1),
        ("performances", "times", "3", 3),
        ("performances", "times", "3.0", 3),
        ("waivers", "kind", "", "waiver"),
        ("sorties", "sea", "0", 0),
        ("sorties", "lat", "47.12", 47.12),
        ("sorties", "lon", "-88.5", -88.5),
        ("sorties", "lon", ".5", 0.5),
        ("sorties", "heading", "360", 360.0),
        ("sorties", "setting", "drill", "drill"),
        ("sorties", "remarks", "one\r\ntwo\rthree\tfour", "one\ntwo\nthree\tfour"),
    ],
)
def test_a_cell_is_read_as_its_column_says(kind: str, name: str, text: str, value: Value) -> None:
    found = read(kind, name, text)
    assert found == value
    assert type(found) is type(value)


def test_minus_zero_is_zero() -> None:
    assert str(read("sorties", "lon", "-0")) == "0.0"


@pytest.mark.parametrize(
    ("kind", "name", "text", "problem", "cure"),
    [
        ("people", "name", "", "the cell is empty", "it is required in every row"),
        ("sorties", "sea", "12", "12 is more than 9", "write a whole number from 0 to 9"),
        (
            "sorties",
            "sea",
            "2.5",
            "'2.5' is not a whole number",
            "write a whole number from 0 to 9",
        ),
        (
            "sorties",
            "minutes",
            "-30",
            "-30: the sortie ends before it starts",
            "write a whole number from 0 to 1440",
        ),
        (
            "sorties",
            "minutes",
            "1441",
            "1441 is more than 1440",
            "write a whole number from 0 to 1440",
        ),
        ("sorties", "wind_from", "400", "400 is more than 360", "write a number from 0 to 360"),
        ("sorties", "lat", "91", "91 is more than 90", "write a number from -90 to 90"),
        ("sorties", "lon", "-180.5", "-180.5 is less than -180", "write a number from -180 to 180"),
        ("sorties", "lat", "47,12", "'47,12' is not a number", "write a decimal point: 47.12"),
        ("sorties", "wind", "14 kn", "'14 kn' is not a number", "write a number from 0 to 200"),
        ("sorties", "wind", "nan", "'nan' is not a number", "write a number from 0 to 200"),
        ("sorties", "wind", "inf", "'inf' is not a number", "write a number from 0 to 200"),
        ("sorties", "wind", "1e1", "'1e1' is not a number", "write a number from 0 to 200"),
        ("sorties", "wind", "1_0", "'1_0' is not a number", "write a number from 0 to 200"),
        ("sorties", "wind", "١٤", "'١٤' is not a number", "write a number from 0 to 200"),
        ("vessels", "length_m", "0", "0 is less than 0.1", "write a number from 0.1 to 500"),
        (
            "sorties",
            "setting",
            "Live",
            "'Live' is not one of live, drill",
            "did you mean 'live'?",
        ),
        (
            "people",
            "duties",
            "pilot;deckhand",
            "'deckhand' is not one of pilot, observer, handler, helm, evaluator, officer, chief",
            "",
        ),
        (
            "people",
            "duties",
            "pilot, helm",
            "'pilot, helm' is not one of pilot, observer, handler, helm, evaluator, officer, chief",
            "put ';' between words",
        ),
        (
            "people",
            "name",
            "x" * 40_000,
            f"'{'x' * 39}…' is 40,000 characters long",
            "at most 200 fit here",
        ),
        (
            "people",
            "person",
            "K" * 41,
            f"'{'K' * 39}…' is 41 characters long",
            "at most 40 fit here",
        ),
        ("people", "person", "K\t7", "'K\\t7' holds a tab", "write a blank instead"),
        (
            "people",
            "name",
            "a\x1b[31mb",
            "'a\\x1b[31mb' holds the control character U+001B",
            "take it out",
        ),
        ("people", "name", "a\x00b", "'a\\x00b' holds the control character U+0000", "take it out"),
        (
            "people",
            "name",
            "abc\u202edcba",
            "'abc\\u202edcba' holds the control character U+202E",
            "take it out",
        ),
        ("people", "name", "a\nb", "'a\\nb' holds a line break", "write it on one line"),
        (
            "sorties",
            "remarks",
            "a\x07b",
            "'a\\x07b' holds the control character U+0007",
            "take it out",
        ),
        (
            "people",
            "name",
            "Andr\udce9",
            "'Andr\\xe9' holds the byte 0xE9, which is not UTF-8",
            "save the file as CSV UTF-8",
        ),
    ],
)
def test_a_cell_that_can_not_be_taken_says_why_and_what_would_be_right(
    kind: str, name: str, text: str, problem: str, cure: str
) -> None:
    assert refusal(kind, name, text) == (problem, cure)


def test_names_keep_the_joining_marks_that_their_script_needs() -> None:
    assert read("people", "name", "علی\u200cرضا") == "علی\u200cرضا"


def test_a_name_of_200_characters_is_taken() -> None:
    assert read("people", "name", "é" * 200) == "é" * 200


def test_the_length_is_counted_in_composed_characters() -> None:
    assert read("people", "name", "e\u0301" * 200) == "é" * 200


@pytest.mark.parametrize(
    ("text", "cure"),
    [("Deck_Pilot", "did you mean 'deck-pilot'?"), ("zebra", "")],
)
def test_the_nearest_known_word_is_offered_where_one_is_near(text: str, cure: str) -> None:
    assert likely(text, ["deck-pilot", "helm"]) == cure


def test_no_word_is_looked_for_among_too_many() -> None:
    assert likely("S-00001", (f"S-{number:05}" for number in range(501))) == ""
    assert likely("S-0001", (f"S-{number:05}" for number in range(500))) != ""


def test_what_is_shown_is_short_and_does_nothing_to_a_terminal() -> None:
    assert shown("\x1b[2J" + "a" * 50) == "'\\x1b[2J" + "a" * 35 + "…'"


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, ""),
        ("K-07", "K-07"),
        (3, "3"),
        (12.0, "12"),
        (0.1, "0.1"),
        (0.00001, "0.00001"),
        (-88.5731, "-88.5731"),
        (date(2026, 11, 25), "2026-11-25"),
        (
            datetime(2026, 11, 25, 6, 40, tzinfo=timezone(timedelta(hours=-5))),
            "2026-11-25T06:40-05:00",
        ),
        (datetime(2026, 11, 25, 6, 40, 7, tzinfo=UTC), "2026-11-25T06:40:07Z"),
        (("pilot", "helm"), "pilot;helm"),
        ((), ""),
    ],
)
def test_a_value_is_written_in_its_shortest_form(value: Value, text: str) -> None:
    assert cell_text(value) == text


def values_of(column: Column) -> st.SearchStrategy[str]:
    texts = {
        "Day": st.dates(date(1900, 1, 1)).map(str),
        "Instant": st.datetimes(
            datetime(1900, 1, 2),  # noqa: DTZ001  (the strategy gives the zone)
            datetime(9998, 12, 31),  # noqa: DTZ001
            timezones=st.integers(-840, 840).map(lambda m: timezone(timedelta(minutes=m))),
        ).map(lambda when: when.replace(microsecond=0).isoformat()),
        "Whole": st.integers(0, 9).map(str),
        "Number": st.floats(0.2, 30).map(cell_text),
    }
    return texts.get(type(column.type).__name__, st.text(min_size=1, max_size=40))


@given(st.data())
def test_reading_what_was_written_gives_the_same_value(data: st.DataObject) -> None:
    column = data.draw(
        st.sampled_from([c for k in (PEOPLE, PERFORMANCES, SIGNOFFS, SORTIES) for c in k.columns])
    )
    try:
        value = read_cell(column, data.draw(values_of(column)), DETROIT)
    except BadCell:
        return
    assert read_cell(column, cell_text(value), DETROIT) == value
