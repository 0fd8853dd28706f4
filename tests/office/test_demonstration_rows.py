"""What the demonstration promises, on several days of the year."""

import unicodedata
from collections import Counter
from datetime import date, datetime, timedelta
from itertools import pairwise
from typing import Any

import pytest

from crewtrack.checks import row_faults
from crewtrack.engine.sky import light
from crewtrack.engine.standard import Position
from crewtrack.engine.standings import Standing
from crewtrack.facts import CERTIFICATIONS, KINDS, LIGHTS, Reference, Row
from crewtrack.office.demonstration_rows import editions, generated, rows
from crewtrack.office.demonstration_scenario import frozen, second_edition_day
from tests.office.demonstration_days import DAYS, crew_can_be_made, reckoning, standings

Told = dict[str, Any]
every_day = pytest.mark.parametrize("on", DAYS, ids=str)


def _told(on: date, name: str) -> list[Told]:
    kind = next(kind for kind in KINDS if kind.name == name)
    return [dict(zip(kind.names, row, strict=True)) for row in rows(on)[name]]


def _by_cell(on: date) -> dict[tuple[str, str], Standing]:
    return {(row.person, row.qualification): row for row in standings(on)}


@every_day
def test_fourteen_people_are_on_the_roster(on: date) -> None:
    assert len({row.person for row in standings(on)}) == 14


@every_day
def test_the_roster_shows_every_standing_there_is(on: date) -> None:
    words = Counter(row.word for row in standings(on))
    assert set(words) == {"current", "due", "lapsed", "training", "stood-down", "none"}
    assert words["current"] > words["lapsed"]


@every_day
def test_somebody_lapses_within_a_week(on: date) -> None:
    week = [on + timedelta(days=n) for n in range(1, 8)]
    assert any(row.word == "due" and row.through in week for row in standings(on))


@every_day
def test_a_day_crew_can_be_made_up_without_any_one_person(on: date) -> None:
    day_flight = reckoning(on).editions.on(on.toordinal()).crews["day-flight"]
    people = reckoning(on).evidence.books
    assert all(crew_can_be_made(on, day_flight, without) for without in people)


@every_day
def test_there_is_one_person_without_whom_no_night_crew_is_left(on: date) -> None:
    night_flight = reckoning(on).editions.on(on.toordinal()).crews["night-flight"]
    people = reckoning(on).evidence.books
    assert crew_can_be_made(on, night_flight)
    needed = [one for one in people if not crew_can_be_made(on, night_flight, one)]
    assert needed == ["K-04"]


@every_day
def test_an_extension_and_a_waiver_are_told_apart(on: date) -> None:
    cells = _by_cell(on)
    assert cells["K-05", "deck-pilot"].by_waiver == ("X-1",)
    assert cells["K-09", "helm"].by_waiver == ("W-2",)
    kinds = {one["waiver"]: one["kind"] for one in _told(on, "waivers")}
    assert (kinds["X-1"], kinds["W-2"]) == ("extension", "waiver")


@every_day
def test_an_evaluator_had_lapsed_and_signed_all_the_same(on: date) -> None:
    (spans,) = [
        row.spans
        for row in reckoning(on).history_of("K-08")
        if row.qualification == "deck-evaluator"
    ]
    signed = [one for one in _told(on, "signoffs") if one["evaluator"] == "K-08"]
    lapsed = [
        one
        for one in signed
        if any(before.last < one["date"] < after.first for before, after in pairwise(spans))
    ]
    assert lapsed
    assert _by_cell(on)["K-08", "deck-evaluator"].word in ("current", "due")


@every_day
def test_somebody_is_stood_down_from_everything(on: date) -> None:
    assert {row.word for row in _by_cell(on).values() if row.person == "K-12"} == {
        "stood-down",
        "none",
    }


@every_day
def test_the_rows_would_pass_an_import(on: date) -> None:
    for kind in KINDS:
        made = rows(on)[kind.name]
        assert made or kind is CERTIFICATIONS  # no task of the demonstration asks for them
        assert all(len(row) == len(kind.columns) for row in made)
        assert [fault for row in made for fault in row_faults(kind, row)] == []
        keys = [tuple(row[kind.index(name)] for name in kind.key) for row in made]
        assert len(keys) == len(set(keys))
        for index, column in enumerate(kind.columns):
            if isinstance(column.type, Reference):
                _assert_found(made, index, {row[0] for row in rows(on)[column.type.kind]})


