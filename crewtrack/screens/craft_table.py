"""Boats and aircraft as tables."""

from collections.abc import Iterable

from crewtrack.cells import cell_text
from crewtrack.facts import Kind, Row
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import label, unit
from crewtrack.screens.language import say
from crewtrack.screens.tables import Table, TableColumn


def craft_table(kind: Kind, rows: Iterable[Row]) -> Table:
    """All boats, or all aircraft, in the order of entry."""
    columns = tuple(_column(kind, place, name) for place, name in enumerate(kind.names))
    return Table(columns, tuple(rows), lambda row: row[0])


def _column(kind: Kind, place: int, name: str) -> TableColumn:
    def text(row: Row) -> str:
        return safe(cell_text(row[place]))

    def number(row: Row) -> float:
        value = row[place]
        return float(value) if isinstance(value, int | float) else -1.0

    told, measured = label(kind, name), unit(name)
    if not measured:
        return TableColumn(told, text)
    title = say("{label} ({unit})", label=told, unit=measured)
    return TableColumn(title, text, number, right=True)
