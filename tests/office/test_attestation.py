"""Who stands for a sign-off."""

from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from crewtrack.facts import Row
from crewtrack.office import access, importing, signing
from crewtrack.office.attestation import UNSIGNED, attestations
from crewtrack.office.entries import Order
from crewtrack.office.importing import ImportOrder
from crewtrack.office.office import Office
from crewtrack.office.who_signs_in import access_of
from tests.desk import identified
from tests.desk.identified import CHIEF, EVALUATOR, PILOT, WORDS
from tests.office.unit_at_work import Unit

RESULT: Row = ("E-1", PILOT, "hand-recovery", date(2026, 11, 20), "alone", "passed", EVALUATOR,
               *(None,) * 5)  # fmt: skip


@pytest.fixture(scope="module")
def record(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A record with one sign-off signed by its evaluator and one from paper."""
    made = identified.make(tmp_path_factory.mktemp("attested"))
    paper = made.with_name("signoffs.csv")
    paper.write_text(
        "signoff,person,task,date,level,result,evaluator\n"
        f"E-9,{PILOT},hand-recovery,2025-03-01,alone,passed,{EVALUATOR}\n",
        encoding="utf-8",
    )
    with Office.open(made, lambda: datetime(2026, 11, 25, tzinfo=UTC)) as office:
        access.sign_in(office, EVALUATOR, WORDS[EVALUATOR])
        with access.signing(office, WORDS[EVALUATOR]):
            signing.sign_off(office, RESULT, Order(EVALUATOR))
        access.sign_in(office, CHIEF, WORDS[CHIEF])
        with access.signing(office, WORDS[CHIEF]):
            importing.import_evidence(office, [paper], ImportOrder(CHIEF))
    return made


@pytest.fixture
def office(record: Path) -> Iterator[Office]:
    with Office.open(record) as opened:
        yield opened


def test_a_result_that_its_evaluator_signed_names_person_and_key(office: Office) -> None:
    (key,) = (one.key for one in access_of(office) if one.person == EVALUATOR)
    found = attestations(office)["E-1"]
    assert (found.how, found.by, found.key) == ("signed", EVALUATOR, key)


def test_one_from_paper_names_who_attests_to_it(office: Office) -> None:
    found = attestations(office)["E-9"]
    assert (found.how, found.by) == ("paper", CHIEF)


def test_where_nobody_is_identified_nothing_is_signed(full_unit: Unit) -> None:
    assert set(attestations(full_unit.office).values()) == {UNSIGNED}
    assert set(attestations(full_unit.office)) == {"E-1", "E-2"}


def test_a_record_without_sign_offs_has_nothing_to_attest(unit: Unit) -> None:
    assert attestations(unit.office) == {}
