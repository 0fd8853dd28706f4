"""Signing in, and who has access: everybody with a key of their own, which a passphrase opens.

The private key is opened for one act and let go of with it. A wrong passphrase makes the next try
wait, longer each time; tries are counted before they are made, so that neither a restart nor many
tries at once get around it.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from typing import Final, NoReturn
from zoneinfo import ZoneInfo

from crewtrack.errors import Fault, Refused
from crewtrack.facts import KEYS, PEOPLE, Row
from crewtrack.office.able import (
    able_rows,
    current_key,
    duties_in,
    identified,
    key_row,
    with_duty,
)
from crewtrack.office.entries import Order, checked
from crewtrack.office.office import Office, Session, editions_of
from crewtrack.office.passphrases import normal, passphrase_faults
from crewtrack.office.rights import demand
from crewtrack.phrases import count_of, phrase
from crewtrack.records import credentials
from crewtrack.records.acting import Act
from crewtrack.records.credentials import Owner, Wrapped
from crewtrack.records.finding import find
from crewtrack.records.journal import instant_text
from crewtrack.records.reading import Reading
from crewtrack.records.signatures import SigningKey

_LONGEST: Final = timedelta(minutes=15)
_MOST_TRIES: Final = 100
"""Wrong tries in a row after which only a chief can help (NIST SP 800-63B-4, section 3.2.2)."""


def is_identified(office: Office) -> bool:
    """Whether people sign in to this record."""
    with office.record.reading() as reading:
        return identified(reading)


def able_people(office: Office) -> tuple[tuple[str, str], ...]:
    """Everybody who can sign in: key and name, in the order of keys."""
    with office.record.reading() as reading:
        return tuple((str(row[0]), str(row[1])) for row in able_rows(reading))


def sign_in(office: Office, person: str, passphrase: str) -> Session:
    """From now on whoever this is acts. Refused, with how long to wait, where the passphrase is
    not theirs."""
    key = _opened(office, person, passphrase)
    with office.record.reading() as reading:
        held = find(reading, PEOPLE, (key.by,))
    office.session = Session(key.by, str(held.row[1]) if held else key.by)
    return office.session


def sign_out(office: Office) -> None:
    """From now on nobody acts."""
    office.session = office.hand = None


@contextmanager
def signing(office: Office, passphrase: str) -> Iterator[None]:
    """Within, acts are signed by whoever is signed in; Refused where that is not their
    passphrase."""
    if office.session is None:
        raise Refused(_nobody())
    office.hand = _opened(office, office.session.person, passphrase)
    try:
        yield
    finally:
        office.hand = None


def hand_of(office: Office, person: str, passphrase: str) -> SigningKey:
    """The key of somebody who need not be signed in, for an act that more than one person signs;
    Refused where that is not their passphrase, which counts as a wrong try of theirs."""
    return _opened(office, person, passphrase)


def change_passphrase(office: Office, old: str, new: str) -> None:
    """Another passphrase for whoever is signed in; the key stays the same."""
    if office.session is None:
        raise Refused(_nobody())
    session = office.session
    _check(new, session.person, session.name)
    key = _opened(office, session.person, old)
    with office.record.act("passphrase", session.person, office.clock()) as act:
        owner = _owner(act, key_row(act, session.person))
        act.note()
        credentials.put(act.connection, credentials.wrap(key, owner, normal(new)))


def give_access(office: Office, person: str, passphrase: str, order: Order) -> str:
    """A new key for somebody, opened by a passphrase of theirs, from today on; the one before,
    if any, signs nothing any more, and what it signed stays signed. Returns the key's name.

    A chief does it, with ``signing`` around. The first one with a key is a chief, who makes
    himself or herself known: then nobody need be signed in."""
    with office.record.act("access", order.author, office.clock(), order.reason) as act:
        first = not identified(act)
        held = find(act, PEOPLE, (person,))
        if held is None or held.struck:
            problem = phrase("no person {person} is in the record", person=repr(person))
            raise Refused(Fault("", "person", problem, phrase("record the person first")))
        _check(passphrase, person, str(held.row[1]))
        demand(office, act, order.author, ["access"])
        key = _new_key(office, act, person, passphrase)
        if first:
            row = with_duty(held.row, "chief")
            if row != held.row:
                act.revise(PEOPLE, [(held.entry, held.number, row)])
            office.session, office.hand = Session(person, str(held.row[1])), key
            act.sign(office.edition(act), key)
    office.hand = None if first else office.hand
    return key.key


def end_access(office: Office, person: str, order: Order) -> None:
    """Nobody signs in as this person any more; the last chief's access can't be ended."""
    with office.record.act("access", order.author, office.clock(), order.reason) as act:
        demand(office, act, order.author, ["access"])
        name = current_key(act, person)
        if name is None:
            problem = phrase("{person} has no key", person=person)
            raise Refused(Fault("", "person", problem, phrase("choose somebody who has one")))
        if not _chiefs_beside(act, person):
            problem = phrase("{person} is the last chief with a key", person=person)
            cure = phrase("give another chief a key first")
            raise Refused(Fault("", "person", problem, cure))
        _end_key(act, name)


def check_first_chief(person: str, name: str, passphrase: str) -> Row:
    """The row of a first chief; Refused, all faults at once, where it can't be one."""
    given = tuple({"person": person, "name": name}.get(column) for column in PEOPLE.names)
    row, faults, _ = checked(PEOPLE, given, ZoneInfo("UTC"), "")
    faults += passphrase_faults(passphrase, person, name)
    if faults:
        raise Refused(*faults)
    return with_duty(row, "chief")


