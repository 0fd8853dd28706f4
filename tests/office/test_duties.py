"""Duties decide who may do what: every deed by everybody, refused or done."""

from datetime import date

import pytest

from crewtrack.errors import Fault, Refused
from crewtrack.facts import (
    ASSIGNMENTS,
    CERTIFICATES,
    CERTIFICATIONS,
    DISPUTES,
    OCCURRENCES,
    PEOPLE,
    POLICIES,
    SIGNOFFS,
    SORTIES,
    STANDDOWNS,
    VESSELS,
    WAIVERS,
    Kind,
    Row,
    Value,
)
from crewtrack.office import access, flying, importing, keeping, recording, signing
from crewtrack.office.entries import Entry, Order
from crewtrack.office.importing import ImportOrder
from crewtrack.office.signing import Withdrawal
from tests.office.given_by_hand import LAUNCHED, changed, held, recovery, row, signoff, sortie
from tests.office.identified_unit import CHIEF, DAY, EVALUATOR, OFFICER, OTHER, PILOT, words
from tests.office.unit_at_work import Unit

EVERYBODY = (CHIEF, OFFICER, EVALUATOR, PILOT)


def as_(unit: Unit, person: str) -> Order:
    """Somebody signs in; the order in which they act."""
    access.sign_in(unit.office, person, words(person))
    return Order(person, "it is so")


def done(unit: Unit, person: str, kind: Kind, given: Row, revision: int | None = None) -> None:
    order = as_(unit, person)
    with access.signing(unit.office, words(person)):
        recording.record(unit.office, [Entry(kind, given, revision)], order)


def faults(unit: Unit, person: str, kind: Kind, given: Row, revision: int | None = None
           ) -> tuple[Fault, ...]:  # fmt: skip
    with pytest.raises(Refused) as refused:
        done(unit, person, kind, given, revision)
    assert keeping.verify(unit.office) == ()
    return refused.value.faults


def waiver(by: str) -> Row:
    return row(
        WAIVERS, waiver="W-1", person=PILOT, qualification="deck-pilot", requirement="recency",
        from_=DAY, through=date(2026, 8, 1), reason="ice", by=by, kind="waiver",
    )  # fmt: skip


KEPT: list[tuple[Kind, Row]] = [
    (PEOPLE, row(PEOPLE, person="K-09", name="New")),
    (VESSELS, row(VESSELS, vessel="B-1", name="Alder")),
    (ASSIGNMENTS, row(ASSIGNMENTS, person=OTHER, qualification="observer", from_=DAY)),
    (CERTIFICATES, row(CERTIFICATES, certificate="C-1", person=PILOT, kind="medical", issued=DAY)),
]


@pytest.mark.parametrize(("kind", "given"), KEPT, ids=[kind.name for kind, _ in KEPT])
@pytest.mark.parametrize("person", EVERYBODY)
def test_people_boats_and_certificates_are_kept_by_officers_and_chiefs(
    identified: Unit, person: str, kind: Kind, given: Row
) -> None:
    if person in (CHIEF, OFFICER):
        done(identified, person, kind, given)
    else:
        (fault,) = faults(identified, person, kind, given)
        assert fault.problem.endswith("takes an officer or a chief")
        assert fault.cure == "C-01 Chi, O-01 Ola could do it"


@pytest.mark.parametrize("person", EVERYBODY)
def test_waivers_are_granted_by_chiefs(identified: Unit, person: str) -> None:
    if person == CHIEF:
        done(identified, person, WAIVERS, waiver(person))
    else:
        (fault,) = faults(identified, person, WAIVERS, waiver(person))
        assert fault.problem == "to grant waivers, extensions and stand-downs takes a chief"


@pytest.mark.parametrize("person", EVERYBODY)
def test_stand_downs_are_granted_by_chiefs(identified: Unit, person: str) -> None:
    given = row(STANDDOWNS, standdown="D-1", person=PILOT, from_=DAY, reason="hand", by=person)
    if person == CHIEF:
        done(identified, person, STANDDOWNS, given)
    else:
        assert faults(identified, person, STANDDOWNS, given)


def test_a_waiver_is_granted_in_ones_own_name(identified: Unit) -> None:
    (fault,) = faults(identified, CHIEF, WAIVERS, waiver("the committee"))
    assert (fault.field, fault.problem) == ("by", "the committee is not C-01")


@pytest.mark.parametrize("person", EVERYBODY)
def test_duties_are_set_by_chiefs(identified: Unit, person: str) -> None:
    before, number = held(identified, PEOPLE, PILOT)
    given = changed(before, PEOPLE, duties=("pilot", "officer"))
    if person == CHIEF:
        done(identified, person, PEOPLE, given, number)
    else:
        found = faults(identified, person, PEOPLE, given, number)
        assert found[-1].problem == "to set duties takes a chief"


