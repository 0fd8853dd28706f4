"""Attacks on what is signed, each told in a line: tried in the program, and in the file by somebody
who can write to it and works every digest out anew. What only a head on paper shows is said so."""

import json
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from crewtrack import facts
from crewtrack.errors import Refused
from crewtrack.facts import KEYS, PEOPLE, SIGNOFFS, SORTIES, WAIVERS
from crewtrack.office import access, heads, signing
from crewtrack.office.entries import Entry, Order
from crewtrack.office.office import Office
from crewtrack.office.recording import record
from crewtrack.records.acting import Act
from crewtrack.records.finding import find
from crewtrack.records.signatures import SigningKey
from crewtrack.records.store import Record
from tests.office.given_by_hand import changed, recovery, signoff, sortie
from tests.office.signed_unit import (
    CHIEF,
    EVALUATOR,
    OFFICER,
    PASSPHRASES,
    PILOT,
    copy_of,
    found,
    person_row,
    signed_in,
    unguarded,
    waiver,
)
from tests.office.unit_at_work import FIRST_ACT, Clock

EDITION = "2026-1"
MINE = SigningKey.new(PILOT)
BETTER = signoff("G-1", PILOT, evaluator=EVALUATOR, level="supervised")
FOR_CHIEF = SigningKey.new(CHIEF)


def key_of(key: SigningKey) -> facts.Row:
    return (key.key, key.by, key.public, FIRST_ACT.date())


@pytest.fixture
def path(signed_once: Path, tmp_path: Path) -> Path:
    return copy_of(signed_once, tmp_path)


IN_THE_PROGRAM: dict[str, tuple[str, Entry]] = {
    "an evaluator signs off in another's name": (
        EVALUATOR, Entry(SIGNOFFS, signoff("G-9", PILOT, evaluator=OFFICER))),
    "a pilot signs off as if evaluator": (
        PILOT, Entry(SIGNOFFS, signoff("G-9", PILOT, evaluator=PILOT))),
    "an evaluator makes herself a chief": (
        EVALUATOR, Entry(PEOPLE, person_row(EVALUATOR, "evaluator", "chief"), 1)),
    "an officer makes somebody a chief": (
        OFFICER, Entry(PEOPLE, person_row(PILOT, "pilot", "chief"), 1)),
    "an officer grants a waiver": (
        OFFICER, Entry(WAIVERS, changed(waiver("W-9"), WAIVERS, by=OFFICER))),
    "an officer grants a waiver in the chief's name": (OFFICER, Entry(WAIVERS, waiver("W-9"))),
    "a pilot puts in a key of his own": (PILOT, Entry(KEYS, key_of(MINE))),
    "an officer changes a result that is signed": (OFFICER, Entry(SIGNOFFS, BETTER, 1)),
    "an evaluator changes a result as she withdraws it": (
        EVALUATOR, Entry(SIGNOFFS, changed(
            BETTER, SIGNOFFS, withdrawn=FIRST_ACT.date(), withdrawn_by=EVALUATOR,
            withdrawn_reason="slip"), 1)),
}  # fmt: skip


@pytest.mark.parametrize("attack", IN_THE_PROGRAM)
def test_the_program_refuses(path: Path, attack: str) -> None:
    person, entry = IN_THE_PROGRAM[attack]
    with Office.open(path, Clock()) as office:
        before = office.newest()
        with signed_in(office, person) as order, pytest.raises(Refused):
            record(office, [entry], order)
        assert office.newest() == before


def test_the_program_refuses_another_name_than_that_of_whoever_is_signed_in(path: Path) -> None:
    result = signoff("G-9", PILOT, evaluator=EVALUATOR)
    with (
        Office.open(path, Clock()) as office,
        signed_in(office, PILOT),
        pytest.raises(Refused, match="is signed in"),
    ):
        signing.sign_off(office, result, Order(EVALUATOR))


def test_a_passphrase_opens_nothing_where_its_wrapping_came_from_another_record(
    path: Path, unit_of_the_attacker: Path
) -> None:
    with closing(sqlite3.connect(path)) as mine:
        (name,) = mine.execute("SELECT key FROM keys WHERE person_id = 1").fetchone()
        mine.execute("ATTACH ? AS theirs", (str(unit_of_the_attacker),))
        mine.execute("DELETE FROM credentials WHERE key = ?", (name,))
        mine.execute(
            "INSERT INTO credentials SELECT ?, salt, memory, passes, lanes, nonce, wrapped, 0, NULL"
            " FROM theirs.credentials",
            (name,),
        )
        mine.commit()
    with Office.open(path, Clock()) as office:
        with pytest.raises(Refused, match="not the passphrase"):
            access.sign_in(office, CHIEF, "a passphrase of my own")
        assert office.session is None


Forge = Callable[[Act], None]


