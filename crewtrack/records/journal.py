"""The journal: every act, chained to the one before by SHA-256 over its canonical form.

Who signs an act signs that same form, with the edition of the standard in it that was in effect,
but without the signatures; the digest is over all of it, signatures included.
"""

import json
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from typing import Any, Final, Protocol

from sqlalchemy import Connection

from crewtrack.records.canonical import Json, canonical
from crewtrack.records.digests import NO_DIGEST

_COLUMNS: Final = (
    "seq, id, instant, author, kind, reason, facts, previous, digest, edition, signatures"
)


@dataclass(frozen=True, slots=True)
class Head:
    """The last act up to some instant: its place in the chain and its digest (64 hex digits).
    Before the first act ``seq`` is 0 and the digest all zeros."""

    seq: int = 0
    digest: str = NO_DIGEST


@dataclass(frozen=True, slots=True)
class Draft:
    """What is known of an act before it is chained. ``kind`` is what was done ("import");
    ``instant`` is aware; ``id`` is the act's own, unlike any other's."""

    id: str
    instant: datetime
    author: str
    kind: str
    reason: str | None


@dataclass(frozen=True, slots=True)
class PastAct:
    """An act as the journal holds it. ``instant`` is UTC text with microseconds; ``facts`` the
    canonical JSON of the count and digest of its rows by kind; digests are 64 hex digits.
    ``edition`` and ``signatures`` (canonical JSON) where it is signed."""

    seq: int
    id: str
    instant: str
    author: str
    kind: str
    reason: str | None
    facts: str
    previous: str
    digest: str
    edition: str | None = None
    signatures: str | None = None

    @property
    def at(self) -> datetime:
        """The instant, aware, in UTC."""
        return datetime.fromisoformat(self.instant)


def instant_text(instant: datetime) -> str:
    """An aware instant as the journal writes it: UTC, microseconds, 27 characters."""
    return instant.astimezone(UTC).replace(tzinfo=None).isoformat(timespec="microseconds") + "Z"


class Signer(Protocol):
    """Somebody who signs: ``by`` is the person's key, ``key`` the name of the signing key."""

    @property
    def by(self) -> str: ...
    @property
    def key(self) -> str: ...
    def sign(self, line: bytes) -> str:
        """The signature of a line, in hex digits."""


def signed_line(act: PastAct, facts: Json) -> str:
    """The canonical form of an act that is signed: all but its signatures and its digest; no
    reason where none was given, no edition where it is not signed."""
    members: dict[str, Json] = {
        "seq": act.seq, "id": act.id, "instant": act.instant, "author": act.author,
        "kind": act.kind, "facts": facts, "previous": act.previous,
    }  # fmt: skip
    members |= {} if act.reason is None else {"reason": act.reason}
    members |= {} if act.edition is None else {"edition": act.edition}
    return canonical(members)


def act_line(act: PastAct, facts: Json) -> str:
    """The canonical form of an act that is digested: with its signatures, where it has any."""
    line = signed_line(act, facts)
    if act.signatures is None:
        return line
    return canonical({**json.loads(line), "signatures": json.loads(act.signatures)})


def chained(
    draft: Draft,
    facts: Mapping[str, Json],
    before: Head,
    edition: str | None = None,
    signers: Sequence[Signer] = (),
) -> PastAct:
    """The act that follows ``before`` in the chain, signed by everybody who signs it."""
    act = PastAct(
        before.seq + 1, draft.id, instant_text(draft.instant), draft.author, draft.kind,
        draft.reason, canonical(facts), before.digest, NO_DIGEST, edition if signers else None,
    )  # fmt: skip
    if signers:
        line = signed_line(act, facts).encode()
        signatures: list[Json] = [
            {"by": s.by, "key": s.key, "signature": s.sign(line)} for s in signers
        ]
        act = replace(act, signatures=canonical(signatures))
    return with_digest(act, facts)


def with_digest(act: PastAct, facts: Json) -> PastAct:
    """The act with the digest that its other values give."""
    return replace(act, digest=sha256(act_line(act, facts).encode()).hexdigest())


def told_by(act: PastAct) -> Mapping[str, Any] | None:
    """What an act says of its rows: by kind, their count and their digest; None where that can't
    be read."""
    try:
        told = json.loads(act.facts)
    except (TypeError, ValueError, RecursionError):
        return None
    return told if isinstance(told, dict) else None


def append(connection: Connection, act: PastAct) -> None:
    """Write an act at the end of the journal."""
    values: tuple[Any, ...] = (
        act.seq, act.id, act.instant, act.author, act.kind, act.reason, act.facts, act.previous,
        act.digest, act.edition, act.signatures,
    )  # fmt: skip
    marks = ",".join("?" * len(values))
    connection.exec_driver_sql(f"INSERT INTO acts ({_COLUMNS}) VALUES ({marks})", values)


def head(connection: Connection, known_at: datetime | None) -> Head:
    """The last act recorded by ``known_at`` (None: of all)."""
    by = "" if known_at is None else "WHERE instant <= ?"
    parameters = () if known_at is None else (instant_text(known_at),)
    found = connection.exec_driver_sql(
        f"SELECT seq, digest FROM acts {by} ORDER BY seq DESC LIMIT 1", parameters
    ).one_or_none()
    return Head() if found is None else Head(*found)


def acts_back(
    connection: Connection, before: int, most: int, like: str = ""
) -> tuple[PastAct, ...]:
    """Up to ``most`` acts before a place in the chain, the newest first, of those that have the
    text ``like`` in their author, kind or reason."""
    pattern = f"%{re.sub(_WILD, _ESCAPED, like)}%"
    rows = connection.exec_driver_sql(
        f"SELECT {_COLUMNS} FROM acts WHERE seq < ? AND"
        r" (author LIKE ? ESCAPE '\' OR kind LIKE ? ESCAPE '\' OR reason LIKE ? ESCAPE '\')"
        " ORDER BY seq DESC LIMIT ?",
        (before, pattern, pattern, pattern, most),
    )
    return tuple(PastAct(*row) for row in rows)


_WILD: Final = r"[\\%_]"
_ESCAPED: Final = r"\\\g<0>"


def set_back(connection: Connection, by: timedelta) -> dict[int, int]:
    """The acts that are dated earlier, by more than ``by``, than one before them in the chain:
    their places, each with that of the latest-dated act before it."""
    found: dict[int, int] = {}
    latest, after = "", 0
    for seq, instant in connection.exec_driver_sql("SELECT seq, instant FROM acts ORDER BY seq"):
        if instant >= latest:
            latest, after = instant, seq
        elif datetime.fromisoformat(latest) - datetime.fromisoformat(instant) > by:
            found[seq] = after
    return found


def acts_at(connection: Connection, places: Iterable[int]) -> dict[int, PastAct]:
    """The acts at some places in the chain, by place."""
    rows = connection.exec_driver_sql(
        f"SELECT {_COLUMNS} FROM acts WHERE seq IN (SELECT value FROM json_each(?))",
        (json.dumps([*places]),),
    )
    return {act.seq: act for act in (PastAct(*row) for row in rows)}


def acts(connection: Connection, through: int) -> Iterator[PastAct]:
    """The acts through a place in the chain, in order."""
    rows = connection.exec_driver_sql(
        f"SELECT {_COLUMNS} FROM acts WHERE seq <= ? ORDER BY seq", (through,)
    )
    for row in rows:
        yield PastAct(*row)
