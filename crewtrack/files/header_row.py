"""The header row: which cell of each row is which column of a kind."""

from dataclasses import dataclass

from crewtrack.bad_cell import likely, shown
from crewtrack.errors import Fault
from crewtrack.facts import Kind
from crewtrack.phrases import later, phrase

_MOST_COLUMNS = 500
_OTHER_SEPARATORS = {
    ";": later("its cells are separated by semicolons, not by commas"),
    "\t": later("its cells are separated by tabs, not by commas"),
    "|": later("its cells are separated by bars, not by commas"),
}


@dataclass(frozen=True, slots=True)
class Header:
    """``width`` is the number of cells in a row; ``position`` that of each of the kind's columns,
    in the kind's order, None where the file lacks it."""

    width: int
    position: tuple[int | None, ...]

    @property
    def any(self) -> bool:
        """Whether the file has any column of the kind."""
        return any(position is not None for position in self.position)

    def name(self, kind: Kind, position: int) -> str:
        """The column in which a cell stands; empty for one that the kind does not have."""
        found = self.position.index(position) if position in self.position else None
        return "" if found is None else kind.names[found]


def read_header(kind: Kind, cells: list[str], place: str) -> tuple[Header, list[Fault]]:
    """Read a header row, whose order is free and whose capitals do not matter.

    With faults of one column the others can still be read; where no column is known at all,
    every position is None.
    """
    if len(cells) > _MOST_COLUMNS:
        return _no_header(kind, cells, place)
    names = [cell.strip().casefold() for cell in cells]
    header = Header(len(names), tuple(names.index(n) if n in names else None for n in kind.names))
    separator = _other_separator(kind, cells)
    if separator:
        return header, [separator_fault(place, separator)]
    return header, _unknown(kind, names, place) + _missing(kind, names, place)


def _no_header(kind: Kind, cells: list[str], place: str) -> tuple[Header, list[Fault]]:
    problem = phrase("its first row has {count} cells", count=f"{len(cells):,}")
    columns = phrase("the columns are {names}", names=", ".join(kind.names))
    return Header(len(cells), (None,) * len(kind.names)), [Fault(place, "", problem, columns)]


def separator_fault(place: str, separator: str) -> Fault:
    """What is told of a file that uses something else than commas."""
    return Fault(
        place,
        "",
        phrase(_OTHER_SEPARATORS[separator]),
        phrase("save it as CSV with commas, or as a workbook (.xlsx)"),
    )


def _other_separator(kind: Kind, cells: list[str]) -> str:
    """The separator that splits the header into known columns where commas do not."""
    text = ",".join(cells)
    for separator in _OTHER_SEPARATORS:
        parts = {part.strip().casefold() for part in text.split(separator)}
        if len(parts) > len(cells) and len(parts & set(kind.names)) > 1:
            return separator
    return ""


def _unknown(kind: Kind, names: list[str], place: str) -> list[Fault]:
    faults = []
    for number, name in enumerate(names):
        if not name:
            problem = phrase("column {number} has no name", number=number + 1)
            faults.append(Fault(place, "", problem, phrase("name it, or take it out")))
        elif name not in kind.names:
            others = [each for each in kind.names if each not in names]
            columns = phrase("the columns are {names}", names=", ".join(kind.names))
            problem = phrase("no column {name} is known here", name=shown(name))
            faults.append(Fault(place, "", problem, likely(name, others) or columns))
        elif name in names[:number]:
            problem = phrase("the column is there twice")
            faults.append(Fault(place, name, problem, phrase("take one of them out")))
    return faults


def _missing(kind: Kind, names: list[str], place: str) -> list[Fault]:
    return [
        Fault(
            place,
            column.name,
            phrase("the column is missing"),
            phrase("add it to the header row"),
        )
        for column in kind.columns
        if column.required and column.name not in names
    ]
