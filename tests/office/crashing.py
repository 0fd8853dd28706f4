"""A program at work on a record, killed again and again in the midst of it.

``python -m tests.office.crashing RECORD SEED KILLS``: a child for each kill, forked one after the
other from one process that has loaded everything, and at work until it is killed. After each the
record is opened and looked into, and one line of JSON told.
"""

import gc
import json
import os
import resource
import shutil
import signal
import sys
import tempfile
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Any, Final, NoReturn

import sqlalchemy

from crewtrack.office import keeping
from crewtrack.office.office import Office
from crewtrack.records import connecting, copying, in_use, journal, moving
from tests.office.deeds import DEEDS, write_people
from tests.office.unit_at_work import Clock

KINDS: Final = ("sortie", "sortie", "sign-off", "sign-off", "import", "backup")
DEEDS_EACH: Final = 3
"""Acts that a child does unless it is killed before."""
MOMENTS: Final = 700
"""Of the moments that are counted in a child, as many as two or three acts have."""
ALL_CHECKED: Final = 50
"""From one time that everything is verified to the next."""
WAYS: Final = ("moment",) * 8 + ("outside",) * 2 + ("byte",)


def killed() -> NoReturn:
    """End as after a power cut: nothing is said, saved or closed."""
    os.kill(os.getpid(), signal.SIGKILL)
    raise AssertionError


@dataclass(slots=True)
class Moments:
    """Counts down to the one at which this process is killed."""

    left: int

    def __call__(self, *_: object) -> int:
        self.left -= 1
        if self.left < 0:
            killed()
        return 0

    def around(self, owner: Any, name: str) -> None:
        """Count what happens before a function is called, and after."""
        whole: Callable[..., Any] = getattr(owner, name)

        def counted(*given: Any, **named: Any) -> Any:
            self()
            result = whole(*given, **named)
            self()
            return result

        setattr(owner, name, counted)


def counting(moments: Moments) -> None:
    """Count every statement, every hundred steps of SQLite's own within one, every connection that
    is closed, and every file that is made, moved or done away with."""

    class Counted(in_use.HoldingConnection):
        def __init__(self, *given: Any, **named: Any) -> None:
            super().__init__(*given, **named)
            self.set_progress_handler(moments, 100)

    in_use.HoldingConnection = Counted  # type: ignore[misc] # to be killed in
    for owner, name in (
        (sqlalchemy.Connection, "exec_driver_sql"), (Counted, "execute"), (Counted, "close"),
        (os, "link"), (os, "fsync"), (os, "rmdir"), (os, "unlink"), (tempfile, "mkdtemp"),
        (Path, "touch"), (journal, "append"), (moving, "place"), (moving, "sync_folder"),
    ):  # fmt: skip
        moments.around(owner, name)


def at_work(record: Path, number: int, chance: Random, tell: Callable[[str], object]) -> None:
    """Some acts one after the other, each acknowledged by its digest or its backup's name."""
    folder = record.parent
    with Office.open(record, Clock()) as office:
        if chance.random() < 0.5:
            office.newest()  # keeps the record open, and so its log from being folded in
        for act in range(number * DEEDS_EACH, (number + 1) * DEEDS_EACH):
            deed = chance.choice(KINDS)
            if deed == "import":
                write_people(folder / "given", act, 3)
                digest = DEEDS[deed](office, folder / "given", act)
            else:
                digest = DEEDS[deed](office, folder / "backups", act)
            tell(f"{digest or f'copy-{act}.crewtrack'}\n")
    killed()


def child(record: Path, number: int, way: str, chance: Random, pipe: int) -> NoReturn:
    """Be at work until killed."""
    match way:
        case "moment":
            counting(Moments(chance.randrange(MOMENTS)))
        case "byte":
            signal.signal(signal.SIGXFSZ, signal.SIG_DFL)
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
            size = record.stat().st_size if chance.random() < 0.3 else 0
            most = size + chance.randrange(1, 80_000)
            resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
    copying._AT_ONCE = 7  # type: ignore[misc] # so that a backup has many moments
    try:
        at_work(record, number, chance, lambda told: os.write(pipe, told.encode()))
    except BaseException as error:  # noqa: BLE001 - told to whoever waits, by an exit code of its own
        sys.stderr.write(f"{way} {number}: {error!r}\n")
    os._exit(99)


