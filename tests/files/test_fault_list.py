from datetime import date, datetime, time

import pytest

from crewtrack.files.fault_list import FaultList, did_you_mean, nearest, path_in_words, told


def test_faults_come_in_the_order_of_the_file_and_those_without_a_line_first() -> None:
    faults = FaultList("unit.toml", "a = 1\nb = 2\n")
    assert not faults
    faults.add(("b",), "late")
    faults.add(("a",), "early", "mend it")
    faults.add((), "whole file")
    assert faults
    assert [str(fault) for fault in faults.in_order()] == [
        "unit.toml: whole file",
        "unit.toml:1: a: early; mend it",
        "unit.toml:2: b: late",
    ]


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ((), ""),
        (
            ("qualifications", "deck-pilot", "needs", 0, "any", 2),
            "qualifications.deck-pilot.needs[1].any[3]",
        ),
        (("tasks", "hand recovery", "title"), "tasks.'hand recovery'.title"),
        (("tasks", "état"), "tasks.état"),
        (("tasks", "x" * 100), f"tasks.'{'x' * 60}…'"),
    ],
)
def test_key_paths_count_from_one_and_quote_what_is_no_plain_key(
    path: tuple[str | int, ...], words: str
) -> None:
    assert path_in_words(path) == words


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ("x", "'x'"),
        ("a\nb", r"'a\nb'"),
        ("x" * 61, f"'{'x' * 60}…'"),
        (True, "true"),
        (3, "3"),
        (-(10**20), "a number of more than 18 digits"),
        (2.5, "2.5"),
        (date(2026, 1, 1), "2026-01-01"),
        (datetime(2026, 1, 1, 6, 40), "2026-01-01 06:40:00"),  # noqa: DTZ001 - TOML has such
        (time(6, 40), "06:40:00"),
        ([], "an empty list"),
        ([1], "a list"),
        ({}, "a table"),
        (None, "nothing"),
    ],
)
def test_a_value_is_told_on_one_line_and_not_too_long(value: object, words: str) -> None:
    assert told(value) == words


def test_the_nearest_word_is_found_whatever_its_case() -> None:
    assert nearest("HAND-RECOVRY", ["deck-launch", "Hand-Recovery"]) == "Hand-Recovery"
    assert did_you_mean("hand-recovry", ["hand-recovery"]) == "did you mean 'hand-recovery'?"


def test_nothing_is_suggested_where_nothing_is_near() -> None:
    assert nearest("search", ["hand-recovery"]) is None
    assert did_you_mean("search", []) == ""


def test_a_very_long_word_is_compared_in_no_time() -> None:
    assert nearest("x" * 1_000_000, ["x" * 40, "hand-recovery"]) is None