def test_nobody_raises_their_own_duty_by_a_file(identified: Unit) -> None:
    as_(identified, OFFICER)
    (path,) = identified.files({"people": f"person,name,duties\n{OFFICER},Ola,officer;chief\n"})
    order = ImportOrder(OFFICER, revise=True, reason="promotion")
    with (
        access.signing(identified.office, words(OFFICER)),
        pytest.raises(Refused, match="to set duties takes a chief"),
    ):
        importing.import_evidence(identified.office, [path], order)


@pytest.mark.parametrize("person", EVERYBODY)
def test_files_are_imported_by_officers_and_chiefs_and_that_is_signed(
    identified: Unit, person: str
) -> None:
    as_(identified, person)
    (path,) = identified.files({"vessels": "vessel,name\nB-1,Alder\n"})
    with access.signing(identified.office, words(person)):
        if person in (CHIEF, OFFICER):
            importing.import_evidence(identified.office, [path], ImportOrder(person))
        else:
            with pytest.raises(Refused, match="to import files takes an officer or a chief"):
                importing.import_evidence(identified.office, [path], ImportOrder(person))
    assert keeping.verify(identified.office) == ()


def test_an_import_that_nobody_signs_is_refused(identified: Unit) -> None:
    as_(identified, OFFICER)
    (path,) = identified.files({"vessels": "vessel,name\nB-1,Alder\n"})
    with pytest.raises(Refused, match="this is signed with your own key"):
        importing.import_evidence(identified.office, [path], ImportOrder(OFFICER))


def test_a_result_that_was_signed_is_not_revised_by_a_file(identified: Unit) -> None:
    done(identified, EVALUATOR, SIGNOFFS, signoff("E-9", evaluator=EVALUATOR))
    as_(identified, OFFICER)
    text = "signoff,person,task,date,level,result,evaluator\nE-9,K-02,hand-recovery,2026-06-01,"
    (path,) = identified.files({"signoffs": f"{text}alone,failed,V-01\n"})
    order = ImportOrder(OFFICER, revise=True, reason="misread")
    with (
        access.signing(identified.office, words(OFFICER)),
        pytest.raises(Refused, match="it is signed, and stays as it was signed"),
    ):
        importing.import_evidence(identified.office, [path], order)


@pytest.mark.parametrize("person", [CHIEF, OFFICER, PILOT])
def test_nobody_signs_off_in_anothers_name(identified: Unit, person: str) -> None:
    found = faults(identified, person, SIGNOFFS, signoff("E-9", evaluator=EVALUATOR))
    assert ("evaluator", f"V-01 is not {person}") in [(f.field, f.problem) for f in found]


def test_who_is_no_evaluator_signs_nothing_off(identified: Unit) -> None:
    (fault,) = faults(identified, PILOT, SIGNOFFS, signoff("E-9", evaluator=PILOT))
    assert fault.problem == "to sign off a task takes an evaluator"
    assert fault.cure == "K-02 Олена Ґедзь, V-01 Sam Lee could do it"


def test_an_evaluator_signs_with_a_key(identified: Unit) -> None:
    order = as_(identified, EVALUATOR)
    row_ = signoff("E-9", evaluator=EVALUATOR)
    with pytest.raises(Refused, match="this is signed with your own key"):
        signing.sign_off(identified.office, row_, order)
    with access.signing(identified.office, words(EVALUATOR)):
        changes = signing.sign_off(identified.office, row_, order)
    with identified.office.record.reading() as reading:
        *_, act = reading.acts()
    assert act.seq == changes.seq
    assert act.signatures is not None
    assert act.edition == "2026-1"
    assert keeping.verify(identified.office) == ()


@pytest.mark.parametrize(("person", "may"), [
    (CHIEF, True), (OFFICER, True), (EVALUATOR, True), (PILOT, False), (OTHER, False),
])  # fmt: skip
def test_a_result_is_withdrawn_by_its_evaluator_or_an_officer(
    identified: Unit, person: str, may: bool
) -> None:
    order = as_(identified, person)
    withdrawal = Withdrawal("E-1", 1, DAY, person, "seen from the shore")
    with access.signing(identified.office, words(person)):
        if may:
            signing.withdraw(identified.office, withdrawal, order)
        else:
            with pytest.raises(Refused, match="to withdraw a result takes an officer or a chief"):
                signing.withdraw(identified.office, withdrawal, order)


def test_a_result_that_was_signed_is_withdrawn_and_never_corrected(identified: Unit) -> None:
    done(identified, EVALUATOR, SIGNOFFS, signoff("E-9", evaluator=EVALUATOR))
    before, number = held(identified, SIGNOFFS, "E-9")
    given = changed(before, SIGNOFFS, result="failed")
    for person in (OFFICER, CHIEF):
        (fault,) = faults(identified, person, SIGNOFFS, given, number)
        assert fault.problem == "it is signed, and stays as it was signed"


