"""Workbooks that are nearly right: their parts changed before they are packed, or the archive
after."""

import random
from collections.abc import Callable, Mapping, Sequence
from io import BytesIO
from typing import Final
from xml.sax.saxutils import escape
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

Rng = random.Random
Parts = dict[str, bytes]

_MAIN: Final = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
_PACKAGE: Final = "http://schemas.openxmlformats.org/package/2006"
_OFFICE: Final = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_TYPE: Final = "application/vnd.openxmlformats-officedocument.spreadsheetml"
_STYLES: Final = (
    f"<styleSheet {_MAIN}><fonts><font/></fonts><fills><fill><patternFill/></fill></fills>"
    "<borders><border/></borders><cellStyleXfs><xf/></cellStyleXfs>"
    '<cellXfs><xf/><xf numFmtId="22"/><xf numFmtId="14"/></cellXfs></styleSheet>'
)
_BOMB: Final = '<!DOCTYPE a [<!ENTITY a0 "haha">' + "".join(
    f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 12)
)
_OUTSIDE: Final = '<!DOCTYPE a [<!ENTITY a11 SYSTEM "file:///etc/passwd">'


def parts_of(tables: Mapping[str, str]) -> Parts:
    """The parts of a workbook with a sheet for each table, all of its cells text."""
    names = list(enumerate(tables, 1))
    sheets = "".join(f'<sheet name="{name}" sheetId="{n}" r:id="r{n}"/>' for n, name in names)
    types = "".join(
        _typed(f"worksheets/sheet{n}.xml", f"{_TYPE}.worksheet+xml") for n, _ in names
    ) + _typed("styles.xml", f"{_TYPE}.styles+xml")
    related = "".join(
        _related(f"r{n}", "worksheet", f"worksheets/sheet{n}.xml") for n, _ in names
    ) + _related("s", "styles", "styles.xml")
    book = _related("b", "officeDocument", "xl/workbook.xml")
    texts = {
        "[Content_Types].xml": f'<Types xmlns="{_PACKAGE}/content-types">'
        '<Default Extension="rels"'
        ' ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Default Extension="xml" ContentType="application/xml"/>{types}'
        f"{_typed('workbook.xml', f'{_TYPE}.sheet.main+xml')}</Types>",
        "_rels/.rels": f'<Relationships xmlns="{_PACKAGE}/relationships">{book}</Relationships>',
        "xl/workbook.xml": f'<workbook {_MAIN} xmlns:r="{_OFFICE}"><sheets>{sheets}</sheets>'
        "</workbook>",
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{_PACKAGE}/relationships">{related}'
        "</Relationships>",
        "xl/styles.xml": _STYLES,
    }
    texts |= {f"xl/worksheets/sheet{n}.xml": _sheet(tables[name]) for n, name in names}
    return {name: text.encode() for name, text in texts.items()}


def packed(parts: Mapping[str, bytes], method: int = ZIP_DEFLATED) -> bytes:
    """The archive of a workbook's parts."""
    made = BytesIO()
    with ZipFile(made, "w", method) as archive:
        for name, content in parts.items():
            archive.writestr(ZipInfo(name), content, method)
    return made.getvalue()


def _typed(part: str, content: str) -> str:
    return f'<Override PartName="/xl/{part}" ContentType="{content}"/>'


def _related(ident: str, what: str, target: str) -> str:
    return f'<Relationship Id="{ident}" Type="{_OFFICE}/{what}" Target="{target}"/>'


def _sheet(table: str) -> str:
    rows = "".join(
        f'<row r="{line}">'
        + "".join(
            f'<c r="{chr(65 + place)}{line}" t="inlineStr"><is><t>{escape(text)}</t></is></c>'
            for place, text in enumerate(cells.split(","))
        )
        + "</row>"
        for line, cells in enumerate(table.splitlines(), 1)
    )
    return f'<worksheet {_MAIN}><dimension ref="A1:B2"/><sheetData>{rows}</sheetData></worksheet>'


def damaged_book(tables: Mapping[str, str], words: Sequence[str], rng: Rng) -> bytes:
    """A workbook of some of the tables, with something wrong in it."""
    some = rng.sample(sorted(tables), 2)
    parts = parts_of({name: tables[name] for name in sorted(some)})
    for _ in range(rng.randint(1, 2)):
        rng.choice(_CHANGES)(parts, words, rng)
    made = packed(parts, rng.choice((ZIP_DEFLATED, ZIP_STORED)))
    match rng.randrange(8):
        case 0:
            return made[: rng.randint(0, len(made))]
        case 1 | 2:
            return _bits(made, rng)
        case 3:
            place = rng.randrange(len(made))
            return made[:place] + made[place + rng.randint(1, 40) :]
    return made


def _bits(content: bytes, rng: Rng) -> bytes:
    changed = bytearray(content)
    for _ in range(rng.randint(1, 6)):
        changed[rng.randrange(len(changed))] ^= 1 << rng.randrange(8)
    return bytes(changed)


def _any_sheet(parts: Parts, rng: Rng) -> str:
    return rng.choice([name for name in parts if "worksheets" in name] or sorted(parts))