def _assert_found(made: list[Row], index: int, known: set[Any]) -> None:
    assert {row[index] for row in made} - {None} <= known


@every_day
def test_a_night_sortie_is_night_by_the_sky_from_launch_to_recovery(on: date) -> None:
    nights = [one for one in _told(on, "sorties") if one["purpose"].startswith("night ")]
    assert len(nights) > 50
    for one in nights:
        launch = int(one["launched"].timestamp())
        for instant in (launch, launch + 60 * one["minutes"]):
            seen = light(instant, Position(one["lat"], one["lon"]), "civil")
            assert LIGHTS[seen] == "night", one["sortie"]


@every_day
def test_with_ice_in_the_harbour_there_are_shore_drills_only(on: date) -> None:
    for one in _told(on, "sorties"):
        assert (one["setting"] == "drill") == frozen(one["launched"].date())


@every_day
def test_sorties_last_about_twelve_minutes_and_come_several_a_day(on: date) -> None:
    sorties = _told(on, "sorties")
    assert 11 < sum(one["minutes"] for one in sorties) / len(sorties) < 13
    days = {one["launched"].date() for one in sorties}
    assert 3 < len(sorties) / len(days) < 8
    assert min(days) <= on - timedelta(days=3 * 365)


@every_day
def test_nobody_takes_two_seats_on_one_sortie(on: date) -> None:
    duties = {
        "handler-recovery": "handler",
        "observer-watch": "observer",
        "helm-for-flight": "helm",
    }
    seats: dict[tuple[str, str], set[str]] = {}
    for one in _told(on, "performances"):
        seat = duties.get(one["task"], "pilot")
        seats.setdefault((one["sortie"], one["person"]), set()).add(seat)
    assert {len(taken) for taken in seats.values()} == {1}


@every_day
def test_no_sortie_begins_before_the_one_before_it_has_ended(on: date) -> None:
    sorties = sorted(_told(on, "sorties"), key=lambda one: one["launched"])
    for one, following in pairwise(sorties):
        assert one["launched"] + timedelta(minutes=one["minutes"]) < following["launched"]


@every_day
def test_a_sign_off_is_dated_like_the_sortie_that_it_names(on: date) -> None:
    flown = {one["sortie"]: one["launched"].date() for one in _told(on, "sorties")}
    done = {(one["sortie"], one["person"], one["task"]) for one in _told(on, "performances")}
    named = [one for one in _told(on, "signoffs") if one["sortie"] is not None]
    assert len(named) > 60
    for one in named:
        assert one["date"] == flown[one["sortie"]]
        assert (one["sortie"], one["person"], one["task"]) in done


@every_day
def test_nothing_has_been_flown_or_signed_after_the_day(on: date) -> None:
    assert max(one["launched"].date() for one in _told(on, "sorties")) < on
    assert max(one["date"] for one in _told(on, "signoffs")) < on


def test_for_one_day_the_rows_are_always_the_same() -> None:
    first = rows(DAYS[0])
    generated.cache_clear()
    assert rows(DAYS[0]) == first


def test_for_another_day_they_are_others() -> None:
    assert rows(DAYS[0])["sorties"] != rows(DAYS[1])["sorties"]


def test_names_come_in_latin_greek_and_cyrillic_letters() -> None:
    letters = "".join(one["name"] for one in _told(DAYS[0], "people"))
    scripts = {unicodedata.name(letter).split()[0] for letter in letters if letter.isalpha()}
    assert scripts == {"LATIN", "GREEK", "CYRILLIC"}


@every_day
def test_two_editions_are_named_and_dated_for_the_day(on: date) -> None:
    first, second = reckoning(on).editions.standards
    assert second.effective == second_edition_day(on) < on
    assert first.edition != second.edition
    assert [start for start, _ in editions(on)] == [first.effective, second.effective]
    assert first.qualifications.keys() < second.qualifications.keys()


@pytest.mark.parametrize(
    "on", [date(2028, 2, 29), date(2027, 1, 1), date(2026, 12, 31), date(2027, 4, 1)], ids=str
)
def test_awkward_days_can_be_asked_for(on: date) -> None:
    last = max(row[1] for row in rows(on)["sorties"] if isinstance(row[1], datetime))
    assert last.date() < on
