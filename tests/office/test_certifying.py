"""The second signature to a sign-off."""

from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from crewtrack.errors import Refused
from crewtrack.facts import CERTIFICATIONS, Row
from crewtrack.office import access, signing
from crewtrack.office.entries import Order
from crewtrack.office.office import Office
from crewtrack.office.signing import Certification
from tests.desk import identified
from tests.desk.identified import CHIEF, EVALUATOR, PILOT, STANDARD, WORDS

DAY = date(2026, 11, 20)
RESULT: Row = ("E-1", PILOT, "hand-recovery", DAY, "alone", "passed", EVALUATOR, *(None,) * 5)
ASKED = STANDARD.replace('criteria = ["Gloves on"]', 'certified_by = "chief"')


@pytest.fixture
def office(tmp_path: Path) -> Iterator[Office]:
    """A record with a sign-off that waits, and the chief signed in."""
    made = identified.make(tmp_path, ASKED)
    with Office.open(made, lambda: datetime(2026, 11, 25, tzinfo=UTC)) as opened:
        access.sign_in(opened, EVALUATOR, WORDS[EVALUATOR])
        with access.signing(opened, WORDS[EVALUATOR]):
            signing.sign_off(opened, RESULT, Order(EVALUATOR))
        access.sign_in(opened, CHIEF, WORDS[CHIEF])
        yield opened


def test_it_is_recorded_as_an_act_of_its_own(office: Office) -> None:
    with access.signing(office, WORDS[CHIEF]):
        signing.certify(office, Certification("E-1", DAY, CHIEF, "seen too"), Order(CHIEF))
    with office.record.reading() as reading:
        assert list(reading.rows(CERTIFICATIONS)) == [("E-1", DAY, CHIEF, "seen too")]
        last = [*reading.acts()][-1]
    assert last.kind == "certify"
    assert last.signatures is not None
    assert CHIEF in last.signatures


def test_whoever_evaluated_can_t_certify(office: Office) -> None:
    access.sign_in(office, EVALUATOR, WORDS[EVALUATOR])
    with access.signing(office, WORDS[EVALUATOR]), pytest.raises(Refused) as refused:
        signing.certify(office, Certification("E-1", DAY, EVALUATOR), Order(EVALUATOR))
    assert "who evaluated can't certify it too" in str(refused.value)


def test_it_takes_the_duty_that_the_standard_names(office: Office) -> None:
    access.sign_in(office, PILOT, WORDS[PILOT])
    with access.signing(office, WORDS[PILOT]), pytest.raises(Refused) as refused:
        signing.certify(office, Certification("E-1", DAY, PILOT), Order(PILOT))
    assert "takes a chief" in str(refused.value)
