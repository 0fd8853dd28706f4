"""How the saved records of each schema revision were made.

``tests/records/0001.crewtrack`` is the sample of ``tests/records/samples.py`` as the program of
the first schema revision wrote it: ``python -m tests.migrations.saved_records 0001``, once, on
the day that revision was released. It is never made again: later programs must open what that
one left.
"""

import sys
from pathlib import Path
from typing import Final

from tests.records.samples import make_sample

FOLDER: Final = Path(__file__).parents[1] / "records"
"""Where the saved records lie, each named for its revision."""

if __name__ == "__main__":
    make_sample(FOLDER / f"{sys.argv[1]}.crewtrack")
