"""One line of an exported journal, read back: an act, or a row with its digest.

A line is taken only in its one canonical form, so that no two programs can read it differently.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from typing import Any, Final

from crewtrack import facts
from crewtrack.facts import RECORDED, Kind, Row, Value
from crewtrack.phrases import phrase
from crewtrack.records.canonical import canonical
from crewtrack.records.digests import NO_DIGEST
from crewtrack.records.journal import PastAct, act_line
from crewtrack.records.reading import StoredEdition
from crewtrack.records.recorded_acts import Wrote
from crewtrack.records.tables import EDITIONS, SEALS

_BEGINS, _ENDS = '{"act":', ',"digest":"'
_TEXTS: Final = ("id", "instant", "author", "kind", "previous")
_MAY_LACK: Final = ("reason", "edition")
_INSTANT: Final = 27
_KINDS: Final = {kind.name: kind for kind in RECORDED}
_PLACES: Final = {name: place for place, name in enumerate((EDITIONS, *_KINDS, SEALS))}


_NOT_OF_KIND: Final = phrase("its row is not one of its kind")


class LineWrong(Exception):
    """A line that no journal has; the message says why."""


@dataclass(frozen=True, slots=True)
class ActLine:
    """An act, what it tells of its rows, and whether its digest is that of what it holds."""

    past: PastAct
    told: Mapping[str, Any]
    own_digest: bool


@dataclass(frozen=True, slots=True)
class RowLine:
    """A row: its kind, what the line holds, and its digest; of one that is sealed only kind and
    digest are left."""

    kind: str
    value: Mapping[str, Any]
    digest: bytes

    @property
    def sealed(self) -> bool:
        """Whether its contents have been taken out."""
        return "sealed" in self.value


@dataclass(frozen=True, slots=True)
class Seal:
    """A row that was sealed: the act that recorded it, its kind and its digest (hex digits)."""

    of: int
    kind: str
    digest: str


Fact = tuple[Kind, tuple[str, ...], int]
"""Of which kind a row is, under which key, and its revision."""


def in_order(names: Mapping[str, Any]) -> tuple[str, ...]:
    """Kinds in the order in which an act's rows follow it."""
    return tuple(sorted(names, key=lambda name: (_PLACES.get(name, len(_PLACES)), name)))


def read_line(line: bytes) -> ActLine | RowLine:
    """The line; LineWrong where it is none."""
    try:
        text = line.decode("utf-8")
        value = json.loads(text)
        plain = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
        own_form = plain == text or canonical(value) == text
    except (ValueError, TypeError, RecursionError):
        raise LineWrong(phrase("it can't be read")) from None
    if not own_form or not isinstance(value, dict):
        raise LineWrong(phrase("it is not in canonical form"))
    return _act(text, value) if "act" in value else _row(line, value)


def _act(text: str, value: Mapping[str, Any]) -> ActLine:
    act, digest = value["act"], value.get("digest")
    if value.keys() != {"act", "digest"} or not isinstance(act, dict) or not _is_digest(digest):
        raise LineWrong(phrase("it is no act"))
    inner = text[len(_BEGINS) : text.rindex(_ENDS)]
    past, told = _past(act, str(digest)), act["facts"]
    if act_line(past, told) != inner:
        raise LineWrong(phrase("it is no act"))
    return ActLine(past, told, sha256(inner.encode()).hexdigest() == digest)


def _past(act: Mapping[str, Any], digest: str) -> PastAct:
    texts, seq, told = [act.get(name) for name in _TEXTS], act.get("seq"), act.get("facts")
    optional = [act.get(name) for name in _MAY_LACK]
    sound = (
        type(seq) is int
        and all(isinstance(text, str) for text in texts)
        and all(isinstance(text, str) for text in optional if text is not None)
        and len(str(act["instant"])) == _INSTANT
        and isinstance(told, dict)
        and all(map(_is_tally, told.values()))
    )
    if not sound:
        raise LineWrong(phrase("it is no act"))
    ident, instant, author, kind, previous = map(str, texts)
    signatures = canonical(act["signatures"]) if "signatures" in act else None
    return PastAct(int(act["seq"]), ident, instant, author, kind, act.get("reason"),
                   canonical(act["facts"]), previous, digest, act.get("edition"),
                   signatures)  # fmt: skip


