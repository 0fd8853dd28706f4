"""One person's cover under one edition: each requirement's worked out once, from all evidence."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

import pytest

from crewtrack.engine.conditions import Conditions
from crewtrack.engine.covers import Covers, Leaf
from crewtrack.engine.days import FOREVER, Duration
from crewtrack.engine.requirement import Certified, Recent, Signed
from crewtrack.engine.standard import Task
from tests.case_builder import written
from tests.evidence_builder import PERFORMER, Bio, day, evidence, flights
from tests.standard_builder import Rules, standard, within

RECOVERY = Recent("recency", True, ("recovery",), horizon=within("P30D"))
SIGNED = Signed("signed", True, "recovery", horizon=within("P90D"))
MEDICAL = Certified("medical", True, "medical")


CERTIFYING = {"recovery": Task("recovery", "Hand recovery", certified_by="officer")}


def covers(
    need: Leaf,
    bio: Bio | None = None,
    flown: Sequence[str] = (),
    tasks: Mapping[str, Task] = MappingProxyType({}),
) -> Covers:
    known = evidence(flights(flown), (bio or Bio(),))
    edition = standard(Rules({"deck": (need,)}, tasks=tasks))
    conditions = Conditions(known.sorties, edition)
    return Covers(known.books[PERFORMER], known.sorties, conditions, edition.tasks)


def ahead(need: Leaf, bio: Bio, days: Sequence[str], flown: Sequence[str] = ()) -> list[str]:
    """The last day covered as known on each of the days; empty where that is not covered."""
    asked = covers(need, bio, flown)
    found = (written(asked.ahead(day(when), need)) for when in days)
    return [runs[0].partition("..")[2] if runs else "" for runs in found]


def test_practice_is_known_from_the_day_on_which_it_was_done() -> None:
    days = ["2025-12-31", "2026-01-01", "2026-01-19", "2026-01-20", "2026-02-20"]
    flown = ["2026-01-01 recovery", "2026-01-20 recovery"]
    assert ahead(RECOVERY, Bio(), days, flown) == ["", "2026-01-31", "2026-01-31", "2026-02-19", ""]


def test_days_are_asked_about_in_any_order() -> None:
    asked = covers(RECOVERY, flown=["2026-01-01 recovery", "2026-01-20 recovery"])
    late = asked.ahead(day("2026-01-20"), RECOVERY)
    assert written(asked.ahead(day("2026-01-02"), RECOVERY)) == ["2026-01-02..2026-01-31"]
    assert asked.ahead(day("2026-01-20"), RECOVERY) == late


def test_a_pass_covers_until_a_failed_result_and_from_the_next_pass_again() -> None:
    lines = ("2026-01-10 recovery", "2026-02-01 recovery failed", "2026-03-01 recovery")
    days = ["2026-01-31", "2026-02-01", "2026-02-28", "2026-03-01"]
    assert ahead(SIGNED, Bio(signed=lines), days) == ["2026-04-10", "", "", "2026-05-30"]
    assert written(covers(SIGNED, Bio(signed=lines)).met(SIGNED)) == [
        "2026-01-10..2026-01-31",
        "2026-03-01..2026-05-30",
    ]


@pytest.mark.parametrize(
    ("first", "second", "last"), [("failed", "", "2026-04-10"), ("", "failed", "")]
)
def test_of_two_results_on_one_day_the_one_recorded_later_holds(
    first: str, second: str, last: str
) -> None:
    bio = Bio(signed=(f"2026-01-10 recovery {first}", f"2026-01-10 recovery {second}"))
    assert ahead(SIGNED, bio, ["2026-01-10"]) == [last]


WITHDRAWN = Bio(signed=("2026-01-10 recovery withdrawn:2026-02-01", "2026-03-01 recovery"))


def test_a_withdrawn_pass_counts_before_its_withdrawal_and_the_next_one_after() -> None:
    days = ["2026-01-31", "2026-02-01", "2026-02-28", "2026-03-01"]
    assert ahead(SIGNED, WITHDRAWN, days) == ["2026-04-10", "", "", "2026-05-30"]
    assert written(covers(SIGNED, WITHDRAWN).met(SIGNED)) == [
        "2026-01-10..2026-01-31",
        "2026-03-01..2026-05-30",
    ]


def test_each_of_two_withdrawals_changes_what_counts_from_its_day() -> None:
    lines = (
        "2026-01-10 recovery withdrawn:2026-03-10",
        "2026-02-01 recovery failed withdrawn:2026-03-01",
    )
    days = ["2026-01-31", "2026-02-28", "2026-03-01", "2026-03-09", "2026-03-10"]
    last = "2026-04-10"
    assert ahead(SIGNED, Bio(signed=lines), days) == [last, "", last, last, ""]


def test_a_withdrawn_recheck_no_longer_lets_practice_count() -> None:
    need = Recent("r", True, ("recovery",), horizon=within("P30D"), recheck=Duration(days=60))
    bio = Bio(signed=("2026-01-01 recovery withdrawn:2026-01-25",))
    days = ["2026-01-19", "2026-01-20", "2026-01-25"]
    found = ahead(need, bio, days, ["2026-01-20 recovery"])
    assert found == ["2026-01-31", "2026-02-19", ""]


def test_a_certificate_covers_until_its_revocation_shows() -> None:
    bio = Bio(certificates=("medical 2026-01-10 expires:2026-12-31 revoked:2026-03-01",))
    days = ["2026-01-09", "2026-01-10", "2026-02-28", "2026-03-01"]
    assert ahead(MEDICAL, bio, days) == ["", "2026-12-31", "2026-12-31", ""]


def test_after_a_revocation_another_certificate_still_covers() -> None:
    bio = Bio(
        certificates=(
            "medical 2026-01-10 expires:2026-12-31 revoked:2026-03-01",
            "medical 2026-02-01 expires:2026-06-30",
        )
    )
    days = ["2026-02-28", "2026-03-01", "2026-07-01"]
    assert ahead(MEDICAL, bio, days) == ["2026-12-31", "2026-06-30", ""]


def test_what_is_issued_and_revoked_on_one_day_covers_nothing() -> None:
    bio = Bio(certificates=("medical 2026-01-10 revoked:2026-01-10",))
    assert ahead(MEDICAL, bio, ["2026-01-10"]) == [""]


def test_two_that_ask_for_the_same_share_one_cover() -> None:
    other = Certified("other", False, "medical")
    asked = covers(MEDICAL, Bio(certificates=("medical 2026-01-10",)))
    assert asked.met(other) is asked.met(MEDICAL)


def certified(*lines: str) -> list[str]:
    """The days that sign-offs of a task cover whose passes have to be certified."""
    return written(covers(SIGNED, Bio(signed=lines), tasks=CERTIFYING).met(SIGNED))


def test_a_pass_covers_from_its_certification_with_the_horizon_of_its_own_date() -> None:
    line = "2026-01-10 recovery certified:2026-02-01"
    assert certified(line) == ["2026-02-01..2026-04-10"]
    asked = covers(SIGNED, Bio(signed=(line,)), tasks=CERTIFYING)
    assert asked.ahead(day("2026-01-31"), SIGNED) == ()
    assert written(asked.ahead(day("2026-02-01"), SIGNED)) == ["2026-02-01..2026-04-10"]


def test_a_pass_that_nobody_certified_covers_nothing() -> None:
    assert certified("2026-01-10 recovery") == []


def test_a_certification_between_two_passes_leaves_the_later_one_as_it_is() -> None:
    first, second = "2026-01-10 recovery certified:2026-02-01", "2026-03-01 recovery"
    assert certified(first, f"{second} certified:2026-03-01") == ["2026-02-01..2026-05-30"]


def test_a_pass_certified_after_a_failed_result_does_not_come_back() -> None:
    lines = ("2026-01-10 recovery certified:2026-02-10", "2026-02-01 recovery failed")
    assert certified(*lines) == []


def test_a_certified_recheck_lets_the_practice_count_that_came_after_it() -> None:
    need = Recent("r", True, ("recovery",), horizon=within("P30D"), recheck=Duration(days=60))
    bio = Bio(signed=("2026-01-01 recovery certified:2026-01-25",))
    asked = covers(need, bio, ["2026-01-20 recovery"], CERTIFYING)
    assert written(asked.met(need)) == ["2026-01-25..2026-02-19"]


def test_sign_offs_of_other_tasks_and_practice_without_recheck_are_not_asked_about() -> None:
    bio = Bio(signed=("2026-01-10 launch withdrawn:2026-02-01",))
    assert covers(SIGNED, bio).met(SIGNED) == ()
    assert written(covers(RECOVERY, bio, ["2026-01-01 recovery"]).met(RECOVERY)) == [
        "2026-01-01..2026-01-31"
    ]


def test_practice_is_that_of_the_days_up_to_one() -> None:
    asked = covers(RECOVERY, flown=["2026-01-01 recovery", "2026-01-20 recovery"])
    assert len(asked.practice(RECOVERY, day("2026-01-19")).day) == 1
    assert len(asked.practice(RECOVERY, FOREVER).day) == 2