@pytest.mark.parametrize("person", EVERYBODY)
def test_everybody_logs_a_sortie_that_they_were_on(identified: Unit, person: str) -> None:
    order = as_(identified, person)
    rows = [recovery(PILOT, supervisor=person if person != PILOT else None)]
    changes = flying.log_sortie(identified.office, sortie("S-9"), rows, order)
    assert changes.added == {"sorties": 1, "performances": 1}
    assert keeping.verify(identified.office) == ()


@pytest.mark.parametrize("person", [CHIEF, OFFICER, EVALUATOR])
def test_a_sortie_of_others_is_logged_by_officers(identified: Unit, person: str) -> None:
    order = as_(identified, person)
    if person in (CHIEF, OFFICER):
        flying.log_sortie(identified.office, sortie("S-9"), [recovery(PILOT)], order)
    else:
        with pytest.raises(Refused, match="to correct what is recorded takes an officer"):
            flying.log_sortie(identified.office, sortie("S-9"), [recovery(PILOT)], order)


def test_a_pilot_corrects_no_sortie(identified: Unit) -> None:
    before, number = held(identified, SORTIES, "S-2")
    found = faults(identified, PILOT, SORTIES, changed(before, SORTIES, minutes=99), number)
    assert found[0].problem == "to correct what is recorded takes an officer or a chief"


@pytest.mark.parametrize("person", EVERYBODY)
def test_everybody_disputes_and_reports_in_their_own_name(identified: Unit, person: str) -> None:
    values: dict[str, Value] = {"kind": "sorties", "fact": "S-1", "raised": DAY, "words": "no"}
    done(identified, person, DISPUTES, row(DISPUTES, dispute="P-1", by=person, **values))
    (fault,) = faults(
        identified, person, DISPUTES, row(DISPUTES, dispute="P-2", by=OTHER, **values)
    )
    assert fault.cure == "everybody disputes for themselves"
    what: dict[str, Value] = {
        "happened": LAUNCHED,
        "what": "close to the mast",
        "reported_by": person,
    }
    done(identified, person, OCCURRENCES, row(OCCURRENCES, occurrence="O-1", **what))


@pytest.mark.parametrize("person", EVERYBODY)
def test_policies_are_set_by_chiefs(identified: Unit, person: str) -> None:
    given = row(POLICIES, policy="retention", value="P5Y", rule="the unit's own")
    if person == CHIEF:
        done(identified, person, POLICIES, given)
    else:
        assert faults(identified, person, POLICIES, given)


def test_nobody_acts_without_signing_in_or_for_another(identified: Unit) -> None:
    given = [Entry(VESSELS, row(VESSELS, vessel="B-1", name="Alder"))]
    with pytest.raises(Refused, match="nobody is signed in"):
        recording.record(identified.office, given, Order(OFFICER))
    as_(identified, PILOT)
    with pytest.raises(Refused, match="K-01 is signed in, not O-01"):
        recording.record(identified.office, given, Order(OFFICER))


def certification(by: str, key: str = "E-9") -> Row:
    return row(CERTIFICATIONS, signoff=key, date=DAY, by=by)


def test_a_result_is_certified_by_somebody_else_with_the_duty(certified: Unit) -> None:
    done(certified, OTHER, SIGNOFFS, signoff("E-9", PILOT, evaluator=OTHER))
    for person, problem in (
        (OTHER, "who evaluated can't certify it too"),
        (PILOT, "to certify a result takes an officer"),
        (CHIEF, "to certify a result takes an officer"),
    ):
        found = faults(certified, person, CERTIFICATIONS, certification(person))
        assert problem in [fault.problem for fault in found]
    done(certified, OFFICER, CERTIFICATIONS, certification(OFFICER))
    assert keeping.verify(certified.office) == ()


def test_nothing_is_certified_where_the_standard_asks_for_no_second_signature(
    identified: Unit,
) -> None:
    done(identified, OTHER, SIGNOFFS, signoff("E-9", PILOT, evaluator=OTHER))
    (fault,) = faults(identified, OFFICER, CERTIFICATIONS, certification(OFFICER))
    assert fault.problem == "the standard asks for no certification of this task"


def test_what_is_not_certified_does_not_count_yet(certified: Unit) -> None:
    order = as_(certified, OTHER)
    with access.signing(certified.office, words(OTHER)):
        changes = signing.sign_off(certified.office, signoff("E-9", PILOT, evaluator=OTHER), order)
    assert changes.standings == ()
    order = as_(certified, OFFICER)
    with access.signing(certified.office, words(OFFICER)):
        changes = recording.record(
            certified.office, [Entry(CERTIFICATIONS, certification(OFFICER))], order
        )
    assert [(one.person, one.after.word) for one in changes.standings] == [(PILOT, "current")]
