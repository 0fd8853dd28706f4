"""One person's papers: certificates, assignments, waivers and extensions, stand-downs; each with
a word for where it stands on the day."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Any, Final

from crewtrack.engine.certified import covered
from crewtrack.engine.evidence import Books
from crewtrack.engine.requirement import Certified, inside
from crewtrack.engine.spans import as_date
from crewtrack.engine.standard import Standard
from crewtrack.facts import CERTIFICATES, WAIVERS, Kind, Row, Value
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import choice_told, label
from crewtrack.screens.language import say
from crewtrack.screens.tables import Table, TableColumn

_SHOWN: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "certificates": ("kind", "number", "issued", "expires", "revoked", "certificate"),
        "assignments": ("qualification", "from", "through"),
        "waivers": (
            "kind", "qualification", "requirement", "from", "through", "by", "reason", "waiver",
        ),
        "standdowns": ("qualification", "from", "through", "by", "reason", "standdown"),
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class FactLine:
    """One fact of a person, and in words where it stands on the day; ``later`` where it is dated
    after the day and so counts for nothing yet."""

    kind: Kind
    row: Row
    stands: str
    later: bool

    def value(self, name: str) -> Value:
        """The value of a column."""
        return self.row[self.kind.index(name)]

    @property
    def key(self) -> tuple[Value, ...]:
        """The values of the key columns."""
        return tuple(self.value(name) for name in self.kind.key)


Covers = Mapping[str, int]
"""The last day that a certificate covers by the standard, by its key."""


def certificate_covers(books: Books, standard: Standard, on: date) -> Covers:
    """How long a person's certificates cover, as known by a day: by the requirement that lets
    them longest; none of a kind that nothing asks for."""
    asked = _certified(standard)
    found: dict[str, int] = {}
    for one in books.certificates:
        lasts = (
            covered(requirement, one, books.person.born, on.toordinal())[1]
            for requirement in asked
            if requirement.kind == one.kind
        )
        last = max(lasts, default=None)
        if last is not None:
            found[one.key] = last
    return found


def _certified(standard: Standard) -> tuple[Certified, ...]:
    needs = (need for one in standard.qualifications.values() for need in one.needs)
    each = (requirement for need in needs for requirement in inside(need))
    return tuple(requirement for requirement in each if isinstance(requirement, Certified))


def fact_lines(
    kind: Kind,
    rows: Iterable[Row],
    person: str,
    on: date,
    covers: Covers = MappingProxyType({}),
) -> tuple[FactLine, ...]:
    """A person's facts of a kind, the newest first; ``covers`` are those of certificates."""
    place, first = kind.index("person"), kind.index(_first(kind))
    mine = sorted((row for row in rows if row[place] == person), key=lambda row: str(row[first]))
    return tuple(_line(kind, row, on, covers) for row in reversed(mine))


def fact_table(kind: Kind, lines: tuple[FactLine, ...], titles: Mapping[str, str]) -> Table:
    """The facts as a table; ``titles`` are those of qualifications, by key."""
    told = (_column(kind, name, titles) for name in _SHOWN[kind.name])
    stands = TableColumn(say("On the day"), lambda line: line.stands, order=_stand_order)
    first, *rest = told
    return Table((first, stands, *rest), lines, lambda line: line.key)


def _first(kind: Kind) -> str:
    return "issued" if kind is CERTIFICATES else "from"


def _line(kind: Kind, row: Row, on: date, covers: Covers) -> FactLine:
    def value(name: str) -> Any:
        return row[kind.index(name)]

    first = value(_first(kind))
    if first > on:
        return FactLine(kind, row, say("later, does not count yet"), True)
    if kind is CERTIFICATES:
        return FactLine(kind, row, _certificate(value, on, covers), False)
    return FactLine(kind, row, _span(value("through"), on), False)


def _certificate(value: Callable[[str], Any], on: date, covers: Covers) -> str:
    revoked, expires = value("revoked"), value("expires")
    if revoked is not None and revoked <= on:
        return say("revoked")
    last = covers.get(value("certificate"))
    if last is not None:
        return _cover_told(last, on)
    if expires is not None and expires < on:
        return say("expired")
    return say("held")


def _cover_told(last: int, on: date) -> str:
    day = as_date(last)
    if day is None:
        return say("counts, no limit")
    if day < on:
        return say("counted through {day}", day=day)
    return say("counts through {day}", day=day)


def _span(through: date | None, on: date) -> str:
    if through is not None and through < on:
        return say("over")
    return say("in force") if through else say("in force, until ended")


def _stand_order(line: FactLine) -> tuple[bool, str]:
    return line.later, line.stands


def _column(kind: Kind, name: str, titles: Mapping[str, str]) -> TableColumn:
    def text(line: FactLine) -> str:
        return _told(name, line.value(name), kind, titles)

    def order(line: FactLine) -> str:
        return text(line).casefold()

    return TableColumn(label(kind, name), text, order)


def _told(name: str, value: Value, kind: Kind, titles: Mapping[str, str]) -> str:
    if name == "qualification":
        return safe(titles.get(str(value), str(value))) if value else say("all of them")
    if value is None:
        return ""
    if name == "kind" and kind is WAIVERS:
        return choice_told(str(value))
    return safe(str(value))
