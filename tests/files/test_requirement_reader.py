"""Each kind of requirement as the standard writes it, and what may not stand beside what."""

import pytest

from crewtrack.engine.days import Duration, Horizon
from crewtrack.engine.requirement import (
    AllOf,
    AnyOf,
    Certified,
    Floor,
    Holds,
    Only,
    Recent,
    Signed,
)
from crewtrack.files.requirement_reader import DEEPEST
from tests.standard_texts import Told, faults, need, need_faults, read, with_needs


def test_recent_practice_with_everything_that_goes_with_it() -> None:
    assert need(
        "{ id = 'r', recent = ['hand-recovery', 'deck-launch'], minutes = 90, within = 'P6M', "
        "through = 'month-end', floor = { way = 'drifting' }, only = { vessel = ['rib'] }, "
        "drills = 0, regain = 'supervised', recheck = 'P60D' }"
    ) == Recent(
        id="r",
        named=True,
        tasks=("hand-recovery", "deck-launch"),
        measure="minutes",
        amount=90,
        horizon=Horizon(Duration(months=6), month_end=True),
        floor=Floor(way=2),
        only=Only(vessel=("rib",)),
        drills=0,
        supervised_regain=True,
        recheck=Duration(days=60),
    )


def test_recent_practice_asks_for_one_time_without_limit_unless_told() -> None:
    assert need("{ recent = 'hand-recovery' }") == Recent(
        "recent-hand-recovery", False, ("hand-recovery",), "times", 1
    )


@pytest.mark.parametrize("measure", ["times", "minutes", "sorties", "days"])
def test_the_amount_is_counted_in_one_of_four_measures(measure: str) -> None:
    found = need(f"{{ recent = 'hand-recovery', {measure} = 7 }}")
    assert isinstance(found, Recent)
    assert (found.measure, found.amount) == (measure, 7)


def test_open_regain_is_what_is_meant_without_it() -> None:
    assert need("{ recent = 'hand-recovery', regain = 'open' }") == need(
        "{ recent = 'hand-recovery' }"
    )


def test_a_sign_off_is_asked_for_at_level_alone_unless_told() -> None:
    assert need("{ signed = 'hand-recovery' }") == Signed(
        "signed-hand-recovery", False, "hand-recovery", level=2
    )
    found = need("{ id = 's', signed = 'hand-recovery', level = 'briefed' }")
    assert found == Signed("s", True, "hand-recovery", level=0)


def test_a_certificate_has_a_kind() -> None:
    assert need("{ certificate = 'first-aid' }") == Certified(
        "certificate-first-aid", False, "first-aid"
    )


def test_requirements_nest() -> None:
    assert need(
        "{ any = [ { holds = 'observer' }, { all = [ { certificate = 'm' } ] } ] }"
    ) == AnyOf(
        "any",
        False,
        (
            Holds("holds-observer", False, "observer"),
            AllOf("all", False, (Certified("certificate-m", False, "m"),)),
        ),
    )


