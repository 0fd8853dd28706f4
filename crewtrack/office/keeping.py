"""Keeping the record: a new one, its standard, and whether it is whole."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from zoneinfo import ZoneInfo

from crewtrack.engine.standard import Standard
from crewtrack.errors import Fault, RecordUnusable, Refused
from crewtrack.files.standard_file import read_standard_file
from crewtrack.office import attested, safekeeping
from crewtrack.office.access import check_first_chief, first_chief
from crewtrack.office.entries import Order, ordered
from crewtrack.office.exported import ExportedJournal
from crewtrack.office.office import (
    Clock,
    Office,
    Progress,
    Session,
    editions_of,
    now,
    silent,
)
from crewtrack.office.rights import demand, may
from crewtrack.phrases import later, phrase
from crewtrack.records import backups, store, verifying
from crewtrack.records.reading import StoredEdition
from crewtrack.records.verifying import Break as Break


@dataclass(frozen=True, slots=True)
class Adopted:
    """An edition that was added to the record, and the journal's new last digest (None where
    the record held the very same already)."""

    standard: Standard
    digest: str | None


@dataclass(frozen=True, slots=True)
class Chief:
    """The first chief of a new record: the person's key and name, and a passphrase."""

    person: str
    name: str
    passphrase: str = field(repr=False)


def init(
    where: str | Path,
    standard: Path,
    author: str,
    clock: Clock = now,
    chief: Chief | None = None,
) -> Adopted:
    """Make a new, empty record with a standard, and with a chief who signs in to it, if given."""
    text, read = read_standard_file(standard)
    order = _checked(author, None, read)
    path = Path(where)
    if chief is not None:
        check_first_chief(chief.person, chief.name, chief.passphrase)
    store.create(path, later("name one that is new with --db FILE"))
    with Office.open(path, clock) as office:
        with office.record.act("adopt", order.author, office.clock()) as act:
            act.add_edition(read.edition, read.effective, text)
        if chief is not None:
            first_chief(office, chief.person, chief.name, chief.passphrase)
        return Adopted(read, act.past.digest if act.past else None)


def check_standard(path: Path) -> Standard:
    """Read a standard; Refused lists all of its faults."""
    return read_standard_file(path)[1]


def adopt(
    office: Office, path: Path, author: str, reason: str | None = None, *, backup: bool = True
) -> Adopted:
    """Add a standard to the record as an edition, of which there is a backup first; NotBackedUp,
    with nothing done, where there can be none."""
    text, standard = read_standard_file(path)
    order = _checked(author, reason, standard)
    if backup:
        safekeeping.before(office, "adoption")
    today = office.today()
    with office.record.act("adopt", order.author, office.clock(), order.reason) as act:
        held = act.editions()
        demand(office, act, order.author, ["adopt"])
        if not any(one.source == text for one in held):
            faults = _clashes(path.name, standard, held)
            faults += _unexplained(path.name, standard, today, reason)
            if faults:
                raise Refused(*faults)
            act.add_edition(standard.edition, standard.effective, text)
    return Adopted(standard, act.past.digest if act.past else None)


def _checked(author: str, reason: str | None, standard: Standard) -> Order:
    """Who adopts a standard, and why, as it goes into the journal."""
    order, faults = ordered(Order(author, reason), ZoneInfo(standard.zone))
    if faults:
        raise Refused(*faults)
    return order


def _unexplained(place: str, standard: Standard, today: date, reason: str | None) -> list[Fault]:
    if standard.effective >= today or (reason or "").strip():
        return []
    problem = phrase("{day} is in the past", day=standard.effective)
    cure = phrase('adopting it needs a reason: add --reason "why"')
    return [Fault(place, "effective", problem, cure)]


def _clashes(place: str, standard: Standard, held: tuple[StoredEdition, ...]) -> list[Fault]:
    faults = []
    for one in held:
        if one.edition == standard.edition:
            problem = phrase(
                "the record holds an edition {edition} already, with another text",
                edition=repr(one.edition),
            )
            cure = phrase("give the new one a name of its own")
            faults.append(Fault(place, "edition", problem, cure))
        if one.effective == standard.effective:
            problem = phrase(
                "edition {edition} is in effect from {day} too",
                edition=repr(one.edition),
                day=one.effective,
            )
            faults.append(Fault(place, "effective", problem, phrase("two editions need two dates")))
    zone = str(editions_of(held).zone)
    if standard.zone != zone:
        problem = phrase("{zone} is not the zone of the editions before", zone=repr(standard.zone))
        faults.append(
            Fault(
                place,
                "zone",
                problem,
                phrase("write {zone}; a unit keeps its zone", zone=repr(zone)),
            )
        )
    return faults


def standard_source(office: Office, on: date | None = None) -> str:
    """The text of the edition in effect on a day (today where None)."""
    with office.view() as view:
        day = on or view.today
        name = view.editions.on(day.toordinal()).edition
        return next(one.source for one in view.reading.editions() if one.edition == name)


def verify(office: Office, progress: Progress = silent) -> tuple[Break, ...]:
    """Check the chain, every table against it, and every signature and author; empty where all is
    whole."""
    with office.record.reading() as reading:
        found = verifying.breaks(reading.connection, progress)
        progress(later("signatures"), 0, 1)
        found += attested.breaks_of(reading)
        progress(later("signatures"), 1, 1)
    return _in_order(found)


def _in_order(found: Iterable[Break]) -> tuple[Break, ...]:
    """Breaks in the order of the chain; first what no act can be told of."""
    return tuple(sorted(found, key=lambda one: one.act or 0))


def verify_journal(path: Path, progress: Progress = silent) -> tuple[Break, ...]:
    """The same of a journal that was exported, without the record; Refused where the file is no
    journal at all."""
    journal = ExportedJournal(path, progress)
    found = tuple(attested.breaks(journal.acts()))
    return _in_order((*journal.breaks, *found))


def backup(office: Office, path: Path, progress: Progress = silent) -> None:
    """A consistent copy of the record, checked after writing. What ``progress`` raises breaks it
    off, and leaves no file."""
    backups.backup(office.record, path, progress)


def restore(
    where: str | Path, source: Path, progress: Progress = silent, session: Session | None = None
) -> Path | None:
    """Put a backup in the record's place; returns where the replaced record was moved to, None
    where there was none. What ``progress`` raises breaks it off, and leaves all as it was.

    Where people sign in to the record at hand, ``session`` says who does it; one that can't be
    opened asks nobody."""
    _may_replace(Path(where), session)
    return backups.restore(source, Path(where), progress)


def _may_replace(where: Path, session: Session | None) -> None:
    try:
        with Office.open(where) as office, office.record.reading() as reading:
            office.session = session
            may(office, reading, "restore")
    except RecordUnusable:
        return
