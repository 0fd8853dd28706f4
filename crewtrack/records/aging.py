"""How long ago facts last mattered, for those that go once they are past retention.

People, assignments, boats, aircraft, keys, policies and editions stay. What is done on a sortie
goes with it and a certification with its sign-off, so they are no facts of their own here. Facts
that are struck out are among them: what they say is still in the record.
"""

import json
import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial
from itertools import groupby
from operator import itemgetter
from typing import Any, Final
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from crewtrack import facts
from crewtrack.facts import Kind, Reference
from crewtrack.records.connecting import fetch
from crewtrack.records.damage import as_recorded
from crewtrack.records.entries import key_by_entry
from crewtrack.records.local_days import local_days
from crewtrack.records.newest import newest, newest_or_struck
from crewtrack.records.reading import ALL, Reading

AGING: Final = (
    facts.SORTIES, facts.SIGNOFFS, facts.CERTIFICATES, facts.WAIVERS, facts.STANDDOWNS,
    facts.OCCURRENCES, facts.DISPUTES,
)  # fmt: skip
"""The kinds of fact that go in the end."""
_PARTS: Final = {
    facts.SORTIES.name: (facts.PERFORMANCES, "sortie_id"),
    facts.SIGNOFFS.name: (facts.CERTIFICATIONS, "signoff_id"),
}
"""What goes together with a fact, and the column that names it."""

_ALIKE: Final = re.compile(r"\\+\+")

FactName = tuple[str, str]
"""A kind's name and a key."""


@dataclass(frozen=True, slots=True)
class Aged:
    """A fact that last mattered on a day before the cutoff. ``entries`` has all that goes with it,
    itself included, by kind; ``person`` whose it is, None for nobody's own. ``open``: nobody has
    answered it. ``newest``: it holds the newest row of a table. ``names`` are the facts of these
    kinds that it names, by any revision of it."""

    kind: str
    key: str
    person: str | None
    last: date
    entries: Mapping[str, tuple[int, ...]]
    open: bool
    newest: bool
    names: tuple[FactName, ...]

    @property
    def count(self) -> int:
        """How many facts it is with all that goes with it."""
        return sum(map(len, self.entries.values()))


@dataclass(frozen=True, slots=True)
class Aging:
    """What is past, and ``staying``: each fact that is named by one that is not, with the name of
    one of those."""

    past: tuple[Aged, ...]
    staying: Mapping[FactName, FactName]


_Dated = tuple[int, str, int | None, int | None, bool]
"""Entry, key, the person's entry, the last day that mattered (None: it still does), open."""


def aging(reading: Reading, zone: ZoneInfo, cutoff: int) -> Aging:
    """What last mattered before a day (ordinal); days are those of ``zone``."""
    connection = reading.connection
    with as_recorded("facts"):
        names = _Names(connection)
        past = tuple(
            aged
            for kind in AGING
            for aged in _aged(connection, kind, _past(connection, kind, zone, cutoff), names)
        )
    told = {(one.kind, one.key) for one in past}
    staying = ((of, named) for of, named in names.all() if of not in told)
    return Aging(past, {to: of for of, named in staying for to in named})


def _past(connection: Connection, kind: Kind, zone: ZoneInfo, cutoff: int) -> dict[int, _Dated]:
    dated = _DATED[kind.name](connection, zone)
    return {one[0]: one for one in dated if one[3] is not None and one[3] < cutoff}


def _aged(
    connection: Connection, kind: Kind, past: Mapping[int, _Dated], names: "_Names"
) -> Iterator[Aged]:
    parts, column = _PARTS.get(kind.name, (None, ""))
    with_it = _parts(connection, parts, column, past) if parts else {}
    newest_of = {one.name: _newest_entry(connection, one) for one in (kind, parts) if one}
    for entry, (_, key, person, last, unanswered) in past.items():
        entries: dict[str, tuple[int, ...]] = {kind.name: (entry,)}
        if parts and entry in with_it:
            entries[parts.name] = with_it[entry]
        yield Aged(
            kind.name,
            key,
            names.people.get(person or 0),
            date.fromordinal(last or 1),
            entries,
            unanswered,
            any(newest_of[name] in held for name, held in entries.items()),
            tuple(sorted(names.of(kind.name, key))),
        )


def _parts(
    connection: Connection, kind: Kind, column: str, of: Iterable[int]
) -> dict[int, tuple[int, ...]]:
    """The entries of a kind by the entry that they name in a column of their key."""
    among = f"{column} IN (SELECT value FROM json_each(?))"
    sql = f"SELECT {column}, id FROM {kind.name} WHERE revision = 1 AND {among} ORDER BY 1, 2"
    rows = fetch(connection, sql, (json.dumps(list(of)),))
    return {
        owner: tuple(entry for _, entry in held) for owner, held in groupby(rows, itemgetter(0))
    }


def _newest_entry(connection: Connection, kind: Kind) -> int | None:
    found = fetch(connection, f"SELECT entry FROM {kind.name} ORDER BY id DESC LIMIT 1")
    return found[0][0] if found else None