@pytest.mark.parametrize(
    ("written", "told"),
    [
        (
            "{ recent = 'hand-recovery', times = 3, sorties = 2 }",
            Told(
                "sorties",
                "'sorties' does not go with 'times'",
                "write exactly one of times, minutes, sorties, days",
            ),
        ),
        (
            "{ recent = 'hand-recovery', days = 3, drills = 1 }",
            Told("drills", "'drills' does not go with 'days'", "count times or sorties"),
        ),
        (
            "{ recent = 'hand-recovery', times = 0 }",
            Told(
                "times", "0 can't be taken", "write a whole number from 1 to 100000, without quotes"
            ),
        ),
        (
            "{ recent = 'hand-recovery', times = '3' }",
            Told(
                "times",
                "'3' can't be taken",
                "write a whole number from 1 to 100000, without quotes",
            ),
        ),
        (
            "{ recent = 'hand-recovery', times = true }",
            Told(
                "times",
                "true can't be taken",
                "write a whole number from 1 to 100000, without quotes",
            ),
        ),
        (
            "{ recent = 'hand-recovery', drills = -1 }",
            Told(
                "drills",
                "-1 can't be taken",
                "write a whole number from 0 to 100000, without quotes",
            ),
        ),
        (
            "{ recent = 'hand-recovry' }",
            Told("recent", "there is no task 'hand-recovry'", "did you mean 'hand-recovery'?"),
        ),
        (
            "{ recent = ['deck-launch', 'search'] }",
            Told("recent[2]", "there is no task 'search'", "add [tasks.search] to this file"),
        ),
        (
            "{ recent = ['deck-launch', 'deck-launch'] }",
            Told("recent[2]", "'deck-launch' stands here twice", "once is enough"),
        ),
        (
            "{ recent = ['deck-launch', 3] }",
            Told("recent[2]", "3 where text belongs", 'put it in quotes: "3"'),
        ),
        ("{ recent = [] }", Told("recent", "the list is empty", "name at least one task")),
        ("{ recent = 3 }", Told("recent", "3 where text belongs", 'put it in quotes: "3"')),
        (
            "{ recent = 'hand-recovery', regain = 'supervized' }",
            Told(
                "regain",
                "'supervized' is not one of the words that go here",
                "did you mean 'supervised'?",
            ),
        ),
        (
            "{ signed = 'hand-recovery', level = 'solo' }",
            Told(
                "level",
                "'solo' is not one of the words that go here",
                "write one of: briefed, supervised, alone, evaluator",
            ),
        ),
        (
            "{ signed = 'hand-recovery', drills = 1 }",
            Told("drills", "'drills' does not go with 'signed'", "it goes with 'recent'"),
        ),
        (
            "{ holds = 'observer', within = 'P90D' }",
            Told(
                "within",
                "'within' does not go with 'holds'",
                "it goes with 'recent', 'signed' or 'certificate'",
            ),
        ),
        (
            "{ signed = 'hand-recovery', certificate = 'm' }",
            Told(
                "certificate",
                "'certificate' does not go with 'signed'",
                "write them as two requirements",
            ),
        ),
        (
            "{ signd = 'hand-recovery', within = 'P6M' }",
            Told("signd", "the key 'signd' is not known here", "did you mean 'signed'?"),
        ),
        (
            "{ signed = 'hand-recovery', whithin = 'P6M' }",
            Told("whithin", "the key 'whithin' is not known here", "did you mean 'within'?"),
        ),
        (
            "{ times = 3 }",
            Told(
                "",
                "this says no kind of requirement",
                "write one of: recent, signed, certificate, holds, any, all",
            ),
        ),
        (
            "{ holds = 'observr' }",
            Told("holds", "there is no qualification 'observr'", "did you mean 'observer'?"),
        ),
        (
            "{ any = [] }",
            Told(
                "any",
                "an empty list where a list of tables belongs",
                "write any = [ { … }, { … } ]",
            ),
        ),
        (
            "{ all = [ 'observer' ] }",
            Told("all[1]", "'observer' where a table belongs", "write it as { … }"),
        ),
        (
            "{ certificate = '  ' }",
            Told("certificate", "the text is empty", "write something, or leave it out"),
        ),
        (
            "{ id = ' x', certificate = 'm' }",
            Told("id", "' x' has spaces at an end", "leave them out"),
        ),
    ],
)
def test_what_can_not_be_taken_is_told_with_a_cure(written: str, told: Told) -> None:
    assert need_faults(written) == [told]


def test_nesting_has_a_limit_that_is_told() -> None:
    def nested(depth: int) -> str:
        return "{ any = [ " * depth + "{ certificate = 'm' }" + " ] }" * depth

    read(with_needs(nested(DEEPEST)))
    (fault,) = faults(with_needs(nested(DEEPEST + 1)))
    assert fault.problem == "more than 20 deep"


def test_a_fault_inside_stands_at_its_own_line() -> None:
    text = with_needs("{ any = [\n    { certificate = 'm' },\n    { holds = 'observr' },\n  ] }")
    (fault,) = faults(text)
    assert (fault.place, fault.field) == (
        "unit.toml:13",
        "qualifications.deck-pilot.needs[1].any[2].holds",
    )
