"""The words beside the fields."""

import pytest

from crewtrack.facts import PEOPLE, RECORDED, SIGNOFFS, SORTIES, Column, Kind
from crewtrack.screens import fields

EVERY = [(kind, column) for kind in RECORDED for column in kind.columns]
NAMES = [f"{kind.name}.{column.name}" for kind, column in EVERY]


@pytest.mark.parametrize(("kind", "column"), EVERY, ids=NAMES)
def test_every_column_has_a_label(kind: Kind, column: Column) -> None:
    assert fields.label(kind, column.name)


@pytest.mark.parametrize(("kind", "column"), EVERY, ids=NAMES)
def test_every_word_of_a_choice_is_told(kind: Kind, column: Column) -> None:
    assert all(map(fields.choice_told, fields.options(column)))


@pytest.mark.parametrize("kind", RECORDED, ids=lambda kind: kind.name)
def test_every_kind_has_a_name_for_many_and_for_one(kind: Kind) -> None:
    assert fields.kind_told(kind.name)
    assert fields.one_told(kind.name)


def test_a_fact_s_own_key_is_told_as_such() -> None:
    assert fields.label(PEOPLE, "person") == "Key"
    assert fields.label(SIGNOFFS, "person") == "Person"


def test_numbers_have_their_unit() -> None:
    assert fields.unit("wind_from") == "° true"
    assert fields.unit("wind") == "kn"
    assert fields.unit("purpose") == ""


def test_days_and_instants_show_what_they_look_like() -> None:
    launched = SORTIES.columns[SORTIES.index("launched")]
    assert fields.hint(launched) == "2026-11-25T06:40"
    assert fields.hint(PEOPLE.columns[PEOPLE.index("joined")]) == "2026-11-25"
    assert fields.hint(PEOPLE.columns[PEOPLE.index("name")]) == ""