def forged(path: Path, author: str, kind: str, forge: Forge) -> list[str]:
    """An act put at the end by somebody who has a program that asks nobody; what is found."""
    with Record.open(path) as opened:
        before = opened.head_seq()
        with opened.act(kind, author, FIRST_ACT + timedelta(hours=1), "as agreed") as act:
            forge(act)
    told = found(path)
    assert {one.act for one in told} == {before + 1} if told else True
    return [one.problem for one in told]


def revise(act: Act, kind: facts.Kind, row: facts.Row) -> None:
    held = find(act, kind, (row[0],))
    assert held is not None
    act.revise(kind, [(held.entry, held.number, row)])


def their_result(act: Act) -> None:
    act.add(SIGNOFFS, [signoff("G-9", PILOT, evaluator=EVALUATOR)])


def with_their_key(*keys: SigningKey) -> Forge:
    def forge(act: Act) -> None:
        their_result(act)
        act.sign(EDITION, *keys)

    return forge


def chief_by_myself(act: Act) -> None:
    revise(act, PEOPLE, person_row(PILOT, "pilot", "chief"))


def my_key_for_the_chief(act: Act) -> None:
    act.add(KEYS, [key_of(FOR_CHIEF)])
    act.sign(EDITION, FOR_CHIEF)


def my_own_key(act: Act) -> None:
    act.add(KEYS, [key_of(MINE)])


def replayed(act: Act) -> None:
    their_result(act)
    old = next(past for past in act.acts() if past.kind == "sign-off")
    (signature,) = json.loads(old.signatures or "[]")
    act.sign(EDITION, Replayed(**signature))


class Replayed:
    """Gives the signature that somebody made of something else."""

    def __init__(self, by: str, key: str, signature: str) -> None:
        self.by, self.key, self.signature = by, key, signature

    def sign(self, line: bytes) -> str:
        return self.signature


def imported_key(act: Act) -> None:
    act.add(KEYS, [key_of(MINE)])


def another_flight(act: Act) -> None:
    revise(act, SORTIES, changed(sortie("S-1"), SORTIES, setting="drill"))


def seal_alone(act: Act) -> None:
    act.note()


FORGED: dict[str, tuple[str, str, Forge, str]] = {
    "a result in another's name, not signed": (
        EVALUATOR, "sign-off", their_result, "takes a signature, and there is none"),
    "a result in another's name, signed with a key that nobody has": (
        EVALUATOR, "sign-off", with_their_key(SigningKey.new(EVALUATOR)), "not valid then"),
    "an old signature of the evaluator on another result": (
        EVALUATOR, "sign-off", replayed, "not one of this act"),
    "a duty of one's own raised": (PILOT, "record", chief_by_myself, "takes a chief"),
    "a duty raised in the chief's name": (
        CHIEF, "record", chief_by_myself, "takes a signature, and there is none"),
    "a key for oneself, put in by oneself": (PILOT, "access", my_own_key, "takes a chief"),
    "a key for the chief, vouching for itself": (
        CHIEF, "access", my_key_for_the_chief, "not valid then"),
    "a key as if it had been in a file": (OFFICER, "import", imported_key, "takes a chief"),
    "an act by somebody who has no key": (
        "K-99", "record", another_flight, "its author had no key"),
    "a flight changed by whoever may only log": (
        PILOT, "correct", another_flight, "takes an officer or a chief"),
    "a sealing by one alone": (OFFICER, "seal", seal_alone, "had to sign it together"),
}  # fmt: skip


@pytest.mark.parametrize("attack", FORGED)
def test_a_forged_act_is_found(path: Path, attack: str) -> None:
    author, kind, forge, problem = FORGED[attack]
    assert any(problem in told for told in forged(path, author, kind, forge))


@pytest.fixture(scope="module")
def pilots_key(signed_once: Path, tmp_path_factory: pytest.TempPathFactory) -> SigningKey:
    """The key that the pilot does have."""
    copy = copy_of(signed_once, tmp_path_factory.mktemp("pilot"))
    with Office.open(copy, Clock()) as office, signed_in(office, PILOT):
        assert office.hand is not None
        return office.hand


def test_a_result_that_one_signs_for_another_with_ones_own_key_is_found(
    path: Path, pilots_key: SigningKey
) -> None:
    told = forged(path, EVALUATOR, "sign-off", with_their_key(pilots_key))
    assert "it is signed by K-04, and not by its author alone" in told


def test_a_result_signed_with_ones_own_key_under_anothers_name_is_found(
    path: Path, pilots_key: SigningKey
) -> None:
    lying = SigningKey.of(EVALUATOR, pilots_key.secret())
    told = forged(path, EVALUATOR, "sign-off", with_their_key(lying))
    assert "the key that signed it for K-02 is not theirs" in told


