"""How rows lie in their tables, and that nothing else reads as a row."""

from datetime import UTC, date, datetime, time, timedelta, timezone
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack import facts
from crewtrack.facts import Column, Kind, Value
from crewtrack.records.stored import decoder, encoded, get_instant, layout, utc_text

IDS = {kind.name: {"one": 1, "other": 2} for kind in facts.RECORDED}
KEYS = {name: {entry: key for key, entry in ids.items()} for name, ids in IDS.items()}

OFFSETS = st.integers(-14 * 60, 14 * 60).map(lambda m: timezone(timedelta(minutes=m)))
INSTANTS = st.builds(
    lambda day, seconds, zone: datetime.combine(day, time(), zone) + timedelta(seconds=seconds),
    st.dates(date(2, 1, 1), date(9998, 1, 1)),
    st.integers(0, 86_399),
    OFFSETS,
)


def values(column: Column) -> st.SearchStrategy[Any]:
    """The values that a column takes."""
    match column.type:
        case facts.Reference():
            there: st.SearchStrategy[Any] = st.sampled_from(["one", "other"])
        case facts.Day():
            there = st.dates()
        case facts.Instant():
            there = INSTANTS
        case facts.Whole(least, most):
            there = st.integers(least, most)
        case facts.Number(least, most):
            there = st.floats(least, most)
        case facts.Choice(options):
            there = st.sampled_from(options)
        case facts.Choices(options):
            return st.lists(st.sampled_from(options), unique=True).map(tuple)
        case _:
            there = st.text(min_size=1)
    return there if column.required else there | st.none()


@pytest.mark.parametrize("kind", facts.RECORDED, ids=lambda kind: kind.name)
def test_every_row_comes_back_as_it_was_put_in(kind: Kind) -> None:
    @given(st.tuples(*map(values, kind.columns)))
    def comes_back(row: tuple[Value, ...]) -> None:
        (held,) = zip(*encoded(kind, IDS, [row]), strict=True)
        assert len(held) == len(layout(kind).names)
        assert decoder(kind, KEYS)(held) == row

    comes_back()


@given(INSTANTS)
def test_an_instant_keeps_the_offset_it_was_entered_in(instant: datetime) -> None:
    offset = instant.utcoffset()
    assert offset is not None
    back = get_instant(utc_text(instant), offset // timedelta(minutes=1))
    assert back.isoformat() == instant.isoformat()


@pytest.mark.parametrize(
    "text",
    ["2026-11-25t11:40:00Z", "2026-11-25 11:40:00Z", "20261125T114000Z", "2026-11-25T11:40:00+0",
     "2026-11-25T11:40:00", "2026-11-25T24:00:00Z"],
)  # fmt: skip
def test_an_instant_is_read_in_no_other_spelling(text: str) -> None:
    with pytest.raises(ValueError, match=r".*"):
        get_instant(text, 0)


@pytest.mark.parametrize("text", ["20261125", "2026-W48-3", "2026-11-25 ", "2026-02-30"])
def test_a_date_is_read_in_no_other_spelling(text: str) -> None:
    decode = decoder(facts.ASSIGNMENTS, KEYS)
    with pytest.raises(ValueError, match=r".*"):
        decode((1, "deck-pilot", text, None))


@pytest.mark.parametrize(
    "instant",
    [
        datetime(2026, 1, 1, 0, 0, 0, 5, tzinfo=UTC),
        datetime(2026, 1, 1, tzinfo=timezone(timedelta(seconds=-19_931))),
        datetime(2026, 1, 1),  # noqa: DTZ001 - what it takes to be refused
    ],
)
def test_an_instant_that_two_columns_cannot_hold_is_refused(instant: datetime) -> None:
    given_: dict[str, Value] = {"sortie": "S", "launched": instant}
    row = tuple(given_.get(name) for name in facts.SORTIES.names)
    with pytest.raises(ValueError, match=r"whole"):
        encoded(facts.SORTIES, IDS, [row])


def test_a_date_lies_as_iso_text() -> None:
    row = ("one", "deck-pilot", date(2026, 1, 2), None)
    assert encoded(facts.ASSIGNMENTS, IDS, [row]) == [[1], ("deck-pilot",), ["2026-01-02"], [None]]
