"""Import: files of evidence into the record, all or nothing, every fault told."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import shown
from crewtrack.cells import cell_text
from crewtrack.checks import row_faults
from crewtrack.errors import Fault, Refused
from crewtrack.facts import KINDS, PEOPLE, STANDDOWNS, WAIVERS, Kind, Reference, Row, Value
from crewtrack.files import evidence_files
from crewtrack.files.sheet_rows import ReadSheet
from crewtrack.office import safekeeping
from crewtrack.office.duties import Written
from crewtrack.office.entries import Order, ordered
from crewtrack.office.office import Office, Progress, editions_of, silent
from crewtrack.office.references import References
from crewtrack.office.reliefs import relief_faults
from crewtrack.office.rights import demand_for
from crewtrack.phrases import joined, later, phrase
from crewtrack.records.acting import Act
from crewtrack.records.finding import find
from crewtrack.records.reading import Current


@dataclass(frozen=True, slots=True)
class ImportOrder:
    """How files are to be taken: by whom; only looked at (``dry_run``); whether a row that differs
    from the record under the same key revises it, which needs a reason; and whether there is to be
    a ``backup`` of the record as it was before."""

    author: str
    dry_run: bool = False
    revise: bool = False
    reason: str | None = None
    backup: bool = True


@dataclass(frozen=True, slots=True)
class Imported:
    """What an import did (or, dry, would do): rows by kind, and what a reader should know.
    ``digest`` is the journal's new last digest, None where nothing was written."""

    added: Mapping[str, int]
    revised: Mapping[str, int]
    unchanged: Mapping[str, int]
    notices: tuple[str, ...]
    digest: str | None

    @property
    def changed(self) -> bool:
        """Whether the files hold anything that the record did not."""
        return bool(self.added or self.revised)


def import_evidence(
    office: Office, paths: Sequence[Path], order: ImportOrder, progress: Progress = silent
) -> Imported:
    """Take the files in; Refused lists every fault in all of them, and then nothing is written,
    and so it is where NotBackedUp says that there could be no backup before it."""
    zone = office.zone()
    given = _checked(order, zone)
    read = evidence_files.read(paths, zone, progress)
    if order.backup and not (order.dry_run or read.faults):
        safekeeping.before(office, "import", progress)
    with office.record.act("import", given.author, office.clock(), given.reason) as act:
        progress(later("checking"), 0, 0)
        plans = [_plan(act, sheet, order.revise) for sheet in read.sheets]
        references = References(act, read.sheets)
        faults = [*read.faults]
        notices: list[str] = []
        for sheet, plan in zip(read.sheets, plans, strict=True):
            faults += plan.faults
            faults += references.faults(sheet)
            notices += [*references.notices(sheet), *plan.notices]
        if faults:
            raise Refused(*_in_order(faults, read.sheets))
        if order.dry_run or not any(plan.changes for plan in plans):
            act.cancel()
        _demand(office, act, given.author, plans)
        progress(later("writing"), 0, 0)
        _write(act, plans)
        _check_reliefs(act, read.sheets, plans)
    return Imported(
        {p.kind.name: len(p.added) for p in plans if p.added},
        {p.kind.name: len(p.revised) for p in plans if p.revised},
        {p.kind.name: p.unchanged for p in plans if p.unchanged},
        tuple(notices),
        act.past.digest if act.past else None,
    )


def _demand(office: Office, act: Act, author: str, plans: Sequence["_Plan"]) -> None:
    """Whether whoever imports may. Of most that is only added, the import itself is all that is
    asked for: half a million rows need not be looked at."""
    if any(plan.changes for plan in plans):
        written = [one for plan in plans for one in (*plan.written, *_added(plan))]
        demand_for(office, act, author, written, from_files=True)


def _added(plan: "_Plan") -> Iterator[Written]:
    if plan.kind in (PEOPLE, WAIVERS, STANDDOWNS):
        yield from (Written(plan.kind, None, row) for row in plan.added)


def _checked(order: ImportOrder, zone: ZoneInfo) -> Order:
    """Who imports and, for a revision, why, as it goes into the journal."""
    _check_reason(order)
    given, faults = ordered(Order(order.author, order.reason if order.revise else None), zone)
    if faults:
        raise Refused(*faults)
    return given


def _check_reason(order: ImportOrder) -> None:
    if order.revise and not (order.reason or "").strip():
        raise Refused(
            Fault(
                "--revise",
                "",
                phrase("a revision needs a reason"),
                phrase('add --reason "why it changed"'),
            )
        )


@dataclass(slots=True)
class _Plan:
    """What one sheet would do to the record."""

    sheet: ReadSheet
    added: list[Row] = field(default_factory=list)
    revised: list[tuple[int, int, Row]] = field(default_factory=list)
    written: list[Written] = field(default_factory=list)
    touched: list[int] = field(default_factory=list)
    unchanged: int = 0
    faults: list[Fault] = field(default_factory=list)
    notices: list[str] = field(default_factory=list)

    @property
    def kind(self) -> Kind:
        return self.sheet.kind

    @property
    def changes(self) -> bool:
        return bool(self.added or self.revised)


