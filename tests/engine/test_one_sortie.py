"""The one sortie that would extend most, against a record in which it was flown."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import pytest

from crewtrack.engine.due import listed
from crewtrack.engine.one_sortie import Proposal, best_sorties
from crewtrack.engine.requirement import Floor, Holds, Only, Recent, Requirement
from crewtrack.facts import LIGHTS, WAYS
from tests.evidence_builder import PERFORMER, Bio
from tests.reckoned import Story, practice, signature
from tests.standard_builder import Rules, each, within

ON = date(2026, 3, 1)
NIGHT, UNDER_WAY = LIGHTS.index("night"), WAYS.index("under-way")


def story(flown: Sequence[str], *needs: Requirement, signed: Sequence[str] = ()) -> Story:
    """One qualification and one person."""
    return Story((Rules({"tested": needs}),), flown, Bio(signed=signed))


def best(told: Story, within_days: int = 60) -> Proposal | None:
    """What is proposed for K-01."""
    reckoning = told.reckoning()
    return best_sorties(reckoning, listed(reckoning, ON, within_days), ON).get(PERFORMER)


def line(proposal: Proposal) -> tuple[str, ...]:
    """The proposal as flights that were flown, one line for each task, of one instant."""
    words = [
        str(proposal.day),
        WAYS[proposal.floor.way] if proposal.floor.way is not None else "",
        LIGHTS[proposal.floor.light] if proposal.floor.light is not None else "",
        f"sea{proposal.floor.sea}" if proposal.floor.sea is not None else "",
        f"{proposal.minutes}min" if proposal.minutes else "",
        "under:K-50" if proposal.supervised else "",
        *(f"vessel:{kind}" for kind in proposal.only.vessel[:1]),
    ]
    conditions = " ".join(word for word in words[1:] if word)
    return tuple(f"{words[0]} {task} x{n} {conditions}" for task, n in proposal.tasks)


def test_nothing_is_proposed_where_nothing_ends() -> None:
    told = story(("2026-02-25 hand-recovery x3",), practice(3, within("P90D")))
    assert best(told) is None


def test_nothing_is_proposed_where_practice_extends_nothing() -> None:
    told = story((), signature(within("P12M")), signed=("2025-04-01 hand-recovery",))
    assert best(told) is None


def test_as_many_as_start_the_whole_window_anew() -> None:
    told = story(("2026-01-01 hand-recovery x3",), practice(3, within("P90D")))
    proposal = best(told)
    assert proposal is not None
    assert proposal.tasks == (("hand-recovery", 3),)
    assert proposal.day == date(2026, 3, 2)
    [extended] = proposal.extends
    assert (extended.was, extended.through) == (date(2026, 4, 1), date(2026, 5, 31))


def test_no_more_than_is_needed() -> None:
    flown = ("2026-01-01 hand-recovery x3", "2026-03-01 hand-recovery x2")
    told = story(flown, practice(3, within("P90D")))
    proposal = best(told)
    assert proposal is not None
    assert proposal.tasks == (("hand-recovery", 3),)
    told = story(("2026-01-01 hand-recovery",), practice(3, each("half-year")))
    assert best(told, 30) is None


def test_one_sortie_serves_all_that_its_conditions_allow() -> None:
    night = Recent("night", True, ("hand-recovery",), amount=1, horizon=within("P90D"),
                   floor=Floor(light=NIGHT))  # fmt: skip
    launch = replace(practice(2, within("P90D"), "deck-launch"), id="launch",
                     floor=Floor(way=UNDER_WAY))  # fmt: skip
    flown = ("2026-01-01 hand-recovery night", "2026-01-02 deck-launch x2 under-way")
    proposal = best(story(flown, night, launch))
    assert proposal is not None
    assert proposal.tasks == (("hand-recovery", 1), ("deck-launch", 2))
    assert proposal.floor == Floor(light=NIGHT, way=UNDER_WAY)
    assert {one.requirement for one in proposal.extends} == {"night", "launch"}


def test_the_easier_conditions_where_the_harder_extend_no_more() -> None:
    night = Recent("night", True, ("hand-recovery",), horizon=within("P300D"),
                   floor=Floor(light=NIGHT))  # fmt: skip
    day = replace(practice(1, within("P90D")), id="day")
    proposal = best(story(("2026-01-01 hand-recovery night",), night, day))
    assert proposal is not None
    assert proposal.floor == Floor()


def test_craft_that_no_single_boat_can_be_are_not_joined() -> None:
    rib = replace(practice(1, within("P90D")), id="rib", only=Only(vessel=("rib",)))
    cutter = replace(practice(1, within("P60D")), id="cutter", only=Only(vessel=("cutter",)))
    flown = ("2026-01-20 hand-recovery vessel:rib", "2026-01-20 hand-recovery vessel:cutter")
    proposal = best(story(flown, rib, cutter))
    assert proposal is not None
    assert proposal.only in (Only(vessel=("rib",)), Only(vessel=("cutter",)))
    assert len(proposal.extends) == 1


def test_supervision_is_asked_for_only_where_it_adds_something() -> None:
    regained = replace(practice(1, within("P90D")), supervised_regain=True)
    in_time = best(story(("2026-01-01 hand-recovery under:K-50",), regained))
    assert in_time is not None
    assert not in_time.supervised
    last_day = best(story(("2025-12-01 hand-recovery under:K-50",), regained))
    assert last_day is not None
    assert last_day.supervised


def test_later_evidence_does_not_help() -> None:
    need = practice(3, within("P90D"))
    known = story(("2026-01-01 hand-recovery x3",), need)
    more = story(("2026-01-01 hand-recovery x3", "2026-03-02 hand-recovery x2"), need)
    assert best(known) == best(more)


def test_a_requirement_of_minutes_asks_for_a_sortie_long_enough() -> None:
    need = Recent("flying", True, ("search", "launch"), "minutes", 45, within("P90D"))
    proposal = best(story(("2026-01-01 launch 60min",), need))
    assert proposal is not None
    assert proposal.tasks == (("search", 1),)
    assert proposal.minutes == 45


def test_tells_the_qualifications_that_last_longer() -> None:
    needs = {
        "deck": (practice(1, within("P90D")),),
        "night": (Holds("holds-deck", False, "deck"), signature(within("P12M"))),
    }
    bio = Bio(signed=("2025-04-02 hand-recovery",))
    told = Story((Rules(needs),), ("2026-01-01 hand-recovery",), bio)
    proposal = best(told)
    assert proposal is not None
    assert [(one.qualification, str(one.through)) for one in proposal.whole] == [
        ("deck", "2026-05-31"),
        ("night", "2026-04-02"),
    ]
    assert [one.requirement for one in proposal.extends] == ["practice"]


@pytest.mark.parametrize("sea", [None, 2, 4])
@pytest.mark.parametrize("regain", [False, True])
@pytest.mark.parametrize("drills", [None, 0, 1])
def test_what_is_promised_is_what_the_record_says_once_it_is_flown(
    sea: int | None, regain: bool, drills: int | None
) -> None:
    conditions = f"drifting sea{sea or 1} vessel:rib"
    floor = Floor(way=WAYS.index("drifting"), sea=sea)
    recovery = replace(practice(3, within("P90D")), floor=floor, supervised_regain=regain,
                       drills=drills, only=Only(vessel=("rib",)))  # fmt: skip
    launch = replace(practice(2, within("P60D"), "deck-launch"), id="launch")
    flown = (f"2025-12-20 hand-recovery x3 under:K-50 {conditions}", "2026-02-01 deck-launch x2")
    told = story(flown, recovery, launch)
    proposal = best(told)
    assert proposal is not None
    afterwards = replace(told, flown=(*flown, *line(proposal)))
    standing = afterwards.standing(str(proposal.day))
    assert [one.through for one in proposal.whole] == [standing.through]
    assert standing.word in ("current", "due")
