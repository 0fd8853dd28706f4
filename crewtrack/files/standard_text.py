"""The text of a standard: from a file to text, and from text to what TOML says in it."""

import re
import tomllib
from pathlib import Path
from typing import Final

from crewtrack.errors import Fault, Refused
from crewtrack.files.fault_list import path_in_words
from crewtrack.files.toml_lines import Twice, find_lines
from crewtrack.phrases import phrase

LARGEST: Final = 1 << 18
"""Bytes; a full standard has a tenth of it."""

_MOST_PARTS: Final = 16
_PART: Final = r"""(?:[\w-]++|"(?:\\.|[^"\\\n])*+"|'[^'\n]*+')"""
_LONG_KEY: Final = re.compile(
    rf"(?:^|[\[{{,])[ \t]*+{_PART}(?:[ \t]*+\.[ \t]*+{_PART}){{{_MOST_PARTS}}}", re.M
)
_POSITION: Final = re.compile(r"\s*\(at (?:line (\d+), column \d+|end of document)\)")
_TWICE: Final = re.compile(r"Cannot (overwrite|declare|mutate)|[Dd]uplicate")
_ANY_CURE: Final = phrase("look at this line and the one above it")
_CURES: Final = {
    "Invalid value": phrase("text goes in quotes; dates, numbers, true and false go without"),
    "Expected '=' after": phrase("a line says key = value; a key with spaces goes in quotes"),
    "Invalid statement": phrase(
        "a line says key = value, or [table], or begins with # as a comment"
    ),
    "Expected newline": phrase("one line says one key = value; is a quote or a comma missing?"),
    "Expected ']'": phrase("close the bracket that is open here"),
    "Unclosed": phrase("close the bracket that is open here"),
    "Unescaped '\\'": phrase("write \\\\ for a backslash, or use '…' instead of \"…\""),
    "Illegal character": phrase("is the closing quote missing on this line?"),
    "Found invalid character": phrase("is the closing quote missing on this line?"),
    'Expected "\'"': phrase("a quote that is opened on this line or above is never closed"),
    "Unterminated string": phrase("a quote that is opened on this line or above is never closed"),
    "for a key part": phrase(
        "a { … } stays on one line; a key of other than letters, digits, - and _ goes in quotes"
    ),
    "Invalid date": phrase("dates are year-month-day, such as 2026-01-01"),
}
"""What would be right, by what the parser's message holds."""


def read_text(path: Path) -> str:
    """The text of a file, without a byte order mark; Refused says why it can't be had."""
    try:
        size = path.stat().st_size
        data = b"" if path.is_dir() or size > LARGEST else path.read_bytes()
    except FileNotFoundError:
        raise Refused(
            Fault(str(path), "", phrase("there is no such file"), phrase("check the name"))
        ) from None
    except (OSError, ValueError) as why:
        told = getattr(why, "strerror", None) or str(why)
        raise Refused(Fault(str(path), "", phrase("it can't be read: {why}", why=told))) from None
    if path.is_dir():
        cure = phrase("name the standard's file in it")
        raise Refused(Fault(str(path), "", phrase("this is a folder"), cure))
    if size > LARGEST:
        problem = phrase(
            "the file has {size} bytes; a standard has at most {most}", size=size, most=LARGEST
        )
        raise Refused(Fault(str(path), "", problem, phrase("is it the right file?")))
    return _decoded(data, path.name)


def _decoded(data: bytes, place: str) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as why:
        line = data.count(b"\n", 0, why.start) + 1
        problem = phrase("the byte {byte} is not UTF-8", byte=f"0x{data[why.start]:02X}")
        fault = Fault(
            f"{place}:{line}", "", problem, phrase("save the file with the encoding UTF-8")
        )
        raise Refused(fault) from None


def parse(text: str, place: str) -> dict[str, object]:
    """What the text says; Refused where it is not TOML."""
    _refuse_long_keys(text, place)
    try:
        return tomllib.loads(text)
    except RecursionError:
        problem = phrase("brackets lie too deep inside one another")
        raise Refused(Fault(place, "", problem, phrase("write it flatter"))) from None
    except ValueError as why:
        raise Refused(*_syntax_faults(text, place, str(why))) from None


def _refuse_long_keys(text: str, place: str) -> None:
    """A key of many parts is a table in a table in a table; the parser's time and memory grow with
    the square of their number."""
    found = _LONG_KEY.search(text)
    if found is not None:
        line = text.count("\n", 0, found.start()) + 1
        problem = phrase("a key has more than {most} parts with dots between", most=_MOST_PARTS)
        raise Refused(Fault(f"{place}:{line}", "", problem, phrase("write it flatter")))


def _syntax_faults(text: str, place: str, why: str) -> tuple[Fault, ...]:
    """All keys that are written twice, where that is what stopped the parser; else that one
    thing."""
    twice = find_lines(text).twice if _TWICE.search(why) else []
    if twice:
        return tuple(_written_twice(place, one) for one in twice)
    problem = phrase("this is not TOML: {why}", why=_POSITION.sub("", why))
    cure = next((cure for told, cure in _CURES.items() if told in why), _ANY_CURE)
    return (Fault(place + _line_in(why, text), "", problem, cure),)


def _line_in(why: str, text: str) -> str:
    """The line that the parser's message names, as the end of a place; empty where none is."""
    found = _POSITION.search(why)
    if found is None:
        return ""
    return f":{found[1] or len(text.rstrip().splitlines()) or 1}"


def _written_twice(place: str, one: Twice) -> Fault:
    problem = phrase("this is written a second time; the first is on line {line}", line=one.first)
    return Fault(
        f"{place}:{one.second}", path_in_words(one.path), problem, phrase("keep one of the two")
    )
