"""Tests of boats and aircraft as tables."""

from crewtrack.facts import VESSELS
from crewtrack.screens.craft_table import craft_table

ROWS = (("B-1", "Heron", "rib", 10.0), ("B-2", "Tern", None, None), ("B-3", "Auk", "rib", 9.5))


def test_every_field_has_a_column_measures_with_their_unit() -> None:
    table = craft_table(VESSELS, ROWS)
    assert [column.title for column in table.columns] == ["Key", "Name", "Kind", "Length (m)"]
    assert [column.text(ROWS[1]) for column in table.columns] == ["B-2", "Tern", "", ""]


def test_measures_sort_as_numbers() -> None:
    length = craft_table(VESSELS, ROWS).columns[3]
    assert [row[0] for row in sorted(ROWS, key=length.rank)] == ["B-2", "B-3", "B-1"]
