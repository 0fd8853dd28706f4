"""Which sorties a requirement counts: ``floor`` and ``only``."""

from typing import Final

from crewtrack.engine.requirement import Floor, Only
from crewtrack.facts import KEY_LENGTH, LIGHTS, WAYS
from crewtrack.files.given_table import GivenTable
from crewtrack.files.known_keys import refuse_unknown
from crewtrack.phrases import phrase

_MOST_KNOTS: Final = 200


def read_floor(table: GivenTable) -> Floor:
    """The least demanding conditions that count, under ``floor``."""
    floor = table.table("floor")
    if floor is None:
        return Floor()
    refuse_unknown(floor, ("light", "way", "sea", "wind", "apparent"))
    _refuse_empty(floor)
    light, way = floor.choice("light", LIGHTS), floor.choice("way", WAYS)
    return Floor(
        None if light is None else LIGHTS.index(light),
        None if way is None else WAYS.index(way),
        floor.whole("sea", 0, 9),
        floor.number("wind", 0, _MOST_KNOTS),
        floor.number("apparent", 0, _MOST_KNOTS),
    )


def read_only(table: GivenTable) -> Only:
    """The kinds of craft that count, under ``only``."""
    only = table.table("only")
    if only is None:
        return Only()
    refuse_unknown(only, ("aircraft", "vessel"))
    _refuse_empty(only)
    return Only(_kinds(only, "aircraft"), _kinds(only, "vessel"))


def _kinds(only: GivenTable, key: str) -> tuple[str, ...]:
    kinds = only.texts(key, KEY_LENGTH)
    if only.is_empty_list(key):
        only.fault(
            key, phrase("the list is empty"), phrase("name at least one kind, or leave it out")
        )
    return kinds


def _refuse_empty(table: GivenTable) -> None:
    if not any(True for _ in table):
        table.fault(
            (), phrase("the table is empty"), phrase("write what it asks for, or leave it out")
        )
