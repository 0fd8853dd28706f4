"""From a file to text to TOML: every way in which that fails, in a sentence."""

from pathlib import Path

import pytest

from crewtrack.errors import Refused
from crewtrack.files.standard_text import LARGEST, parse, read_text


def refusal_of_file(path: Path) -> str:
    with pytest.raises(Refused) as refused:
        read_text(path)
    return str(refused.value)


def refusal_of_text(text: str) -> str:
    with pytest.raises(Refused) as refused:
        parse(text, "unit.toml")
    return str(refused.value)


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    path = tmp_path / "nowhere.toml"
    assert refusal_of_file(path) == f"{path}: there is no such file; check the name"


def test_a_folder_is_told(tmp_path: Path) -> None:
    assert refusal_of_file(tmp_path) == (
        f"{tmp_path}: this is a folder; name the standard's file in it"
    )


def test_a_name_that_no_file_can_have_is_told() -> None:
    assert "can't be read" in refusal_of_file(Path("unit\0.toml"))


def test_a_file_that_is_too_large_is_told(tmp_path: Path) -> None:
    path = tmp_path / "unit.toml"
    path.write_bytes(b"#" * (LARGEST + 1))
    assert refusal_of_file(path) == (
        f"{path}: the file has 262145 bytes; a standard has at most 262144; is it the right file?"
    )


def test_a_byte_that_is_not_utf_8_is_told_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "unit.toml"
    path.write_bytes("title = 'x'\nunit = 'Île'\n".encode("latin-1"))
    assert refusal_of_file(path) == (
        "unit.toml:2: the byte 0xCE is not UTF-8; save the file with the encoding UTF-8"
    )


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("a = 1\nb = \n", "unit.toml:2"),
        ("a = 1\nb c = 1\n", "unit.toml:2"),
        ("a = [\n1,\n2\nb = 1\n", "unit.toml:4"),
        ("a = 'x\nb = 'y'\n", "unit.toml:1"),
        ("a = 1\nb = 'x\n", "unit.toml:2"),
        ('a = """x\nb = 1\n', "unit.toml:2"),
        ("a = 2026-02-30\n", "unit.toml:1"),
        ('a = "\\x"\n', "unit.toml:1"),
        ("a = yes\n", "unit.toml:1"),
        ("[a\n", "unit.toml:1"),
        ("a = 1 b = 2\n", "unit.toml:1"),
        ("a = 1\n\x00", "unit.toml:2"),
        ("a = {", "unit.toml:1"),
    ],
)
def test_what_is_not_toml_is_told_with_its_line_and_a_cure(text: str, place: str) -> None:
    told = refusal_of_text(text)
    assert told.startswith(f"{place}: this is not TOML: ")
    assert "; " in told
    assert "(at" not in told


def test_every_key_that_is_written_twice_is_told_with_both_lines() -> None:
    text = "a = 1\na = 2\n[tasks.x]\nduty = 'pilot'\n[tasks.x]\n[[b]]\n"
    told = "this is written a second time; the first is on line"
    assert refusal_of_text(text).splitlines() == [
        f"unit.toml:2: a: {told} 1; keep one of the two",
        f"unit.toml:5: tasks.x: {told} 3; keep one of the two",
    ]


def test_a_key_that_an_inline_table_can_not_take_any_more_is_told_with_its_line() -> None:
    told = refusal_of_text("a = { b = 1 }\n[a.c]\n")
    assert told.startswith("unit.toml:2: this is not TOML: ")


def test_brackets_beyond_reason_are_told() -> None:
    told = refusal_of_text("a = " + "[" * 100_000)
    assert told == "unit.toml: brackets lie too deep inside one another; write it flatter"


def test_a_number_beyond_reason_is_told() -> None:
    assert refusal_of_text("a = 1" + "0" * 5000).startswith("unit.toml: this is not TOML: ")


def test_what_the_text_says_comes_back() -> None:
    assert parse("\na = { b = 1 }\n", "unit.toml") == {"a": {"b": 1}}


def test_a_table_in_braces_that_runs_over_lines_is_told_to_stay_on_one() -> None:
    assert "stays on one line" in refusal_of_text("needs = [\n{\n  holds = 'x',\n},\n]\n")
