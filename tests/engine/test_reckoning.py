"""The engine's one entry: evidence and editions in, standings, spans and reasons out."""

from datetime import date

import pytest

from crewtrack.engine.requirement import AgeBand, AllOf, Certified, Holds
from crewtrack.engine.spans import Span
from crewtrack.engine.standings import HistoryRow
from tests.case_builder import reckoning, written
from tests.evidence_builder import Bio
from tests.standard_builder import Rules, within

MEDICAL = Certified("medical", True, "medical")
RADIO = Certified("radio", True, "radio")
DECK = Rules({"deck": (MEDICAL,)})
MARCH = "medical 2026-03-01 expires:2026-03-31"
JUNE = "medical 2026-06-01 expires:2026-06-30"
SPAN = Span(date(2026, 3, 1), date(2026, 3, 31))
ASSIGNED = ("deck 2020-01-01..",)
HOLDER = Bio(assigned=ASSIGNED, certificates=(MARCH,))


def test_a_standing_counts_nothing_dated_after_the_day_asked_about() -> None:
    asked = reckoning(DECK, bios=(Bio(assigned=ASSIGNED, certificates=(MARCH, JUNE)),))
    assert asked.standing("K-01", "deck", date(2026, 3, 15)).through == date(2026, 3, 31)
    assert asked.standing("K-01", "deck", date(2026, 2, 1)).word == "training"


def test_nobody_knows_somebody_who_is_not_in_the_evidence() -> None:
    with pytest.raises(KeyError):
        reckoning(DECK).standing("K-77", "deck", date(2026, 3, 15))


def test_the_roster_goes_by_person_and_then_by_qualification_as_in_the_standard() -> None:
    asked = reckoning(Rules({"night": (), "deck": ()}), bios=(Bio("K-02"), Bio("K-01")))
    rows = asked.standings(date(2026, 3, 15))
    assert [(row.person, row.qualification) for row in rows] == [
        ("K-01", "night"),
        ("K-01", "deck"),
        ("K-02", "night"),
        ("K-02", "deck"),
    ]


@pytest.mark.parametrize(
    ("when", "people"),
    [
        (date(2026, 3, 4), []),
        (date(2026, 3, 5), ["K-01"]),
        (date(2026, 3, 10), ["K-01"]),
        (date(2026, 3, 11), []),
    ],
)
def test_the_roster_holds_those_on_the_books_that_day(when: date, people: list[str]) -> None:
    asked = reckoning(DECK, bios=(Bio(joined="2026-03-05", left="2026-03-10"),))
    assert [row.person for row in asked.standings(when)] == people


def test_the_roster_holds_the_qualifications_of_that_days_edition() -> None:
    later = Rules({"night": ()}, effective="2026-03-20")
    asked = reckoning(DECK, later, bios=(HOLDER,))
    assert [row.qualification for row in asked.standings(date(2026, 3, 25))] == ["night"]


def test_the_roster_keeps_the_first_editions_order_where_a_later_one_writes_another() -> None:
    earlier, later = Rules({"night": (), "deck": ()}), {"ice": (), "deck": (), "night": ()}
    asked = reckoning(earlier, Rules(later, effective="2026-03-20"), bios=(HOLDER,))
    rows = asked.standings(date(2026, 3, 25))
    assert [row.qualification for row in rows] == ["night", "deck", "ice"]


def test_the_history_is_the_spans_of_pairs_with_an_assignment() -> None:
    asked = reckoning(Rules({"deck": (MEDICAL,), "night": (MEDICAL,)}), bios=(HOLDER,))
    assert asked.history() == (HistoryRow("K-01", "deck", (SPAN,)),)


def test_the_history_lies_within_assignment_and_books_and_outside_stand_downs() -> None:
    bio = Bio(
        assigned=("deck 2026-03-05..",),
        certificates=(MARCH,),
        standdowns=("deck 2026-03-10..2026-03-12",),
        left="2026-03-20",
    )
    [row] = reckoning(DECK, bios=(bio,)).history()
    assert row.spans == (
        Span(date(2026, 3, 5), date(2026, 3, 9)),
        Span(date(2026, 3, 13), date(2026, 3, 20)),
    )


def test_the_history_joins_editions() -> None:
    later = Rules({"deck": (Certified("papers", True, "medical"),)}, effective="2026-03-20")
    [row] = reckoning(DECK, later, bios=(HOLDER,)).history()
    assert row.spans == (SPAN,)


def test_the_history_goes_by_person() -> None:
    bios = tuple(Bio(key, assigned=ASSIGNED) for key in ("K-02", "K-01"))
    assert [row.person for row in reckoning(DECK, bios=bios).history()] == ["K-01", "K-02"]


def test_the_current_days_are_those_of_everybody_ever_assigned_by_person() -> None:
    bios = (
        Bio("K-02", assigned=ASSIGNED, certificates=(MARCH,), standdowns=("deck 2026-03-10..",)),
        Bio("K-01", assigned=ASSIGNED),
        Bio("K-03", certificates=(MARCH,)),
    )
    found = reckoning(DECK, bios=bios).history()
    assert [
        (row.person, [f"{span.first}..{span.last}" for span in row.spans]) for row in found
    ] == [
        ("K-01", []),
        ("K-02", ["2026-03-01..2026-03-09"]),
    ]


