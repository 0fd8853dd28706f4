"""How the saved records of each schema revision were made.

``tests/records/0001.crewtrack`` is the sample of ``tests/records/samples.py`` as the program of
the first schema revision wrote it: ``python -m tests.migrations.saved_records 0001``, once, on
the day that revision was released. ``0002.crewtrack`` was made in the same way, with facts struck
out in it, and ``0003.crewtrack`` with a signed act. They are never made again: later programs must
open what those left.
"""

import sys
from pathlib import Path
from typing import Final

from tests.records.samples import make_sample, open_sample, sign_some, strike_some

FOLDER: Final = Path(__file__).parents[1] / "records"
"""Where the saved records lie, each named for its revision."""


def make(path: Path) -> None:
    """Make the record that is saved of today's revision."""
    make_sample(path)
    with open_sample(path, first=5) as record:
        strike_some(record)
        sign_some(record)


if __name__ == "__main__":
    make(FOLDER / f"{sys.argv[1]}.crewtrack")
