"""Signatures and rights as the journal has them: what is as it should be is no break."""

from collections.abc import Sequence
from contextlib import suppress
from datetime import date, timedelta
from pathlib import Path

import pytest
from sqlalchemy.exc import IntegrityError

from crewtrack import facts
from crewtrack.errors import Refused
from crewtrack.facts import (
    CERTIFICATIONS,
    DISPUTES,
    KEYS,
    OCCURRENCES,
    PEOPLE,
    PERFORMANCES,
    SIGNOFFS,
    SORTIES,
    STANDDOWNS,
    VESSELS,
)
from crewtrack.office import access, attested, attested_rights, keeping
from crewtrack.office.entries import Entry, Order
from crewtrack.office.office import Office
from crewtrack.office.recording import record
from crewtrack.records.acting import Act
from crewtrack.records.connecting import driver
from crewtrack.records.finding import find
from crewtrack.records.signatures import SigningKey
from crewtrack.records.store import Record
from crewtrack.records.verifying import Break
from tests.office.given_by_hand import changed, recovery, row, signoff, sortie
from tests.office.signed_unit import (
    CHIEF,
    EVALUATOR,
    OFFICER,
    PASSPHRASES,
    PILOT,
    copy_of,
    exported,
    found,
    person_row,
    signed_in,
)
from tests.office.unit_at_work import FIRST_ACT, Clock, Unit

NEW = "the old one went overboard"
SECOND = row(VESSELS, vessel="V-9", name="Alder")


@pytest.fixture
def path(signed_once: Path, tmp_path: Path) -> Path:
    return copy_of(signed_once, tmp_path)


@pytest.fixture(scope="module")
def hands(signed_once: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, SigningKey]:
    """Everybody's own key."""
    copy, found = copy_of(signed_once, tmp_path_factory.mktemp("hands")), {}
    with Office.open(copy, Clock()) as office:
        for person in PASSPHRASES:
            with signed_in(office, person):
                assert office.hand is not None
                found[person] = office.hand
    return found


def problems(told: Sequence[Break]) -> list[str]:
    return [one.problem for one in told]


def put(
    path: Path,
    author: str,
    kind: str,
    facts_: Sequence[tuple[facts.Kind, facts.Row]],
    *signers: SigningKey,
) -> list[str]:
    """What is found after one act that no office was asked about; a row of a fact that is there
    revises it."""
    with (
        Record.open(path) as opened,
        opened.act(kind, author, FIRST_ACT + timedelta(hours=1), "so it is") as act,
    ):
        for of, given in facts_:
            put_one(act, of, given)
        act.note()
        if signers:
            act.sign("2026-1", *signers)
    return problems(found(path))


def put_one(act: Act, kind: facts.Kind, given: facts.Row) -> None:
    held = find(act, kind, tuple(given[kind.index(name)] for name in kind.key))
    if held is None:
        act.add(kind, [given])
    else:
        act.revise(kind, [(held.entry, held.number, given)])


def test_a_unit_at_work_has_no_break_in_its_record_nor_in_its_journal(
    path: Path, tmp_path: Path
) -> None:
    assert found(path) == ()
    assert keeping.verify_journal(exported(path, tmp_path / "all")) == ()


def test_a_record_in_which_nobody_has_a_key_has_no_break(full_unit: Unit) -> None:
    assert keeping.verify(full_unit.office) == ()


def test_what_an_ended_key_signed_stays_signed(path: Path) -> None:
    with Office.open(path, Clock()) as office:
        with signed_in(office, CHIEF) as order:
            access.give_access(office, EVALUATOR, NEW, order)
            access.end_access(office, OFFICER, order)
        access.sign_in(office, EVALUATOR, NEW)
        with access.signing(office, NEW):
            given = signoff("G-9", PILOT, evaluator=EVALUATOR)
            record(office, [Entry(SIGNOFFS, given)], Order(EVALUATOR))
        assert keeping.verify(office) == ()


