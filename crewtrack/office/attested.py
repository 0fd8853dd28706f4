"""Who did what, checked: every signature, and every author's right to the act.

One reckoning for the record and for a journal that was exported: acts with their rows go in, in
the order of the chain, and what is not as it should be comes out. On a record in which nobody ever
had a key there is nothing to check but that nothing pretends to be signed.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from crewtrack.facts import KEYS, PEOPLE
from crewtrack.office.attested_past import Past, PublicKey, keys_in
from crewtrack.office.attested_rights import (
    SEAL,
    Deed,
    changed_though_signed,
    deeds,
    for_another,
    is_nameless,
    lacking_duty,
)
from crewtrack.office.attested_signatures import signatures_of, wrong_signatures
from crewtrack.office.duties import DEEDS
from crewtrack.phrases import phrase
from crewtrack.records.damage import NotAsRecorded
from crewtrack.records.reading import Reading
from crewtrack.records.recorded_acts import RecordedAct, recorded_acts
from crewtrack.records.signatures import key_name
from crewtrack.records.verifying import Break, said_of

_Found = tuple[str, str, str]
"""A fact's kind and key, both may be empty, and what is wrong."""
_SEALERS: Final = ("officer", "chief")


def breaks(acts: Iterable[RecordedAct]) -> Iterator[Break]:
    """What is not as it should be, in the order of the acts."""
    past = Past()
    for one in acts:
        for kind, key, problem in dict.fromkeys(_wrong(past, one)):
            shown = key.encode("utf-8", "replace").decode()
            yield Break(one.past.seq, kind, shown, problem, said_of(one.past))
        past.take(one)


def breaks_of(reading: Reading) -> tuple[Break, ...]:
    """The same of a record."""
    found: list[Break] = []
    try:
        found += breaks(recorded_acts(reading.connection))
    except NotAsRecorded as error:
        why = phrase("signatures can't be checked any further, {what} can't be read", what=error)
        found.append(Break(None, "", "", why))
    return tuple(found)


def _wrong(past: Past, one: RecordedAct) -> Iterator[_Found]:
    recorded = dict(keys_in(one.wrote))
    first = not past.identified
    if first and not recorded:
        yield from _before_any_key(one)
        return
    if not one.whole:
        yield "", "", phrase("some of what it recorded can't be read: who may do that is not known")
    yield from _ill_named(recorded)
    keys = recorded if first else past.keys
    yield from (("", "", problem) for problem in wrong_signatures(one.past, one.told, keys))
    yield from _signers(past, one, recorded if first else {})
    yield from _edition(past, one)
    yield from _first_chief(past, one) if first else _rights(past, one)


def _before_any_key(one: RecordedAct) -> Iterator[_Found]:
    if one.past.signatures is not None:
        yield "", "", phrase("it is signed, though nobody had a key yet")
    elif one.past.edition is not None:
        yield "", "", phrase("it was signed, and the signature is gone")


def _ill_named(recorded: dict[str, PublicKey]) -> Iterator[_Found]:
    for name, key in recorded.items():
        try:
            named = key_name(key.public)
        except ValueError:
            named = ""
        if named != name:
            yield KEYS.name, name, phrase("the key's name is not that of its public half")


def _signers(past: Past, one: RecordedAct, first: dict[str, PublicKey]) -> Iterator[_Found]:
    """Whether whoever had to sign did. The first chief's act may have been asked for by somebody
    who had no key to be known by: there it is signed by whoever gets one."""
    author = one.past.author
    signers = [signature.by for signature in signatures_of(one.past) or ()]
    if first:
        owners = {key.person for key in first.values()}
        if not signers:
            yield "", "", phrase("the first key of the record did not sign the act that records it")
        if set(signers) - owners or len(owners) > 1:
            yield "", "", phrase("the first act with a key gives one to somebody who did not sign")
    elif one.past.kind == SEAL:
        yield from _sealers(past, author, signers)
    elif signers and signers != [author]:
        yield "", "", phrase("it is signed by {people}, and not by its author alone",
                             people=", ".join(signers))  # fmt: skip


def _sealers(past: Past, author: str, signers: Sequence[str]) -> Iterator[_Found]:
    """An officer and a chief seal together, one of them the author."""
    duties = [past.duties(person) or frozenset() for person in signers]
    together = len(set(signers)) == len(signers) == 2 and author in signers
    if not together or not any(
        one in held and other in also
        for one, other in (_SEALERS, _SEALERS[::-1])
        for held, also in [(duties[0], duties[1])]
    ):
        yield "", "", phrase("an officer and a chief, two people, had to sign it together")


def _edition(past: Past, one: RecordedAct) -> Iterator[_Found]:
    """Whether a signature is under an edition that the record held."""
    named = one.past.edition
    if one.past.signatures is None:
        if named is not None:
            yield "", "", phrase("it was signed, and the signature is gone")
    elif named not in {held.edition for held in past.editions}:
        yield "", "", phrase("it is signed under an edition that the record did not hold")


def _first_chief(past: Past, one: RecordedAct) -> Iterator[_Found]:
    """Whoever has the first key is a chief, by that very act at the latest, and nothing else is
    done in it."""
    for kind in sorted(one.told.keys() - {KEYS.name, PEOPLE.name}):
        yield kind, "", phrase("the act that records the first key records something else too")
    known = Past(newest=dict(past.newest))
    known.take(one)
    for key in known.keys.values():
        if "chief" not in (known.duties(key.person) or ()):
            yield PEOPLE.name, key.person, phrase("the first one with a key is no chief")


def _rights(past: Past, one: RecordedAct) -> Iterator[_Found]:
    author, signed = one.past.author, one.past.signatures is not None
    if is_nameless(one):
        return
    if author not in past.owners:
        yield "", "", phrase("its author had no key")
    elif past.duties(author) is None:
        yield "", "", phrase("its author was not on the books")
    for deed in deeds(past, one):
        yield from ((*deed.where, problem) for problem in lacking_duty(past, author, deed))
        yield from ((*deed.where, problem) for problem in for_another(past, one, deed))
        if DEEDS[deed.word].signed and not signed:
            yield (*deed.where, _unsigned(deed))
    for fact, problem in changed_though_signed(past, one):
        yield (*Deed("correct", fact).where, problem)


def _unsigned(deed: Deed) -> str:
    return phrase("to {deed} takes a signature, and there is none",
                  deed=phrase(DEEDS[deed.word].told))  # fmt: skip
