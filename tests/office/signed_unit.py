"""A unit of four who sign in, with an act of every sort that is signed, and the ways in which
somebody who can write to its file would forge an act: with every digest worked out anew."""

import json
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import date
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

from crewtrack import facts
from crewtrack.facts import Row
from crewtrack.office import access, exporting, importing, keeping, signing
from crewtrack.office.entries import Entry, Order
from crewtrack.office.importing import ImportOrder
from crewtrack.office.office import Office, Session
from crewtrack.office.recording import record
from crewtrack.records.digests import NO_DIGEST, Tally, digest, edition_line, line_writer
from crewtrack.records.entries import key_column
from crewtrack.records.journal import PastAct, with_digest
from crewtrack.records.signatures import SigningKey
from crewtrack.records.stored import decoder, layout
from crewtrack.records.tables import EDITIONS
from crewtrack.records.verifying import Break
from tests import behind_its_back
from tests.office.given_by_hand import recovery, row, signoff, sortie
from tests.office.unit_at_work import STANDARD, Clock

PASSPHRASES: Final = {
    "K-01": "kelp under the slipway",
    "K-02": "nine gulls on one bollard",
    "K-03": "the tide table is wet",
    "K-04": "a heaving line too short",
}
CHIEF, EVALUATOR, OFFICER, PILOT = PASSPHRASES
DUTIES: Final = {EVALUATOR: ("evaluator",), OFFICER: ("officer",), PILOT: ("pilot",)}


@contextmanager
def signed_in(office: Office, person: str) -> Iterator[Order]:
    """Within, somebody is signed in and signs."""
    access.sign_in(office, person, PASSPHRASES[person])
    with access.signing(office, PASSPHRASES[person]):
        yield Order(person, "as agreed")
    access.sign_out(office)


def person_row(key: str, *duties: str) -> Row:
    """Somebody, with duties."""
    return row(facts.PEOPLE, person=key, name=f"Name of {key}", duties=duties)


def waiver(key: str = "W-1") -> Row:
    """A waiver that the chief grants."""
    return row(
        facts.WAIVERS, waiver=key, person=PILOT, qualification="deck-pilot",
        requirement="recency", from_=date(2026, 6, 1), through=date(2026, 6, 30),
        reason="storms", by=CHIEF, kind="waiver",
    )  # fmt: skip


def make(folder: Path) -> Path:
    """The unit's record."""
    standard, path = folder / "unit.toml", folder / "record.crewtrack"
    standard.write_text(STANDARD, encoding="utf-8")
    clock = Clock()
    keeping.init(path, standard, CHIEF, clock,
                 keeping.Chief(CHIEF, "Name of K-01", PASSPHRASES[CHIEF]))  # fmt: skip
    with Office.open(path, clock) as office:
        with signed_in(office, CHIEF) as order:
            people = [Entry(facts.PEOPLE, person_row(key, *held)) for key, held in DUTIES.items()]
            record(office, people, order)
            for key in DUTIES:
                access.give_access(office, key, PASSPHRASES[key], order)
            record(office, [Entry(facts.WAIVERS, waiver())], order)
        _at_work(office, folder)
    return path


def _at_work(office: Office, folder: Path) -> None:
    """A pilot logs, an evaluator signs off twice and withdraws one, an officer imports."""
    access.sign_in(office, PILOT, PASSPHRASES[PILOT])
    record(office, [Entry(facts.SORTIES, sortie("S-1")),
                    Entry(facts.PERFORMANCES, recovery(PILOT, "S-1"))], Order(PILOT))  # fmt: skip
    with signed_in(office, EVALUATOR) as order:
        for key in ("G-1", "G-2"):
            signing.sign_off(office, signoff(key, PILOT, evaluator=EVALUATOR), order)
        withdrawal = signing.Withdrawal("G-2", 1, date(2026, 6, 1), EVALUATOR, "not seen whole")
        signing.withdraw(office, withdrawal, order)
    given = folder / "vessels.csv"
    given.write_text("vessel,name\nV-1,Juniper\nV-2,Alder\n", encoding="utf-8")
    with signed_in(office, OFFICER):
        importing.import_evidence(office, [given], ImportOrder(OFFICER))


def copy_of(made: Path, folder: Path) -> Path:
    """A copy of a record."""
    return Path(shutil.copy(made, folder / made.name))


def found(path: Path) -> tuple[Break, ...]:
    """What ``verify`` finds in a record."""
    with Office.open(path, Clock()) as office:
        return keeping.verify(office)


def exported(path: Path, folder: Path) -> Path:
    """The journal of a record, written out."""
    with Office.open(path, Clock()) as office:
        office.session = Session(CHIEF, "whoever may export")
        exporting.export(office, folder)
    return folder / exporting.JOURNAL


