"""Signing in, keys, and who has access."""

from datetime import timedelta
from pathlib import Path

import pytest

from crewtrack.errors import Fault, Refused
from crewtrack.facts import KEYS, PEOPLE
from crewtrack.office import access, keeping
from crewtrack.office.entries import Order
from crewtrack.office.office import Office
from crewtrack.records.signatures import is_signature
from tests.office.identified_unit import (
    CHIEF,
    EVALUATOR,
    OFFICER,
    PILOT,
    make_new,
    words,
)
from tests.office.unit_at_work import STANDARD, Clock, Unit

WRONG = "albatross lantern tide"
NEW = "seven grey seals asleep"


def refused(office: Office, person: str, passphrase: str) -> Fault:
    with pytest.raises(Refused) as caught:
        access.sign_in(office, person, passphrase)
    (fault,) = caught.value.faults
    return fault


def signing_as(office: Office) -> str | None:
    """Whose signing key is at hand."""
    return office.hand.by if office.hand else None


def kinds(office: Office) -> list[tuple[str, str]]:
    """Who did what, in the order of the chain."""
    with office.record.reading() as reading:
        return [(act.author, act.kind) for act in reading.acts()]


def test_a_record_without_keys_asks_nobody_who_they_are(full_unit: Unit) -> None:
    assert not access.is_identified(full_unit.office)
    assert access.able_people(full_unit.office) == ()


def test_whoever_gives_the_right_passphrase_is_signed_in(identified: Unit) -> None:
    session = access.sign_in(identified.office, PILOT, words(PILOT))
    assert (session.person, session.name) == (PILOT, "Ana Kovač")
    assert identified.office.session == session
    access.sign_out(identified.office)
    assert identified.office.session is None


def test_everybody_who_can_sign_in_is_told(identified: Unit) -> None:
    assert [key for key, _ in access.able_people(identified.office)] == [
        CHIEF, "K-01", "K-02", OFFICER, EVALUATOR,
    ]  # fmt: skip


def test_a_passphrase_typed_in_another_form_of_the_same_letters_is_right(identified: Unit) -> None:
    access.sign_in(identified.office, PILOT, words(PILOT))
    access.change_passphrase(identified.office, words(PILOT), "K\u00e1ri and the grey seals")
    access.sign_in(identified.office, PILOT, "Ka\u0301ri and the grey seals")


@pytest.mark.parametrize("person", ["K-09", "", "C-01 ", "nobody"])
def test_nobody_else_can_sign_in(identified: Unit, person: str) -> None:
    fault = refused(identified.office, person, words(CHIEF))
    assert fault.field == "person"
    assert "can't sign in here" in fault.problem


def test_wrong_tries_wait_longer_each_time(identified: Unit) -> None:
    waits = []
    for _ in range(5):
        fault = refused(identified.office, PILOT, WRONG)
        waits.append(fault.cure)
        identified.clock.at += access.wait_after(len(waits))
    assert waits == [
        "wait 1 second", "wait 2 seconds", "wait 4 seconds", "wait 8 seconds", "wait 16 seconds",
    ]  # fmt: skip
    assert access.wait_after(30) == timedelta(minutes=15)


def test_before_the_wait_is_over_the_right_one_is_refused_too(identified: Unit) -> None:
    for _ in range(3):
        refused(identified.office, PILOT, WRONG)
        identified.clock.at += timedelta(seconds=4)
    identified.clock.at -= timedelta(seconds=3)
    fault = refused(identified.office, PILOT, words(PILOT))
    assert (fault.problem, fault.cure) == (
        "too soon after a wrong passphrase", "wait 3 seconds",
    )  # fmt: skip
    identified.clock.at += timedelta(seconds=3)
    access.sign_in(identified.office, PILOT, words(PILOT))


def test_a_restart_does_not_shorten_the_wait(identified: Unit) -> None:
    refused(identified.office, PILOT, WRONG)
    with Office.open(identified.office.record.path, identified.clock) as again:
        assert refused(again, PILOT, words(PILOT)).cure == "wait 1 second"


