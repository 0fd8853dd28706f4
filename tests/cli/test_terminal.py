"""The standard streams."""

import io
import sys

import pytest

from crewtrack.cli import terminal


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


def look_at(monkeypatch: pytest.MonkeyPatch) -> Terminal:
    """Have the standard streams be a terminal from here on. Not a fixture: pytest takes the
    streams for itself between the set-up of a test and the test."""
    screen = Terminal()
    monkeypatch.setattr(sys, "stdout", screen)
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setenv("TERM", "xterm")
    return screen


def test_words_are_coloured_on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    look_at(monkeypatch)
    assert terminal.painter()("due", "due") == "\x1b[33mdue\x1b[0m"


def test_a_word_without_a_colour_is_left_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    look_at(monkeypatch)
    assert terminal.painter()("none", "none") == "none"


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_colours_are_left_out_where_asked(
    monkeypatch: pytest.MonkeyPatch, name: str, value: str
) -> None:
    look_at(monkeypatch)
    monkeypatch.setenv(name, value)
    assert terminal.painter()("due", "due") == "due"


def test_there_are_no_colours_in_a_pipe() -> None:
    assert terminal.painter()("due", "due") == "due"


def test_a_result_ends_with_one_newline(capsys: pytest.CaptureFixture[str]) -> None:
    terminal.emit("one")
    terminal.emit("two\n")
    assert capsys.readouterr().out == "one\ntwo\n"


def test_progress_is_one_line_that_is_taken_away(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = look_at(monkeypatch)
    progress = terminal.Progress()
    progress("reading", 1, 4)
    progress("reading", 1, 4)
    progress("checking", 0, 0)
    progress.clear()
    assert screen.getvalue() == "\rreading 25 %\rchecking    \r        \r"


def test_nobody_is_told_of_progress_where_nobody_watches(
    capsys: pytest.CaptureFixture[str],
) -> None:
    progress = terminal.Progress()
    progress("reading", 1, 4)
    progress.clear()
    assert capsys.readouterr().err == ""
