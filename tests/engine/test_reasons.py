"""Why a requirement is met or not, opened down to the evidence."""

from collections.abc import Sequence
from datetime import date

import pytest

from crewtrack.engine.reasons import explained
from crewtrack.engine.requirement import (
    AgeBand,
    AllOf,
    AnyOf,
    Certified,
    Holds,
    Recent,
    Requirement,
    Signed,
)
from crewtrack.engine.spans import Span
from crewtrack.engine.standard import Task
from crewtrack.engine.standings import Counted, Explained
from tests.case_builder import case
from tests.evidence_builder import Bio, day
from tests.standard_builder import Rules, within

TASKS = {"recovery": Task("recovery", "Hand recovery")}
MEDICAL = Certified("medical", True, "medical")
RADIO = Certified("radio", True, "radio")
ICE = Certified("ice", True, "ice")
MARCH = "medical 2026-03-01 expires:2026-03-31"
SIGNED = Signed("signed", True, "recovery")
PRACTICE = Recent("recency", True, ("recovery",), horizon=within("P30D"))


def why(
    need: Requirement, on: str, bio: Bio, flown: Sequence[str] = (), notice: str = "P30D"
) -> Explained:
    rules = Rules({"basic": (MEDICAL,), "deck": (need,)}, notice=notice, tasks=TASKS)
    return explained(case(rules, on, flown, bio), "deck", need, day(on))


def missing(need: Requirement, on: str, bio: Bio) -> list[str]:
    return list(why(need, on, bio).missing)


def signed(*lines: str) -> Bio:
    return Bio(signed=lines)


def holding(*certificates: str) -> Bio:
    return Bio(certificates=certificates)


def test_a_requirement_is_told_with_its_rule_and_spans() -> None:
    told = why(MEDICAL, "2026-03-15", holding(MARCH))
    assert (told.id, told.rule, told.met) == ("medical", "certificate medical", True)
    assert told.spans == (Span(date(2026, 3, 1), date(2026, 3, 31)),)
    assert told.through == date(2026, 3, 31)


def test_a_requirement_that_is_not_met_has_no_last_day() -> None:
    told = why(MEDICAL, "2026-04-15", holding(MARCH))
    assert (told.met, told.through) == (False, None)


def test_what_keeps_it_is_said_only_where_it_ends_within_the_notice() -> None:
    assert why(MEDICAL, "2026-03-20", holding(MARCH), notice="P11D").missing == ()
    assert why(MEDICAL, "2026-03-20", holding(MARCH), notice="P12D").missing != ()


def test_practice_is_told_with_what_counts_and_what_is_missing() -> None:
    told = why(PRACTICE, "2026-01-20", Bio(), ["2026-01-01 recovery as:S-7"])
    assert [c.key for c in told.counted] == ["S-7"]
    assert told.missing == (
        "Hand recovery: 0 of 1 since 2026-01-02; 1 more by 2026-01-31 keeps this",
    )


def test_a_waiver_counts_beside_the_evidence_on_its_days() -> None:
    bio = Bio(certificates=(MARCH,), waivers=("deck medical 2026-03-10..2026-04-20 extension",))
    relief = Counted("extension", "W-001", date(2026, 3, 10), through=date(2026, 4, 20))
    assert why(MEDICAL, "2026-03-15", bio).counted[-1] == relief
    told = why(MEDICAL, "2026-04-20", bio)
    assert (told.met, told.counted) == (True, (relief,))
    assert why(MEDICAL, "2026-04-21", bio).counted == ()


def test_the_pass_that_carries_a_sign_off_is_told() -> None:
    told = why(SIGNED, "2026-03-15", signed("2026-01-10 recovery", "2026-02-10 recovery"))
    assert told.counted == (Counted("sign-off", "E-002", date(2026, 2, 10), task="Hand recovery"),)
    assert told.missing == ()


def test_somebody_never_signed_off_is_told_so() -> None:
    assert missing(SIGNED, "2026-03-15", signed("2026-01-10 recovery briefed")) == [
        "Hand recovery: not signed off yet; a pass at level alone or above meets this"
    ]


def test_a_pass_that_has_run_out_says_when() -> None:
    need = Signed("signed", True, "recovery", horizon=within("P30D"))
    assert missing(need, "2026-03-15", signed("2026-01-10 recovery")) == [
        "Hand recovery: ended on 2026-02-09; a pass at level alone or above brings this back"
    ]


