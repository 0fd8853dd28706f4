"""The worked examples of the contract on sign-offs and certificates, as they stand there.

Source of every figure: the unit contract of what "current" means, sections 4.2 and 4.3; trust:
these are the rules themselves, not somebody's reading of them.
"""

import pytest

from crewtrack.engine.days import Horizon
from crewtrack.engine.requirement import AgeBand, Certified
from tests.evidence_builder import Bio
from tests.reckoned import one_need, signature, with_recheck
from tests.standard_builder import within


class TestSigned:
    """Section 4.2."""

    def test_early_and_late_passes_keep_the_due_month(self) -> None:
        need = signature(within("P12M", "month-end"), early=1, late=1)
        passes = ["2024-03-10", "2025-02-20", "2026-04-15", "2027-06-01"]
        bio = Bio(signed=[f"{day} hand-recovery" for day in passes])
        assert one_need(need, bio=bio).spans() == [
            "2024-03-10..2027-04-30",
            "2027-06-01..2028-07-31",
        ]
        two = Bio(signed=bio.signed[:2])
        assert one_need(need, bio=two).spans() == ["2024-03-10..2026-04-30"]

    def test_a_second_pass_in_the_same_months_changes_nothing(self) -> None:
        need = signature(within("P12M", "month-end"), early=1, late=1)
        bio = Bio(signed=["2024-03-10 hand-recovery", "2025-02-20 hand-recovery"])
        again = Bio(signed=[*bio.signed, "2025-03-20 hand-recovery"])
        assert one_need(need, bio=again).spans() == one_need(need, bio=bio).spans()

    def test_after_a_failed_result_the_due_month_is_forgotten(self) -> None:
        need = signature(within("P12M", "month-end"), early=1, late=1)
        signed = ["2024-03-10 hand-recovery", "2025-02-01 hand-recovery failed"]
        bio = Bio(signed=[*signed, "2025-02-20 hand-recovery"])
        assert one_need(need, bio=bio).spans() == [
            "2024-03-10..2025-01-31",
            "2025-02-20..2026-03-31",
        ]

    @pytest.mark.parametrize(
        ("failed_at", "spans"),
        [
            ("supervised", ["2026-01-01..2026-01-31"]),
            ("alone", ["2026-01-01..2026-01-31"]),
            ("evaluator", ["2026-01-01.."]),
        ],
    )
    def test_a_failure_ends_what_asks_for_its_level_or_higher(
        self, failed_at: str, spans: list[str]
    ) -> None:
        bio = Bio(
            signed=["2026-01-01 hand-recovery", f"2026-02-01 hand-recovery {failed_at} failed"]
        )
        assert one_need(signature(Horizon()), bio=bio).spans() == spans

    def test_not_yet_and_a_lower_level_change_nothing(self) -> None:
        signed = ["2026-01-01 hand-recovery not-yet", "2026-01-02 hand-recovery supervised"]
        assert one_need(signature(Horizon()), bio=Bio(signed=signed)).spans() == []

    def test_results_of_one_date_take_effect_in_the_order_recorded(self) -> None:
        passed, failed = "2026-01-01 hand-recovery", "2026-01-01 hand-recovery failed"
        need = signature(Horizon())
        assert one_need(need, bio=Bio(signed=[passed, failed])).spans() == []
        assert one_need(need, bio=Bio(signed=[failed, passed])).spans() == ["2026-01-01.."]

    def test_a_withdrawn_sign_off_counts_on_the_days_before(self) -> None:
        signed = ["2026-01-01 hand-recovery withdrawn:2026-03-01"]
        story = one_need(signature(Horizon()), bio=Bio(signed=signed))
        assert story.spans() == ["2026-01-01..2026-02-28"]
        assert story.told("2026-02-01") == ("current", "2026-01-01", "")
        assert story.told("2026-03-01") == ("lapsed", "2026-03-01", "")

    def test_what_held_before_a_withdrawal_and_what_holds_after_it_are_joined(self) -> None:
        signed = ["2026-01-01 hand-recovery withdrawn:2026-03-01", "2026-02-01 hand-recovery"]
        story = one_need(signature(Horizon()), bio=Bio(signed=signed))
        assert story.told("2026-03-05") == ("current", "2026-01-01", "")

    def test_from_a_withdrawal_on_all_is_reckoned_as_if_the_sign_off_had_never_been(self) -> None:
        need = with_recheck(1, within("P30D"), "P60D")
        bio = Bio(signed=["2026-01-01 hand-recovery withdrawn:2026-02-05"])
        story = one_need(need, flown=["2026-01-20 hand-recovery"], bio=bio)
        assert story.spans() == ["2026-01-01..2026-02-04"]


