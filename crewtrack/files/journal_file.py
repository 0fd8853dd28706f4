"""An exported journal as lines, none of them longer than memory should have to hold."""

from collections.abc import Iterator
from pathlib import Path
from typing import Final

LONGEST: Final = 2**26
"""Bytes of a line: far more than any row has; only a standard could come near."""
_SKIPPED: Final = 2**20


def lines(path: Path, longest: int = LONGEST) -> Iterator[bytes | None]:
    """The lines without their ends; None for one that is too long."""
    with path.open("rb") as file:
        while line := file.readline(longest + 1):
            if len(line) <= longest or line.endswith(b"\n"):
                yield line.removesuffix(b"\n")
                continue
            yield None
            while line and not line.endswith(b"\n"):
                line = file.readline(_SKIPPED)
