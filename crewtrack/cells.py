"""One cell: the text that somebody wrote, read as the value of a column (and back).

Blanks around a cell are dropped; an empty cell is the column's default. Text is brought to
Unicode's composed form (NFC), line breaks to a single newline. What can't be taken raises
``BadCell``, which says what is wrong and what would be right; the place is the caller's to add.
"""

import re
import unicodedata
from collections.abc import Callable
from datetime import date, datetime
from typing import Final, assert_never
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import BadCell, likely, shown
from crewtrack.facts import (
    KEY_LENGTH,
    Choice,
    Choices,
    Column,
    Day,
    InStandard,
    Instant,
    Key,
    Number,
    Reference,
    Text,
    Value,
    Whole,
)
from crewtrack.moments import read_day, read_instant
from crewtrack.phrases import Phrase, joined, later, phrase

Reader = Callable[[str], Value]

SEPARATOR: Final = ";"

_WHOLE = re.compile(r"[+-]?[0-9]{1,15}(?:\.0*)?")
_NUMBER = re.compile(r"[+-]?(?:[0-9]{1,15}(?:\.[0-9]{0,20})?|\.[0-9]{1,20})")
_DECIMAL_COMMA = re.compile(r"[+-]?[0-9]+,[0-9]+")
# Marks that turn the direction of what follows, and the mark of byte order: unseen, they make a
# text read as something else than it is.
_UNSEEN = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u2028\u2029\ufeff")


def reader(column: Column, zone: ZoneInfo) -> Reader:
    """The function that reads a column's cells; made once per column, since files are long."""
    read = _typed(column, zone)
    lines = isinstance(column.type, Text) and column.type.lines

    def cell(text: str) -> Value:
        text = text.strip()
        if not text:
            return _nothing(column)
        if not text.isprintable():
            text = _visible(text, lines)
        return read(text)

    return cell


def read_cell(column: Column, text: str, zone: ZoneInfo) -> Value:
    """Read one cell; an instant without an offset is read in ``zone``."""
    return reader(column, zone)(text)


def cell_text(value: Value) -> str:
    """The text that ``read_cell`` reads back as ``value``: empty for nothing, numbers in their
    shortest form, instants with their offset."""
    match value:
        case None:
            return ""
        case str():
            return value
        case float():
            return _short(value)
        case datetime():
            return _instant_text(value)
        case date():
            return value.isoformat()
        case tuple():
            return SEPARATOR.join(value)
        case int():
            return str(value)
        case _:
            assert_never(value)


def _typed(column: Column, zone: ZoneInfo) -> Reader:
    kind = column.type
    match kind:
        case Text():
            return lambda text: _text(text, kind.longest)
        case Key() | Reference() | InStandard():
            return lambda text: _text(text, KEY_LENGTH)
        case Day():
            return read_day
        case Instant():
            return lambda text: read_instant(text, zone)
        case Whole():
            below = _ENDS_EARLY if column.name == "minutes" else ""
            return lambda text: _whole(text, kind, below)
        case Number():
            return lambda text: _number(text, kind)
        case Choice():
            return lambda text: _choice(text, kind.options)
        case Choices():
            return lambda text: _choices(text, kind.options)
        case _:
            assert_never(kind)


_ENDS_EARLY = later("the sortie ends before it starts")


def _nothing(column: Column) -> Value:
    if column.required:
        raise BadCell(phrase("the cell is empty"), phrase("it is required in every row"))
    return column.default


def _visible(text: str, lines: bool) -> str:
    """The text with its line breaks as newlines, once nothing unseen is found in it."""
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    for mark in text:
        if mark.isprintable() or (lines and mark in "\n\t"):
            continue
        _refuse_unseen(text, mark)
    return text


