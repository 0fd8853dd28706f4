"""``retention``."""

import json
from pathlib import Path

from crewtrack.office import retention
from crewtrack.office.entries import Order
from crewtrack.office.office import Office
from tests.cli.conftest import Ask


def named(record: Path, period: str) -> None:
    with Office.open(record) as office:
        retention.name_period(office, period, "Own decision of 2026", Order("Ana"))


def test_without_a_period_that_is_told(ask: Ask, own_unit: Path) -> None:
    answer = ask("retention", "--db", own_unit)
    assert (answer.code, answer.out) == (2, "")
    assert "has named no retention period; name one, and its rule, first" in answer.err


def test_what_is_past_it_is_listed_as_text_and_as_json(ask: Ask, own_unit: Path) -> None:
    ask("import", own_unit.parent / "evidence", "--db", own_unit)
    named(own_unit, "P100Y")
    answer = ask("retention", "--db", own_unit)
    assert answer.code == 0
    assert answer.out.splitlines()[0] == "# Retention P100Y: Own decision of 2026"
    assert answer.out.splitlines()[-1] == "# 0 facts past retention, 0 can be sealed."
    told = json.loads(ask("retention", "--db", own_unit, "--format", "json").out)
    assert (told["period"], told["rows"]) == ("P100Y", [])
