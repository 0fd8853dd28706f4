"""What rows refer to: other facts, in the record or in the same files, and the standard."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from crewtrack.bad_cell import likely, shown
from crewtrack.errors import Fault
from crewtrack.facts import RECORDED, InStandard, Kind, Reference, Value
from crewtrack.office.given_rows import GivenRows
from crewtrack.office.office import editions_of
from crewtrack.phrases import Phrase, joined, phrase
from crewtrack.records.acting import Act
from crewtrack.records.finding import find

_ONE = {kind.name: kind for kind in RECORDED}
_FEW = 12
_ONE_BY_ONE = 50
"""Up to so many keys are looked up one by one: of a long history all of them take longer."""


def _in_files(kind: str) -> str:
    return phrase("write the key of one that is there, or add it to {file}", file=f"{kind}.csv")


class References:
    """All keys that may be referred to: those in the record, and those that are being read.

    The keys of rows that have faults count too, so that one mistake is told once. ``struck``
    are, by kind, keys in the record that are being struck out; ``cure`` says, for a kind's name,
    what to do where none is near.
    """

    def __init__(
        self,
        act: Act,
        sheets: Sequence[GivenRows],
        struck: Mapping[str, Collection[Value]] = MappingProxyType({}),
        cure: Callable[[str], str] = _in_files,
    ) -> None:
        self._act = act
        self._struck = struck
        self._cure = cure
        self._read = {sheet.kind.name: sheet for sheet in sheets}
        self._keys: dict[str, set[Value]] = {}
        editions = editions_of(act.editions()).standards
        self._tasks = {task for edition in editions for task in edition.tasks}
        self._named: dict[str, set[str]] = {}
        for edition in editions:
            for key, qualification in edition.qualifications.items():
                self._named.setdefault(key, set()).update(qualification.named())

    def faults(self, sheet: GivenRows) -> list[Fault]:
        """Every reference in a sheet that leads nowhere."""
        found: list[Fault] = []
        for index, column in enumerate(sheet.kind.columns):
            match column.type:
                case Reference(kind) if self._whole(kind) and self._astray(sheet, index, kind):
                    known = _Known(phrase(_ONE[kind].one), self.keys(kind), self._cure(kind))
                    found += self._missing(sheet, index, known)
                case InStandard("tasks"):
                    found += self._missing(sheet, index, _defined(phrase("task"), self._tasks))
                case InStandard("qualifications"):
                    known = _defined(phrase("qualification"), self._named)
                    found += self._missing(sheet, index, known)
                case InStandard("requirements"):
                    found += self._not_named(sheet, index)
        return found

    def notices(self, sheet: GivenRows) -> list[str]:
        """What is taken as it is written, though nobody on the books is meant by it."""
        told: dict[Value, str] = {}
        for name in ("by", "withdrawn_by"):
            if name in sheet.kind.names:
                index = sheet.kind.index(name)
                for number, row in enumerate(sheet.rows):
                    if row[index] is not None and row[index] not in self.keys("people"):
                        place = sheet.at(number)
                        who = shown(str(row[index]))
                        kept = phrase("{who} is not on the books; kept as it is", who=who)
                        told.setdefault(row[index], joined(": ", (place, name, kept)))
        return list(told.values())

    def keys(self, kind: str) -> set[Value]:
        """The keys of a kind that has a single key column."""
        if kind not in self._keys:
            held: Collection[Value] = self._act.keys(_ONE[kind])
            self._keys[kind] = set(held).difference(self._struck.get(kind, ()))
            if kind in self._read:
                self._keys[kind].update(row[0] for row in self._read[kind].rows)
        return self._keys[kind]

    def _astray(self, sheet: GivenRows, index: int, kind: str) -> bool:
        """Whether anything that a column names may not be there."""
        named = {row[index] for row in sheet.rows}.difference((None,))
        if kind in self._keys or len(named) > _ONE_BY_ONE:
            return True
        if kind in self._read:
            named.difference_update(row[0] for row in self._read[kind].rows)
        return not named.isdisjoint(self._struck.get(kind, ())) or not all(
            held is not None and not held.struck
            for held in (find(self._act, _ONE[kind], (key,)) for key in named)
        )

    def _whole(self, kind: str) -> bool:
        """Whether every key of a kind is known; where a file's could not all be read, nothing
        is said of what refers to them."""
        return kind not in self._read or self._read[kind].whole

    def _missing(self, sheet: GivenRows, index: int, known: "_Known") -> list[Fault]:
        name = sheet.kind.columns[index].name
        unknown = {row[index] for row in sheet.rows}.difference(known.keys, (None,))
        if not unknown:
            return []
        cures: dict[Value, str] = {}
        found = []
        for number, row in enumerate(sheet.rows):
            value = row[index]
            if value in unknown:
                if value not in cures:
                    cures[value] = likely(str(value), map(str, known.keys)) or known.cure
                problem = phrase("no {what} {key}", what=known.what, key=shown(str(value)))
                found.append(self._fault(sheet, number, name, problem, cures[value]))
        return found

    def _not_named(self, sheet: GivenRows, index: int) -> list[Fault]:
        """A waiver's requirement must have an id that the standard wrote for that
        qualification."""
        kind: Kind = sheet.kind
        qualification = kind.index("qualification")
        found = []
        for number, row in enumerate(sheet.rows):
            named = self._named.get(str(row[qualification]))
            if named is not None and row[index] is not None and row[index] not in named:
                problem = phrase(
                    "{qualification} has no requirement with the written id {key}",
                    qualification=row[qualification],
                    key=shown(str(row[index])),
                )
                cure = likely(str(row[index]), named) or _that_can_be(named)
                found.append(self._fault(sheet, number, kind.columns[index].name, problem, cure))
        return found

    def _fault(self, sheet: GivenRows, number: int, field: str, problem: str, cure: str) -> Fault:
        return Fault(sheet.at(number), field, problem, cure)


@dataclass(frozen=True, slots=True)
class _Known:
    """What a column may name: the word for one, all of them, and the cure where none is near."""

    what: Phrase
    keys: Collection[Value]
    cure: str


def _defined(what: Phrase, names: Collection[str]) -> _Known:
    """What some edition of the standard defines."""
    if not names:
        return _Known(what, names, phrase("the standard has none"))
    few = ", ".join((*sorted(names)[:_FEW], *(["…"] if len(names) > _FEW else [])))
    return _Known(what, names, phrase("the standard has {names}", names=few))


def _that_can_be(named: set[str]) -> str:
    if not named:
        return phrase("none of its requirements has an id of its own, so none can be waived")
    return phrase("those that can be waived are {names}", names=", ".join(sorted(named)))
