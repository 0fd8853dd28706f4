"""Acts of every kind, each done by one call, for what is to be tried with all of them."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Final

from crewtrack.errors import RecordUnusable
from crewtrack.office import exporting, flying, importing, keeping, signing
from crewtrack.office.importing import ImportOrder
from crewtrack.office.office import Office
from tests.office.given_by_hand import ANA, recovery, signoff, sortie
from tests.office.unit_at_work import Clock

Deed = Callable[[Office, Path, int], str | None]
"""Does the act with a number, with files in a folder; the journal's new last digest, None for
what is not in the journal."""


def log_sortie(office: Office, _: Path, number: int) -> str | None:
    """A sortie with two performances."""
    crew = [recovery("K-01"), recovery("K-02")]
    return flying.log_sortie(office, sortie(f"T-{number}"), crew, ANA).digest


def sign_off(office: Office, _: Path, number: int) -> str | None:
    """A sign-off, with more to say than fits on a page."""
    return signing.sign_off(office, signoff(f"G-{number}", remarks="well " * 900), ANA).digest


def take_in(office: Office, folder: Path, number: int) -> str | None:
    """An import of the file that ``write_people`` wrote."""
    given = [folder / f"given-{number}" / "people.csv"]
    return importing.import_evidence(office, given, ImportOrder("Ana")).digest


def back_up(office: Office, folder: Path, number: int) -> str | None:
    """A backup."""
    keeping.backup(office, folder / f"copy-{number}.crewtrack")
    return None


def export(office: Office, folder: Path, number: int) -> str | None:
    """An export."""
    exporting.export(office, folder / f"all-{number}")
    return None


DEEDS: Final[Mapping[str, Deed]] = {
    "sortie": log_sortie,
    "sign-off": sign_off,
    "import": take_in,
    "backup": back_up,
    "export": export,
}


def write_people(folder: Path, number: int, people: int = 40) -> None:
    """The file for an import, of so many people."""
    rows = "".join(f"I-{number}-{one},Ana Kovač\n" for one in range(people))
    given = folder / f"given-{number}"
    given.mkdir()
    (given / "people.csv").write_text(f"person,name\n{rows}", encoding="utf-8")


def tried(record: Path, folder: Path, deed: str) -> str:
    """What a user is told of an act: "done", or why not, in a sentence."""
    try:
        with Office.open(record, Clock()) as office:
            DEEDS[deed](office, folder, 1)
    except RecordUnusable as error:
        return str(error)
    except OSError as error:  # told with the file's name, as every system error is
        return f"{error.filename}: {error.strerror}" if error.filename else repr(error)
    return "done"
