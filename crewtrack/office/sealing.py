"""Sealing what is past retention: contents removed, digests and signatures left.

An officer and a chief do it together, each with a key of their own, in one act that both sign.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field, replace

from crewtrack.errors import Fault, Refused
from crewtrack.office.able import (
    able_rows,
    current_key,
    duties_in,
    duties_of,
    identified,
    lacking,
    nobody_signed_in,
)
from crewtrack.office.access import hand_of
from crewtrack.office.duties import DEEDS
from crewtrack.office.entries import Order, named, ordered
from crewtrack.office.office import Office, Progress, silent
from crewtrack.office.retention import Past, PastFact, past
from crewtrack.phrases import later, phrase
from crewtrack.records import verifying
from crewtrack.records.acting import Act
from crewtrack.records.aging import FactName
from crewtrack.records.entries import kind_named
from crewtrack.records.reading import Reading
from crewtrack.records.signatures import SigningKey


@dataclass(frozen=True, slots=True)
class Hand:
    """Somebody's key as a person, and their passphrase."""

    person: str
    passphrase: str = field(repr=False)


@dataclass(frozen=True, slots=True)
class Both:
    """The two who seal: different people, one of them signed in. Faults about one of them are at
    the place ``officer`` or ``chief``."""

    officer: Hand
    chief: Hand

    def hands(self) -> tuple[tuple[str, Hand], ...]:
        """Each with the duty that is asked of them."""
        return ("officer", self.officer), ("chief", self.chief)


@dataclass(frozen=True, slots=True)
class Sealed:
    """What was sealed: ``facts``, each counted once; the act's place in the chain and digest.
    ``cleared``: whether the file holds nothing of it any more. Where it is not, others have the
    record open, and it will be so when they have closed it."""

    facts: int
    seq: int
    digest: str
    cleared: bool


def seal(
    office: Office,
    wanted: Collection[FactName] | None,
    reason: str,
    both: Both,
    progress: Progress = silent,
) -> Sealed:
    """Seal facts (kinds' names and keys; None: all that can be) that are past retention.

    Refused, and nothing done, where one of the facts can't be sealed, somebody may not or is not
    who they say, the record does not verify, or it is changed meanwhile. What ``progress`` raises
    breaks it off, and nothing is done either.
    """
    author = _check(office, reason, both)
    _keys(office, both)  # a wrong passphrase is told before the long work; no key is open in it
    _check_whole(office, progress)
    found = past(office, wanted, progress)
    chosen = _chosen(found, wanted)
    progress(later("sealing"), 0, 0)
    keys = _keys(office, both)
    with office.record.sealing(author, office.clock(), reason.strip()) as act:
        _check_unchanged(act, found, keys)
        act.seal(_entries(chosen))
        act.sign(office.edition(act), *keys)
    office.taken.clear()
    facts = sum(one.count for one in chosen)
    seq, digest = (act.past.seq, act.past.digest) if act.past else (0, "")
    return Sealed(facts, seq, digest, office.record.clear())


def _check(office: Office, reason: str, both: Both) -> str:
    """Who acts: whoever is signed in, who is one of the two. Refused lists all that is amiss."""
    with office.record.reading() as reading:
        if not identified(reading):
            problem = phrase("nobody is identified in this record, so nobody could answer for it")
            cure = phrase("give people access first")
            raise Refused(Fault("", "author", problem, cure))
        faults = list(_wrong_people(office, reading, both))
    author = office.session.person if office.session else ""
    _, wrong = ordered(Order(author or "?", reason), office.zone())
    faults += wrong
    if not reason.strip():
        faults.append(Fault("", "reason", phrase("sealing needs a reason"), phrase("say why")))
    if faults:
        raise Refused(*faults)
    return author


def _wrong_people(office: Office, reading: Reading, both: Both) -> Iterator[Fault]:
    people = [hand.person for _, hand in both.hands()]
    if office.session is None:
        yield nobody_signed_in()
    elif office.session.person not in people:
        problem = phrase("{person}, who is signed in, is neither of the two",
                         person=office.session.person)  # fmt: skip
        yield Fault("", "author", problem, phrase("seal in your own name, with another"))
    if people[0] == people[1]:
        problem = phrase("one person can't be both")
        yield Fault("chief", "person", problem, phrase("two different people sign it"))
    for duty, hand in both.hands():
        if duty not in (duties_of(reading, hand.person) or ()):
            yield replace(lacking(reading, DEEDS["seal"].told, (duty,), duty), field="person")


def _keys(office: Office, both: Both) -> list[SigningKey]:
    """The keys of both, the officer's first."""
    return [_key(office, duty, hand) for duty, hand in both.hands()]


def _key(office: Office, duty: str, hand: Hand) -> SigningKey:
    try:
        return hand_of(office, hand.person, hand.passphrase)
    except Refused as refused:
        raise Refused(*(replace(one, place=duty) for one in refused.faults)) from refused


def _check_whole(office: Office, progress: Progress) -> None:
    """What was tampered with must stay to be seen."""
    breaks = verifying.verify(office.record, progress)
    if breaks:
        problem = phrase("the record is not as it was recorded: {what}", what=breaks[0])
        cure = phrase("verify the record first; sealing would hide what is wrong")
        raise Refused(Fault("", "", problem, cure))


def _chosen(found: Past, wanted: Collection[FactName] | None) -> Sequence[PastFact]:
    """What is going to be sealed; Refused where one that is wanted can't be, or there is none."""
    held = {(one.kind, one.key): one for one in found.facts}
    faults = []
    for kind, key in wanted or ():
        one = held.get((kind, key))
        why = phrase("it is not past retention") if one is None else one.why
        if why:
            place = named(kind_named(kind), (key,))
            faults.append(Fault(place, "", why, phrase("leave it out")))
    if not faults and not found.sealable:
        cure = phrase("see what is past retention, and why it stays")
        faults.append(Fault("", "", phrase("there is nothing that can be sealed"), cure))
    if faults:
        raise Refused(*faults)
    return found.sealable


def _entries(chosen: Sequence[PastFact]) -> dict[str, list[int]]:
    entries: dict[str, list[int]] = {}
    for one in chosen:
        for kind, held in one.entries.items():
            entries.setdefault(kind, []).extend(held)
    return entries


def _check_unchanged(act: Act, found: Past, keys: Sequence[SigningKey]) -> None:
    if act.before != found.head or any(current_key(act, key.by) != key.key for key in keys):
        problem = phrase("the record was changed meanwhile")
        raise Refused(Fault("", "", problem, phrase("look at what is past retention again")))


def able_to_seal(office: Office, duty: str) -> dict[str, str]:
    """Those who can sign for a duty, ``officer`` or ``chief``: key and name, by key; none where
    nobody is identified."""
    with office.record.reading() as reading:
        return {str(row[0]): str(row[1]) for row in able_rows(reading) if duty in duties_in(row)}