def test_a_failed_result_says_when() -> None:
    bio = signed("2026-01-10 recovery", "2026-02-10 recovery failed")
    assert missing(SIGNED, "2026-03-15", bio) == [
        "Hand recovery: failed on 2026-02-10; a pass at level alone or above brings this back"
    ]


def test_a_withdrawn_pass_says_when_it_was_given_and_withdrawn() -> None:
    bio = signed("2026-01-10 recovery withdrawn:2026-02-10")
    assert missing(SIGNED, "2026-03-15", bio) == [
        "Hand recovery: the sign-off of 2026-01-10 was withdrawn on 2026-02-10; "
        "a pass at level alone or above brings this back"
    ]


def test_a_withdrawal_that_came_after_the_end_is_not_what_ended_it() -> None:
    need = Signed("signed", True, "recovery", horizon=within("P30D"))
    bio = signed("2026-01-10 recovery withdrawn:2026-02-20")
    assert missing(need, "2026-03-15", bio)[0].startswith("Hand recovery: ended on 2026-02-09;")


def test_a_pass_that_ends_soon_says_by_when_the_next_keeps_it() -> None:
    need = Signed("signed", True, "recovery", horizon=within("P60D"))
    assert missing(need, "2026-03-01", signed("2026-01-10 recovery")) == [
        "Hand recovery: a pass at level alone or above by 2026-03-11 keeps this"
    ]


@pytest.mark.parametrize("on", ["2025-04-05", "2025-04-29"])
def test_where_it_may_be_late_both_the_due_date_and_the_last_day_are_told(on: str) -> None:
    horizon = within("P12M", "month-end")
    need = Signed("signed", True, "recovery", horizon=horizon, early=1, late=1)
    assert missing(need, on, signed("2024-03-10 recovery")) == [
        "Hand recovery: a pass at level alone or above by 2025-04-30 keeps this; "
        "the due date is 2025-03-31"
    ]


CERTIFYING = {"recovery": Task("recovery", "Hand recovery", certified_by="officer")}


def certifying(need: Signed, on: str, *lines: str) -> Explained:
    """The same where a pass of the task has to be certified."""
    rules = Rules({"deck": (need,)}, tasks=CERTIFYING)
    return explained(case(rules, on, bio=signed(*lines)), "deck", need, day(on))


def test_a_pass_that_waits_for_its_certification_is_what_is_missing() -> None:
    told = certifying(SIGNED, "2026-03-15", "2026-03-10 recovery certified:2026-03-20")
    assert (told.met, told.counted) == (False, ())
    assert told.missing == (
        "Hand recovery: passed on 2026-03-10 by K-99, and waits for certification by an officer; "
        "its certification meets this",
    )


def test_from_its_certification_on_the_pass_counts_with_both_signatures() -> None:
    line = "2026-03-10 recovery certified:2026-03-20 signer:K-98"
    told = certifying(SIGNED, "2026-03-20", line)
    assert (told.met, told.missing) == (True, ())
    assert [str(c.conditions) for c in told.counted] == ["certified on 2026-03-20 by K-98"]
    assert told.spans == (Span(date(2026, 3, 20), None),)


def test_a_certification_can_bring_back_what_a_failed_result_ended() -> None:
    lines = ("2026-01-10 recovery certified:2026-01-10", "2026-02-01 recovery failed")
    assert certifying(SIGNED, "2026-03-15", *lines, "2026-03-10 recovery").missing == (
        "Hand recovery: passed on 2026-03-10 by K-99, and waits for certification by an officer; "
        "its certification brings this back",
    )


def test_a_certification_by_the_last_day_keeps_what_ends_soon() -> None:
    need = Signed("signed", True, "recovery", horizon=within("P60D"))
    first = "2026-01-10 recovery certified:2026-01-10"
    told = certifying(need, "2026-03-01", first, "2026-02-20 recovery")
    assert [c.key for c in told.counted] == ["E-001"]
    assert told.missing == (
        "Hand recovery: passed on 2026-02-20 by K-99, and waits for certification by an officer; "
        "its certification by 2026-03-11 keeps this",
    )