def test_a_key_signs_nothing_after_the_act_that_ends_it(
    path: Path, hands: dict[str, SigningKey]
) -> None:
    with Office.open(path, Clock()) as office, signed_in(office, CHIEF) as order:
        access.end_access(office, EVALUATOR, order)
    given = (SIGNOFFS, signoff("G-9", PILOT, evaluator=EVALUATOR))
    told = put(path, EVALUATOR, "sign-off", [given], hands[EVALUATOR])
    assert len(told) == 1
    assert "a key that was not valid then" in told[0]


def test_a_chief_may_take_a_new_key_with_the_old_one(path: Path) -> None:
    with Office.open(path, Clock()) as office:
        with signed_in(office, CHIEF) as order:
            access.give_access(office, CHIEF, NEW, order)
        assert keeping.verify(office) == ()


def test_the_first_key_may_be_asked_for_by_anybody_on_a_record_that_is_there(
    full_unit: Unit,
) -> None:
    access.give_access(full_unit.office, "V-01", NEW, Order("Ana"))
    assert keeping.verify(full_unit.office) == ()


def test_wrong_passphrases_and_new_ones_are_acts_without_a_signature(path: Path) -> None:
    clock = Clock()
    with Office.open(path, clock) as office:
        with pytest.raises(Refused):
            access.sign_in(office, PILOT, "nothing that opens it")
        clock.at += timedelta(minutes=1)
        access.sign_in(office, PILOT, PASSPHRASES[PILOT])
        access.change_passphrase(office, PASSPHRASES[PILOT], NEW)
        assert keeping.verify(office) == ()


def crewed(*people: str) -> list[tuple[facts.Kind, facts.Row]]:
    performed = [(PERFORMANCES, recovery(person, "S-9")) for person in people]
    return [(SORTIES, sortie("S-9")), *performed]


@pytest.mark.parametrize(
    ("author", "people", "whole"),
    [(PILOT, (PILOT,), True), (PILOT, (EVALUATOR,), False), (OFFICER, (PILOT,), True)],
)
def test_everybody_logs_the_sorties_that_they_were_on(
    path: Path, author: str, people: tuple[str, ...], whole: bool
) -> None:
    told = put(path, author, "sortie", crewed(*people))
    wanted = "to correct what is recorded takes an officer or a chief, and the author was none"
    assert set(told) == (set() if whole else {wanted})


def test_a_performance_that_is_added_later_is_a_correction(path: Path) -> None:
    given = (PERFORMANCES, recovery(EVALUATOR, "S-1"))
    assert put(path, PILOT, "sortie", [given]) == [
        "to correct what is recorded takes an officer or a chief, and the author was none"
    ]


def test_the_journal_judges_what_was_flown_as_the_record_does(path: Path, tmp_path: Path) -> None:
    put(path, PILOT, "sortie", crewed(PILOT, EVALUATOR))
    put(path, PILOT, "sortie", [(SORTIES, sortie("S-10"))])
    told = found(path)
    assert [one.act for one in told] == [14]
    assert keeping.verify_journal(exported(path, tmp_path / "all")) == told


ODD = (None, b"\xff\x00", -1, 1.5, "", "[[]]", '{"a":' * 3000)


def test_whatever_stands_in_the_file_is_no_crash(path: Path) -> None:
    with Record.open(path) as opened, opened.act("never", "nobody", FIRST_ACT) as act:
        act.cancel()
        change = act.connection.exec_driver_sql
        change("PRAGMA ignore_check_constraints=ON")
        change("PRAGMA defer_foreign_keys=ON")
        driver(act.connection).text_factory = lambda text: text.decode("utf-8", "surrogateescape")
        for table, ident in (("acts", "seq"), ("keys", "id"), ("people", "id"), ("signoffs", "id")):
            row = change(f"SELECT * FROM {table} ORDER BY {ident} DESC LIMIT 1").mappings().one()
            change(f"DROP TRIGGER {table}_no_update")
            for column in row.keys() - {"id", "seq", "entry"}:
                for value in ODD:
                    change("SAVEPOINT whole")
                    with suppress(IntegrityError):
                        change(f'UPDATE {table} SET "{column}" = ?', (value,))
                    assert isinstance(attested.breaks_of(act), tuple)
                    change("ROLLBACK TO whole")


