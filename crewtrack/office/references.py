"""What rows refer to: other facts, in the record or in the same files, and the standard."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from crewtrack.bad_cell import likely, shown
from crewtrack.errors import Fault
from crewtrack.facts import KINDS, InStandard, Kind, Reference, Value
from crewtrack.files.sheet_rows import ReadSheet
from crewtrack.office.office import editions_of
from crewtrack.records.acting import Act

_ONE = {kind.name: kind for kind in KINDS}
_FEW = 12


class References:
    """All keys that may be referred to: those in the record, and those that are being read.

    The keys of rows that have faults count too, so that one mistake is told once.
    """

    def __init__(self, act: Act, sheets: Sequence[ReadSheet]) -> None:
        self._act = act
        self._read = {sheet.kind.name: sheet for sheet in sheets}
        self._keys: dict[str, set[Value]] = {}
        editions = editions_of(act.editions()).standards
        self._tasks = {task for edition in editions for task in edition.tasks}
        self._named: dict[str, set[str]] = {}
        for edition in editions:
            for key, qualification in edition.qualifications.items():
                self._named.setdefault(key, set()).update(qualification.named())

    def faults(self, sheet: ReadSheet) -> list[Fault]:
        """Every reference in a sheet that leads nowhere."""
        found: list[Fault] = []
        for index, column in enumerate(sheet.kind.columns):
            match column.type:
                case Reference(kind) if self._whole(kind):
                    cure = f"write the key of one that is there, or add it to {kind}.csv"
                    known = _Known(_ONE[kind].one, self.keys(kind), cure)
                    found += self._missing(sheet, index, known)
                case InStandard("tasks"):
                    found += self._missing(sheet, index, _defined("task", self._tasks))
                case InStandard("qualifications"):
                    found += self._missing(sheet, index, _defined("qualification", self._named))
                case InStandard("requirements"):
                    found += self._not_named(sheet, index)
        return found

    def notices(self, sheet: ReadSheet) -> list[str]:
        """What is taken as it is written, though nobody on the books is meant by it."""
        told: dict[Value, str] = {}
        for name in ("by", "withdrawn_by"):
            if name in sheet.kind.names:
                index = sheet.kind.index(name)
                for number, row in enumerate(sheet.rows):
                    if row[index] is not None and row[index] not in self.keys("people"):
                        place = sheet.at(number)
                        who = shown(str(row[index]))
                        told.setdefault(
                            row[index], f"{place}: {name}: {who} is not on the books; kept as it is"
                        )
        return list(told.values())

    def keys(self, kind: str) -> set[Value]:
        """The keys of a kind that has a single key column."""
        if kind not in self._keys:
            self._keys[kind] = set(self._act.keys(_ONE[kind]))
            if kind in self._read:
                self._keys[kind].update(row[0] for row in self._read[kind].rows)
        return self._keys[kind]

    def _whole(self, kind: str) -> bool:
        """Whether every key of a kind is known; where a file's could not all be read, nothing
        is said of what refers to them."""
        return kind not in self._read or self._read[kind].whole

    def _missing(self, sheet: ReadSheet, index: int, known: "_Known") -> list[Fault]:
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
                problem = f"no {known.what} {shown(str(value))}"
                found.append(self._fault(sheet, number, name, problem, cures[value]))
        return found

    def _not_named(self, sheet: ReadSheet, index: int) -> list[Fault]:
        """A waiver's requirement must have an id that the standard wrote for that
        qualification."""
        kind: Kind = sheet.kind
        qualification = kind.index("qualification")
        found = []
        for number, row in enumerate(sheet.rows):
            named = self._named.get(str(row[qualification]))
            if named is not None and row[index] is not None and row[index] not in named:
                problem = (
                    f"{row[qualification]} has no requirement with the written id "
                    f"{shown(str(row[index]))}"
                )
                cure = likely(str(row[index]), named) or _that_can_be(named)
                found.append(self._fault(sheet, number, kind.columns[index].name, problem, cure))
        return found

    def _fault(self, sheet: ReadSheet, number: int, field: str, problem: str, cure: str) -> Fault:
        return Fault(sheet.at(number), field, problem, cure)


@dataclass(frozen=True, slots=True)
class _Known:
    """What a column may name: the word for one, all of them, and the cure where none is near."""

    what: str
    keys: Collection[Value]
    cure: str


def _defined(what: str, names: Collection[str]) -> _Known:
    """What some edition of the standard defines."""
    few = ", ".join(sorted(names)[:_FEW])
    more = ", …" if len(names) > _FEW else ""
    return _Known(
        what, names, f"the standard has {few}{more}" if names else "the standard has none"
    )


def _that_can_be(named: set[str]) -> str:
    if not named:
        return "none of its requirements has an id of its own, so none can be waived"
    return f"those that can be waived are {', '.join(sorted(named))}"