def _plan(act: Act, sheet: ReadSheet, revise: bool) -> _Plan:
    """Compare a sheet with the record, row by row under its key. A column that the sheet lacks
    leaves what is recorded as it is; a row of a fact that is struck out brings that back."""
    plan = _Plan(sheet)
    current = act.current_or_struck(sheet.kind)
    indexes = tuple(sheet.kind.index(name) for name in sheet.kind.key)
    for number, row in enumerate(sheet.rows):
        if number in sheet.faulty:
            continue
        held = current.get(tuple([row[index] for index in indexes])) if current else None
        if held is None:
            plan.added.append(row)
            plan.touched.append(number)
            continue
        if sheet.absent:
            row = _completed(row, held.row, sheet.absent)
            if held.struck:
                plan.faults += _dangling(act, sheet, number, row)
        if held.row == row and not held.struck:
            plan.unchanged += 1
        else:
            _take_revision(plan, number, row, held, revise)
    return plan


def _completed(row: Row, held: Row, absent: frozenset[int]) -> Row:
    """A row with what is recorded in place of the columns that its sheet lacks."""
    return tuple(
        old if index in absent else new
        for index, (new, old) in enumerate(zip(row, held, strict=True))
    )


def _dangling(act: Act, sheet: ReadSheet, number: int, row: Row) -> list[Fault]:
    """What a row that is brought back refers to in columns that its sheet lacks, though that is
    struck out."""
    found = []
    for index in sorted(sheet.absent):
        column, value = sheet.kind.columns[index], row[index]
        if isinstance(column.type, Reference) and value is not None:
            kind = next(kind for kind in KINDS if kind.name == column.type.kind)
            named = find(act, kind, (value,))
            if named is not None and named.struck:
                problem = phrase(
                    "{kind} {key} is struck out, and the record has it here",
                    kind=phrase(kind.one),
                    key=repr(value),
                )
                cure = phrase("add a column {column} to the file", column=column.name)
                found.append(Fault(sheet.at(number), column.name, problem, cure))
    return found


def _take_revision(plan: _Plan, number: int, row: Row, held: Current, revise: bool) -> None:
    kind, place = plan.kind, plan.sheet.at(number)
    differing = [
        (name, _difference(name, old, new))
        for name, new, old in zip(kind.names, row, held.row, strict=True)
        if new != old
    ]
    changes = [told for _, told in differing]
    key = " + ".join(str(row[kind.index(name)]) for name in kind.key)
    if not revise:
        gone = [phrase("struck out")] if held.struck else []
        problem = phrase(
            "{kind} {key} is recorded otherwise ({differences})",
            kind=phrase(kind.one),
            key=repr(key),
            differences=joined("; ", (*gone, *changes)),
        )
        cure = phrase('to revise it, import with --revise --reason "why it changed"')
        names = ", ".join(name for name, _ in differing)
        plan.faults.append(Fault(place, names, problem, cure))
        return
    wrong = row_faults(kind, row)
    plan.faults += [Fault(place, name, problem, cure) for name, problem, cure in wrong]
    plan.revised.append((held.entry, held.number, row))
    plan.written.append(Written(kind, None if held.struck else held.row, row, place))
    plan.touched.append(number)
    back = [phrase("struck out before, brought back")] if held.struck else []
    fact = phrase("{kind} {key}", kind=phrase(kind.one), key=repr(key))
    plan.notices.append(joined(": ", (place, fact, joined("; ", (*back, *changes)))))


def _difference(name: str, old: Value, new: Value) -> str:
    told = phrase("{old} in the record, {new} in the file", old=_told(old), new=_told(new))
    return joined(": ", (name, told))


def _told(value: Value) -> str:
    """A value in a sentence; nothing where none is recorded."""
    return phrase("nothing") if value in (None, ()) else shown(cell_text(value))


def _write(act: Act, plans: Sequence[_Plan]) -> None:
    for kind in KINDS:
        for plan in plans:
            if plan.kind is kind:
                act.add(kind, plan.added)
                act.revise(kind, plan.revised)


def _check_reliefs(act: Act, sheets: Sequence[ReadSheet], plans: Sequence[_Plan]) -> None:
    """Waivers and extensions are judged on the record as it would be after the import."""
    for sheet, plan in zip(sheets, plans, strict=True):
        if sheet.kind.name == "waivers" and plan.touched:
            editions = editions_of(act.editions())
            evidence = act.evidence(editions.zone)
            faults = relief_faults(sheet, plan.touched, evidence, editions)
            if faults:
                raise Refused(*faults)


def _in_order(faults: Sequence[Fault], sheets: Sequence[ReadSheet]) -> list[Fault]:
    """By file, then by line; what belongs to no line comes first."""
    places = {sheet.place: number for number, sheet in enumerate(sheets)}

    def rank(fault: Fault) -> tuple[int, int]:
        place, _, line = fault.place.rpartition(":")
        if place in places and line.isdigit():
            return places[place], int(line)
        return places.get(fault.place, -1), 0

    return sorted(faults, key=rank)
