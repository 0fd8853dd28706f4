"""What must hold between the cells of one row."""

from datetime import UTC, date, datetime

import pytest

from crewtrack.checks import RowFault, row_faults
from crewtrack.facts import RECORDED, Value

BY_NAME = {kind.name: kind for kind in RECORDED}
EARLY, LATE = date(2026, 1, 1), date(2026, 2, 1)


def faults(kind: str, *unread: str, **values: Value) -> list[RowFault]:
    """The faults of a row that holds these values only (``from_`` for ``from``)."""
    named = {name.rstrip("_"): value for name, value in values.items()}
    row = tuple(named.get(column) for column in BY_NAME[kind].names)
    return row_faults(BY_NAME[kind], row, unread)


@pytest.mark.parametrize(
    ("kind", "first", "second"),
    [
        ("people", "joined", "left"),
        ("people", "born", "joined"),
        ("assignments", "from", "through"),
        ("certificates", "issued", "expires"),
        ("certificates", "issued", "revoked"),
        ("waivers", "from", "through"),
        ("standdowns", "from", "through"),
    ],
)
def test_a_last_day_is_not_before_the_first(kind: str, first: str, second: str) -> None:
    assert faults(kind, **{first: LATE, second: EARLY}) == [
        (second, f"2026-01-01 is before {first} 2026-02-01", "write 2026-02-01 or a later day")
    ]
    assert faults(kind, **{first: EARLY, second: EARLY}) == []
    assert faults(kind, **{second: EARLY}) == []
    assert faults(kind, **{first: EARLY}) == []


def test_nobody_supervises_himself_or_herself() -> None:
    assert faults("performances", person="K-1", supervisor="K-1") == [
        ("supervisor", "'K-1' supervises himself or herself", "name somebody else")
    ]
    assert faults("performances", person="K-1", supervisor="K-2") == []
    assert faults("performances", person="K-1") == []


def test_nobody_evaluates_himself_or_herself() -> None:
    assert faults("signoffs", person="K-1", evaluator="K-1") == [
        ("evaluator", "'K-1' evaluates himself or herself", "name somebody else")
    ]


def test_attempts_are_no_fewer_than_the_times_that_succeeded() -> None:
    assert faults("performances", times=3, attempts=2) == [
        (
            "attempts",
            "2 is fewer than the 3 times that it was done",
            "attempts count those that succeeded too",
        )
    ]
    assert faults("performances", times=3, attempts=3) == []


@pytest.mark.parametrize(
    ("given", "missing", "cure"),
    [
        ("lat", "lon", "write both, or neither"),
        ("lon", "lat", "write both, or neither"),
    ],
)
def test_a_position_has_both_its_numbers(given: str, missing: str, cure: str) -> None:
    assert faults("sorties", **{given: 0.0}) == [(given, f"it is given without {missing}", cure)]


def test_light_stated_by_hand_has_a_reason_and_the_reason_a_light() -> None:
    assert faults("sorties", light="night") == [
        ("light", "it is given without light_reason", "say why it is stated by hand")
    ]
    assert faults("sorties", light_reason="fog") == [
        ("light_reason", "it is given without light", "write both, or neither")
    ]
    assert faults("sorties", light="night", light_reason="fog") == []


def test_who_withdrew_a_sign_off_and_why_go_with_the_day() -> None:
    assert faults("signoffs", withdrawn_by="chief", withdrawn_reason="lapsed") == [
        ("withdrawn_by", "it is given without withdrawn", "write the day, or neither"),
        ("withdrawn_reason", "it is given without withdrawn", "write the day, or neither"),
    ]
    assert faults("signoffs", date=EARLY, withdrawn=LATE) == []


def test_a_withdrawal_is_not_before_the_sign_off() -> None:
    found = faults(
        "signoffs", date=LATE, withdrawn=EARLY, withdrawn_by="chief", withdrawn_reason="x"
    )
    assert found == [
        ("withdrawn", "2026-01-01 is before date 2026-02-01", "write 2026-02-01 or a later day")
    ]


def test_a_check_is_left_out_where_one_of_its_cells_could_not_be_read() -> None:
    assert faults("sorties", "light_reason", light="night") == []
    assert faults("sorties", "light", light_reason="fog") == []


@pytest.mark.parametrize("kind", BY_NAME)
def test_an_empty_row_has_nothing_to_check(kind: str) -> None:
    assert faults(kind) == []


ANSWER: dict[str, Value] = {"answer": "So.", "answered_by": "K-02", "answered": LATE}


def said(kind: str, **values: Value) -> list[tuple[str, str]]:
    """The faults of what was reported or disputed: the column, and what is wrong."""
    columns = next(one for one in RECORDED if one.name == kind)
    row = tuple(values.get(name) for name in columns.names)
    return [(name, problem) for name, problem, _ in row_faults(columns, row)]


def test_an_occurrence_is_answered_whole_or_not_at_all() -> None:
    assert said("occurrences", **ANSWER) == []
    assert said("occurrences", answer="So.") == [
        ("answer", "it is given without answered_by"), ("answer", "it is given without answered")
    ]  # fmt: skip
    assert said("occurrences", answered_by="K-02", answered=LATE) == [
        ("answered_by", "it is given without answer"), ("answered", "it is given without answer")
    ]  # fmt: skip


def test_an_occurrence_is_not_answered_before_it_happened() -> None:
    happened = datetime(2026, 2, 3, 12, tzinfo=UTC)
    (fault,) = said("occurrences", happened=happened, **ANSWER)
    assert fault == ("answered", "2026-02-01 is before happened 2026-02-03")


def test_an_answer_on_the_day_counts_wherever_that_day_was_counted() -> None:
    already_the_second = datetime(2026, 2, 2, 9, tzinfo=UTC)
    assert said("occurrences", happened=already_the_second, **ANSWER) == []


def test_a_dispute_is_answered_with_an_outcome_and_why() -> None:
    assert said("disputes", raised=EARLY, outcome="refused", **ANSWER) == []
    assert said("disputes", **ANSWER) == [("answer", "it is given without outcome")]
    assert said("disputes", outcome="refused") == [("outcome", "it is given without answer")]


def test_a_dispute_is_not_answered_before_it_is_raised() -> None:
    found = said("disputes", raised=date(2026, 3, 1), outcome="refused", **ANSWER)
    assert found == [("answered", "2026-02-01 is before raised 2026-03-01")]
