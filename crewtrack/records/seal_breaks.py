"""What verifying asks of what is sealed: that it stands where rows are missing, and only there."""

import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

from sqlalchemy import Connection

from crewtrack.records.connecting import fetch
from crewtrack.records.damage import UNREADABLE
from crewtrack.records.digests import digest
from crewtrack.records.journal import PastAct
from crewtrack.records.sealing import KIND, Seal
from crewtrack.records.tables import SEALS

_COLUMNS: Final = '"id", "act", "kind", "row", "entry", "revision", "of", "digest"'


@dataclass(slots=True)
class SealedRows:
    """The seals of one kind, the last id first: a stack from which verifying takes them as it
    passes their places."""

    left: list[tuple[int, int, bytes]] = field(default_factory=list)

    def before(self, ident: int) -> Iterator[tuple[int, bytes]]:
        """Take those that stand before a row: the acts that recorded them, and their digests."""
        while self.left and self.left[-1][0] < ident:
            _, of, hashed = self.left.pop()
            yield of, hashed

    def take(self, ident: int) -> bool:
        """Take the seal of a row that is there all the same, if there is one."""
        found = bool(self.left) and self.left[-1][0] == ident
        if found:
            self.left.pop()
        return found


@dataclass(slots=True)
class Seals:
    """All that is sealed: ``tallied`` the acts that sealed, each with the digests of its seals in
    their order; ``breaks`` are acts, what it is about, and what is wrong."""

    kinds: dict[str, SealedRows] = field(default_factory=dict)
    tallied: dict[int, list[bytes]] = field(default_factory=dict)
    breaks: list[tuple[int, str, str]] = field(default_factory=list)

    def of_kind(self, kind: str) -> SealedRows:
        """Those of a kind."""
        return self.kinds.get(kind) or SealedRows()


def read_seals(connection: Connection) -> Seals:
    """All seals as they lie in the table."""
    seals = Seals()
    rows = fetch(connection, f"SELECT {_COLUMNS} FROM seals NOT INDEXED ORDER BY id")
    for expected, (ident, act, *values) in enumerate(rows, start=1):
        seal, key = Seal(*values), f"row {ident}"
        if ident != expected:
            seals.breaks.append((act, key, f"stands in row {ident} instead of {expected}"))
        hashed = _hashed(seal)
        seals.tallied.setdefault(act, []).append(hashed)
        if not hashed:
            seals.breaks.append((act, key, "what is recorded here is not what the act recorded"))
        elif seal.of >= act:
            seals.breaks.append((act, key, "seals what came after it"))
        else:
            placed = (seal.row, seal.of, seal.digest)
            seals.kinds.setdefault(seal.kind, SealedRows()).left.append(placed)
    for held in seals.kinds.values():
        held.left.sort(reverse=True)
    return seals


def _hashed(seal: Seal) -> bytes:
    """The digest of a seal's line; empty where there can be none."""
    numbers = (seal.row, seal.entry, seal.revision, seal.of)
    try:
        if all(type(number) is int for number in numbers) and len(seal.digest) == 32:
            return digest(seal.line())
    except UNREADABLE:
        return b""
    return b""


def ill_signed(act: PastAct) -> str | None:
    """What is wrong with an act that seals, or calls itself one: sealing takes two people."""
    try:
        seals = SEALS in json.loads(act.facts)
        signers = {one["by"] for one in json.loads(act.signatures or "[]")}
    except UNREADABLE:
        return None  # told as a change of the act
    if not seals and act.kind != KIND:
        return None
    if not (seals and act.kind == KIND):
        return "only a sealing takes contents out, and nothing else is one"
    return None if len(signers) >= 2 else "two people sign what is sealed"