@pytest.mark.parametrize(
    ("author", "given", "problem"),
    [
        (PILOT, (VESSELS, SECOND), "takes an officer or a chief"),
        (OFFICER, (VESSELS, SECOND), ""),
        (PILOT, (DISPUTES, row(DISPUTES, dispute="D-1", kind="signoffs", fact="G-1",
                               raised=FIRST_ACT.date(), by=EVALUATOR, words="no")),
         "by is K-02, who did not do this act"),
        (PILOT, (DISPUTES, row(DISPUTES, dispute="D-1", kind="signoffs", fact="G-1",
                               raised=FIRST_ACT.date(), by=PILOT, words="no")), ""),
        (PILOT, (DISPUTES, row(DISPUTES, dispute="D-1", kind="signoffs", fact="G-1", answer="so",
                               raised=FIRST_ACT.date(), by=PILOT, words="no")),
         "it is answered before it is said"),
        (PILOT, (OCCURRENCES, row(OCCURRENCES, occurrence="O-1", happened=FIRST_ACT, what="fell")),
         ""),
        (PILOT, (OCCURRENCES, row(OCCURRENCES, occurrence="O-1", happened=FIRST_ACT, what="fell",
                                  reported_by=OFFICER)), "reported_by is K-03"),
        ("K-99", (OCCURRENCES, row(OCCURRENCES, occurrence="O-1", happened=FIRST_ACT, what="x")),
         "its author had no key"),
    ],
)  # fmt: skip
def test_what_nobody_signs_asks_for_a_duty_and_ones_own_name(
    path: Path, author: str, given: tuple[facts.Kind, facts.Row], problem: str
) -> None:
    told = put(path, author, "record", [given])
    assert len(told) == bool(problem)
    assert all(problem in one for one in told)


def test_an_occurrence_may_be_reported_by_nobody_and_nothing_else(path: Path) -> None:
    given = row(OCCURRENCES, occurrence="O-1", happened=FIRST_ACT, what="fell")
    assert put(path, "anonymous", "occurrence", [(OCCURRENCES, given)]) == []
    assert put(path, "anonymous", "occurrence", [(VESSELS, SECOND)]) == [
        "its author had no key",
        "to keep people, boats, aircraft and certificates takes an officer or a chief, and the"
        " author was none",
    ]


def test_an_answer_leaves_what_was_said_as_it_was_said(path: Path) -> None:
    given = row(OCCURRENCES, occurrence="O-1", happened=FIRST_ACT, what="fell")
    assert put(path, PILOT, "record", [(OCCURRENCES, given)]) == []
    answer = changed(given, OCCURRENCES, answer="seen", answered_by=OFFICER,
                     answered=FIRST_ACT.date())  # fmt: skip
    assert put(path, OFFICER, "answer", [(OCCURRENCES, answer)]) == []
    other = changed(answer, OCCURRENCES, what="nothing fell")
    assert put(path, OFFICER, "answer", [(OCCURRENCES, other)]) == [
        "what was said does not stand as it was said"
    ]


def test_an_import_asks_for_its_own_duty_and_the_chiefs_for_what_is_granted(
    path: Path, hands: dict[str, SigningKey]
) -> None:
    result = (SIGNOFFS, signoff("G-8", PILOT, evaluator=EVALUATOR))
    granted = (STANDDOWNS, row(STANDDOWNS, standdown="D-1", person=PILOT, reason="rest",
                               by="Master", from_=date(2026, 6, 1)))  # fmt: skip
    assert put(path, OFFICER, "import", [result], hands[OFFICER]) == []
    assert put(path, CHIEF, "import", [granted], hands[CHIEF]) == []
    another = (STANDDOWNS, changed(granted[1], STANDDOWNS, standdown="D-2"))
    told = put(path, OFFICER, "import", [another], hands[OFFICER])
    assert told == [
        "to grant waivers, extensions and stand-downs takes a chief, and the author was none"
    ]


def test_an_import_without_a_signature_is_found(path: Path) -> None:
    assert put(path, OFFICER, "import", [(VESSELS, SECOND)]) == [
        "to import files takes a signature, and there is none"
    ]


