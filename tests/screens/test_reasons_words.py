"""The reasons for a standing, line by line."""

from dataclasses import replace
from datetime import date

import pytest

from crewtrack.engine.spans import Span
from crewtrack.engine.standings import Counted, Explained, Standing
from crewtrack.screens.reasons_words import (
    Said,
    evidence_told,
    folded,
    reasons,
    spans_told,
    standing_told,
    urgent_first,
)
from tests.screens.rosters import COUNTED, FIRST, LAPSED, LAST, MISSING, ROWS, SPANS

OTHER = Counted("qualification", "remote-pilot", FIRST, task="Remote pilot", through=LAST)
INNER = Explained("certificate", "certificate x", True, LAST, SPANS, (), ())
HELD = Explained("holds", "Remote pilot is held", True, LAST, SPANS, (OTHER,), (), (INNER,))


def test_a_standing_is_told_first_then_what_is_not_met_and_the_notes() -> None:
    assert reasons(LAPSED)[:3] == (
        Said("standing", "lapsed since 2026-11-02"),
        Said("note", "Not met: recency"),
        Said("note", "K-02 has no birth date: the last age band counts"),
    )


def test_a_requirement_is_told_with_what_it_lacks_and_what_counts() -> None:
    found = reasons(LAPSED)
    at = found.index(
        Said("rule", "recency, not met: hand recovery: 3 in 90 days", 0, met=False)
    )  # fmt: skip
    assert found[at + 1 : at + 4] == (
        Said("missing", f"Missing: {MISSING}", 1),
        Said("evidence", "2026-09-04 sortie S-0193, hand-recovery × 2, night, drifting, sea 3, "
             "counts through 2026-12-03", 1, link=("performance", "S-0193")),
        Said("met", "Met: never", 1),
    )  # fmt: skip


def test_what_is_nested_lies_deeper() -> None:
    deeper = [one for one in reasons(LAPSED) if one.depth == 2]
    assert [one.text for one in deeper] == ["Missing: one pass brings it", "Met: never"]


def test_what_was_told_inside_is_not_told_twice() -> None:
    inner = Explained("signed", "signed off", False, None, (), (), ("a pass brings it",))
    both = Explained("all", "all of these", False, None, (), (), inner.missing, (inner,))
    told = reasons(replace(LAPSED, requirements=(both,)))
    assert [one.depth for one in told if one.kind == "missing"] == [2]


@pytest.mark.parametrize(
    ("standing", "told"),
    [
        (ROWS[0], "current since 2026-09-01, no limit"),
        (ROWS[1], "due since 2026-09-01, through 2026-12-03"),
        (ROWS[3], "lapsed since 2026-11-02"),
        (ROWS[4], "training"),
        (ROWS[7], "stood down"),
    ],
)
def test_a_standing_is_told_with_its_dates(standing: Standing, told: str) -> None:
    assert standing_told(replace(LAPSED, standing=standing)) == told


def test_what_ends_first_and_what_it_rests_on_are_told() -> None:
    told = [one.text for one in reasons(replace(LAPSED, standing=ROWS[1]))]
    assert "Ends first: recency-night" in told
    assert "Rests on relief W-3" in told


def test_a_met_requirement_tells_what_keeps_it() -> None:
    kept = Explained("a", "rule", True, LAST, SPANS, (), ("one more keeps this",))
    told = [one.text for one in reasons(replace(LAPSED, requirements=(kept,)))]
    assert "a, met through 2026-12-03: rule" in told
    assert "Next: one more keeps this" in told


def test_another_qualification_that_is_held_is_not_opened() -> None:
    assert folded(HELD)
    told = [one.text for one in reasons(replace(LAPSED, requirements=(HELD,)))]
    assert not [text for text in told if text.startswith("certificate,")]


def test_another_qualification_about_to_end_is_opened() -> None:
    ending = replace(HELD, missing=("one more keeps this",))
    assert not folded(ending)


def test_those_not_met_come_first_then_those_that_end_soonest() -> None:
    ends = (LAST, None, FIRST)
    met = [Explained(str(n), "", True, through, (), (), ()) for n, through in enumerate(ends)]
    lacking = Explained("x", "", False, None, (), (), ())
    assert urgent_first((*met, lacking)) == (3, 2, 0, 1)


def test_evidence_without_more_to_say_is_told_shortly() -> None:
    plain = Counted("certificate", "C-1", date(2026, 1, 2))
    assert evidence_told(plain) == "2026-01-02 certificate C-1"
    assert COUNTED.conditions in evidence_told(COUNTED)


def test_only_the_latest_spans_are_told_the_newest_first() -> None:
    spans = [Span(date(year, 1, 1), date(year, 2, 1)) for year in range(2020, 2025)]
    assert spans_told([*spans, Span(date(2026, 1, 1), None)]) == (
        "since 2026-01-01, no limit; 2024-01-01 to 2024-02-01; 2023-01-01 to 2023-02-01; "
        "and 3 earlier"
    )
