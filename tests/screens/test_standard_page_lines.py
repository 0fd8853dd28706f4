"""An edition, line by line."""

from dataclasses import replace
from datetime import date

import pytest

from crewtrack.engine.requirement import AnyOf
from crewtrack.engine.standard import Crew, Editions, Seat, Standard, Task
from crewtrack.office.keeping import Adopted
from crewtrack.screens import standard_adopt
from crewtrack.screens.standard_page_lines import (
    dark_told,
    edition_lines,
    edition_table,
    task_told,
)
from tests.reckoned import practice
from tests.standard_builder import Rules, standard, within

NEED = practice(3, within("P90D"))
PLAIN = standard(Rules({"deck": (NEED,)}))
LATER = replace(PLAIN, edition="2027-1", effective=date(2027, 1, 1))


def said(edition: Standard) -> list[tuple[int, str]]:
    """Depth and text of every line."""
    return [(line.depth, line.text) for line in edition_lines(edition)]


@pytest.mark.parametrize(
    ("on", "told"),
    [
        (date(2026, 12, 31), ["from 2020-01-01: in effect", "from 2027-01-01: not yet"]),
        (date(2027, 1, 1), ["from 2020-01-01: no longer", "from 2027-01-01: in effect"]),
    ],
)
def test_editions_tell_which_one_is_in_effect(on: date, told: list[str]) -> None:
    table = edition_table(Editions((LATER, PLAIN)), on)
    assert [table.columns[1].text(row) for row in table.rows] == told


def test_a_qualification_stands_with_duty_minimum_and_rules() -> None:
    lines = said(PLAIN)
    at = lines.index((0, "Qualifications"))
    assert lines[at + 1 : at + 4] == [
        (0, "deck"),
        (0, "any duty, no minimum"),
        (1, "hand-recovery: 3 times in 90 days (practice)"),
    ]


def test_nested_requirements_stand_further_in() -> None:
    need = AnyOf("any", False, (NEED, replace(NEED, named=False)))
    lines = said(standard(Rules({"deck": (need,)})))
    at = lines.index((1, "any one of these"))
    assert lines[at + 1 : at + 3] == [
        (2, "hand-recovery: 3 times in 90 days (practice)"),
        (2, "hand-recovery: 3 times in 90 days"),
    ]


def test_a_crew_stands_with_its_seats() -> None:
    crew = Crew("flight", "Flight", 1, (Seat("pilot", "deck"),))
    lines = said(replace(PLAIN, crews={"flight": crew}))
    at = lines.index((0, "Crews"))
    assert lines[at + 1 : at + 4] == [
        (0, "Flight"),
        (0, "at least 1 whole crew"),
        (1, "pilot: deck"),
    ]


def test_a_task_stands_with_its_criteria() -> None:
    task = Task("hand-recovery", "Recovery", "pilot", "recovery", None, "gone", ("Waits",))
    lines = said(replace(PLAIN, tasks={"hand-recovery": task}))
    assert lines[-3:] == [
        (0, "Recovery"),
        (0, "duty: pilot, the light at recovery counts, signed off and supervised by: gone"),
        (1, "Waits"),
    ]


def test_a_task_says_whose_second_signature_a_pass_needs() -> None:
    task = Task("hand-recovery", "Recovery", certified_by="officer")
    assert task_told(task, PLAIN) == (
        "the light at launch counts, a pass counts once certified by: officer"
    )


def test_each_way_to_reckon_night_has_words_of_its_own() -> None:
    told = {dark_told(replace(PLAIN, dark=dark)) for dark in ("civil", "half-hour", "hour")}
    assert len(told) == 3


def test_a_sound_file_tells_what_it_holds() -> None:
    assert standard_adopt.sound_told("new.toml", LATER) == (
        "new.toml has no faults: edition 2027-1, in effect from 2027-01-01, 1 task,"
        " 1 qualification, 0 crews."
    )


def test_a_sound_file_tells_what_it_would_change() -> None:
    lines = standard_adopt.would_change(PLAIN, LATER)
    assert [line.text for line in lines] == [
        "Against edition from 2020-01-01, in effect today:",
        "The edition",
        "Changed, In effect from: 2027-01-01",
        "was: 2020-01-01",
    ]


def test_says_what_was_adopted() -> None:
    assert standard_adopt.adopted_told(Adopted(LATER, "ab" * 32)).startswith(
        "Edition 2027-1 adopted"
    )
    assert standard_adopt.adopted_told(Adopted(LATER, None)).startswith("Nothing changed")


def test_a_faulty_file_tells_how_many_and_what_to_do() -> None:
    assert standard_adopt.faults_told("new.toml", 1).startswith("new.toml: 1 fault. Mend")