def test_a_signed_result_that_an_import_changes_is_found(
    path: Path, hands: dict[str, SigningKey]
) -> None:
    other = signoff("G-1", PILOT, evaluator=EVALUATOR, level="supervised")
    assert put(path, OFFICER, "import", [(SIGNOFFS, other)], hands[OFFICER]) == [
        "it was signed, and is no longer as it was signed"
    ]


@pytest.mark.parametrize(
    "case",
    [
        (OFFICER, "officer", ""),
        (OFFICER, "chief", "to certify a result takes a chief, and the author was none"),
        (OFFICER, None, "the standard asks for no certification of this task"),
        (EVALUATOR, "evaluator", "who evaluated certified it too"),
    ],
)
def test_a_certification_asks_for_the_duty_that_the_standard_names_and_for_two_people(
    path: Path,
    hands: dict[str, SigningKey],
    monkeypatch: pytest.MonkeyPatch,
    case: tuple[str, str | None, str],
) -> None:
    by, duty, problem = case
    monkeypatch.setattr(attested_rights, "certifier", lambda editions, held: duty)
    given = row(CERTIFICATIONS, signoff="G-1", date=FIRST_ACT.date(), by=by)
    told = put(path, by, "certify", [(CERTIFICATIONS, given)], hands[by])
    assert told == ([problem] if problem else [])


@pytest.mark.parametrize(
    ("people", "whole"),
    [
        ((OFFICER, CHIEF), True),
        ((CHIEF, OFFICER), True),
        ((OFFICER,), False),
        ((OFFICER, OFFICER), False),
        ((CHIEF, EVALUATOR), False),
    ],
)
def test_an_officer_and_a_chief_seal_together(
    path: Path, hands: dict[str, SigningKey], people: tuple[str, ...], whole: bool
) -> None:
    told = put(path, people[0], "seal", [], *(hands[person] for person in people))
    wanted = "an officer and a chief, two people, had to sign it together"
    empty = "only a sealing takes contents out, and nothing else is one"
    assert told == ([empty] if whole else [empty, wanted])


def test_duties_count_as_they_were_before_the_act(path: Path, hands: dict[str, SigningKey]) -> None:
    given = [
        (PEOPLE, person_row(EVALUATOR, "evaluator", "officer")),
        (VESSELS, SECOND),
    ]
    with Office.open(path, Clock()) as office, signed_in(office, CHIEF) as order:
        record(office, [Entry(PEOPLE, person_row(PILOT, "pilot", "officer"), 1)], order)
    assert put(path, PILOT, "record", [(VESSELS, SECOND)]) == []
    assert len(put(path, EVALUATOR, "record", given, hands[EVALUATOR])) == 3


def test_a_record_whose_first_key_is_no_chiefs_is_found(unit: Unit) -> None:
    unit.take(people="person,name\nK-01,Ana\n")
    key = SigningKey.new("K-01")
    given = (KEYS, (key.key, "K-01", key.public, FIRST_ACT.date()))
    unit.office.close()
    assert put(unit.office.record.path, "K-01", "access", [given], key) == [
        "the first one with a key is no chief"
    ]


def test_a_first_key_that_does_not_sign_is_found(unit: Unit) -> None:
    key = SigningKey.new("K-01")
    given = [(PEOPLE, person_row("K-01", "chief")),
             (KEYS, (key.key, "K-01", key.public, FIRST_ACT.date()))]  # fmt: skip
    unit.office.close()
    assert put(unit.office.record.path, "K-01", "access", given) == [
        "the first key of the record did not sign the act that records it"
    ]


def test_breaks_are_told_with_the_act_and_its_author(
    path: Path, hands: dict[str, SigningKey]
) -> None:
    put(path, EVALUATOR, "sign-off", [(SIGNOFFS, signoff("G-9", PILOT, evaluator=EVALUATOR))])
    assert [str(one) for one in found(path)] == [
        "act 13 (2026-06-01, K-02), signoffs G-9: to sign off a task takes a signature, and there"
        " is none"
    ]