def _cell(parts: Parts, words: Sequence[str], rng: Rng) -> None:
    """A cell of another type, with a value that may not go with it."""
    name = _any_sheet(parts, rng)
    text = escape(rng.choice(words).replace("\ud800", "\x01").replace("\0", "\x02"))
    cell = rng.choice(
        (
            '<c t="n"><v>{}</v></c>', '<c s="1"><v>1e300</v></c>', '<c s="2"><v>-1</v></c>',
            '<c s="1"><v>2958466</v></c>', '<c s="2"><v>0.5</v></c>', '<c t="b"><v>{}</v></c>',
            '<c t="e"><v>#N/A</v></c>', '<c t="s"><v>99999</v></c>', '<c t="d"><v>{}</v></c>',
            "<c><f>1+1</f></c>", "<c><f>SUM(A1)</f><v>{}</v></c>", '<c t="str"><f/><v/></c>',
            '<c t="inlineStr"><is><t>{}</t></is></c>', '<c t="x"><v>{}</v></c>', "<c/>", "{}",
            '<c r="XFD1"><v>1</v></c>', '<c r="ZZZZ1"><v>1</v></c>', '<c s="99"><v>1</v></c>',
            '<c r="A0"><v>1</v></c>', '<c s="1"><v>nan</v></c>', "<c><f t='shared' si='0'/></c>",
            "<c t='inlineStr'><is><t>_x001B_[2J_x0000_</t></is></c>",
        )
    ).format(text)  # fmt: skip
    pieces = parts[name].split(b"<c ")
    if len(pieces) == 1:
        return
    place = rng.randint(1, len(pieces) - 1)
    rest = pieces[place].partition(b"</c>")[2]
    pieces[place - 1] += cell.encode("utf-8", "replace") + rest
    del pieces[place]
    parts[name] = b"<c ".join(pieces)


def _sizes(parts: Parts, _: Sequence[str], rng: Rng) -> None:
    """What a sheet says of its size, and where its rows say that they stand."""
    name = _any_sheet(parts, rng)
    far = rng.choice((b"A1:XFD1048576", b"A1", b"", b"ZZZZZ9", b"B2:A1", b"x"))
    row = rng.choice((b"2", b"0", b"-1", b"500", b"99999999999", b"1.5", b"", b"x"))
    parts[name] = parts[name].replace(b"A1:B2", far).replace(b'<row r="2"', b'<row r="%s"' % row)


def _piece(parts: Parts, _: Sequence[str], rng: Rng) -> None:
    """A piece of a part gone, doubled or with other bits."""
    name = rng.choice(sorted(parts))
    content = parts[name]
    first = rng.randrange(len(content) + 1)
    last = min(len(content), first + rng.randint(1, 60))
    middle = rng.choice((b"", content[first:last] * 2, _bits(content[first:last] or b"x", rng)))
    parts[name] = content[:first] + middle + content[last:]


def _missing(parts: Parts, _: Sequence[str], rng: Rng) -> None:
    """A part gone, or in another's place, or called something else."""
    name, other = rng.sample(sorted(parts), 2)
    match rng.randrange(3):
        case 0:
            del parts[name]
        case 1:
            parts[name], parts[other] = parts[other], parts[name]
        case _:
            parts[rng.choice(("../../out.xml", "/etc/x", "C:\\x", "xl\\x", "a" * 300))] = parts[
                name
            ]


def _targets(parts: Parts, _: Sequence[str], rng: Rng) -> None:
    """Sheets that are said to lie outside the archive, or nowhere."""
    name = "xl/_rels/workbook.xml.rels"
    target = rng.choice((b"../../../etc/passwd", b"/etc/passwd", b"file:///etc/passwd", b"",
                         b"http://127.0.0.1/x", b"styles.xml", b"../workbook.xml"))  # fmt: skip
    if name in parts:
        parts[name] = parts[name].replace(b"worksheets/sheet1.xml", target)


def _entities(parts: Parts, _: Sequence[str], rng: Rng) -> None:
    """A text that would be very long, or would come from another file."""
    name = rng.choice(sorted(parts))
    start = rng.choice((_BOMB, _OUTSIDE)) + "]>"
    parts[name] = start.encode() + parts[name].replace(b"<t>", b"<t>&a11;", 1)


def _names(parts: Parts, words: Sequence[str], rng: Rng) -> None:
    """Sheets called otherwise, or alike."""
    name = "xl/workbook.xml"
    called = escape(rng.choice((*words[:40], "people", "PEOPLE ", "Sheet1")), {'"': "&quot;"})
    if name in parts:
        pieces = parts[name].split(b'name="', 1)
        rest = pieces[-1].partition(b'"')[2]
        parts[name] = pieces[0] + b'name="' + called.encode("utf-8", "replace") + b'"' + rest


def _spaces(parts: Parts, _: Sequence[str], rng: Rng) -> None:
    """A part that holds next to nothing and unpacks to much."""
    name = rng.choice(sorted(parts))
    parts[name] += rng.choice((b" ", b"<!-- -->", b"<row/>", b"\0")) * rng.choice((1000, 60_000))


_CHANGES: Final[tuple[Callable[[Parts, Sequence[str], Rng], None], ...]] = (
    _cell, _cell, _cell, _cell, _sizes, _piece, _piece, _missing, _targets, _entities, _names,
    _spaces,
)  # fmt: skip