def test_a_clock_that_was_set_back_makes_nobody_wait_for_longer(identified: Unit) -> None:
    refused(identified.office, PILOT, WRONG)
    identified.clock.at -= timedelta(days=365)
    assert refused(identified.office, PILOT, words(PILOT)).cure == "wait 1 second"


def test_after_a_hundred_wrong_tries_a_chief_has_to_help(identified: Unit) -> None:
    refused(identified.office, PILOT, WRONG)
    with identified.office.record.writing() as connection:  # as if ninety-eight more had been made
        connection.exec_driver_sql("UPDATE credentials SET tries = 99 WHERE tries = 1")
    identified.clock.at += timedelta(minutes=15)
    refused(identified.office, PILOT, WRONG)
    identified.clock.at += timedelta(minutes=15)
    fault = refused(identified.office, PILOT, words(PILOT))
    assert (fault.problem, fault.cure) == (
        "100 wrong passphrases in a row", "ask a chief for a new key",
    )  # fmt: skip


def test_a_right_one_forgets_the_wrong_ones(identified: Unit) -> None:
    refused(identified.office, PILOT, WRONG)
    identified.clock.at += timedelta(seconds=1)
    access.sign_in(identified.office, PILOT, words(PILOT))
    assert refused(identified.office, PILOT, WRONG).cure == "wait 1 second"


def test_wrong_tries_are_in_the_journal(identified: Unit) -> None:
    refused(identified.office, PILOT, WRONG)
    assert kinds(identified.office)[-1] == (PILOT, "sign-in-refused")
    assert keeping.verify(identified.office) == ()


def test_a_signing_key_is_at_hand_for_one_act_alone(identified: Unit) -> None:
    access.sign_in(identified.office, EVALUATOR, words(EVALUATOR))
    assert signing_as(identified.office) is None
    with access.signing(identified.office, words(EVALUATOR)):
        assert signing_as(identified.office) == EVALUATOR
    assert signing_as(identified.office) is None


def test_a_key_is_let_go_of_where_the_act_fails_too(identified: Unit) -> None:
    access.sign_in(identified.office, EVALUATOR, words(EVALUATOR))
    with pytest.raises(ZeroDivisionError), access.signing(identified.office, words(EVALUATOR)):
        raise ZeroDivisionError
    assert identified.office.hand is None


def test_nobody_signs_who_is_not_signed_in(identified: Unit) -> None:
    with (
        pytest.raises(Refused, match="nobody is signed in"),
        access.signing(identified.office, words(PILOT)),
    ):
        pass


def test_a_new_passphrase_keeps_the_key(identified: Unit) -> None:
    office = identified.office
    access.sign_in(office, PILOT, words(PILOT))
    with access.signing(office, words(PILOT)):
        before = office.hand
    access.change_passphrase(office, words(PILOT), NEW)
    with access.signing(office, NEW):
        after = office.hand
    assert before is not None
    assert after is not None
    assert before.key == after.key
    assert kinds(office)[-1] == (PILOT, "passphrase")
    assert "not the passphrase" in refused(office, PILOT, words(PILOT)).problem


def test_a_new_passphrase_has_to_be_one_that_can_be_taken(identified: Unit) -> None:
    access.sign_in(identified.office, PILOT, words(PILOT))
    with pytest.raises(Refused, match="it has 5 letters"):
        access.change_passphrase(identified.office, words(PILOT), "heron")
    access.sign_in(identified.office, PILOT, words(PILOT))


def test_a_lost_passphrase_makes_a_new_key_and_old_signatures_stay_valid(identified: Unit) -> None:
    office = identified.office
    access.sign_in(office, PILOT, words(PILOT))
    with access.signing(office, words(PILOT)):
        assert office.hand is not None
        old, signature = office.hand, office.hand.sign(b"done")
    access.sign_in(office, CHIEF, words(CHIEF))
    with access.signing(office, words(CHIEF)):
        name = access.give_access(office, PILOT, NEW, Order(CHIEF, "forgotten"))
    assert name != old.key
    assert "not the passphrase" in refused(office, PILOT, words(PILOT)).problem
    office.clock = Clock(identified.clock.at + timedelta(minutes=1))
    access.sign_in(office, PILOT, NEW)
    with office.record.reading() as reading:
        (first, *_) = reading.revisions(KEYS, (old.key,))
    assert is_signature(str(first.row[KEYS.index("public")]), b"done", signature)
    assert keeping.verify(office) == ()