class TestCertificates:
    """Section 4.3."""

    MEDICAL = Certified("medical", True, "medical", within("P12M", "month-end"))

    @pytest.mark.parametrize(
        ("told", "span"),
        [
            ("", "2025-05-10..2026-05-31"),
            ("expires:2025-12-24", "2025-05-10..2025-12-24"),
            ("expires:2027-01-01", "2025-05-10..2026-05-31"),
            ("revoked:2025-06-01", "2025-05-10..2025-05-31"),
        ],
    )
    def test_it_covers_through_the_earlier_of_expiry_and_horizon(
        self, told: str, span: str
    ) -> None:
        bio = Bio(certificates=[f"medical 2025-05-10 {told}"])
        assert one_need(self.MEDICAL, bio=bio).spans() == [span]

    def test_it_has_no_limit_where_neither_is_written(self) -> None:
        bio = Bio(certificates=["medical 2025-05-10"])
        assert one_need(Certified("m", True, "medical"), bio=bio).spans() == ["2025-05-10.."]

    def test_several_stand_side_by_side(self) -> None:
        bio = Bio(certificates=["medical 2025-05-10 revoked:2025-09-01", "medical 2025-01-10"])
        assert one_need(self.MEDICAL, bio=bio).spans() == ["2025-01-10..2026-01-31"]

    def test_a_revocation_does_not_show_before_its_day(self) -> None:
        bio = Bio(certificates=["medical 2025-05-10 revoked:2025-06-01"])
        story = one_need(self.MEDICAL, bio=bio)
        assert story.told("2025-05-31") == ("current", "2025-05-10", "2026-05-31")
        assert story.told("2025-06-01") == ("lapsed", "2025-06-01", "")

    @pytest.mark.parametrize(
        ("born", "issued", "through"),
        [
            ("1985-02-11", "2025-02-10", "2030-02-10"),  # the day before the 40th birthday
            ("1985-02-10", "2025-02-10", "2027-02-10"),  # the 40th birthday
            ("1984-02-29", "2024-02-28", "2029-02-28"),  # born on a leap day, 39
            ("1984-02-29", "2024-02-29", "2026-02-28"),  # 40 on the leap day itself
            ("1988-02-29", "2027-02-28", "2032-02-28"),  # in other years still 38 on 28 February
            (None, "2025-02-10", "2027-02-10"),
        ],
    )
    def test_the_window_goes_by_age_on_the_issue_date(
        self, born: str | None, issued: str, through: str
    ) -> None:
        ages = (AgeBand(40, within("P60M")), AgeBand(None, within("P24M")))
        bio = Bio(certificates=[f"medical {issued}"], born=born)
        need = Certified("medical", True, "medical", ages=ages)
        assert one_need(need, bio=bio).spans() == [f"{issued}..{through}"]

    def test_who_is_born_on_a_leap_day_is_a_year_older_on_1_march(self) -> None:
        ages = (AgeBand(39, within("P60M")), AgeBand(None, within("P24M")))
        need = Certified("medical", True, "medical", ages=ages)
        eve = Bio(certificates=["medical 2027-02-28"], born="1988-02-29")
        day = Bio(certificates=["medical 2027-03-01"], born="1988-02-29")
        assert one_need(need, bio=eve).spans() == ["2027-02-28..2032-02-28"]
        assert one_need(need, bio=day).spans() == ["2027-03-01..2029-03-01"]