@pytest.mark.parametrize(
    ("lines", "why_not"),
    [
        (("2026-01-10 recovery", "2026-02-01 recovery failed"), "failed on 2026-02-01"),
        (("2025-01-10 recovery",), "not signed off yet"),
        (("2026-03-10 recovery withdrawn:2026-03-12",), "not signed off yet"),
    ],
)
def test_a_certification_that_would_not_help_is_not_asked_for(
    lines: Sequence[str], why_not: str
) -> None:
    need = Signed("signed", True, "recovery", horizon=within("P60D"))
    (told,) = certifying(need, "2026-03-15", *lines).missing
    assert told == f"Hand recovery: {why_not}; a pass at level alone or above meets this"


def test_a_withdrawn_pass_that_was_never_certified_ended_nothing() -> None:
    need = Signed("signed", True, "recovery", horizon=within("P30D"))
    first = "2026-01-10 recovery certified:2026-01-10"
    told = certifying(need, "2026-03-15", first, "2026-02-01 recovery withdrawn:2026-02-10")
    assert told.missing == (
        "Hand recovery: ended on 2026-02-09; a pass at level alone or above brings this back",
    )


def test_the_certificates_that_cover_the_day_are_told() -> None:
    told = why(MEDICAL, "2026-03-15", holding("medical 2025-01-01 expires:2025-06-30", MARCH))
    assert told.counted == (
        Counted("certificate", "C-002", date(2026, 3, 1), through=date(2026, 3, 31)),
    )


def test_no_certificate_at_all_is_told_so() -> None:
    assert missing(MEDICAL, "2026-03-15", holding("radio 2026-01-01")) == [
        "certificate medical: none is recorded; one meets this"
    ]


def test_a_certificate_issued_later_than_the_day_is_not_known_yet() -> None:
    assert missing(MEDICAL, "2026-02-28", holding(MARCH)) == [
        "certificate medical: none is recorded; one meets this"
    ]


def test_a_certificate_that_ends_soon_says_by_when_a_new_one_keeps_it() -> None:
    bio = holding(MARCH, "medical 2026-03-02 expires:2026-04-10")
    assert missing(MEDICAL, "2026-03-15", bio) == [
        "certificate medical: a new one by 2026-04-10 keeps this"
    ]


def test_a_certificate_without_limit_misses_nothing() -> None:
    assert missing(MEDICAL, "2026-03-15", holding(MARCH, "medical 2026-03-02")) == []


def test_a_certificate_that_has_ended_says_when() -> None:
    assert missing(MEDICAL, "2026-05-15", holding(MARCH)) == [
        "certificate medical: ended on 2026-03-31; a new one brings this back"
    ]


def test_a_revoked_certificate_says_when() -> None:
    assert missing(MEDICAL, "2026-03-15", holding(f"{MARCH} revoked:2026-03-10")) == [
        "certificate medical: revoked on 2026-03-10; a new one brings this back"
    ]


def test_a_certificate_that_never_covered_a_day_is_told_so() -> None:
    assert missing(MEDICAL, "2026-05-15", holding(f"{MARCH} revoked:2026-03-01")) == [
        "certificate medical: none that is valid is recorded; a valid one meets this"
    ]


BY_AGE = Certified("medical", True, "medical", ages=(AgeBand(None, within("P12M")),))


def test_an_unknown_birth_date_is_part_of_the_reason_where_age_sets_the_window() -> None:
    assert missing(BY_AGE, "2026-05-15", holding(MARCH)) == [
        "certificate medical: ended on 2026-03-31; a new one brings this back",
        "no birth date is recorded, so the shortest window was used",
    ]


def test_a_known_birth_date_is_no_part_of_the_reason() -> None:
    bio = Bio(certificates=(MARCH,), born="1984-03-01")
    assert len(missing(BY_AGE, "2026-05-15", bio)) == 1


BASIC = Holds("holds", True, "basic")


def test_a_qualification_held_is_told_with_its_span_and_opened() -> None:
    told = why(BASIC, "2026-03-15", holding(MARCH))
    assert told.counted == (
        Counted("qualification", "basic", date(2026, 3, 1), 1, "basic", date(2026, 3, 31)),
    )
    assert [need.id for need in told.needs] == ["medical"]


def test_what_a_qualification_held_misses_is_told_under_its_title() -> None:
    assert missing(BASIC, "2026-04-15", holding(MARCH)) == [
        "basic: certificate medical: ended on 2026-03-31; a new one brings this back"
    ]


