"""What closes every print: notes, cautions, the record it was made from, room for a signature."""

from dataclasses import dataclass
from datetime import datetime
from typing import Final

from crewtrack.prints import palette
from crewtrack.prints.fonts import REPLACEMENT
from crewtrack.prints.pages import Section
from crewtrack.prints.pieces import Piece, Rule, abreast, padded, paragraph, stacked, written
from crewtrack.prints.wrapping import Style

SHORT_CAUTION: Final = (
    "A record and a planning aid. The master of the boat and the remote pilot decide."
)
CAUTIONS: Final = (
    "This is a record and a planning aid. It does not send anybody out: the master of the boat "
    "and the remote pilot decide.",
    "Local law, the unit's authorizations and licensed practice go before anything printed here.",
    "Hand recovery injures. Gloves, eye protection, helmet, lifejacket, and a practised handler.",
)
_TITLE: Final = Style("strong", 8.5, palette.INK)
_TEXT: Final = Style("plain", 7.5, palette.INK)
_QUIET: Final = Style("plain", 7.0, palette.QUIET)
_DIGEST: Final = Style("plain", 7.5, palette.INK)
_GAP: Final = 24.0
_SHORT_GROUPS: Final = 4
_IN_ROW: Final = 8


@dataclass(frozen=True, slots=True)
class Provenance:
    """What the print was made from, and by whom."""

    edition: str
    known_at: datetime | None
    head: str
    printed_by: str


def grouped(digest: str) -> tuple[str, ...]:
    """A digest in groups of four digits, so that it can be read aloud."""
    return tuple(digest[start : start + 4] for start in range(0, len(digest), 4))


def short(digest: str) -> str:
    """The first groups of a digest."""
    return " ".join(grouped(digest)[:_SHORT_GROUPS]) or "none yet"


def told_known_at(known_at: datetime | None) -> str:
    """The instant by which the record is read, to the digit that was asked for."""
    if known_at is None:
        return "the latest entry"
    whole = known_at.second == 0 and known_at.microsecond == 0
    return known_at.isoformat(sep=" ", timespec="minutes" if whole else "auto")


def note_on_lacking(characters: tuple[str, ...]) -> tuple[str, ...]:
    """A sentence on the characters that the typeface lacks; nothing where it has them all."""
    if not characters:
        return ()
    codes = ", ".join(f"U+{ord(character):04X}" for character in characters)
    return (
        f"The typeface has no letter for {codes}: each is printed as {REPLACEMENT} on this sheet. "
        "The record keeps them as they were entered.",
    )


def closing(provenance: Provenance, notes: tuple[str, ...], signer: str, width: float) -> Section:
    """The last section: kept together, with a place for the signer's hand."""
    third = (width - 2 * _GAP) / 3
    columns = (
        _titled("Cautions", [*CAUTIONS], third),
        _record(provenance, third),
        _signature(signer, third),
    )
    side = abreast((number * (third + _GAP), piece) for number, piece in enumerate(columns))
    rule = Rule(0, 0, width, 0.9, palette.STRONG_RULE)
    top = stacked([paragraph(note, _TEXT, width) for note in notes], 3.0)
    body = padded(side, 7.0, 0.0)
    whole = Piece(body.height, (rule, *body.items))
    rows = (stacked([*([padded(top, 0, 8.0)] if notes else []), whole]),)
    return Section("Cautions and signature", Piece(), Piece(), rows, whole=True)


def _titled(title: str, texts: list[str], width: float) -> Piece:
    told = [paragraph(text, _TEXT, width) for text in texts]
    return stacked([written([title], _TITLE), *told], 3.0)


def _record(provenance: Provenance, width: float) -> Piece:
    digest = grouped(provenance.head) or ("none",)
    rows = [digest[start : start + _IN_ROW] for start in range(0, len(digest), _IN_ROW)]
    return stacked(
        [
            written(["The record"], _TITLE),
            paragraph(f"Edition of the standard: {provenance.edition}", _TEXT, width),
            paragraph(f"As known at: {told_known_at(provenance.known_at)}", _TEXT, width),
            paragraph(f"Printed by: {provenance.printed_by}", _TEXT, width),
            paragraph("Last digest of the journal, whole:", _TEXT, width),
            stacked(_digest_row(row) for row in rows),
        ],
        3.0,
    )


def _digest_row(groups: tuple[str, ...]) -> Piece:
    """Groups in columns, since the typeface's letters are not all of one width."""
    step = _DIGEST.width("0000") + 6.0
    return abreast(
        (number * step, written([group], _DIGEST)) for number, group in enumerate(groups)
    )


def _signature(signer: str, width: float) -> Piece:
    lines = [_line(label, width) for label in (f"{signer}: signature", "Name", "Date")]
    return stacked([written(["Seen and signed"], _TITLE), *lines])


def _line(label: str, width: float) -> Piece:
    """A line to write on, 24 points high, with its label under it."""
    under = padded(written([label], _QUIET), 24.0, 0.0)
    return Piece(under.height, (Rule(0, 23.0, width, 0.5, palette.INK), *under.items))