class _Names:
    """Which facts name which, among the kinds that go; and the keys of ``people``."""

    def __init__(self, connection: Connection) -> None:
        self.people = key_by_entry(connection, facts.PEOPLE.name)
        self._found: defaultdict[FactName, set[FactName]] = defaultdict(set)
        keys = {kind.name: key_by_entry(connection, kind.name) for kind in AGING}
        for kind in AGING:
            for column in kind.columns:
                if isinstance(column.type, Reference) and column.type.kind in keys:
                    named = f"{column.name}_id"
                    sql = f"SELECT DISTINCT entry, {named} FROM {kind.name} WHERE {named} > 0"
                    for entry, to in fetch(connection, sql):
                        of = kind.name, keys[kind.name][entry]
                        self._found[of].add((column.type.kind, keys[column.type.kind][to]))
        for _, key, kind_name, fact in newest(
            connection, facts.DISPUTES, "entry, dispute, kind, fact", ALL
        ):
            self._found[facts.DISPUTES.name, key].add(_whole(kind_name, fact))

    def of(self, kind: str, key: str) -> set[FactName]:
        """Those that a fact names."""
        return self._found.get((kind, key), set())

    def all(self) -> Iterable[tuple[FactName, set[FactName]]]:
        """Each fact that names any, and those."""
        return self._found.items()


def _whole(kind: str, fact: str) -> FactName:
    """What a dispute is about, or what that goes with: the first value of its key, from a text
    with `` + `` between the values and a backslash before a word that looks like that mark."""
    words = fact.split(" + ")[0].split(" ")
    key = " ".join(word[1:] if _ALIKE.fullmatch(word) else word for word in words)
    owners = {parts.name: owner for owner, (parts, _) in _PARTS.items()}
    return owners.get(kind, kind), key


def _rows(connection: Connection, kind: Kind, columns: str) -> list[Any]:
    """The newest revision of each fact, struck out or not."""
    return newest_or_struck(connection, kind, columns, ALL)[0]


def _day(text: str | None) -> int | None:
    return None if text is None else date.fromisoformat(text).toordinal()


def _latest(*days: str | None) -> int | None:
    return _day(max((day for day in days if day is not None), default=None))


def _sorties(connection: Connection, zone: ZoneInfo) -> Iterator[_Dated]:
    columns = "entry, sortie, CAST(strftime('%s',launched) AS INTEGER)"
    rows = _rows(connection, facts.SORTIES, columns)
    days = local_days([row[2] for row in rows], zone)
    for (entry, key, _), day in zip(rows, days, strict=True):
        yield entry, key, None, day, False


def _signoffs(connection: Connection, zone: ZoneInfo) -> Iterator[_Dated]:
    certified = dict(
        fetch(connection, "SELECT signoff_id, max(date) FROM certifications GROUP BY signoff_id")
    )
    columns = "entry, signoff, person_id, date, withdrawn"
    for entry, key, person, day, withdrawn in _rows(connection, facts.SIGNOFFS, columns):
        yield entry, key, person, _latest(day, withdrawn, certified.get(entry)), False


def _certificates(connection: Connection, zone: ZoneInfo) -> Iterator[_Dated]:
    columns = "entry, certificate, person_id, issued, expires, revoked"
    rows = _rows(connection, facts.CERTIFICATES, columns)
    for entry, key, person, issued, expires, revoked in rows:
        yield entry, key, person, _day(revoked or expires or issued), False


def _ending(kind: Kind, connection: Connection, zone: ZoneInfo) -> Iterator[_Dated]:
    """Waivers or stand-downs, which matter through their last day."""
    columns = f"entry, {kind.key[0]}, person_id, through"
    for entry, key, person, last in _rows(connection, kind, columns):
        yield entry, key, person, _day(last), False


def _occurrences(connection: Connection, zone: ZoneInfo) -> Iterator[_Dated]:
    columns = "entry, occurrence, CAST(strftime('%s',happened) AS INTEGER), answered"
    rows = _rows(connection, facts.OCCURRENCES, columns)
    days = local_days([row[2] for row in rows], zone)
    for (entry, key, _, answered), day in zip(rows, days, strict=True):
        yield entry, key, None, max(day, _day(answered) or 0), answered is None


def _disputes(connection: Connection, zone: ZoneInfo) -> Iterator[_Dated]:
    columns = "entry, dispute, by_id, raised, answered"
    for entry, key, person, raised, answered in _rows(connection, facts.DISPUTES, columns):
        yield entry, key, person, _latest(raised, answered), answered is None


_DATED: Final[Mapping[str, Callable[[Connection, ZoneInfo], Iterator[_Dated]]]] = {
    facts.SORTIES.name: _sorties,
    facts.SIGNOFFS.name: _signoffs,
    facts.CERTIFICATES.name: _certificates,
    facts.WAIVERS.name: partial(_ending, facts.WAIVERS),
    facts.STANDDOWNS.name: partial(_ending, facts.STANDDOWNS),
    facts.OCCURRENCES.name: _occurrences,
    facts.DISPUTES.name: _disputes,
}
