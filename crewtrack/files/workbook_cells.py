"""A workbook's typed cell, as the text that a CSV file would hold.

Numbers become their shortest digits. A date, and a date with the time 00:00, becomes a date; in a
column of instants a cell that is formatted to show a time stays midnight. Times are rounded to
whole seconds, since a workbook counts them as parts of a day. A formula counts as the value that
was last worked out for it.
"""

from datetime import date, datetime, time, timedelta
from math import isfinite
from typing import Protocol

from openpyxl.styles.numbers import is_datetime
from openpyxl.utils.escape import unescape

from crewtrack.bad_cell import BadCell, shown
from crewtrack.cells import cell_text
from crewtrack.phrases import phrase

_HALF_SECOND = timedelta(milliseconds=500)
_CURE = phrase("let the spreadsheet work it out and save again, or write the value itself")


class BookCell(Protocol):
    """What is asked of a cell, whichever of the library's classes it is."""

    @property
    def value(self) -> object: ...
    @property
    def data_type(self) -> str: ...
    @property
    def number_format(self) -> str: ...


def text_of(cell: BookCell, instant: bool) -> str:
    """The cell's text; ``instant`` says that its column holds instants. BadCell for an error
    value (``#N/A``)."""
    value = cell.value
    if cell.data_type == "e":
        raise BadCell(
            phrase("the cell holds the error {value}", value=value),
            phrase("write the value itself"),
        )
    match value:
        case None:
            return ""
        case str():
            return unescape(value)
        case bool():
            return str(value).upper()
        case int() | float():
            return cell_text(value) if isfinite(value) else str(value)
        case datetime():
            return _moment_text(value, cell.number_format, instant)
        case date() | time():
            return value.isoformat()
    return str(value)


def refuse_unworked(formula: BookCell, worked: BookCell) -> None:
    """Refuse a formula that holds no value: the same cell read as formula and as value.

    A formula whose value is an empty text is typed as text, and is an empty cell.
    """
    if formula.data_type == "f" and worked.value is None and worked.data_type != "str":
        formula_told = shown(str(formula.value))
        raise BadCell(phrase("the formula {formula} holds no value", formula=formula_told), _CURE)


def _moment_text(value: datetime, number_format: str, instant: bool) -> str:
    moment = (value + _HALF_SECOND).replace(microsecond=0)
    shows_time = is_datetime(number_format) == "datetime"
    if moment.time() == time(0) and not (instant and shows_time):
        return moment.date().isoformat()
    return moment.isoformat(timespec="seconds" if moment.second else "minutes")
