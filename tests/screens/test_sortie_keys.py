"""Keys proposed for new sorties."""

from datetime import date

import pytest

from crewtrack.screens.sortie_keys import proposed_key

SAME, NEXT = date(2026, 11, 21), date(2026, 11, 25)


@pytest.mark.parametrize(
    ("last", "day", "key"),
    [
        ("261121-8", SAME, "261121-9"),
        ("261121-8", NEXT, "261125-1"),
        ("20261121/08", NEXT, "20261125/01"),
        ("2026-11-21-1", NEXT, "2026-11-25-1"),
    ],
)
def test_keys_with_the_date_in_them_keep_it(last: str, day: date, key: str) -> None:
    assert proposed_key([last], (last, SAME), day) == key


def test_a_key_that_was_left_out_or_struck_is_not_given_again() -> None:
    keys = ["261121-1", "261121-10", "261121-4", "261121-4x"]
    assert proposed_key(keys, ("261121-4", SAME), SAME) == "261121-11"


def test_running_numbers_go_on() -> None:
    assert proposed_key(["S-0192", "S-0193"], ("S-0193", SAME), NEXT) == "S-0194"


def test_the_first_of_all() -> None:
    assert proposed_key([], None, NEXT) == "S-0001"