def test_a_result_signed_by_its_author_who_is_no_evaluator_is_found(
    path: Path, pilots_key: SigningKey
) -> None:
    def forge(act: Act) -> None:
        act.add(SIGNOFFS, [signoff("G-9", PILOT, evaluator=PILOT)])
        act.sign(EDITION, pilots_key)

    told = forged(path, PILOT, "sign-off", forge)
    assert told == ["to sign off a task takes an evaluator, and the author was none"]


def test_a_signature_under_an_edition_that_is_not_there_is_found(
    path: Path, pilots_key: SigningKey
) -> None:
    def forge(act: Act) -> None:
        act.note()
        act.sign("2099-1", pilots_key)

    told = forged(path, PILOT, "note", forge)
    assert told == ["it is signed under an edition that the record did not hold"]


REWRITTEN: dict[str, tuple[tuple[str, ...], str]] = {
    "a result is changed in its row": (
        ("UPDATE signoffs SET level = 'supervised' WHERE id = 1",), "not one of this act"),
    "two people's rows are swapped": (
        ("UPDATE people SET person = 'K-9' WHERE id = 2",
         "UPDATE people SET person = 'K-02' WHERE id = 4",
         "UPDATE people SET person = 'K-04' WHERE id = 2"),
        "not one of this act"),
    "the signatures of an act are taken away": (
        ("UPDATE acts SET signatures = NULL WHERE kind = 'sign-off'",), "the signature is gone"),
    "signatures and editions of an act are taken away": (
        ("UPDATE acts SET signatures = NULL, edition = NULL WHERE kind = 'sign-off'",),
        "takes a signature, and there is none"),
    "an act's author is another": (
        ("UPDATE acts SET author = 'K-03' WHERE kind = 'sign-off'",), "not by its author alone"),
    "a key's public half is the attacker's": (
        (f"UPDATE keys SET public = '{MINE.public}' WHERE person_id = 1",),
        "the key's name is not that of its public half"),
    "a key is the attacker's, name and all": (
        (f"UPDATE keys SET public = '{MINE.public}', key = '{MINE.key}' WHERE person_id = 2",),
        "not valid then"),
    "a key is another person's": (
        ("UPDATE keys SET person_id = 4 WHERE person_id = 2",), "is not theirs"),
    "what nobody signed is changed before what is signed": (
        ("UPDATE sorties SET minutes = 90",), "not one of this act"),
    "the keys are gone, the signatures are not": (
        ("DELETE FROM keys",), "it is signed, though nobody had a key yet"),
}  # fmt: skip


@pytest.mark.parametrize("attack", REWRITTEN)
def test_a_file_that_was_written_anew_is_found(path: Path, attack: str) -> None:
    statements, problem = REWRITTEN[attack]
    with unguarded(path) as connection:
        for statement in statements:
            connection.execute(statement)
    told = found(path)
    assert any(problem in one.problem for one in told)
    assert not any("chained" in one.problem or "digest" in one.problem for one in told)
    assert [one.act for one in told] == sorted(one.act or 0 for one in told)


ONLY_ON_PAPER: dict[str, tuple[str, ...]] = {
    "the last acts are cut off": (
        "DELETE FROM vessels", "DELETE FROM acts WHERE kind = 'import'"),
    "all keys and all signatures are gone: nobody was ever identified": (
        "DELETE FROM keys", "UPDATE acts SET signatures = NULL, edition = NULL",
        "UPDATE signoffs SET level = 'supervised'"),
}  # fmt: skip


@pytest.mark.parametrize("attack", ONLY_ON_PAPER)
def test_what_only_a_head_on_paper_shows(path: Path, attack: str) -> None:
    with Office.open(path, Clock()) as office:
        printed = heads.head(office)
    with unguarded(path) as connection:
        for statement in ONLY_ON_PAPER[attack]:
            connection.execute(statement)
    assert found(path) == ()
    with Office.open(path, Clock()) as office:
        assert printed is not None
        assert heads.act_on_paper(office, printed.digest) is None


def test_what_nobody_signed_at_the_end_can_be_written_anew_and_only_a_head_on_paper_shows_it(
    path: Path,
) -> None:
    with Office.open(path, Clock()) as office:
        access.sign_in(office, PILOT, PASSPHRASES[PILOT])
        flown = [
            Entry(SORTIES, sortie("S-2")),
            Entry(facts.PERFORMANCES, recovery(PILOT, "S-2")),
        ]
        printed = record(office, flown, Order(PILOT)).digest
    with unguarded(path) as connection:
        connection.execute("UPDATE sorties SET minutes = 90 WHERE sortie = 'S-2'")
    assert found(path) == ()
    with Office.open(path, Clock()) as office:
        assert printed is not None
        assert heads.act_on_paper(office, printed) is None