@pytest.mark.parametrize("person", [OFFICER, EVALUATOR, PILOT])
def test_only_a_chief_gives_access(identified: Unit, person: str) -> None:
    access.sign_in(identified.office, person, words(person))
    with pytest.raises(Refused) as caught, access.signing(identified.office, words(person)):
        access.give_access(identified.office, person, NEW, Order(person))
    (fault,) = caught.value.faults
    assert fault.problem == "to give people access takes a chief"
    assert fault.cure == "C-01 Chi could do it"


def test_giving_access_is_signed(identified: Unit) -> None:
    access.sign_in(identified.office, CHIEF, words(CHIEF))
    with pytest.raises(Refused, match="this is signed with your own key"):
        access.give_access(identified.office, PILOT, NEW, Order(CHIEF))
    access.sign_in(identified.office, PILOT, words(PILOT))


def test_whose_access_is_ended_can_not_sign_in(identified: Unit) -> None:
    access.sign_in(identified.office, CHIEF, words(CHIEF))
    with access.signing(identified.office, words(CHIEF)):
        access.end_access(identified.office, PILOT, Order(CHIEF, "left"))
    assert "can't sign in here" in refused(identified.office, PILOT, words(PILOT)).problem
    with (
        pytest.raises(Refused, match="K-01 has no key"),
        access.signing(identified.office, words(CHIEF)),
    ):
        access.end_access(identified.office, PILOT, Order(CHIEF, "left"))


def test_the_last_chief_keeps_access(identified: Unit) -> None:
    access.sign_in(identified.office, CHIEF, words(CHIEF))
    with (
        pytest.raises(Refused, match="C-01 is the last chief with a key"),
        access.signing(identified.office, words(CHIEF)),
    ):
        access.end_access(identified.office, CHIEF, Order(CHIEF))


def test_the_first_one_with_a_key_is_a_chief_and_signs_that(full_unit: Unit) -> None:
    office = full_unit.office
    access.give_access(office, PILOT, words(PILOT), Order(PILOT))
    assert office.session is not None
    assert (office.session.person, office.hand) == (PILOT, None)
    with office.record.reading() as reading:
        *_, last = reading.acts()
        held = reading.current(PEOPLE)[(PILOT,)]
    assert last.signatures is not None
    assert held.row[PEOPLE.index("duties")] == ("chief",)
    assert keeping.verify(office) == ()


def test_nobody_who_is_not_in_the_record_gets_a_key(full_unit: Unit) -> None:
    with pytest.raises(Refused, match="no person 'K-77' is in the record"):
        access.give_access(full_unit.office, "K-77", NEW, Order("K-77"))
    assert not access.is_identified(full_unit.office)


def test_a_record_is_made_with_its_first_chief(tmp_path: Path) -> None:
    with Office.open(make_new(tmp_path), Clock()) as office:
        assert access.able_people(office) == ((CHIEF, "Chi"),)
        access.sign_in(office, CHIEF, words(CHIEF))
        assert keeping.verify(office) == ()


def test_a_first_chief_who_can_not_be_taken_makes_no_record(tmp_path: Path) -> None:
    (tmp_path / "unit.toml").write_text(STANDARD, encoding="utf-8")
    path = tmp_path / "new.crewtrack"
    with pytest.raises(Refused) as caught:
        keeping.init(
            path, tmp_path / "unit.toml", "Ana", Clock(), keeping.Chief("", "Chi", "short")
        )
    assert [fault.field for fault in caught.value.faults] == ["person", "passphrase"]
    assert not path.exists()
