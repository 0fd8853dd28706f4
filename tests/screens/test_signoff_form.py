"""Tests of the sign-off form: proposals, faults, notices."""

from datetime import date
from zoneinfo import ZoneInfo

from crewtrack.engine.standard import Task
from crewtrack.screens.fact_form import FactDraft, Known
from crewtrack.screens.signoff_form import (
    criteria,
    faults,
    new_draft,
    notices,
    planned,
    proposed_sortie,
    sortie_choices,
    sortie_day,
)
from tests.case_builder import reckoning
from tests.evidence_builder import Bio
from tests.standard_builder import Rules

ON = date(2026, 11, 25)
UTC = ZoneInfo("UTC")
UNIT = reckoning(
    Rules({}, tasks={"catch": Task("catch", "Catch", criteria=("Gloves on", "Calls it"))}),
    flown=(
        "2026-11-25T09:00 launch as:S-1",
        "2026-11-25T10:00 launch catch as:S-2",
        "2026-11-24T10:00 catch as:S-3",
        "2026-11-25T11:00 catch by:K-02 as:S-4",
    ),
    bios=(Bio("K-01", joined="2020-01-01"), Bio("K-02")),
)
KNOWN = Known(
    {"people": {"K-01": "Ana", "K-02": "Sam"}, "sorties": {"S-1": "S-1", "S-2": "S-2"}},
    {"catch": "Catch"},
    {},
    {},
)


def draft(**texts: str) -> FactDraft:
    made = new_draft("K-01", "catch", "", ON).with_text("evaluator", "K-02")
    for name, text in texts.items():
        made = made.with_text(name, text)
    return made


def test_the_form_begins_with_a_pass_done_alone_on_the_day() -> None:
    made = new_draft("K-01", "catch", "S-2", ON)
    assert dict(made.texts) == {
        "person": "K-01",
        "task": "catch",
        "sortie": "S-2",
        "date": "2026-11-25",
        "level": "alone",
        "result": "passed",
    }


def test_a_filled_form_has_no_fault_and_needs_no_key() -> None:
    assert faults(draft(), KNOWN, UTC) == {}


def test_faults_are_told_by_field_with_their_cure() -> None:
    found = faults(draft(date="25.11.2026", evaluator="K-01", person="K-3"), KNOWN, UTC)
    assert found["date"].endswith("write the year first: 2026-11-25")
    assert "is not known" in found["person"]


def test_nobody_evaluates_himself() -> None:
    assert "himself or herself" in faults(draft(evaluator="K-01"), KNOWN, UTC)["evaluator"]


def test_the_person_s_sorties_of_that_day_are_offered_those_with_the_task_first() -> None:
    assert sortie_choices(UNIT.evidence, UTC, draft()) == {
        "S-2": "10:00, this task was done",
        "S-1": "09:00, without this task",
    }


def test_no_sorties_are_offered_for_a_day_that_is_none() -> None:
    assert sortie_choices(UNIT.evidence, UTC, draft(date="soon")) == {}


def test_the_one_sortie_with_the_task_is_proposed() -> None:
    assert proposed_sortie(UNIT.evidence, draft()) == "S-2"
    assert proposed_sortie(UNIT.evidence, draft(task="launch")) == ""
    assert proposed_sortie(UNIT.evidence, draft(person="nobody")) == ""


def test_the_day_of_a_sortie_is_known() -> None:
    assert sortie_day(UNIT.evidence, "S-3") == date(2026, 11, 24)
    assert sortie_day(UNIT.evidence, "S-9") is None


def test_the_planned_sign_off_is_what_the_engine_takes() -> None:
    made = planned(draft(sortie="S-2", result="failed"), UNIT.evidence)
    assert made is not None
    assert (made.task, made.level, made.result) == ("catch", 2, "failed")
    assert UNIT.evidence.sorties.key[made.sortie or 0] == "S-2"


def test_nothing_is_planned_while_a_field_is_wrong() -> None:
    assert planned(draft(date=""), UNIT.evidence) is None
    assert planned(draft(level="somewhat"), UNIT.evidence) is None


def test_the_criteria_are_those_of_the_edition_on_the_day() -> None:
    assert criteria(draft(), UNIT) == ("Gloves on", "Calls it")
    assert criteria(draft(task="other"), UNIT) == ()
    assert criteria(draft(date="soon"), UNIT) == ()


def test_nothing_is_noticed_about_an_ordinary_form() -> None:
    assert notices(draft(sortie="S-2"), UNIT, ON) == ()


def test_a_day_ahead_and_a_sortie_of_another_day_are_noticed() -> None:
    told = notices(draft(date="2026-11-26", sortie="S-2"), UNIT, ON)
    assert told == (
        "2026-11-26 lies ahead: it counts from that day on.",
        "Sortie S-2 was flown on 2026-11-25, not on 2026-11-26.",
    )


def test_somebody_off_the_books_and_an_unknown_task_are_noticed() -> None:
    told = notices(draft(date="2019-01-01", task="gone"), UNIT, ON)
    assert told == (
        "K-01 is not on the books on 2019-01-01.",
        "Edition from 2020-01-01 has no such task.",
    )