def _refuse_unseen(text: str, mark: str) -> None:
    code = ord(mark)
    if 0xDC80 <= code <= 0xDCFF:
        raise BadCell(
            phrase(
                "{text} holds the byte {byte}, which is not UTF-8",
                text=shown(text),
                byte=f"0x{code - 0xDC00:02X}",
            ),
            phrase("save the file as CSV UTF-8"),
        )
    if mark == "\n":
        raise BadCell(
            phrase("{text} holds a line break", text=shown(text)), phrase("write it on one line")
        )
    if mark == "\t":
        raise BadCell(
            phrase("{text} holds a tab", text=shown(text)), phrase("write a blank instead")
        )
    if unicodedata.category(mark) in ("Cc", "Cs") or mark in _UNSEEN:
        raise BadCell(
            phrase(
                "{text} holds the control character {mark}",
                text=shown(text),
                mark=f"U+{code:04X}",
            ),
            phrase("take it out"),
        )


def _text(text: str, longest: int) -> str:
    if not text.isascii():
        text = unicodedata.normalize("NFC", text)
    if len(text) > longest:
        raise BadCell(
            phrase("{text} is {count} characters long", text=shown(text), count=f"{len(text):,}"),
            phrase("at most {count} fit here", count=f"{longest:,}"),
        )
    return text


def _whole(text: str, kind: Whole, below: str) -> int:
    if _WHOLE.fullmatch(text) is None:
        told = phrase("{text} is not a whole number", text=shown(text))
        raise BadCell(told, _within(kind))
    value = int(text.partition(".")[0])
    if value < 0 and below:
        raise BadCell(joined(": ", (str(value), phrase(below))), _within(kind))
    _bound(text, value, kind)
    return value


def _number(text: str, kind: Number) -> float:
    if _NUMBER.fullmatch(text) is None:
        cure = _within(kind)
        if _DECIMAL_COMMA.fullmatch(text):
            cure = phrase("write a decimal point: {number}", number=text.replace(",", "."))
        raise BadCell(phrase("{text} is not a number", text=shown(text)), cure)
    value = float(text) + 0.0  # so that -0 is 0
    _bound(text, value, kind)
    return value


def _within(kind: Whole | Number) -> Phrase:
    """The cure for a number: what would be taken."""
    least, most = _short(kind.least), _short(kind.most)
    if isinstance(kind, Whole):
        return phrase("write a whole number from {least} to {most}", least=least, most=most)
    return phrase("write a number from {least} to {most}", least=least, most=most)


def _bound(text: str, value: float, kind: Whole | Number) -> None:
    if value < kind.least:
        told = phrase("{number} is less than {least}", number=text, least=_short(kind.least))
        raise BadCell(told, _within(kind))
    if value > kind.most:
        told = phrase("{number} is more than {most}", number=text, most=_short(kind.most))
        raise BadCell(told, _within(kind))


def _choice(text: str, options: tuple[str, ...]) -> str:
    if text in options:
        return text
    raise BadCell(_not_one_of(text, options), likely(text, options))


def _choices(text: str, options: tuple[str, ...]) -> tuple[str, ...]:
    """The words in the order of ``options``, so that the order they came in tells nothing."""
    words = {word.strip() for word in text.split(SEPARATOR)} - {""}
    for word in sorted(words.difference(options)):
        cure = likely(word, options)
        if not cure and re.search(r"[,/ ]", word):
            cure = phrase("put '{mark}' between words", mark=SEPARATOR)
        raise BadCell(_not_one_of(word, options), cure)
    return tuple(option for option in options if option in words)


def _not_one_of(word: str, options: tuple[str, ...]) -> Phrase:
    return phrase("{word} is not one of {words}", word=shown(word), words=", ".join(options))


def _short(value: float) -> str:
    """The shortest digits that read back as the same number, never with an exponent."""
    if value == int(value):
        return str(int(value))
    digits = repr(float(value))
    return f"{value:.20f}".rstrip("0") if "e" in digits else digits


def _instant_text(value: datetime) -> str:
    text = value.isoformat(timespec="seconds" if value.second else "minutes")
    return text.removesuffix("+00:00") + "Z" if text.endswith("+00:00") else text