@dataclass(frozen=True, slots=True)
class Kill:
    """How a child ended, and what it had acknowledged."""

    way: str
    signal: int
    acknowledged: tuple[str, ...]


def kill(record: Path, number: int, chance: Random) -> Kill:
    """Start a child and see it killed."""
    way = chance.choice(WAYS)
    at = chance.randrange(DEEDS_EACH) if way == "outside" else -1
    reader, writer = os.pipe()
    pid = os.fork()
    if pid == 0:
        os.close(reader)
        child(record, number, way, chance, writer)
    os.close(writer)
    acknowledged: list[str] = []
    with os.fdopen(reader, encoding="utf-8") as lines:
        for line in lines:
            if len(acknowledged) == at:
                with suppress(ProcessLookupError):
                    os.kill(pid, signal.SIGKILL)
            acknowledged.append(line.strip())
    _, status = os.waitpid(pid, 0)
    return Kill(way, os.WTERMSIG(status) if os.WIFSIGNALED(status) else -1, tuple(acknowledged))


def acts(record: Path) -> list[str]:
    """The digests of all acts in the record."""
    with Office.open(record, Clock()) as office, office.view() as view:
        return [act.digest for act in view.reading.acts()]


def whole(record: Path) -> bool:
    """Whether a record verifies."""
    with Office.open(record, Clock()) as office:
        return keeping.verify(office) == ()


def checked(record: Path, number: int, before: list[str], done: Kill) -> tuple[list[str], Any]:
    """The acts that there are now, and what there is to tell of them."""
    there = acts(record)
    backups = record.parent / "backups"
    copies = {one.name for one in backups.glob("*.crewtrack")}
    new = there[len(before) :]
    told = {
        "way": done.way,
        "signal": done.signal,
        "acknowledged": len(done.acknowledged),
        "lost": len([one for one in done.acknowledged if one not in there and one not in copies]),
        "kept": there[: len(before)] == before,
        "unsaid": len([one for one in (*new, *copies) if one not in done.acknowledged]),
        "rooms": len(list(backups.glob(".crewtrack-*"))),
        "beside": sorted(one.name for one in record.parent.iterdir()),
        "backups": [whole(backups / one) for one in sorted(copies)],
        "whole": whole(record) if number % ALL_CHECKED == ALL_CHECKED - 1 else None,
    }
    for one in copies:
        (backups / one).unlink()
    return there, told


def main(record: Path, seed: str, kills: int) -> None:
    """All kills, and at last a backup."""
    for name in ("backups", "given"):
        (record.parent / name).mkdir()
    # What is written outlives a killed program whether or not it has reached the disk.
    pragmas = tuple(one.replace("=FULL", "=OFF") for one in connecting._PRAGMAS)
    connecting._PRAGMAS = pragmas  # type: ignore[misc,assignment] # for speed
    warm(record)
    gc.freeze()
    there = acts(record)
    for number in range(kills):
        done = kill(record, number, Random(f"{seed} {number}"))
        there, told = checked(record, number, there, done)
        sys.stdout.write(f"{json.dumps(told)}\n")
    with Office.open(record, Clock()) as office:
        keeping.backup(office, record.parent / "backups" / "last.crewtrack")
    rooms = len(list((record.parent / "backups").glob(".crewtrack-*")))
    last = {"whole": whole(record), "acts": len(there), "rooms": rooms}
    sys.stdout.write(f"{json.dumps(last)}\n")


def warm(record: Path) -> None:
    """Do everything once elsewhere, so that no child has anything to load."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_people(folder, 0)
        copy = Path(shutil.copyfile(record, folder / "copy"))
        with Office.open(copy, Clock()) as office:
            office.newest()
            for deed in DEEDS.values():
                deed(office, folder, 0)


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]))
