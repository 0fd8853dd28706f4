"""What is being typed, kept on disk while it is, so that a crash takes none of it."""

import json
import os
from collections.abc import Mapping
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

import platformdirs
from PySide6.QtCore import QLockFile

_MOST_WINDOWS: Final = 8


def drafts_folder(record: Path, person: str = "") -> Path:
    """Where the drafts for a record lie: in the user's own folder, not beside the record. Whoever
    signs in has a place apart from everybody else's."""
    told = "\0".join(filter(None, (str(record.absolute()), person)))
    name = sha256(told.encode()).hexdigest()[:16]
    return platformdirs.user_state_path("crewtrack", appauthor=False) / "drafts" / name


def claimed(folder: Path) -> "Drafts":
    """A place for one window's drafts that no other window has, here or in another program: one
    in which drafts wait, where there is such a one, else the first that is free."""
    free = [drafts for drafts in map(_locked, _places(folder)) if drafts is not None]
    chosen = next((drafts for drafts in free if drafts.waiting()), free[0] if free else None)
    for drafts in free:
        if drafts is not chosen:
            drafts.let_go()
    return Drafts(folder) if chosen is None else chosen


def _places(folder: Path) -> list[Path]:
    return [folder, *(folder / str(number) for number in range(2, _MOST_WINDOWS + 1))]


def _locked(place: Path) -> "Drafts | None":
    """A place with its lock, None where somebody has it. A lock whose program is gone, killed or
    not, holds nobody up."""
    try:
        place.mkdir(parents=True, exist_ok=True)
    except OSError:
        return None
    lock = QLockFile(str(place / "window.lock"))
    lock.setStaleLockTime(0)  # a window may be open for weeks
    return Drafts(place, lock) if lock.tryLock(0) else None


class Drafts:
    """Drafts by name, each a JSON object. Where the disk refuses, drafts are simply not kept:
    the form on the screen still has them."""

    def __init__(self, folder: Path, lock: QLockFile | None = None) -> None:
        self._folder = folder
        self._lock = lock

    def waiting(self) -> bool:
        """Whether any draft is there."""
        return any(self._folder.glob("*.json"))

    def let_go(self) -> None:
        """Leave the place to another window; drafts stay."""
        if self._lock is not None:
            self._lock.unlock()
            self._lock = None

    def save(self, name: str, texts: Mapping[str, Any]) -> bool:
        """Keep a draft in place of the one before; whether that could be done."""
        file = self._file(name)
        made = file.with_suffix(f".{os.getpid()}.new")
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            made.write_text(json.dumps(texts, ensure_ascii=False), encoding="utf-8")
            made.replace(file)
        except OSError:
            with suppress(OSError):
                made.unlink(missing_ok=True)
            return False
        return True

    def load(self, name: str) -> dict[str, Any] | None:
        """A kept draft; None where there is none that can be read."""
        try:
            found = json.loads(self._file(name).read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return None
        return found if isinstance(found, dict) else None

    def hand_over(self, other: "Drafts") -> None:
        """Put all drafts into another place that has none of their names."""
        for file in self._folder.glob("*.json"):
            kept = self.load(file.stem)
            if kept is not None and other.load(file.stem) is None and other.save(file.stem, kept):
                self.drop(file.stem)

    def drop(self, name: str) -> None:
        """Let a draft go: it was saved into the record, or given up."""
        with suppress(OSError):
            self._file(name).unlink(missing_ok=True)

    def _file(self, name: str) -> Path:
        return self._folder / f"{name}.json"
