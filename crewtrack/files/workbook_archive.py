"""What a workbook's archive holds, looked at before it is opened: it could unpack to anything."""

from pathlib import Path
from typing import Final
from zipfile import ZipFile, ZipInfo

from crewtrack.bad_cell import shown
from crewtrack.files.written_rows import Broken
from crewtrack.phrases import phrase

_MOST_SHEET_BYTES: Final = 1 << 30
_MOST_STRING_BYTES: Final = 1 << 27
_MOST_PART_BYTES: Final = 1 << 24
_MOST_ROW_BYTES: Final = 1 << 22
_MOST_SHEETS: Final = 255
_MOST_MARKS: Final = 100_000  # of XML, in the parts beside sheets and texts
# A large part that shrinks to less than a two hundredth holds the same over and over.
_SMALL_PART: Final = 1 << 18
_MOST_RATIO: Final = 200
_XML: Final = (".xml", ".rels")
_FORMULA: Final = (b"<f>", b"<f ", b"<f/", b":f>", b":f ", b":f/")
_PIECE: Final = 1 << 20
CURE: Final = phrase("open it in a spreadsheet and save it again as .xlsx, without a password")
_SPLIT: Final = phrase("split it, or save its sheets as CSV")


def formulas_in(path: Path) -> bool:
    """Refuse an archive whose parts unpack to too much; say whether any sheet has formulas.

    The archive's own directory says how large a part is, and unpacking stops there.
    """
    with ZipFile(path) as archive:
        parts = archive.infolist()
        for part in parts:
            if part.file_size > _most_bytes(part) or _is_bomb(part):
                problem = phrase(
                    "it unpacks to too much: {part} holds {size} MiB",
                    part=shown(part.filename),
                    size=f"{-(-part.file_size >> 20):,}",
                )
                raise Broken(0, problem, _SPLIT)
        for part in parts:
            if not _is_sheet(part) and part.filename.endswith(_XML):
                _look_through(archive, part)
        sheets = [_look_through(archive, part) for part in parts if _is_sheet(part)]
        return any(sheets)


def _is_sheet(part: ZipInfo) -> bool:
    return "worksheets/" in part.filename and part.filename.endswith(".xml")


def _most_bytes(part: ZipInfo) -> int:
    if _is_sheet(part):
        return _MOST_SHEET_BYTES
    if part.filename.endswith("sharedStrings.xml"):
        return _MOST_STRING_BYTES
    # Pictures and the like are never unpacked.
    return _MOST_PART_BYTES if part.filename.endswith(_XML) else part.file_size


def _is_bomb(part: ZipInfo) -> bool:
    """By its size alone: whatever a part is called, others may say that it is a sheet."""
    small = _SMALL_PART if part.filename.endswith(_XML) else _MOST_ROW_BYTES
    return part.file_size > small and part.file_size > part.compress_size * _MOST_RATIO


def _look_through(archive: ZipFile, part: ZipInfo) -> bool:
    """Refuse a part that defines entities of its own, which no spreadsheet does, or that would
    take long or fill the memory: a sheet with an endless row, styles or sheets without end. Say
    whether it has formulas."""
    bounds = _Bounds(part)
    tail, formulas = b"", False
    with archive.open(part) as opened:
        while piece := opened.read(_PIECE):
            if bounds.passed(piece):
                told = shown(part.filename)
                raise Broken(0, phrase("{part} is too large to be read", part=told), _SPLIT)
            piece = tail + piece
            if b"<!DOCTYPE" in piece:
                raise Broken(0, phrase("it is not a workbook that can be read"), CURE)
            formulas = formulas or any(mark in piece for mark in _FORMULA)
            tail = piece[-8:]
    return formulas


class _Bounds:
    """What one part may hold, piece by piece."""

    def __init__(self, part: ZipInfo) -> None:
        self._rows = _is_sheet(part)
        self._texts = part.filename.endswith("sharedStrings.xml")
        self._row = self._marks = self._sheets = 0

    def passed(self, piece: bytes) -> bool:
        """Whether with this piece there is more than a spreadsheet writes."""
        if self._rows:
            end = piece.rfind(b"row")
            self._row = self._row + len(piece) if end < 0 else len(piece) - end
        elif not self._texts:
            self._marks += piece.count(b"<")
            self._sheets += piece.count(b"sheetId")
        return (
            self._row > _MOST_ROW_BYTES or self._marks > _MOST_MARKS or self._sheets > _MOST_SHEETS
        )
