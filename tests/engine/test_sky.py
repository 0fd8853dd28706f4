"""Light: published rise and set times, three definitions of dark, polar days, other libraries."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from astral import Observer
from astral.sun import dawn as astral_dawn
from astral.sun import dusk as astral_dusk
from astral.sun import elevation
from astral.sun import sunrise as astral_sunrise
from astral.sun import sunset as astral_sunset
from hypothesis import assume, given
from hypothesis import strategies as st

from crewtrack.engine.sky import (
    CIVIL,
    DAY,
    HORIZON,
    NIGHT,
    TWILIGHT,
    light,
    sun_altitude,
    sun_times,
)
from crewtrack.engine.standard import Dark, Position

ATLANTA = Position(33.8, -84.4)
LONDON = Position(51.50853, -0.12574)
OHIO = Position(40.8939, -83.8917)
LAPLAND = Position(67.4066, 20.0997)
UTQIAGVIK = Position(71.2906, -156.7886)
EASTERN = ZoneInfo("America/New_York")
ZULU = ZoneInfo("UTC")

INSTANTS = st.integers(0, 2_524_607_999)  # 1970 up to 2050
LONGITUDES = st.floats(-180, 180)


def at(text: str) -> int:
    """The instant of an ISO text with its offset."""
    return int(datetime.fromisoformat(text).timestamp())


def seconds(when: datetime | None) -> float:
    assert when is not None
    return when.timestamp()


def minute(when: datetime | None) -> str:
    """Rounded to the minute, as almanacs print it."""
    assert when is not None
    return f"{when + timedelta(seconds=30):%H:%M}"


def begun_minute(when: datetime | None) -> str:
    assert when is not None
    return f"{when:%H:%M}"


def last_second_up(sunset: datetime | None) -> int:
    """The last whole second at which the sun is up, near a sunset."""
    near = int(seconds(sunset))
    ups = [t for t in range(near - 5, near + 6) if sun_altitude(t, ATLANTA) >= HORIZON]
    return ups[-1]


def test_atlanta_has_the_times_of_the_naval_observatory() -> None:
    # B1, USNO for Atlanta, quoted in a library's docs: read; USNO rounds to the minute.
    times = sun_times(date(2009, 9, 6), ATLANTA, EASTERN)
    told = [minute(when) for when in (times.dawn, times.sunrise, times.sunset, times.dusk)]
    assert told == ["06:50", "07:15", "19:56", "20:21"]


@pytest.mark.parametrize(
    ("dark", "answer"), [("civil", NIGHT), ("half-hour", TWILIGHT), ("hour", TWILIGHT)]
)
def test_at_2023_in_atlanta_night_depends_on_the_rule(dark: Dark, answer: int) -> None:
    # B2, 14 CFR 1.1, 107.29(c), 61.57(b) at B1's place and day: derived.
    assert light(at("2009-09-06T20:23-04:00"), ATLANTA, dark) == answer


@pytest.mark.parametrize(
    ("dark", "twilight", "night"),
    [("civil", "20:20", "20:23"), ("half-hour", "20:25", "20:27"), ("hour", "20:55", "20:57")],
)
def test_each_rule_has_its_own_beginning_of_night(dark: Dark, twilight: str, night: str) -> None:
    # B2 with B1's sunset 19:56 and end of twilight 20:21: derived.
    assert light(at(f"2009-09-06T{twilight}-04:00"), ATLANTA, dark) == TWILIGHT
    assert light(at(f"2009-09-06T{night}-04:00"), ATLANTA, dark) == NIGHT


@pytest.mark.parametrize(
    ("dark", "night", "twilight"),
    [("civil", "06:48", "06:51"), ("half-hour", "06:43", "06:46"), ("hour", "06:13", "06:16")],
)
def test_each_rule_has_its_own_end_of_night(dark: Dark, night: str, twilight: str) -> None:
    # B2 with B1's beginning of twilight 06:50 and sunrise 07:15: derived.
    assert light(at(f"2009-09-06T{night}-04:00"), ATLANTA, dark) == NIGHT
    assert light(at(f"2009-09-06T{twilight}-04:00"), ATLANTA, dark) == TWILIGHT


def test_with_sunset_at_1830_the_last_minute_before_night_is_1929() -> None:
    # B3, an FAA knowledge-test item for 61.57(b): second hand. The place is moved until the sun
    # sets then.
    place = Position(33.8, -62.855)
    assert minute(sun_times(date(2009, 9, 6), place, EASTERN).sunset) == "18:30"
    assert light(at("2009-09-06T19:29-04:00"), place, "hour") == TWILIGHT
    assert light(at("2009-09-06T19:31-04:00"), place, "hour") == NIGHT


def test_with_sunset_at_2024_the_night_of_recency_begins_at_2124() -> None:
    # A2, 14 CFR 61.57(b): a take-off at 20:30 is too early: derived. The place is moved until
    # the sun sets then.
    place = Position(33.8, -91.37)
    assert minute(sun_times(date(2009, 9, 6), place, EASTERN).sunset) == "20:24"
    assert light(at("2009-09-06T20:30-04:00"), place, "hour") == TWILIGHT
    assert light(at("2009-09-06T21:23-04:00"), place, "hour") == TWILIGHT
    assert light(at("2009-09-06T21:25-04:00"), place, "hour") == NIGHT


def test_the_hour_to_the_second_is_night() -> None:
    # B3: the hour itself is night.
    sunset = last_second_up(sun_times(date(2009, 9, 6), ATLANTA, EASTERN).sunset)
    assert light(sunset + 3599, ATLANTA, "hour") == TWILIGHT
    assert light(sunset + 3600, ATLANTA, "hour") == NIGHT


def test_the_half_hour_to_the_second_is_not_night_yet() -> None:
    # currency.md 6: later than 30 minutes after sunset.
    sunset = last_second_up(sun_times(date(2009, 9, 6), ATLANTA, EASTERN).sunset)
    assert light(sunset + 1800, ATLANTA, "half-hour") == TWILIGHT
    assert light(sunset + 1801, ATLANTA, "half-hour") == NIGHT


@pytest.mark.parametrize(
    ("day", "turn", "published"),
    [
        (date(2018, 9, 12), "sunrise", "2018-09-12T11:13:12Z"),
        (date(2018, 9, 13), "sunrise", "2018-09-13T11:14:12Z"),
        (date(2018, 9, 12), "sunset", "2018-09-12T23:49:38Z"),
        (date(2020, 11, 6), "sunrise", "2020-11-06T12:12:46Z"),
        (date(2020, 11, 6), "sunset", "2020-11-06T22:25:10Z"),
    ],
)
def test_sunrise_and_sunset_are_those_of_a_second_almanac(
    day: date, turn: str, published: str
) -> None:
    # B4, Skyfield's documentation: read; within 2 s (it counts parallax and 0.8333 degrees).
    when = getattr(sun_times(day, OHIO, ZULU), turn)
    assert seconds(when) == pytest.approx(at(published), abs=2)


def test_civil_twilight_is_that_of_a_second_almanac() -> None:
    # B4, Skyfield's documentation, 2020-04-19 US/Eastern, minutes cut off: read.
    times = sun_times(date(2020, 4, 19), OHIO, EASTERN)
    told = [begun_minute(when) for when in (times.dawn, times.sunrise, times.sunset, times.dusk)]
    assert told == ["06:20", "06:49", "20:20", "20:48"]


@pytest.mark.parametrize(
    ("day", "published"),
    [
        (date(2015, 12, 1), ["07:04", "07:43", "15:55", "16:34"]),
        (date(2019, 8, 29), ["04:32", "05:08", "18:54", "19:30"]),
    ],
)
def test_london_has_the_published_times(day: date, published: list[str]) -> None:
    # B5, tables quoted in a library's tests: read. Within the minute of B8.
    times = sun_times(day, LONDON, ZULU)
    turns = (times.dawn, times.sunrise, times.sunset, times.dusk)
    for ours, theirs in zip(turns, published, strict=True):
        assert seconds(ours) == pytest.approx(at(f"{day}T{theirs}:00Z"), abs=60)


@pytest.mark.parametrize("day", [20, 21, 22, 23])
def test_in_lapland_the_sun_does_not_rise_at_midwinter(day: int) -> None:
    # B6: read.
    times = sun_times(date(2022, 12, day), LAPLAND, ZULU)
    assert times.sunrise is None
    assert times.sunset is None
    assert times.dawn is not None


def test_in_the_far_north_the_sun_does_not_set_at_midsummer() -> None:
    # B6: lowest 4.73 degrees at 10:28:55Z on 2023-06-21: read.
    lowest = at("2023-06-21T10:28:55Z")
    assert sun_altitude(lowest, UTQIAGVIK) == pytest.approx(4.73, abs=0.005)
    around = [sun_altitude(lowest + moved, UTQIAGVIK) for moved in (-60, 60)]
    assert min(around) > sun_altitude(lowest, UTQIAGVIK)
    assert sun_times(date(2023, 6, 21), UTQIAGVIK, ZULU).sunset is None


def test_rise_and_twilight_are_where_the_definitions_put_them() -> None:
    # B7: 50' below the horizon, and 6 degrees below it: read.
    assert pytest.approx(-50 / 60, abs=0.0005) == HORIZON
    assert CIVIL == -6
    times = sun_times(date(2009, 9, 6), ATLANTA, EASTERN)
    assert sun_altitude(seconds(times.sunset), ATLANTA) == pytest.approx(HORIZON, abs=0.003)
    assert sun_altitude(seconds(times.dusk), ATLANTA) == pytest.approx(CIVIL, abs=0.003)


@given(INSTANTS, st.floats(-89, 89), LONGITUDES)
def test_altitude_is_that_of_a_second_library(instant: int, lat: float, lon: float) -> None:
    # astral's own algorithm (NOAA's method), within 0.03 degrees: independent. It takes every
    # latitude beyond 89.8 degrees for that one.
    when = datetime.fromtimestamp(instant, UTC)
    other = elevation(Observer(lat, lon), when, with_refraction=False)
    assert sun_altitude(instant, Position(lat, lon)) == pytest.approx(other, abs=0.03)


@given(st.dates(date(1970, 1, 2), date(2049, 12, 30)), st.floats(-55, 55), LONGITUDES)
def test_the_turns_of_light_are_those_of_a_second_library(
    day: date, lat: float, lon: float
) -> None:
    # B8: NOAA's method is good to a minute here; read. astral takes days in UTC and may answer
    # with the neighbouring day's turn, up to four minutes away at these latitudes.
    observer = Observer(lat, lon)
    times = sun_times(day, Position(lat, lon), ZULU)
    pairs = (
        (times.dawn, astral_dawn),
        (times.sunrise, astral_sunrise),
        (times.sunset, astral_sunset),
        (times.dusk, astral_dusk),
    )
    for ours, theirs in pairs:
        assert ours is not None
        near = [theirs(observer, date=ours.date() + timedelta(days=moved)) for moved in (-1, 0, 1)]
        assert min(abs((ours - other).total_seconds()) for other in near) <= 60


@given(INSTANTS, st.floats(-85, 85), LONGITUDES)
def test_under_civil_light_is_told_by_a_second_librarys_altitude(
    instant: int, lat: float, lon: float
) -> None:
    # astral, left out within 0.03 degrees of a bound: independent.
    when = datetime.fromtimestamp(instant, UTC)
    other = elevation(Observer(lat, lon), when, with_refraction=False)
    assume(min(abs(other + 0.833), abs(other + 6)) > 0.03)
    answer = DAY if other > -0.833 else NIGHT if other < -6 else TWILIGHT
    assert light(instant, Position(lat, lon), "civil") == answer


def scanned(instant: int, position: Position, dark: Dark) -> int | None:
    """Light by looking at the sun every five minutes of the day and every 20 seconds of the time
    near; None where that is too coarse to tell."""
    margin = {"half-hour": 1800, "hour": 3600}[dark]
    now = sun_altitude(instant, position)
    day = max(sun_altitude(instant + s, position) for s in range(-43_200, 43_201, 300))
    near = max(sun_altitude(instant + s, position) for s in range(-margin, margin + 1, 20))
    if min(abs(now - CIVIL), *(abs(altitude - HORIZON) for altitude in (day, near))) < 0.005:
        return None
    if now >= HORIZON:
        return DAY
    if day < HORIZON:
        return NIGHT if now < CIVIL else TWILIGHT
    return TWILIGHT if near >= HORIZON else NIGHT


@given(
    st.integers(at("2022-11-20T00:00:00Z"), at("2023-01-25T00:00:00Z")),
    st.one_of(st.floats(60, 90), st.just(47.1)),
    st.sampled_from(["half-hour", "hour"]),
)
def test_around_the_polar_night_light_agrees_with_looking_all_day_long(
    instant: int, lat: float, dark: Dark
) -> None:
    position = Position(lat, 20.0)
    answer = scanned(instant, position, dark)
    assume(answer is not None)
    assert light(instant, position, dark) == answer


@pytest.mark.parametrize(("hour", "answer"), [("10:40", TWILIGHT), ("20:00", NIGHT)])
def test_where_the_sun_stays_down_its_altitude_decides_under_every_rule(
    hour: str, answer: int
) -> None:
    # currency.md 6, at B6's place: derived.
    instant = at(f"2022-12-21T{hour}:00Z")
    for dark in ("civil", "half-hour", "hour"):
        assert light(instant, LAPLAND, dark) == answer


def test_where_the_sun_stays_up_it_is_day_under_every_rule() -> None:
    # currency.md 6, at B6's place: derived.
    for dark in ("civil", "half-hour", "hour"):
        assert light(at("2023-06-21T10:28:55Z"), UTQIAGVIK, dark) == DAY


def test_a_day_shorter_than_the_margin_is_not_overlooked() -> None:
    # Five minutes before a sunrise whose sunset follows within 25: twilight, though the sun is
    # down half an hour before and after, too.
    place = Position(67.376, LAPLAND.lon)
    times = sun_times(date(2022, 12, 21), place, ZULU)
    assert 0 < seconds(times.sunset) - seconds(times.sunrise) < 1_500
    before = int(seconds(times.sunrise)) - 300
    assert sun_altitude(before + 1800, place) < HORIZON
    assert light(before, place, "half-hour") == TWILIGHT
    assert light(before - 1800, place, "half-hour") == NIGHT


def test_an_instant_beside_a_late_sunrise_is_twilight_at_high_latitude() -> None:
    place = Position(62.0, LAPLAND.lon)
    times = sun_times(date(2022, 12, 21), place, ZULU)
    assert light(int(seconds(times.sunrise)) - 1500, place, "half-hour") == TWILIGHT
    assert light(int(seconds(times.sunset)) + 1500, place, "half-hour") == TWILIGHT


def test_dusk_after_midnight_belongs_to_the_day_before() -> None:
    # Tornio in June: derived.
    times = sun_times(date(2024, 6, 1), Position(65.85, 24.14), ZoneInfo("Europe/Helsinki"))
    assert times.sunset is not None
    assert times.sunset.date() in (date(2024, 6, 1), date(2024, 6, 2))
    assert seconds(times.sunrise) < seconds(times.sunset)


def test_times_are_told_in_the_zone_asked_for() -> None:
    sunset = sun_times(date(2009, 9, 6), ATLANTA, EASTERN).sunset
    assert sunset is not None
    assert sunset.utcoffset() == timedelta(hours=-4)


def test_past_the_end_of_the_calendar_there_is_no_time_to_tell() -> None:
    times = sun_times(date(9999, 12, 31), Position(40, -170), ZoneInfo("Pacific/Pago_Pago"))
    assert times.sunrise is not None
    assert times.dusk is None