def _is_tally(told: Any) -> bool:
    return (
        isinstance(told, dict)
        and told.keys() == {"count", "digest"}
        and type(told["count"]) is int
        and told["count"] > 0
        and _is_digest(told["digest"])
    )


def _is_digest(text: Any) -> bool:
    return isinstance(text, str) and len(text) == len(NO_DIGEST) and _is_hex(text)


def _is_hex(text: str) -> bool:
    return not set(text) - set("0123456789abcdef")


def _row(line: bytes, value: Mapping[str, Any]) -> RowLine:
    kind, row, revision = value.get("kind"), value.get("row"), value.get("revision")
    if value.keys() == {"kind", "sealed"} and isinstance(kind, str) and _is_digest(value["sealed"]):
        return RowLine(kind, value, bytes.fromhex(value["sealed"]))
    struck = value.get("struck", True) is True
    members = {"kind", "revision", "row"} <= value.keys() <= {"kind", "revision", "row", "struck"}
    sound = members and isinstance(kind, str) and isinstance(row, dict) and type(revision) is int
    if not sound or not struck or (revision or 0) < 1:
        raise LineWrong(phrase("it is neither an act nor a row"))
    return RowLine(str(kind), value, sha256(line).digest())


def fact_of(line: RowLine) -> Fact | None:
    """A row's kind, key and revision; None where it is none of a fact. LineWrong where it has no
    key."""
    kind = _KINDS.get(line.kind)
    if kind is None:
        return None
    key = [line.value["row"].get(name) for name in kind.key]
    if not all(isinstance(value, str) for value in key):
        raise LineWrong(phrase("its row has no key"))
    return kind, tuple(key), int(line.value["revision"])


def wrote_of(kind: Kind, line: RowLine) -> Wrote:
    """A row as the office judges it; LineWrong where it is none of its kind."""
    given = line.value["row"]
    try:
        if given.keys() - set(kind.names):
            raise ValueError(kind.name)
        row: Row = tuple([_value(column, given.get(column.name)) for column in kind.columns])
    except (TypeError, ValueError):
        raise LineWrong(_NOT_OF_KIND) from None
    return Wrote(kind, int(line.value["revision"]), row, "struck" in line.value)


def _value(column: facts.Column, given: Any) -> Value:
    """A value as the record has it; instants stay the text that they are."""
    match column.type, given:
        case facts.Choices(), None:
            return ()
        case _, None if not column.required:
            return None
        case facts.Choices(), list() if all(isinstance(one, str) for one in given):
            return tuple(given)
        case facts.Day(), str():
            return date.fromisoformat(given)
        case ((facts.Whole() | facts.Number()), (int() | float())):
            return given
        case ((facts.Whole() | facts.Number() | facts.Choices() | facts.Day()), _):
            raise ValueError(column.name)
        case _, str():
            return given
        case _:
            raise ValueError(column.name)


def seal_of(line: RowLine) -> Seal:
    """What an act sealed; LineWrong where it says of nothing."""
    row = line.value["row"]
    of, kind, digest = row.get("of"), row.get("kind"), row.get("digest")
    if type(of) is not int or not isinstance(kind, str) or not _is_digest(digest):
        raise LineWrong(_NOT_OF_KIND)
    return Seal(of, kind, str(digest))


def edition_of(line: RowLine, act: int) -> StoredEdition:
    """An edition of the standard; LineWrong where it is none."""
    row = line.value["row"]
    try:
        if row.keys() != {"edition", "effective", "source"}:
            raise ValueError(EDITIONS)
        name, source = row["edition"], row["source"]
        if not isinstance(name, str) or not isinstance(source, str):
            raise ValueError(EDITIONS)
        return StoredEdition(name, date.fromisoformat(row["effective"]), source, act)
    except (TypeError, ValueError):
        raise LineWrong(_NOT_OF_KIND) from None
