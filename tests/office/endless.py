"""Small files that would keep a reader busy for minutes, or fill the memory, were they believed."""

from collections.abc import Callable, Mapping
from typing import Final

from tests.office.malformed_books import packed, parts_of
from tests.office.unit_at_work import STANDARD

_HEAD: Final = 'edition = "x"\neffective = 2026-01-01\nzone = "America/Detroit"\n'
_NEEDS: Final = "[tasks.t]\n[qualifications.q]\nneeds = ["
_TOML_BYTES: Final = 130_000

_TOML: Final[Mapping[str, Callable[[], str]]] = {
    "a key of very many parts": lambda: "a" + ".a" * 120_000 + " = 1\n",
    "a table of very many parts": lambda: "[a" + ".a" * 120_000 + "]\n",
    "quoted parts": lambda: '""' + '."\\""' * 40_000 + " = 1\n",
    "open brackets": lambda: "a = " + "[" * 240_000,
    "open brackets after a key written twice": lambda: "a=1\na=2\nb=" + "[" * 240_000,
    "many deep lists": lambda: _HEAD + "".join(
        f"k{n}={'[' * 200}1{']' * 200}\n" for n in range(590)
    ),
    "unknown keys": lambda: "".join(f"k{n}=1\n" for n in range(25_000)),
    "unknown names among many": lambda: _HEAD + "".join(
        f"[tasks.t{n}]\nneeds='q{n}x'\n[qualifications.q{n}]\n" for n in range(5_000)
    ),
    "one name very often": lambda: (
        f"{_HEAD}{_NEEDS}{{times=1,recent=[" + '"t",' * 60_000 + "]}]\n"
    ),
    "many names": lambda: _HEAD + "".join(f"[tasks.t{n}]\n" for n in range(9_000)) + (
        "[qualifications.q]\nneeds=[{times=1,recent=["
        + ",".join(f'"t{n}"' for n in range(9_000)) + "]}]\n"
    ),
    "requirements alike": lambda: (
        f"{_HEAD}{_NEEDS}" + '{recent="t",times=1},' * 11_000 + "]\n"
    ),
    "a long loop": lambda: _HEAD + "".join(
        f'[qualifications.q{n}]\nneeds=[{{holds="q{(n + 1) % 5_000}"}}]\n' for n in range(5_000)
    ),
    "many loops": lambda: _HEAD + "".join(
        f'[qualifications.q{n}]\nneeds=[{{holds="q{n + 1}"}},{{holds="q0"}}]\n'
        for n in range(3_800)
    ),
    "empty seats": lambda: f"{_HEAD}[crews.c]\nseats=[" + "{}," * 75_000 + "]\n",
    "very many digits": lambda: _HEAD + "notice = " + "9" * 240_000 + "\n",
}  # fmt: skip

_FIRST: Final = "person,name\nK-01,Ana\n"
_CSV: Final[Mapping[str, Callable[[], str]]] = {
    "100,000 columns": lambda: ",".join(f"c{n}" for n in range(100_000)) + "\n",
    "100,000 cells in a row": lambda: _FIRST + "x," * 100_000 + "\n",
    "a name of ten million letters": lambda: f"{_FIRST}K-09,{'x' * 10_000_000}\n",
    "a quote that is never closed": lambda: _FIRST + '"' + "K-09,Bo\n" * 100_000,
    "quotes only": lambda: _FIRST + '"' * 500_001,
    "zero bytes": lambda: _FIRST + "\0" * 500_000,
    "faults in every row": lambda: _FIRST + "K-01\n" * 200_000,
    "blank lines": lambda: _FIRST + "\n" * 1_000_000,
}

_PARTS: Final = parts_of({"people": "person,name\nK-01,Ana\n"})
_SHEET: Final = "xl/worksheets/sheet1.xml"
_AFTER: Final = b"</sheetData>"


def _rows(more: str) -> dict[str, bytes]:
    return {_SHEET: _PARTS[_SHEET].replace(_AFTER, more.encode() + _AFTER)}


def _styled(more: str) -> dict[str, bytes]:
    name = "xl/styles.xml"
    return {name: _PARTS[name].replace(b"<cellXfs>", b"<cellXfs>" + more.encode())}


_BOOKS: Final[Mapping[str, Callable[[], dict[str, bytes]]]] = {
    "a million blank rows": lambda: _rows("<row/>" * 1_000_000),
    "a row of a million cells": lambda: _rows("<row>" + "<c/>" * 1_000_000 + "</row>"),
    "a row of many different cells": lambda: _rows(
        "<row>" + "".join(f'<c r="A{n % 7919}"/>' for n in range(400_000)) + "</row>"
    ),
    "a row far down": lambda: _rows('<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'),
    "a row further down than there are any": lambda: _rows('<row r="99999999999"><c/></row>'),
    "cells far to the right": lambda: _rows(
        "".join(f'<row r="{n}"><c r="XFD{n}"><v>1</v></c></row>' for n in range(3, 4_000))
    ),
    "a sheet of blanks": lambda: _rows(" " * 30_000_000),
    "styles alike": lambda: _styled("<xf/>" * 400_000),
    "styles": lambda: _styled("".join(f'<xf numFmtId="{n}"/>' for n in range(120_000))),
    "sheets": lambda: {
        "xl/workbook.xml": _PARTS["xl/workbook.xml"].replace(
            b"</sheets>",
            "".join(f'<sheet name="p{n}" sheetId="1" r:id="r1"/>' for n in range(9_000)).encode()
            + b"</sheets>",
        )
    },
    "a part by another name": lambda: {
        "xl/_rels/workbook.xml.rels": _PARTS["xl/_rels/workbook.xml.rels"].replace(
            b"worksheets/sheet1.xml", b"media/picture.png"
        ),
        "xl/media/picture.png": _PARTS[_SHEET].replace(_AFTER, b"<row/>" * 3_000_000 + _AFTER),
    },
}

NAMES: Final = tuple(
    (suffix, name)
    for suffix, made in (("toml", _TOML), ("csv", _CSV), ("xlsx", _BOOKS))
    for name in made
)
"""What kind of file each is, and what is endless in it."""


def endless(number: int) -> tuple[str, bytes]:
    """The file's name and what it holds."""
    suffix, name = NAMES[number]
    if suffix == "toml":
        return "unit.toml", _TOML[name]()[:_TOML_BYTES].encode()
    if suffix == "csv":
        return "people.csv", _CSV[name]().encode()
    return "book.xlsx", packed({**_PARTS, **_BOOKS[name]()})


def whole() -> tuple[tuple[str, bytes], ...]:
    """The files of which all these are made, with nothing wrong in them."""
    return (
        ("unit.toml", STANDARD.encode()),
        ("people.csv", _FIRST.encode()),
        ("book.xlsx", packed(_PARTS)),
    )
