"""An act's signatures: whether each is of this very act, made with a key that was valid then, and
of whoever had to sign.

A key is valid from the act after the one that recorded it through the act that struck it out. The
first key of a record alone signs the act that records it: nobody else could, and a later key that
vouched for itself would be one that anybody could put in.
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from crewtrack.office.attested_past import PublicKey
from crewtrack.phrases import phrase
from crewtrack.records.journal import PastAct, signed_line
from crewtrack.records.signatures import is_signature

_MEMBERS: Final = {"by", "key", "signature"}


@dataclass(frozen=True, slots=True)
class Signature:
    """One signature, as an act has it."""

    by: str
    key: str
    signature: str


def signatures_of(past: PastAct) -> tuple[Signature, ...] | None:
    """The signatures of an act; None where they can't be read."""
    if past.signatures is None:
        return ()
    try:
        given = json.loads(past.signatures)
    except (TypeError, ValueError, RecursionError):
        return None
    if not isinstance(given, list) or not given or not all(map(_is_one, given)):
        return None
    return tuple(Signature(**one) for one in given)


def _is_one(given: Any) -> bool:
    return (
        isinstance(given, dict)
        and given.keys() == _MEMBERS
        and all(isinstance(value, str) for value in given.values())
    )


def wrong_signatures(
    past: PastAct, told: Mapping[str, Any], keys: Mapping[str, PublicKey]
) -> Iterator[str]:
    """What is wrong with an act's signatures, given the keys that were valid at it."""
    signatures = signatures_of(past)
    if signatures is None:
        yield phrase("its signatures can't be read")
        return
    line = _line(past, told) if signatures else None
    for one in signatures:
        key = keys.get(one.key)
        if key is None:
            yield phrase("it is signed with a key that was not valid then ({key})", key=one.key)
        elif key.person != one.by:
            yield phrase("the key that signed it for {person} is not theirs", person=one.by)
        elif line is None or not is_signature(key.public, line, one.signature):
            yield phrase("the signature of {person} is not one of this act", person=one.by)


def _line(past: PastAct, told: Mapping[str, Any]) -> bytes | None:
    try:
        return signed_line(replace(past, signatures=None), told).encode()
    except (TypeError, ValueError):
        return None
