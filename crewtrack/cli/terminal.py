"""The standard streams: results on standard output, all else on standard error.

Text goes out as UTF-8 with plain newlines where standard output is a pipe or a file, whatever the
machine's own habit; a terminal that lacks a sign gets a question mark in its place.
"""

import io
import os
import shutil
import sys
from collections.abc import Callable
from typing import Final, Self

import click

WORD_COLOURS: Final = {
    "current": "cyan",
    "due": "yellow",
    "lapsed": "red",
    "training": "magenta",
}


MOST_TOLD: Final = 50
"""So many faults, or remarks of one kind, are told; of the rest the count."""


class PipeClosed(Exception):
    """Whoever read the output has left; nothing is wrong."""


def prepare_output() -> None:
    """Set the encodings of the standard streams."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            if stream.isatty():
                stream.reconfigure(errors="replace")
            else:
                stream.reconfigure(encoding="utf-8", errors="backslashreplace", newline="\n")


def emit(text: str) -> None:
    """Write a result to standard output, with a newline at its end."""
    try:
        sys.stdout.write(text if text.endswith("\n") else text + "\n")
        sys.stdout.flush()
    except BrokenPipeError:
        raise PipeClosed from None


def emit_bytes(content: bytes) -> None:
    """Write a result that is no text to standard output."""
    try:
        sys.stdout.flush()
        sys.stdout.buffer.write(content)
        sys.stdout.buffer.flush()
    except BrokenPipeError:
        raise PipeClosed from None


def tell(text: str) -> None:
    """Write a remark to standard error, with a newline at its end. Nothing in it acts on the
    terminal: names of files come from anywhere."""
    click.echo(harmless(text), err=True)


def harmless(text: str) -> str:
    """The text with marks that a terminal would act on written out (``\\x1b``); line ends stay,
    and so do the bytes of names that are no UTF-8, which the stream writes out itself."""
    if text.isprintable():
        return text
    return "".join(map(_harmless, text))


def _harmless(mark: str) -> str:
    if mark.isprintable() or mark == "\n" or 0xDC80 <= ord(mark) <= 0xDCFF:
        return mark
    return mark.encode("unicode_escape").decode("ascii")


def finish_output() -> None:
    """Have everything written before the program ends, where a failure can still be told."""
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        raise PipeClosed from None


def discard_output() -> None:
    """Let what is still to be written go nowhere, so that leaving raises nothing."""
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
    except (OSError, ValueError):
        return  # a stream without a file behind it has nothing left to write


def on_terminal() -> bool:
    """Whether a person reads standard output as it comes."""
    return sys.stdout.isatty()


def width() -> int:
    """How many columns the terminal has."""
    return shutil.get_terminal_size().columns


def painter() -> Callable[[str, str], str]:
    """A function that colours a text by a word of standing; plain where standard output is no
    terminal, where ``NO_COLOR`` is set (to anything), and on a dumb terminal."""
    if not on_terminal() or os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return lambda text, word: text
    return _painted


def _painted(text: str, word: str) -> str:
    colour = WORD_COLOURS.get(word)
    return click.style(text, fg=colour, bold=True if word == "lapsed" else None) if colour else text


class Progress:
    """Tells on standard error how far a long piece of work has come, where that is a terminal.

    Call it with what is being done, how much is done and how much there is (0: not known). At the
    end of a ``with`` its line is taken away.
    """

    def __init__(self) -> None:
        self._shown = ""
        self._quiet = not sys.stderr.isatty()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *error: object) -> None:
        self.clear()

    def __call__(self, what: str, done: int, total: int) -> None:
        if self._quiet:
            return
        told = f"{what} {done * 100 // total} %" if total else f"{what} {done or ''}".rstrip()
        if told != self._shown:
            self._write(told)

    def clear(self) -> None:
        """Take the line away; call it before anything else is written."""
        if self._shown:
            self._write("")

    def _write(self, told: str) -> None:
        sys.stderr.write("\r" + told.ljust(len(self._shown)) + ("\r" if not told else ""))
        sys.stderr.flush()
        self._shown = told
