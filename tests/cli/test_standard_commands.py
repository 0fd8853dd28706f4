"""``standard check``, ``adopt`` and ``show``."""

from pathlib import Path

from tests.cli.conftest import Ask
from tests.cli.small_unit import SECOND_EDITION, STANDARD


def test_a_standard_without_a_fault_is_told_in_a_sentence(ask: Ask, own_unit: Path) -> None:
    file = own_unit.parent / "unit.toml"
    assert ask("standard", "check", file).out == (
        f"{file}: no faults. Edition 2026-1, in effect from 2026-01-01:"
        " 1 task, 2 qualifications, 0 crews.\n"
    )


def test_every_fault_in_a_standard_is_told(ask: Ask, tmp_path: Path) -> None:
    file = tmp_path / "wrong.toml"
    file.write_text(
        STANDARD.replace('within = "P90D"', 'within = "P1M15D"').replace("zone", "zome"),
        encoding="utf-8",
    )
    answer = ask("standard", "check", file)
    assert answer.code == 2
    assert answer.out == ""
    assert "wrong.toml:12: qualifications.deck-pilot.needs[1].within" in answer.err
    assert "write one unit only" in answer.err
    assert "zome" in answer.err


def test_a_standard_that_is_not_there_is_a_usage_error(ask: Ask) -> None:
    assert ask("standard", "check", "nowhere.toml").code == 2


def test_an_edition_is_adopted_and_shown_as_it_was_written(ask: Ask, own_unit: Path) -> None:
    second = own_unit.parent / "second.toml"
    answer = ask("standard", "adopt", second, "--by", "Ana", "--db", own_unit)
    assert answer.code == 0
    assert answer.out.startswith("Edition 2090-1, in effect from 2090-01-01")
    assert ask("standard", "show", "--on", "2090-01-01", "--db", own_unit).out == SECOND_EDITION
    assert ask("standard", "show", "--on", "2089-12-31", "--db", own_unit).out == STANDARD


def test_adopting_the_same_edition_again_changes_nothing(ask: Ask, own_unit: Path) -> None:
    answer = ask("standard", "adopt", own_unit.parent / "unit.toml", "--db", own_unit)
    assert answer.code == 0
    assert answer.out == "Nothing changed: the record holds edition 2026-1 already.\n"


def test_an_edition_of_the_past_needs_a_reason(ask: Ask, own_unit: Path, tmp_path: Path) -> None:
    past = tmp_path / "past.toml"
    past.write_text(STANDARD.replace("2026-1", "2020-1").replace("2026-01", "2020-01"), "utf-8")
    answer = ask("standard", "adopt", past, "--db", own_unit)
    assert answer.code == 2
    assert "--reason" in answer.err
    assert ask("standard", "adopt", past, "--reason", "found", "--db", own_unit).code == 0


def test_a_standard_is_shown_into_a_file(ask: Ask, small_unit: Path, tmp_path: Path) -> None:
    ask("standard", "show", "--on", "2026-11-25", "--out", tmp_path / "a", "--db", small_unit)
    assert (tmp_path / "a").read_text(encoding="utf-8") == STANDARD
