"""What is being typed, kept on disk while it is, so that a crash takes none of it."""

import json
import os
from collections.abc import Mapping
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Any

import platformdirs


def drafts_folder(record: Path) -> Path:
    """Where the drafts for a record lie: in the user's own folder, not beside the record."""
    name = sha256(str(record.absolute()).encode()).hexdigest()[:16]
    return platformdirs.user_state_path("crewtrack", appauthor=False) / "drafts" / name


class Drafts:
    """Drafts by name, each a JSON object. Where the disk refuses, drafts are simply not kept:
    the form on the screen still has them."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

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

    def drop(self, name: str) -> None:
        """Let a draft go: it was saved into the record, or given up."""
        with suppress(OSError):
            self._file(name).unlink(missing_ok=True)

    def _file(self, name: str) -> Path:
        return self._folder / f"{name}.json"
