"""What an import would do or did, and the faults of what was given, as tables and sentences."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from crewtrack.errors import Fault
from crewtrack.office.importing import Imported
from crewtrack.office.keeping import Break
from crewtrack.office.record_told import RecordTold
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import kind_told
from crewtrack.screens.journal_table import sentence as act_sentence
from crewtrack.screens.language import count_of, number, say, told
from crewtrack.screens.standard_page_lines import Line
from crewtrack.screens.tables import Table, TableColumn


@dataclass(frozen=True, slots=True)
class PlacedFault:
    """A fault and its number in the list, since two may read alike."""

    number: int
    fault: Fault


@dataclass(frozen=True, slots=True)
class KindCount:
    """How many rows of one kind are new, revised, or as the record holds them."""

    kind: str
    added: int
    revised: int
    unchanged: int


def fault_table(faults: Sequence[Fault]) -> Table:
    """Faults as a table, in the order of the input."""
    columns = (
        TableColumn(say("Place"), lambda row: safe(row.fault.place), order=_number, spoken=_fault),
        TableColumn(say("Field"), lambda row: safe(row.fault.field), spoken=_fault),
        TableColumn(say("What is wrong"), lambda row: safe(told(row.fault.problem)), spoken=_fault),
        TableColumn(say("What would be right"), lambda row: cure(row.fault), spoken=_fault),
    )
    rows = tuple(PlacedFault(number, fault) for number, fault in enumerate(faults))
    return Table(columns, rows, _number)


def fault_lines(fault: Fault) -> tuple[Line, ...]:
    """One fault in full."""
    where = ": ".join(part for part in (safe(fault.place), safe(fault.field)) if part)
    lines = (Line("title", where), Line("said", safe(told(fault.problem))))
    right = cure(fault)
    if not right:
        return lines
    return (*lines, Line("said", say("What would be right: {cure}", cure=right)))


def line_of(fault: Fault) -> int | None:
    """The line of its file that a fault names; None where it names none."""
    line = fault.place.rpartition(":")[2]
    return int(line) if ":" in fault.place and line.isdecimal() else None


def cure(fault: Fault) -> str:
    """What would be right, as this window offers it rather than the command line."""
    if "--revise" in fault.cure:
        return say("tick “Take over what differs” and give a reason")
    if "--reason" in fault.cure:
        return say("give a reason below")
    return safe(told(fault.cure))


def only_differences(faults: Sequence[Fault]) -> bool:
    """Whether nothing is wrong but that the record holds some rows otherwise."""
    return bool(faults) and all("--revise" in fault.cure for fault in faults)


def count_table(done: Imported) -> Table:
    """Rows by kind: added, revised, unchanged."""
    kinds = dict.fromkeys((*done.added, *done.revised, *done.unchanged))
    rows = tuple(
        KindCount(kind, *(of.get(kind, 0) for of in (done.added, done.revised, done.unchanged)))
        for kind in kinds
    )
    columns = (
        TableColumn(say("Kind"), lambda row: kind_told(row.kind)),
        TableColumn(say("New"), lambda row: number(row.added), lambda row: row.added, right=True),
        TableColumn(say("Revised"), lambda row: number(row.revised), lambda row: row.revised,
                    right=True),
        TableColumn(say("As recorded"), lambda row: number(row.unchanged),
                    lambda row: row.unchanged, right=True),
    )  # fmt: skip
    return Table(columns, rows, lambda row: row.kind)


def preview_told(done: Imported) -> str:
    """What an import would do, in one sentence."""
    if not done.changed:
        return say("The record holds all of it already; nothing would change.")
    return say("No faults. It would bring {changes}.", changes=_changes(done))


def notice_lines(done: Imported) -> tuple[Line, ...]:
    """What a reader should know of what was read."""
    if not done.notices:
        return ()
    return (Line("title", say("To know")), *(Line("said", safe(told(one))) for one in done.notices))


def breaks_lines(breaks: Sequence[Break]) -> tuple[Line, ...]:
    """What verifying found, break by break."""
    if not breaks:
        return (
            Line("heading", say("Verified")),
            Line("said", say("The journal and every fact in the record agree.")),
        )
    many = count_of(len(breaks), "{count} thing is not as it was recorded:",
                    "{count} things are not as they were recorded:")  # fmt: skip
    return (
        Line("heading", say("Verified: not whole")),
        Line("said", many),
        *(Line("said", safe(told(one.told)), 1) for one in breaks),
    )


def imported_told(done: Imported) -> str:
    """What an import did."""
    if not done.changed:
        return say("Nothing changed: the record holds all of it already.")
    return say("Imported: {changes}.", changes=_changes(done))


def faults_told(faults: Sequence[Fault]) -> str:
    """How many faults there are, and what that means."""
    if only_differences(faults):
        return count_of(len(faults), "{count} row is recorded otherwise; nothing was written.",
                        "{count} rows are recorded otherwise; nothing was written.")  # fmt: skip
    return count_of(len(faults), "{count} fault; nothing was written.",
                    "{count} faults; nothing was written.")  # fmt: skip


def _changes(done: Imported) -> str:
    added, revised = sum(done.added.values()), sum(done.revised.values())
    parts = [
        count_of(added, "{count} new fact", "{count} new facts") if added else "",
        count_of(revised, "{count} revised fact", "{count} revised facts") if revised else "",
    ]
    return ", ".join(part for part in parts if part)


def record_lines(of: RecordTold) -> tuple[tuple[str, str], ...]:
    """What a page says of a record: a name and a value each."""
    facts = sum(of.facts.values())
    kinds = ", ".join(
        say("{kind} {count}", count=number(count), kind=kind_told(kind))
        for kind, count in of.facts.items()
        if count
    )
    last = act_sentence(of.last) if of.last else say("none")
    return (
        (say("File"), str(of.path)),
        (say("Size"), size_told(of.size)),
        (say("Facts"), say("{count}: {kinds}", count=number(facts), kinds=kinds or say("none"))),
        (say("Acts"), number(of.acts)),
        (say("Last act"), last),
        (say("Journal's last digest"), of.digest),
    )


def size_told(size: int) -> str:
    """A size in bytes, as a person reads it."""
    for unit, factor in (("GB", 10**9), ("MB", 10**6), ("kB", 10**3)):
        if size >= factor:
            return f"{size / factor:.1f} {unit}"
    return count_of(size, "{count} byte", "{count} bytes")


def restore_told(source: Path, target: Path) -> str:
    """What putting a backup back does, before it is done."""
    return say(
        "{source} is checked from its first act to its last, and then takes the place of"
        " {target}. What is there now is kept beside it under a name of its own; nothing is"
        " thrown away. Nobody else may have the record open meanwhile.",
        source=source,
        target=target,
    )


def _number(row: PlacedFault) -> int:
    return row.number


def _fault(row: PlacedFault) -> str:
    fault = row.fault
    return str(Fault(fault.place, fault.field, told(fault.problem), cure(fault)))
