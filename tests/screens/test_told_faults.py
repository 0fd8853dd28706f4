"""The faults of cells and rows show in another language word by word. Values are in capitals, or
taken out: what was written, the words that a column takes, the name of the zone."""

from collections.abc import Iterator
from datetime import date, timedelta
from zoneinfo import ZoneInfo

import pytest

from crewtrack.bad_cell import BadCell, shown
from crewtrack.cells import read_cell
from crewtrack.checks import row_faults
from crewtrack.facts import RECORDED, Column, Value
from crewtrack.screens import language
from crewtrack.screens.fact_form import sentence
from crewtrack.screens.fields import options
from tests.shouting import Shouted, said_small

COLUMNS = {
    f"{kind.name} {column.name}": column for kind in RECORDED for column in kind.columns
}  # fmt: skip
BY_NAME = {kind.name: kind for kind in RECORDED}
DETROIT = ZoneInfo("America/Detroit")
MONROVIA = ZoneInfo("Africa/Monrovia")
BAD = (
    "", "X" * 40_000, "K\t7", "A\x00B", "A\nB", "ANDR\udce9", "LIVE", "PILOT, HELM", "PILOTS",
    "12,5", "2.5", "-1000000", "1000000", "2026-13-01", "0000-01-01", "2026-02-30", "1026-02-03",
    "2026-02-03T10:00", "25.11.2026", "NEVER",
)  # fmt: skip
BAD_INSTANTS = (
    "2026-11-25", "9999-01-01T00:00", "2026-01-01T10:00:00.5", "2026-01-01T25:00",
    "2026-01-01T10:00+15:00", "2026-11-01T01:30", "2026-03-08T02:30",
)  # fmt: skip
EARLY, LATE = date(2026, 1, 1), date(2026, 2, 1)


@pytest.fixture(autouse=True)
def shouted() -> Iterator[None]:
    language.use("shouted", Shouted())
    yield
    language.use(language.ENGLISH, {})


def refusal(column: Column, text: str, zone: ZoneInfo = DETROIT) -> str:
    """What is said of a cell, without what it held and may hold; empty where it is taken."""
    try:
        read_cell(column, text, zone)
    except BadCell as bad:
        told = sentence(bad.problem, bad.cure)
        for value in (
            shown(text.strip()),
            "0xE9",
            zone.key,
            *sorted(options(column), key=len)[::-1],
        ):
            told = told.replace(value, "")
        return told
    return ""


@pytest.mark.parametrize("column", COLUMNS)
def test_the_faults_of_a_column_are_told_whole(column: str) -> None:
    told = [refusal(COLUMNS[column], text) for text in BAD]
    assert any(told)
    assert said_small("".join(told)) == ""


@pytest.mark.parametrize("text", BAD_INSTANTS)
def test_the_faults_of_an_instant_are_told_whole(text: str) -> None:
    told = refusal(COLUMNS["sorties launched"], text)
    assert told
    assert said_small(told) == ""


def test_an_odd_offset_is_told_whole() -> None:
    told = refusal(COLUMNS["sorties launched"], "1960-01-01T10:00", MONROVIA)
    assert told
    assert said_small(told) == ""


@pytest.mark.parametrize(
    ("kind", "values"),
    [
        ("people", {"joined": LATE, "left": EARLY, "born": LATE + timedelta(1)}),
        ("assignments", {"from": LATE, "through": EARLY}),
        ("sorties", {"lat": 1.0, "light": "night"}),
        ("sorties", {"lon": 1.0, "light_reason": "fog"}),
        ("performances", {"person": "K", "supervisor": "K", "times": 2, "attempts": 1}),
        ("signoffs", {"person": "K", "evaluator": "K", "withdrawn_by": "A"}),
        ("signoffs", {"person": "K", "date": LATE, "withdrawn": EARLY}),
        ("certificates", {"issued": LATE, "expires": EARLY, "revoked": EARLY}),
        ("waivers", {"from": LATE, "through": EARLY}),
        ("standdowns", {"from": LATE, "through": EARLY}),
    ],
)
def test_the_faults_of_a_row_are_told_whole(kind: str, values: dict[str, Value]) -> None:
    row = tuple(map(values.get, BY_NAME[kind].names))
    found = row_faults(BY_NAME[kind], row)
    assert found
    assert said_small("".join(sentence(problem, cure) for _, problem, cure in found)) == ""
