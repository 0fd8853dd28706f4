"""Text in columns: widths, padding, cutting, wrapping."""

import pytest

from crewtrack.screens.columns import aligned, cells, cut, hung, padded, safe, wrapped


@pytest.mark.parametrize(
    ("text", "wide"),
    [
        ("", 0),
        ("Ana", 3),
        ("Łukasz", 6),
        ("Олена Ґедзь", 11),
        ("e\u0301", 1),  # a letter and a mark that joins it
        ("田中", 4),  # letters of a wide script
        ("\u200bx", 1),  # a mark without width
    ],
)
def test_a_text_takes_as_many_columns_as_a_terminal_gives_it(text: str, wide: int) -> None:
    assert cells(text) == wide


def test_padding_counts_columns_and_not_letters() -> None:
    assert padded("田中", 6) == "田中  "


def test_padding_leaves_what_is_wider() -> None:
    assert padded("abcdef", 3) == "abcdef"


def test_cutting_leaves_what_fits() -> None:
    assert cut("abc", 3) == "abc"


def test_cutting_marks_that_something_is_left_out() -> None:
    assert cut("abcdef", 4) == "abc…"


def test_cutting_never_splits_a_wide_letter() -> None:
    assert cut("田中太郎", 4) == "田…"


def test_wrapping_keeps_to_the_width() -> None:
    assert wrapped("one two three", 7) == ["one two", "three"]


def test_wrapping_counts_the_indent() -> None:
    assert wrapped("one two three", 9, "    ") == ["    one", "    two", "    three"]


def test_a_word_wider_than_the_width_stands_whole() -> None:
    assert wrapped("a unbreakable b", 5) == ["a", "unbreakable", "b"]


def test_without_a_width_nothing_is_wrapped() -> None:
    assert wrapped("one two three", None, "  ") == ["  one two three"]


def test_columns_start_at_one_place_and_end_without_blanks() -> None:
    assert aligned([("a", "bb", ""), ("ccc", "d", "e")]) == ["a    bb", "ccc  d   e"]


def test_no_rows_are_no_lines() -> None:
    assert aligned([]) == []


def test_nothing_is_printed_that_a_terminal_would_act_on() -> None:
    assert safe("a\x1b[31mb\nc\u202ed") == "a [31mb c d"


def test_all_but_the_first_line_hang_further_in() -> None:
    assert hung("one two three", 9, "  ") == ["  one", "    two", "    three"]
    assert hung("one two three", None, "  ") == ["  one two three"]
