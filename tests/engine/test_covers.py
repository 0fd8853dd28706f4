"""One person's cover under one edition: each requirement's worked out once, from all evidence."""

from collections.abc import Sequence

import pytest

from crewtrack.engine.conditions import Conditions
from crewtrack.engine.covers import Covers, Leaf, standing
from crewtrack.engine.days import FOREVER, Duration
from crewtrack.engine.requirement import Certified, Recent, Signed
from tests.case_builder import written
from tests.evidence_builder import PERFORMER, Bio, day, evidence, flights
from tests.standard_builder import Rules, standard, within

RECOVERY = Recent("recency", True, ("recovery",), horizon=within("P30D"))
SIGNED = Signed("signed", True, "recovery", horizon=within("P90D"))
MEDICAL = Certified("medical", True, "medical")


def covers(need: Leaf, bio: Bio | None = None, flown: Sequence[str] = ()) -> Covers:
    known = evidence(flights(flown), (bio or Bio(),))
    conditions = Conditions(known.sorties, standard(Rules({"deck": (need,)})))
    return Covers(known.books[PERFORMER], known.sorties, conditions)


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


def test_sign_offs_stand_until_the_day_of_their_withdrawal() -> None:
    signoffs = evidence((), (WITHDRAWN,)).books[PERFORMER].signoffs
    assert len(standing(signoffs, day("2026-01-31"))) == 2
    assert len(standing(signoffs, day("2026-02-01"))) == 1


def test_practice_is_that_of_the_days_up_to_one() -> None:
    asked = covers(RECOVERY, flown=["2026-01-01 recovery", "2026-01-20 recovery"])
    assert len(asked.practice(RECOVERY, day("2026-01-19")).day) == 1
    assert len(asked.practice(RECOVERY, FOREVER).day) == 2
