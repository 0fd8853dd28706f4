"""What is digested of a row, against its definition spelled out with the published package."""

from datetime import date, datetime
from hashlib import sha256
from typing import Any

import pytest
import rfc8785

from crewtrack import facts
from crewtrack.facts import Kind, Row, Value
from crewtrack.records.canonical import Json
from crewtrack.records.digests import Tally, digest, edition_line, line_writer
from tests.records.samples import ROWS


def as_json(value: Value) -> Json:
    """A value as the definition writes it."""
    match value:
        case datetime() | date():
            return value.isoformat()
        case tuple():
            return list(value)
        case _:
            return value


@pytest.mark.parametrize("kind", facts.RECORDED, ids=lambda kind: kind.name)
def test_a_row_is_digested_in_canonical_form_without_what_was_not_recorded(kind: Kind) -> None:
    for row in ROWS[kind]:
        named = zip(kind.names, row, strict=True)
        members = {name: as_json(value) for name, value in named if value not in (None, ())}
        whole: Any = {"kind": kind.name, "revision": 2, "row": members}
        wanted = rfc8785.dumps(whole)
        assert line_writer(kind)(2, row).encode() == wanted


@pytest.mark.parametrize("kind", facts.RECORDED, ids=lambda kind: kind.name)
def test_a_revision_that_strikes_a_fact_out_is_digested_with_that(kind: Kind) -> None:
    for row in ROWS[kind]:
        named = zip(kind.names, row, strict=True)
        members = {name: as_json(value) for name, value in named if value not in (None, ())}
        whole: Any = {"kind": kind.name, "revision": 2, "row": members, "struck": True}
        assert line_writer(kind)(2, row, True).encode() == rfc8785.dumps(whole)


def test_an_edition_is_digested_with_its_whole_source() -> None:
    row = {"edition": "2026-1", "effective": "2026-01-01", "source": "a = 1\n"}
    wanted = rfc8785.dumps({"kind": "editions", "revision": 1, "row": row})
    assert edition_line("2026-1", date(2026, 1, 1), "a = 1\n").encode() == wanted


def test_a_tally_is_the_digest_of_digests_in_order() -> None:
    one, two = digest("one"), digest("two")
    tally = Tally()
    tally.add([one])
    tally.add([two])
    assert tally.told() == {"count": 2, "digest": sha256(one + two).hexdigest()}


@pytest.mark.parametrize(
    "row",
    [
        ("V-1", "Juniper", None, "8.5"),
        ("V-1", "Juniper", None, float("nan")),
        ("V-1", 5, None, None),
        ("V-1", b"Juniper", None, None),
    ],
)
def test_a_value_of_another_type_than_its_columns_has_no_digest(row: Row) -> None:
    with pytest.raises((TypeError, ValueError)):
        line_writer(facts.VESSELS)(1, row)
