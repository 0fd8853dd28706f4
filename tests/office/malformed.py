"""Files that are nearly right: whole ones, changed at random, the same by the same number."""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from tests.office.endless import endless
from tests.office.malformed_books import damaged_book
from tests.office.unit_at_work import EVIDENCE, STANDARD

Rng = random.Random

TABLES: Final = {
    **EVIDENCE,
    "vessels": "vessel,name,kind,length_m\nB-1,Gull,boat,8.5\nB-2,Tern,boat,6\n",
    "aircraft": "aircraft,name,kind,mass_kg\nA-1,Swift,quad,1.2\n",
    "certificates": (
        "certificate,person,kind,issued,expires\nC-1,K-01,medical,2026-01-01,2027-01-01\n"
    ),
    "waivers": (
        "waiver,person,qualification,requirement,from,through,reason,by\n"
        "W-1,K-01,deck-pilot,signed,2026-05-01,2026-06-01,Weather,Chief\n"
    ),
    "standdowns": "standdown,person,from,through,reason,by\nD-1,K-02,2026-05-01,,Ill,Chief\n",
}
"""A row or more of every kind of evidence."""

WORDS: Final = (
    "", " ", "\0", "\x1b[2J", "\x9b2J", "\u202e", "\u2028", "\ufeff", "\ud800", "'", '"', '""', ",",
    ";", "\r", "\n", "\t", "-", "-1", "0", "1e9", "1" * 400, "9" * 16, "0x1F", "NaN", "inf", "1,5",
    ".5", "=1+1", "@x", "+1", "'; DROP TABLE people;--", "../../x", "2026-02-30", "0000-00-00",
    "1899-12-31", "9999-12-31", "99999-01-01", "2026-01-01", "2026-03-08T02:30",
    "2026-11-01T01:30", "9999-12-31T23:59-14:00", "2026-01-01T25:61", "1900-01-01T00:00+14:00",
    "K-01", "K-99", "É" * 50, "e\u0301" * 300, "x" * 140_000, "true", "[]", "{}", "[[", "]]", "=",
    "'''", '"""', "#", "\\", "\\u", "\\UFFFFFFFF", "inf", "07:32:00", "a.b.c", "P90D", "P0D",
    "P99999999Y",
)  # fmt: skip

MARKS: Final = (0, 0x22, 0x27, 0x2C, 0x0A, 0x0D, 0x1B, 0x5B, 0x7B, 0x80, 0x9B, 0xC3, 0xED, 0xFF)


@dataclass(frozen=True, slots=True)
class Malformed:
    """A file to be read: its name and what it holds."""

    name: str
    content: bytes


def malformed(kind: str, number: int) -> Malformed:
    """The file of a kind (``csv``, ``xlsx``, ``toml``, ``endless``) with a number."""
    if kind == "endless":
        return Malformed(*endless(number))
    rng = Rng(f"{kind} {number}")
    if kind == "xlsx":
        return Malformed("book.xlsx", damaged_book(TABLES, WORDS, rng))
    if kind == "toml":
        return Malformed("unit.toml", _changed(STANDARD, TOML_CHANGES, rng))
    table = rng.choice(sorted(TABLES))
    return Malformed(f"{table}.csv", _changed(TABLES[table], CSV_CHANGES, rng))


TextChange = Callable[[str, Rng], str]


def _changed(text: str, changes: Sequence[TextChange], rng: Rng) -> bytes:
    for _ in range(rng.randint(1, 3)):
        text = rng.choice(changes)(text, rng)
    return _bytes_changed(text.encode("utf-8", "surrogatepass"), rng)


def _bytes_changed(content: bytes, rng: Rng) -> bytes:
    """The same, in every second file with something done to its bytes."""
    match rng.randrange(14):
        case 0:
            return content[: rng.randint(0, len(content))]
        case 1:
            return b"\xff\xfe" + content.decode("utf-8", "replace").encode("utf-16-le")
        case 2:
            return content.decode("utf-8", "replace").encode("utf-16")[2:]
        case 3:
            return b"\xef\xbb\xbf" + content
        case 4 | 5:
            return flipped(content, rng)
        case 6:
            return content.replace(b"\n", rng.choice((b"\r", b"\r\n", b"\n\r", b"\0")))
    return content


def flipped(content: bytes, rng: Rng) -> bytes:
    """The same with up to eight bytes changed."""
    changed = bytearray(content)
    for _ in range(rng.randint(1, 8)):
        if changed:
            place = rng.randrange(len(changed))
            changed[place] = rng.choice((changed[place] ^ 1 << rng.randrange(8), rng.choice(MARKS)))
    return bytes(changed)


def _lines(text: str, rng: Rng) -> str:
    """A line doubled, gone or somewhere else."""
    lines = text.splitlines(keepends=True) or [""]
    one, other = rng.randrange(len(lines)), rng.randrange(len(lines))
    match rng.randrange(3):
        case 0:
            lines.insert(other, lines[one])
        case 1:
            del lines[one]
        case _:
            lines[one], lines[other] = lines[other], lines[one]
    return "".join(lines)


def _between(mark: str) -> TextChange:
    """What makes, of a line's parts between marks, one a word, doubled, gone or another's."""

    def change(text: str, rng: Rng) -> str:
        lines = text.split("\n")
        line = rng.randrange(len(lines))
        parts = lines[line].split(mark)
        one, other = rng.randrange(len(parts)), rng.randrange(len(parts))
        match rng.randrange(6):
            case 0:
                parts.insert(other, parts[one])
            case 1:
                del parts[one]
            case 2:
                parts[one], parts[other] = parts[other], parts[one]
            case _:
                parts[one] = rng.choice(WORDS)
        lines[line] = mark.join(parts)
        return "\n".join(lines)

    return change


def _inserted(text: str, rng: Rng) -> str:
    place = rng.randint(0, len(text))
    return text[:place] + rng.choice(WORDS) + text[place:]


def _mark_gone(text: str, rng: Rng) -> str:
    """One quote, bracket or separator taken out."""
    places = [place for place, mark in enumerate(text) if mark in "\"'[]{}=,;\n"] or [0]
    place = rng.choice(places)
    return text[:place] + text[place + 1 :]


def _many(text: str, rng: Rng) -> str:
    """Very many columns, rows, or brackets."""
    piece = rng.choice((",", ",x", "[", "{a=", '"', "a.", "\n", "x = 1\n", "[a]\n", "K,\n"))
    place = rng.randint(0, len(text))
    return text[:place] + piece * rng.choice((30, 600, 3000)) + text[place:]


CSV_CHANGES: Final = (
    _lines, _between(","), _between(","), _between(","), _inserted, _mark_gone, _many,
)  # fmt: skip
TOML_CHANGES: Final = (
    _lines, _between("="), _between(" "), _between(","), _inserted, _mark_gone, _many,
)  # fmt: skip
