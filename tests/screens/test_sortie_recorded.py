"""A recorded sortie as a draft, and the next one from it."""

from datetime import date, datetime

import pytest

from crewtrack.screens.sortie_crew import Usual
from crewtrack.screens.sortie_draft import CrewLine, SortieDraft
from crewtrack.screens.sortie_form import read_draft
from crewtrack.screens.sortie_recorded import again, draft_of, fresh_draft
from tests.screens.sortie_samples import DAY, KNOWN, SOUND, STANDARD, ZONE, evidence

LAUNCHED = datetime.fromisoformat("2026-11-25T06:40-05:00")


def recorded() -> SortieDraft:
    read = read_draft(SOUND, KNOWN)
    return draft_of(read.sortie, read.performances, Usual(evidence(), STANDARD), ZONE)


def test_a_recorded_sortie_reads_back_as_itself() -> None:
    before, after = (read_draft(draft, KNOWN) for draft in (SOUND, recorded()))
    assert after.sortie == before.sortie
    assert after.performances == before.performances
    assert not after.faults


def test_the_crew_is_told_from_what_was_done() -> None:
    assert recorded().crew == (CrewLine("pilot", "K-01"), CrewLine("catcher", "K-02"))


def test_the_next_sortie_of_the_day_starts_when_the_last_one_came_back() -> None:
    draft = again(SOUND, LAUNCHED, 14, fresh_draft(DAY, "S-0003", ("pilot", "catcher")))
    assert (draft.text("date"), draft.text("time")) == ("2026-11-25", "06:54")
    assert draft.text("sortie") == "S-0003"


@pytest.mark.parametrize(
    "name",
    ["vessel", "aircraft", "lat", "lon", "setting", "way", "sea", "wind", "heading", "speed",
     "current", "purpose", "minutes"],
)  # fmt: skip
def test_the_same_day_takes_over_place_and_weather(name: str) -> None:
    draft = again(SOUND, LAUNCHED, 14, fresh_draft(DAY, "S-0003", ()))
    assert draft.text(name) == SOUND.text(name)


def test_what_came_of_the_last_one_is_left_behind() -> None:
    last = SOUND.with_text("remarks", "Battery warm.")
    draft = again(last, LAUNCHED, 14, fresh_draft(DAY, "S-0003", ()))
    assert draft.text("remarks") == ""
    assert [(line.times, line.attempts, line.waveoffs) for line in draft.tasks] == [
        ("1", "", ""),
        ("2", "", ""),
        ("2", "", ""),
    ]
    assert draft.tasks[1].supervisor == "K-03"


def test_another_day_has_weather_of_its_own() -> None:
    draft = again(SOUND, LAUNCHED, 14, fresh_draft(date(2026, 11, 26), "S-0003", ()))
    assert draft.text("date") == "2026-11-26"
    assert (draft.text("time"), draft.text("wind"), draft.text("minutes")) == ("", "", "")
    assert draft.text("vessel") == "B-1"
    assert draft.crew == SOUND.crew


def test_a_sortie_past_midnight_begins_the_next_day() -> None:
    late = SOUND.with_text("time", "2355")
    launched = datetime.fromisoformat("2026-11-25T23:55-05:00")
    draft = again(late, launched, 14, fresh_draft(DAY, "S-0003", ()))
    assert (draft.text("date"), draft.text("time")) == ("2026-11-26", "00:09")


def test_whether_it_is_live_is_asked_of_a_fresh_one() -> None:
    assert fresh_draft(DAY, "S-0003", ("pilot",)).text("setting") == ""