def first_chief(office: Office, person: str, name: str, passphrase: str) -> str:
    """Make somebody who is not in the record yet known as its first chief, with a key, and signed
    in; returns the name of the key."""
    row = check_first_chief(person, name, passphrase)
    with office.record.act("access", str(row[0]), office.clock()) as act:
        _check_first(act, str(row[0]))
        act.add(PEOPLE, [row])
        key = _new_key(office, act, str(row[0]), passphrase)
        act.sign(office.edition(act), key)
    office.session = Session(str(row[0]), str(row[1]))
    return key.key


def _check_first(act: Act, person: str) -> None:
    """There is a first chief once only, and a new person takes a key of his or her own."""
    if identified(act):
        problem = phrase("people sign in to this record already")
        raise Refused(Fault("", "author", problem, phrase("ask a chief for access")))
    if find(act, PEOPLE, (person,)) is not None:
        problem = phrase("{person} is somebody's key already", person=repr(person))
        raise Refused(Fault("", "person", problem, phrase("take another, or choose that person")))


def _check(passphrase: str, *about: str) -> None:
    faults = passphrase_faults(passphrase, *about)
    if faults:
        raise Refused(*faults)


def _nobody() -> Fault:
    return Fault("", "author", phrase("nobody is signed in"), phrase("sign in first"))


def _new_key(office: Office, act: Act, person: str, passphrase: str) -> SigningKey:
    """Make a key for somebody, in place of the one they had."""
    before = current_key(act, person)
    if before is not None:
        _end_key(act, before)
    key = SigningKey.new(person)
    today = office.clock().astimezone(editions_of(act.editions()).zone).date()
    row: Row = (key.key, person, key.public, today)
    act.add(KEYS, [row])
    owner = _owner(act, row)
    credentials.put(act.connection, credentials.wrap(key, owner, normal(passphrase)))
    return key


def _end_key(act: Act, name: str) -> None:
    held = find(act, KEYS, (name,))
    if held is not None:
        act.strike(KEYS, [(held.entry, held.number)])
    credentials.drop(act.connection, name)


def _chiefs_beside(act: Act, person: str) -> bool:
    return any("chief" in duties_in(row) for row in able_rows(act) if row[0] != person)


def _owner(reading: Reading, row: Row | None) -> Owner:
    if row is None:
        raise Refused(_no_key("?"))
    name, person, public, _ = (str(value) for value in row)
    return Owner(reading.identity(), person, name, public)


def _no_key(person: str) -> Fault:
    problem = phrase("{person} can't sign in here", person=repr(person))
    cure = phrase("give the key of a person who can, or ask a chief for access")
    return Fault("", "person", problem, cure)


def _opened(office: Office, person: str, passphrase: str) -> SigningKey:
    """Somebody's private key. Every try counts as a wrong one until it proves right."""
    now = office.clock()
    with office.record.reading() as reading:
        row = key_row(reading, person)
        if row is None:
            raise Refused(_no_key(person))
        owner = _owner(reading, row)
    with office.record.writing() as connection:
        held = credentials.held(connection, owner.key)
        if held is None:
            problem = phrase("the key of {person} is gone from this record", person=person)
            cure = phrase("ask a chief for a new one, and verify the record")
            raise Refused(Fault("", "person", problem, cure))
        _check_wait(held, now)
        credentials.tried(connection, owner.key, held.tries + 1, instant_text(now))
    key = credentials.unwrap(held, owner, normal(passphrase))
    if key is None:
        _wrong(office, owner, held.tries + 1)
    with office.record.writing() as connection:
        credentials.tried(connection, owner.key, 0, None)
    return key


def _check_wait(held: Wrapped, now: datetime) -> None:
    if held.tries >= _MOST_TRIES:
        problem = phrase("{count} wrong passphrases in a row", count=held.tries)
        raise Refused(Fault("", "passphrase", problem, phrase("ask a chief for a new key")))
    left = _left(held, now)
    if left > timedelta(0):
        problem = phrase("too soon after a wrong passphrase")
        raise Refused(Fault("", "passphrase", problem, _wait_told(left)))


def _left(held: Wrapped, now: datetime) -> timedelta:
    """How long to wait still; nothing or less where the next try may be made."""
    if held.tried is None:
        return timedelta(0)
    wait = wait_after(held.tries)
    # A clock that was set back must not make anybody wait for more than the wait itself.
    return min(datetime.fromisoformat(held.tried) + wait - now, wait)


def wait_left(office: Office, person: str) -> timedelta:
    """How long somebody has to wait before the next try; nothing where one may be made now."""
    with office.record.reading() as reading:
        name = current_key(reading, person)
        held = None if name is None else credentials.held(reading.connection, name)
    return max(_left(held, office.clock()), timedelta(0)) if held else timedelta(0)


def wait_after(tries: int) -> timedelta:
    """How long to wait after so many wrong passphrases in a row: 1 s, 2 s, 4 s … 15 minutes."""
    return min(timedelta(seconds=2 ** min(tries - 1, 20)), _LONGEST) if tries else timedelta(0)


def _wait_told(left: timedelta) -> str:
    seconds = max(1, -(-left // timedelta(seconds=1)))
    return count_of(seconds, "wait {count} second", "wait {count} seconds")


def _wrong(office: Office, owner: Owner, tries: int) -> NoReturn:
    """Put the wrong try into the journal, and refuse it."""
    with office.record.act("sign-in-refused", owner.person, office.clock()) as act:
        act.note()
    problem = phrase("this is not the passphrase of {person}", person=owner.person)
    raise Refused(Fault("", "passphrase", problem, _wait_told(wait_after(tries))))
