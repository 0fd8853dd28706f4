"""Digests on paper, read back."""

import pytest

from crewtrack.errors import Refused
from crewtrack.office import heads
from tests.office.unit_at_work import Unit


def test_the_head_of_a_record_is_its_last_act(full_unit: Unit) -> None:
    last = heads.head(full_unit.office)
    assert last is not None
    assert (last.seq, last.digest, last.author) == (2, full_unit.head(), "Ana")


@pytest.mark.parametrize("given", ["ABCD 1234", " abcd\n1234 ", "abcd1234"])
def test_blanks_and_capital_letters_make_no_difference(given: str) -> None:
    assert heads.digits_of(given) == "abcd1234"


def test_digits_of_two_acts_are_refused(full_unit: Unit) -> None:
    with pytest.raises(Refused, match="2 acts begin so; write more of its digits"):
        heads.act_on_paper(full_unit.office, "")
