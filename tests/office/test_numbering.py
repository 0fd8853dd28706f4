"""Keys for new facts: as the unit has been giving them."""

import pytest

from crewtrack.facts import PERFORMANCES, SORTIES
from crewtrack.office import snapshot
from crewtrack.office.entries import Entry, Strike
from crewtrack.office.numbering import following, next_key
from tests.office.given_by_hand import MENDED, done, sortie
from tests.office.unit_at_work import Unit


@pytest.mark.parametrize(
    ("keys", "expected"),
    [
        ([], "S-0001"),
        (["first", "second"], "S-0001"),
        (["S-0191", "S-0192"], "S-0193"),
        (["S-0192", "S-0191"], "S-0193"),
        (["S-9"], "S-10"),
        (["S-0999", "S-1000"], "S-1001"),
        (["7", "8"], "9"),
        (["2025-1", "2025-2", "X", "2025-3"], "2025-4"),
        (["S-1", "test 5", "S-2"], "S-3"),
        (["A/2026-001b", "A/2026-001c"], "S-0001"),
        (["S-09", "S-9"], "S-10"),
    ],
)
def test_the_key_after_those_that_are_there(keys: list[str], expected: str) -> None:
    assert following(keys, "S-") == expected


def test_what_the_unit_does_now_counts_more_than_what_it_did_for_years() -> None:
    keys = [f"2025-{n:03}" for n in range(1, 300)] + [f"2026-{n:03}" for n in range(1, 20)]
    assert following(keys, "S-") == "2026-020"


def test_a_key_that_is_taken_is_passed_over() -> None:
    assert following(["S-0001"], "T-") == "S-0002"
    assert following([*(f"x{n}y" for n in range(3)), "S-0001"], "T-") == "S-0002"


def test_a_sortie_that_others_logged_meanwhile_is_counted(full_unit: Unit) -> None:
    state = snapshot.take(full_unit.office)
    assert next_key(state, SORTIES, "S-") == "S-4"
    done(full_unit, Entry(SORTIES, sortie("S-4")))
    assert next_key(state, SORTIES, "S-") == "S-5"


def test_the_key_of_what_was_struck_out_is_not_given_again(full_unit: Unit) -> None:
    performance = Strike(PERFORMANCES, ("S-3", "K-01", "hand-recovery"), 1)
    done(full_unit, performance, Strike(SORTIES, ("S-3",), 1), order=MENDED)
    assert next_key(snapshot.take(full_unit.office), SORTIES, "S-") == "S-4"
