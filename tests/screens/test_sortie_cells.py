"""What is typed for a sortie: clocks, places, directions with speeds."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from crewtrack.bad_cell import BadCell
from crewtrack.screens.sortie_cells import (
    clock_text,
    flow_text,
    read_angle,
    read_launch,
    split_flow,
)

ZONE = ZoneInfo("America/Detroit")
DAY = date(2026, 11, 25)
SHORT_NIGHT, LONG_NIGHT = date(2026, 3, 8), date(2026, 11, 1)


@pytest.mark.parametrize("text", ["0640", "640", "6:40", "06:40", "6.40", " 06:40:00 "])
def test_a_clock_is_read_as_it_is_typed(text: str) -> None:
    assert read_launch(DAY, text, ZONE).isoformat() == "2026-11-25T06:40:00-05:00"


@pytest.mark.parametrize("text", ["", "6", "64", "2460", "1260", "noon", "12:30 pm"])
def test_what_is_no_clock_is_refused(text: str) -> None:
    with pytest.raises(BadCell):
        read_launch(DAY, text, ZONE)


def test_a_time_that_comes_twice_asks_for_its_offset() -> None:
    with pytest.raises(BadCell) as bad:
        read_launch(LONG_NIGHT, "0130", ZONE)
    assert bad.value.problem == "01:30 comes twice on that day, as the clocks change"
    assert bad.value.cure == (
        "write 01:30-04:00 by the clock before the change or 01:30-05:00 by the one after it"
    )


def test_a_time_that_the_clocks_skip_is_refused() -> None:
    with pytest.raises(BadCell, match="02:30 does not come"):
        read_launch(SHORT_NIGHT, "0230", ZONE)


def test_an_offset_settles_it() -> None:
    assert read_launch(LONG_NIGHT, "01:30-05:00", ZONE).utcoffset() == timedelta(hours=-5)


@example(1_793_514_600)  # the second 01:30 of the long night
@given(st.integers(1_577_836_800, 1_893_456_000))
def test_a_clock_text_reads_back_as_its_instant(instant: int) -> None:
    real = datetime.fromtimestamp(instant, ZONE)
    assert read_launch(real.date(), clock_text(real, ZONE), ZONE).timestamp() == instant


@pytest.mark.parametrize(
    ("text", "letters", "degrees"),
    [
        ("47.12", "NS", "47.12"),
        ("-88.6", "EW", "-88.6"),
        ("47 07.2 N", "NS", "47.12"),
        ("47°07.2'N", "NS", "47.12"),
        ("N 47 07 12", "NS", "47.12"),
        ("88 36 W", "EW", "-88.6"),
        ("-88 36.0", "EW", "-88.6"),
        ("12 s", "NS", "-12"),
        ("", "NS", ""),
    ],
)
def test_a_place_is_read_in_degrees_or_minutes(text: str, letters: str, degrees: str) -> None:
    assert read_angle(text, letters) == degrees


@pytest.mark.parametrize(
    ("text", "letters"),
    [
        ("47 60.0 N", "NS"),
        ("47 07.2 E", "NS"),
        ("47.5 07 N", "NS"),
        ("-47 07 N", "NS"),
        ("1 2 3 4 N", "NS"),
        ("N", "NS"),
        ("harbour", "EW"),
    ],
)
def test_what_is_no_place_is_refused(text: str, letters: str) -> None:
    with pytest.raises(BadCell):
        read_angle(text, letters)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("240/14", ("240", "14")),
        ("240 14", ("240", "14")),
        (" / 14 ", ("", "14")),
        ("240/", ("240", "")),
        ("", ("", "")),
    ],
)
def test_a_direction_and_a_speed_are_taken_apart(text: str, parts: tuple[str, str]) -> None:
    assert split_flow(text, "240/14") == parts


@pytest.mark.parametrize("text", ["14", "1/2/3", "a b c"])
def test_one_number_alone_is_not_both(text: str) -> None:
    with pytest.raises(BadCell, match="is not a direction and a speed"):
        split_flow(text, "240/14")


@pytest.mark.parametrize(
    ("direction", "speed", "text"),
    [
        (90.0, 1.2, "090/1.2"),
        (90.5, 1.0, "90.5/1"),
        (None, 5.0, "/5"),
        (0.0, None, "000/"),
        (None, None, ""),
    ],
)
def test_a_flow_is_told_with_three_digits(
    direction: float | None, speed: float | None, text: str
) -> None:
    assert flow_text(direction, speed) == text
