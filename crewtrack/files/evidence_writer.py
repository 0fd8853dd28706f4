"""Files of evidence out: the same CSV that is read back (RFC 4180, UTF-8, CRLF).

Every column of the kind is written, an empty cell for what was not recorded; defaults that the
record holds, such as a performance's ``times``, are written out. Text that a spreadsheet would
run as a formula is made harmless; see ``harmless``.
"""

import csv
from collections.abc import Iterable
from pathlib import Path

from crewtrack.cells import cell_text
from crewtrack.facts import Kind, Row, Value
from crewtrack.files.harmless import harmless


def write(folder: Path, kind: Kind, rows: Iterable[Row]) -> Path:
    """Write ``folder/KIND.csv``, in the order of the rows, over what was there."""
    path = folder / f"{kind.name}.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\r\n")
        writer.writerow(kind.names)
        writer.writerows([_cell(value) for value in row] for row in rows)
    return path


def _cell(value: Value) -> str:
    return harmless(value) if isinstance(value, str) else cell_text(value)
