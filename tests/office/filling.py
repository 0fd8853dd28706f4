"""Acts of every kind on a disk with room for one page, for two … until there is enough.

``python -m tests.office.filling RECORD DISK KEPT``: one line of JSON on each try. DISK is an empty
disk of its own; KEPT lies on another, with the file for the import in it.
"""

import json
import os
import shutil
import sys
from itertools import count
from pathlib import Path
from typing import Final

from crewtrack.office import keeping
from crewtrack.office.office import Office
from tests.office.deeds import DEEDS, tried
from tests.office.unit_at_work import Clock

AT_ONCE: Final = {"backup": 5, "export": 5}
"""Pages from one try to the next, where more than a few dozen are needed."""


def fill(disk: Path, pages: int) -> None:
    """Leave room for so many pages."""
    free = os.statvfs(disk)
    (disk / "ballast").write_bytes(bytes((free.f_bavail - pages) * free.f_bsize))


def cleared(disk: Path) -> None:
    """Do away with all that is on the disk."""
    for one in disk.iterdir():
        shutil.rmtree(one) if one.is_dir() else one.unlink()


def step(original: Path, disk: Path, kept: Path, deed: str, pages: int) -> str:
    """Try an act, tell how it went, and give what was told of it."""
    cleared(disk)
    record = Path(shutil.copyfile(original, disk / original.name))
    shutil.copytree(kept / "given-1", disk / "given-1")
    fill(disk, pages)
    there = sorted(disk.iterdir())
    told = tried(record, disk, deed)
    left = [one for one in sorted(disk.iterdir()) if not one.name.endswith(("-wal", "-shm"))]
    as_it_was = record.read_bytes() == original.read_bytes() and left == there
    (disk / "ballast").unlink()
    with Office.open(record, Clock()) as office:
        whole = not keeping.verify(office)
    said = {"deed": deed, "pages": pages, "told": told, "as it was": as_it_was, "whole": whole}
    sys.stdout.write(f"{json.dumps(said)}\n")
    return told


def main(original: Path, disk: Path, kept: Path) -> None:
    """All acts, each until it is done."""
    for deed in DEEDS:
        for pages in count(0, AT_ONCE.get(deed, 1)):
            if step(original, disk, kept, deed, pages) == "done":
                break


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:]))
