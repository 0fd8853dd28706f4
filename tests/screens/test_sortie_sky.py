"""The light of a sortie in words."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from crewtrack.engine.standard import Dark, Position
from crewtrack.facts import Value
from crewtrack.screens.sortie_sky import Outing, draft_light, light_told
from tests.screens.sortie_samples import DAY, STANDARD, ZONE

ATLANTA = Position(33.8, -84.4)
UTQIAGVIK = Position(71.2906, -156.7886)
LAPLAND = Position(67.4066, 20.0997)
EASTERN = ZoneInfo("America/New_York")


def told(
    at: str, place: Position | None = ATLANTA, dark: Dark = "civil", minutes: int | None = 25
) -> tuple[str, ...]:
    launched = datetime.fromisoformat(at)
    return light_told(Outing(launched, minutes, place), dark, EASTERN)


def test_the_turns_of_the_day_are_those_of_the_naval_observatory() -> None:
    # B1: USNO for Atlanta on 2009-09-06, quoted in a library's docs: read; rounded to the minute.
    assert told("2009-09-06T12:00-04:00")[1] == (
        "Civil dawn 06:50, sunrise 07:15, sunset 19:56, civil dusk 20:21."
    )


def test_the_turns_are_those_of_published_tables_for_london() -> None:
    # B5: published tables for London on 2015-12-01, quoted in a library's tests: read.
    launched = datetime.fromisoformat("2015-12-01T12:00+00:00")
    outing = Outing(launched, 10, Position(51.50853, -0.12574))
    assert light_told(outing, "civil", ZoneInfo("UTC"))[1] == (
        "Civil dawn 07:04, sunrise 07:43, sunset 15:55, civil dusk 16:34."
    )


def test_a_launch_at_dusk_can_end_in_the_dark() -> None:
    # B1's sunset 19:56 and end of twilight 20:21: derived.
    assert told("2009-09-06T20:00-04:00")[0] == "Launch 20:00: twilight. Recovery 20:25: night."


@pytest.mark.parametrize(
    ("dark", "light", "sentence"),
    [
        ("half-hour", "twilight", "By this standard, night begins 30 minutes after sunset."),
        ("hour", "twilight", "By this standard, night begins an hour after sunset."),
    ],
)
def test_another_rule_for_night_is_told(dark: Dark, light: str, sentence: str) -> None:
    # B2 at 20:23, after the end of civil twilight: derived.
    lines = told("2009-09-06T20:23-04:00", dark=dark, minutes=None)
    assert lines[0] == f"Launch 20:23: {light}."
    assert lines[2] == sentence


def test_where_the_sun_does_not_set_it_is_said() -> None:
    # B6: the sun never sets at Utqiagvik on 2023-06-21: read.
    assert told("2023-06-21T16:00-04:00", UTQIAGVIK)[1] == "The sun does not set."


def test_where_the_sun_does_not_rise_there_are_only_twilights() -> None:
    # B6: no sunrise in Lapland on 2022-12-21: read.
    line = told("2022-12-21T05:00-05:00", LAPLAND)[1]
    assert line.startswith("Civil dawn")
    assert "sun" not in line


def test_a_time_with_another_offset_is_told_on_the_units_clocks() -> None:
    assert told("2009-09-06T16:00+00:00")[0].startswith("Launch 12:00: day.")


def test_without_a_place_it_asks_for_one() -> None:
    assert told("2009-09-06T12:00-04:00", None) == (
        "Where it is, is not known: write a place, or state the light by hand.",
    )


def test_light_that_is_stated_goes_before_the_sky() -> None:
    launched = datetime.fromisoformat("2009-09-06T12:00-04:00")
    lines = light_told(Outing(launched, 5, ATLANTA), "civil", EASTERN, "night")
    assert lines == ("Light stated by hand: night.",)


def test_before_the_launch_is_known_nothing_is_told() -> None:
    assert draft_light({}, STANDARD, ZONE) == ()


def test_a_draft_without_a_place_is_at_the_units() -> None:
    noon = datetime(DAY.year, DAY.month, DAY.day, 12, tzinfo=ZONE)
    here: dict[str, Value] = {"launched": noon, "minutes": 5}
    there = here | {"lat": 47.1, "lon": -88.6}
    assert draft_light(here, STANDARD, ZONE) == draft_light(there, STANDARD, ZONE)
    far = here | {"lat": 47.1, "lon": -58.6}
    assert draft_light(far, STANDARD, ZONE) != draft_light(here, STANDARD, ZONE)


def test_a_sortie_without_minutes_has_no_recovery_yet() -> None:
    noon = datetime(DAY.year, DAY.month, DAY.day, 12, tzinfo=ZONE)
    assert draft_light({"launched": noon}, STANDARD, ZONE)[0] == "Launch 12:00: day."
    assert noon.utcoffset() == timedelta(hours=-5)