@pytest.mark.parametrize(
    ("last", "words"),
    [
        ("", "basic: stood down until lifted"),
        ("2026-03-20", "basic: stood down through 2026-03-20"),
    ],
)
def test_a_qualification_stood_down_is_not_held_and_says_how_long(last: str, words: str) -> None:
    bio = Bio(certificates=("medical 2026-03-01",), standdowns=(f"basic 2026-03-10..{last}",))
    told = why(BASIC, "2026-03-15", bio)
    assert (told.met, told.counted, told.missing) == (False, (), (words,))


def test_all_misses_what_any_part_misses() -> None:
    assert missing(AllOf("all", False, (MEDICAL, RADIO)), "2026-03-15", holding()) == [
        "certificate medical: none is recorded; one meets this",
        "certificate radio: none is recorded; one meets this",
    ]


def test_any_tells_each_way_out_in_a_line_of_its_own() -> None:
    assert missing(AnyOf("any", False, (MEDICAL, RADIO)), "2026-03-15", holding()) == [
        "either certificate medical: none is recorded; one meets this",
        "or certificate radio: none is recorded; one meets this",
    ]


def test_any_that_is_met_for_long_misses_nothing() -> None:
    need = AnyOf("any", False, (MEDICAL, RADIO))
    assert missing(need, "2026-03-15", holding("radio 2026-01-01")) == []


def test_any_that_ends_soon_tells_only_how_to_keep_what_is_met() -> None:
    need = AnyOf("any", False, (RADIO, MEDICAL))
    assert missing(need, "2026-03-15", holding(MARCH)) == [
        "certificate medical: a new one by 2026-03-31 keeps this"
    ]


def test_a_way_out_that_takes_several_things_names_them_in_one_line() -> None:
    need = AnyOf("any", False, (ICE, AllOf("all", False, (MEDICAL, RADIO))))
    assert missing(need, "2026-03-15", holding()) == [
        "either certificate ice: none is recorded; one meets this",
        "or certificate medical: none is recorded; one meets this, and certificate radio: "
        "none is recorded; one meets this",
    ]


def test_any_within_any_is_told_as_more_ways_out() -> None:
    need = AnyOf("any", False, (ICE, AnyOf("inner", False, (MEDICAL, RADIO))))
    assert [words[:21] for words in missing(need, "2026-03-15", holding())] == [
        "either certificate ic",
        "or certificate medica",
        "or certificate radio:",
    ]


def test_any_deep_within_any_keeps_its_ways_out_in_one_line() -> None:
    inner = AllOf("all", False, (SIGNED, AnyOf("inner", False, (MEDICAL, RADIO))))
    words = missing(AnyOf("any", False, (ICE, inner)), "2026-03-15", holding())
    assert words[1] == (
        "or Hand recovery: not signed off yet; a pass at level alone or above meets this, "
        "and either certificate medical: none is recorded; one meets this, "
        "or certificate radio: none is recorded; one meets this"
    )


def test_the_ways_out_of_a_qualification_held_stay_one_line_within_another_way() -> None:
    held = AnyOf("inner", False, (MEDICAL, RADIO))
    need = AnyOf("any", False, (ICE, AllOf("all", False, (SIGNED, BASIC))))
    rules = Rules({"basic": (held,), "deck": (need,)}, notice="P30D", tasks=TASKS)
    told = explained(case(rules, "2026-03-15", (), holding()), "deck", need, day("2026-03-15"))
    assert told.missing[1] == (
        "or Hand recovery: not signed off yet; a pass at level alone or above meets this, "
        "and basic: either certificate medical: none is recorded; one meets this, "
        "or certificate radio: none is recorded; one meets this"
    )


def test_a_waiver_that_counts_tells_who_granted_it_and_why() -> None:
    bio = Bio(waivers=("deck medical 2026-03-10..2026-04-20 why:yard by:K-99",))
    [counted] = why(MEDICAL, "2026-03-15", bio).counted
    assert counted.conditions == "by K-99: yard"


def test_what_is_nested_is_opened_with_its_waivers() -> None:
    bio = Bio(waivers=("deck medical 2026-03-10..2026-04-20",))
    told = why(AllOf("all", False, (MEDICAL, RADIO)), "2026-03-15", bio)
    assert [(need.id, need.met) for need in told.needs] == [("medical", True), ("radio", False)]