_KEYS: Final = "SELECT id, {} FROM {} WHERE revision = 1"
_ROWS: Final = "SELECT id, act, revision, struck, {} FROM {} ORDER BY id"
Line = dict[str, Any]
COLUMNS: Final = (
    "seq, id, instant, author, kind, reason, facts, previous, digest, edition, signatures"
)


def canonical(value: Any) -> str:
    """Canonical JSON, of what journals of this unit hold."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


@dataclass
class ForgedJournal:
    """An exported journal in the hands of somebody who can write every line of it, and works all
    digests out anew, as ``acts``: each with its rows."""

    acts: list[tuple[Line, list[Line]]] = field(default_factory=list)

    @classmethod
    def read(cls, path: Path) -> "ForgedJournal":
        """The journal as it is."""
        made = cls()
        for text in path.read_text(encoding="utf-8").splitlines():
            line = json.loads(text)
            if "act" in line:
                made.acts.append((line["act"], []))
            else:
                made.acts[-1][1].append(line)
        return made

    def act(self, kind: str, number: int = 0) -> tuple[Line, list[Line]]:
        """An act of a kind, with its rows."""
        return [one for one in self.acts if one[0]["kind"] == kind][number]

    def add(self, author: str, kind: str, *rows: Line) -> Line:
        """One more act at the end, not signed."""
        last = self.acts[-1][0]
        instant = last["instant"]
        act = {"seq": last["seq"] + 1, "id": f"forged-{last['seq']}", "instant": instant,
               "author": author, "kind": kind, "facts": {}, "previous": ""}  # fmt: skip
        self.acts.append((act, list(rows)))
        return act

    def write(self, path: Path, key: SigningKey | None = None) -> Path:
        """Write it with digests that are right. Acts whose signatures are ``"forge"`` are signed
        anew with ``key``."""
        previous, lines = "0" * 64, []
        for seq, (act, rows) in enumerate(self.acts, start=1):
            texts = [canonical(one) for one in rows]
            act |= {"seq": seq, "previous": previous, "facts": _tallies(rows, texts)}
            if act.get("signatures") == "forge" and key is not None:
                del act["signatures"]
                signature = key.sign(canonical(act).encode())
                act["signatures"] = [{"by": key.by, "key": key.key, "signature": signature}]
            previous = sha256(canonical(act).encode()).hexdigest()
            lines += [f'{{"act":{canonical(act)},"digest":"{previous}"}}', *texts]
        path.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8", newline="")
        return path


def _tallies(rows: list[Line], texts: list[str]) -> Line:
    digests: dict[str, list[bytes]] = {}
    for one, text in zip(rows, texts, strict=True):
        digests.setdefault(one["kind"], []).append(sha256(text.encode()).digest())
    return {
        kind: {"count": len(held), "digest": sha256(b"".join(held)).hexdigest()}
        for kind, held in digests.items()
    }


@contextmanager
def unguarded(path: Path) -> Iterator[sqlite3.Connection]:
    """A connection to the file that may change anything; the triggers are put back afterwards,
    and every digest is worked out anew."""
    with behind_its_back.unguarded(path) as connection:
        yield connection
        _rechain(connection)


def _rechain(connection: sqlite3.Connection) -> None:
    tallies: dict[int, dict[str, Tally]] = {}
    named = [kind for kind in facts.RECORDED if facts.Key() in [c.type for c in kind.columns]]
    keys = {kind.name: dict(connection.execute(_KEYS.format(key_column(kind.name), kind.name)))
            for kind in named}  # fmt: skip
    for act, edition, effective, source in connection.execute(
        "SELECT act, edition, effective, source FROM editions ORDER BY id"
    ):
        line = edition_line(edition, date.fromisoformat(effective), source)
        tallies.setdefault(act, {}).setdefault(EDITIONS, Tally()).add([digest(line)])
    for kind in facts.RECORDED:
        decode, write = decoder(kind, keys), line_writer(kind)
        sql = _ROWS.format(layout(kind).selected, kind.name)
        for ident, act, revision, struck, *values in connection.execute(sql).fetchall():
            hashed = digest(write(revision, decode(values), struck == 1))
            connection.execute(f"UPDATE {kind.name} SET digest = ? WHERE id = ?", (hashed, ident))
            tallies.setdefault(act, {}).setdefault(kind.name, Tally()).add([hashed])
    before = NO_DIGEST
    for values in connection.execute(f"SELECT {COLUMNS} FROM acts ORDER BY seq").fetchall():
        told = {name: tally.told() for name, tally in tallies.get(values[0], {}).items()}
        act = replace(PastAct(*values), facts=canonical(told), previous=before)
        before = with_digest(act, told).digest
        connection.execute("UPDATE acts SET facts = ?, previous = ?, digest = ? WHERE seq = ?",
                           (act.facts, act.previous, before, act.seq))  # fmt: skip
