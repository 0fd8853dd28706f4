"""Where automatic backups go and how many are kept: one small file in the user's own folder."""

import json
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from crewtrack.errors import Fault, Refused
from crewtrack.phrases import later, phrase

MOST: Final = 999
"""More days, weeks or months than anybody keeps backups of."""
_NUMBERS: Final = ("days", "weeks", "months")
_USUAL: Final = later("correct it, or remove the file to have what is usual")


@dataclass(frozen=True, slots=True)
class BackupSettings:
    """``folder`` is where the backups of all records go; None: into one beside each record. Of so
    many of the last ``days``, ``weeks`` and ``months`` that have a backup the newest is kept; 0
    switches a kind off."""

    folder: Path | None = None
    days: int = 7
    weeks: int = 5
    months: int = 12

    @property
    def off(self) -> bool:
        """Whether no backup is taken on closing, or before an import or an adoption."""
        return not (self.days or self.weeks or self.months)

    def folder_for(self, record: Path) -> Path:
        """Where the backups of a record go."""
        at = record.absolute()
        return self.folder or at.with_name(f"{at.stem}-backups")


def settings_file() -> Path:
    """Where the settings lie, in the user's own folder."""
    import platformdirs  # only where backups are asked about

    return platformdirs.user_config_path("crewtrack", appauthor=False) / "backups.toml"


def read_settings() -> BackupSettings:
    """The settings, the usual ones where there is no file; Refused lists all of its faults."""
    path = settings_file()
    try:
        told = tomllib.loads(path.read_bytes().decode("utf-8-sig"))
    except FileNotFoundError:
        return BackupSettings()
    except OSError as error:
        problem = phrase("can't be read ({why})", why=error.strerror)
        cure = phrase("look whether you may read it")
        raise Refused(Fault(str(path), "", problem, cure)) from error
    except ValueError as error:
        problem = phrase("is not TOML in UTF-8 ({why})", why=error)
        raise Refused(Fault(str(path), "", problem, phrase(_USUAL))) from error
    faults = [
        Fault(str(path), name, phrase("there is no such setting"), phrase(_USUAL))
        for name in told
        if name not in ("folder", *_NUMBERS)
    ]
    return _checked(told, str(path), faults)


def write_settings(settings: BackupSettings) -> None:
    """Keep settings; Refused, with nothing written, where they can't be used."""
    folder = "" if settings.folder is None else str(settings.folder)
    told = {"folder": folder, **{name: getattr(settings, name) for name in _NUMBERS}}
    _checked(told, "", [])
    path = settings_file()
    path.parent.mkdir(parents=True, exist_ok=True)
    lines = [f"{name} = {_toml(value)}\n" for name, value in told.items()]
    new = path.with_name(f"{path.name}.new")
    new.write_text("".join(lines), encoding="utf-8")
    new.replace(path)


def _toml(value: object) -> str:
    """A text or a number as TOML writes it, which is JSON but for one mark."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _checked(told: Mapping[str, Any], place: str, faults: list[Fault]) -> BackupSettings:
    folder = told.get("folder", "")
    if not isinstance(folder, str) or (folder and not Path(folder).is_absolute()):
        problem = phrase("{value} is not a folder's whole path", value=repr(folder))
        cure = phrase("write it from the root on, or leave it empty for a folder beside the record")
        faults.append(Fault(place, "folder", problem, cure))
    numbers = {name: told[name] for name in _NUMBERS if name in told}
    for name, number in numbers.items():
        wrong = _problem(number)
        if wrong:
            cure = phrase("write a whole number from {least} to {most}", least=0, most=MOST)
            faults.append(Fault(place, name, wrong, cure))
    if faults:
        raise Refused(*faults)
    return BackupSettings(Path(folder) if folder else None, **numbers)


def _problem(number: object) -> str:
    """Why a value is no number of backups; empty where it is one."""
    if type(number) is not int:
        return phrase("{text} is not a whole number", text=repr(number))
    if number < 0:
        return phrase("{number} is less than {least}", number=number, least=0)
    if number > MOST:
        return phrase("{number} is more than {most}", number=number, most=MOST)
    return ""