def test_one_reckoning_answers_for_any_day_in_any_order() -> None:
    asked = reckoning(DECK, bios=(HOLDER,))
    days = (date(2026, 4, 1), date(2026, 2, 28), date(2026, 3, 31), date(2026, 3, 1))
    words = [asked.standing("K-01", "deck", day).word for day in days]
    assert words == ["lapsed", "training", "due", "current"]


def test_an_explanation_opens_the_standing() -> None:
    asked = reckoning(DECK, bios=(HOLDER,))
    told = asked.explain("K-01", "deck", date(2026, 3, 15))
    assert told.standing == asked.standing("K-01", "deck", date(2026, 3, 15))
    assert [(need.id, need.met) for need in told.requirements] == [("medical", True)]
    assert (told.edition, told.spans, told.notes) == ("from 2020-01-01", (SPAN,), ())


def test_a_qualification_that_the_edition_lacks_is_explained_by_that() -> None:
    told = reckoning(DECK, bios=(HOLDER,)).explain("K-01", "night", date(2026, 3, 15))
    assert told.notes == ("edition from 2020-01-01 has no qualification 'night'",)
    assert (told.title, told.standing.word, told.requirements) == ("night", "none", ())


@pytest.mark.parametrize(
    ("when", "noted"),
    [
        (date(2026, 3, 9), False),
        (date(2026, 3, 10), True),
        (date(2026, 3, 20), True),
        (date(2026, 3, 21), False),
    ],
)
def test_a_waiver_whose_requirement_the_edition_lacks_is_said_to_have_no_effect(
    when: date, *, noted: bool
) -> None:
    bio = Bio(assigned=ASSIGNED, waivers=("deck gone 2026-03-10..2026-03-20 extension",))
    notes = reckoning(DECK, bios=(bio,)).explain("K-01", "deck", when).notes
    note = (
        "extension W-001 has no effect: edition from 2020-01-01 has no requirement 'gone' in deck"
    )
    assert notes == ((note,) if noted else ())


def test_a_waiver_that_has_effect_or_is_of_another_qualification_needs_no_note() -> None:
    waivers = ("deck medical 2026-03-10..2026-03-20", "night gone 2026-03-10..2026-03-20")
    asked = reckoning(DECK, bios=(Bio(assigned=ASSIGNED, waivers=waivers),))
    assert asked.explain("K-01", "deck", date(2026, 3, 15)).notes == ()


def test_somebody_stood_down_is_told_since_when_until_when_and_why() -> None:
    down = "deck 2026-03-10..2026-03-20 why:injury by:K-99"
    asked = reckoning(DECK, bios=(Bio(assigned=ASSIGNED, standdowns=(down,)),))
    told = asked.explain("K-01", "deck", date(2026, 3, 15))
    assert told.standing.word == "stood-down"
    assert told.notes == ("stood down from 2026-03-10 through 2026-03-20 (D-001), by K-99: injury",)


def test_somebody_not_assigned_is_told_so() -> None:
    told = reckoning(DECK, bios=(Bio(certificates=(MARCH,)),)).explain(
        "K-01", "deck", date(2026, 3, 15)
    )
    assert (told.standing.word, told.notes) == ("none", ("not assigned to deck that day",))


BY_AGE = Certified("medical", True, "medical", ages=(AgeBand(None, within("P12M")),))
NOTE = "certificate medical: no birth date is recorded, so the shortest window was used"


def notes(born: str | None, rules: Rules, *certificates: str) -> tuple[str, ...]:
    asked = reckoning(rules, bios=(Bio(assigned=ASSIGNED, certificates=certificates, born=born),))
    return asked.explain("K-01", "deck", date(2026, 3, 15)).notes


def test_an_unknown_birth_date_is_noted_where_age_sets_the_window() -> None:
    rules = Rules({"deck": (AllOf("all", False, (BY_AGE, BY_AGE)), RADIO)})
    assert notes(None, rules, MARCH, "radio 2026-01-01") == (NOTE,)


def test_an_unknown_birth_date_is_noted_also_by_way_of_a_qualification_held() -> None:
    rules = Rules({"basic": (BY_AGE,), "deck": (Holds("holds", True, "basic"),)})
    assert notes(None, rules, MARCH) == (NOTE,)


def test_a_known_birth_date_needs_no_note() -> None:
    assert notes("1984-03-01", Rules({"deck": (BY_AGE,)}), MARCH) == ()


def test_without_such_a_certificate_the_birth_date_does_not_matter_yet() -> None:
    assert notes(None, Rules({"deck": (BY_AGE,)}), JUNE) == ()


def test_one_requirement_is_met_on_its_own_days_without_waivers() -> None:
    bio = Bio(certificates=(MARCH,), waivers=("deck medical 2026-04-10..2026-04-20",))
    asked = reckoning(DECK, bios=(bio,))
    standard = asked.editions.standards[0]
    assert written(asked.met("K-01", standard, MEDICAL, None)) == ["2026-03-01..2026-03-31"]


def test_one_requirement_can_be_asked_about_as_of_a_day() -> None:
    asked = reckoning(DECK, bios=(HOLDER,))
    standard = asked.editions.standards[0]
    assert asked.met("K-01", standard, MEDICAL, date(2026, 2, 28)) == ()
