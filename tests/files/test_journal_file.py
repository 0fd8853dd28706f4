"""An exported journal, line by line."""

from pathlib import Path

from crewtrack.files.journal_file import lines


def test_a_line_that_is_far_too_long_is_passed_over(tmp_path: Path) -> None:
    path = tmp_path / "journal.jsonl"
    path.write_bytes(b"short\n" + b"x" * 5000 + b"\nshort")
    assert list(lines(path, longest=1000)) == [b"short", None, b"short"]


def test_a_line_of_just_the_longest_size_is_taken(tmp_path: Path) -> None:
    path = tmp_path / "journal.jsonl"
    path.write_bytes(b"x" * 1000 + b"\n" + b"y" * 1001)
    assert list(lines(path, longest=1000)) == [b"x" * 1000, None]
