"""A sortie's draft, read: every fault at its field, and the rows that go into the record."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import BadCell, likely, shown
from crewtrack.cells import read_cell
from crewtrack.checks import row_faults
from crewtrack.engine.standard import Position, Task
from crewtrack.errors import Fault
from crewtrack.facts import PERFORMANCES, SORTIES, Row, Value
from crewtrack.moments import read_day
from crewtrack.screens.fact_form import sentence
from crewtrack.screens.language import say
from crewtrack.screens.sortie_cells import read_angle, read_launch, split_flow
from crewtrack.screens.sortie_draft import FIELDS, TASK_FIELDS, SortieDraft, TaskLine


@dataclass(frozen=True, slots=True)
class SortieKnown:
    """What a sortie may refer to, by key: names of people, boats and aircraft, and tasks; the
    keys of sorties that are taken; the unit's place (None where it has none) and zone."""

    zone: ZoneInfo
    people: Mapping[str, str] = field(default_factory=dict)
    vessels: Mapping[str, str] = field(default_factory=dict)
    aircraft: Mapping[str, str] = field(default_factory=dict)
    tasks: Mapping[str, Task] = field(default_factory=dict)
    taken: Collection[str] = ()
    position: Position | None = None


@dataclass(frozen=True, slots=True)
class FormFault:
    """One thing that is wrong. ``place`` is a field, or ``task_place`` of a line; ``empty`` where
    nothing was given yet, which is told only once the field has been left."""

    place: str
    sentence: str
    empty: bool = False


@dataclass(frozen=True, slots=True)
class ReadDraft:
    """What a draft comes to: values by column, as far as they could be read, and the faults in
    reading order. ``lines`` are the numbers of the draft's lines behind ``performances``."""

    values: Mapping[str, Value]
    performances: tuple[Row, ...]
    lines: tuple[int, ...]
    faults: tuple[FormFault, ...]

    @property
    def sortie(self) -> Row:
        """The sortie's row, None where a cell could not be read."""
        return tuple(self.values[name] for name in SORTIES.names)


def draft_day(draft: SortieDraft, otherwise: date) -> date:
    """The launch date that is typed; ``otherwise`` while it can't be read."""
    try:
        return read_day(draft.text("date"))
    except BadCell:
        return otherwise


def task_place(number: int, name: str) -> str:
    """The place of a field in a line of tasks, counted from 0."""
    return f"tasks {number} {name}"


def crew_place(seat: str) -> str:
    """The place of a seat."""
    return f"crew {seat}"


def read_draft(draft: SortieDraft, known: SortieKnown) -> ReadDraft:
    """Read all that is typed, whatever is wrong with some of it."""
    sortie = _SortieReading(draft, known)
    found = list(sortie.faults())
    found += [
        FormFault(crew_place(line.seat), _unknown(line.person, known.people))
        for line in draft.crew
        if line.person and line.person not in known.people
    ]
    rows: list[Row] = []
    numbers: list[int] = []
    seen: set[tuple[str, str]] = set()
    for number, line in enumerate(draft.tasks):
        if not line.blank:
            row, wrong = _line(line, number, draft, known)
            rows.append(row)
            numbers.append(number)
            found += wrong or _twice(row, number, seen)
    if not rows:
        found.append(FormFault("tasks", say("no task is given; add who did what"), empty=True))
    return ReadDraft(sortie.values, tuple(rows), tuple(numbers), tuple(found))


def told_faults(read: ReadDraft, visited: Collection[str], saving: bool) -> Mapping[str, str]:
    """The sentence at each place: what is empty is held against nobody who has not been there,
    until it is to be saved."""
    told: dict[str, str] = {}
    for fault in read.faults:
        if saving or not fault.empty or fault.place in visited:
            told.setdefault(fault.place, fault.sentence)
    return told


def fault_at(fault: Fault, read: ReadDraft) -> FormFault:
    """A fault that the office told of, at the field of the form that it means."""
    told = sentence(fault.problem, fault.cure)
    kind, _, number = fault.place.removeprefix("struck ").partition(" ")
    if kind == PERFORMANCES.name and number.isdigit() and 0 < int(number) <= len(read.lines):
        line = read.lines[int(number) - 1]
        return FormFault(task_place(line, fault.field or "person"), told)
    return FormFault(_FIELD_OF.get(fault.field, fault.field or "sortie"), told)


_FIELD_OF: Final = {
    "launched": "time",
    "wind_from": "wind",
    "set": "current",
    "drift": "current",
    "author": "sortie",  # who may not is told at the sortie as a whole
    "passphrase": "sortie",
}
_PLAIN: Final = (
    "minutes", "setting", "way", "sea", "heading", "speed", "light", "light_reason", "purpose",
    "remarks", "sortie",
)  # fmt: skip


class _SortieReading:
    """The sortie's own fields, one after another."""

    def __init__(self, draft: SortieDraft, known: SortieKnown) -> None:
        self._draft = draft
        self._known = known
        self.values: dict[str, Value] = dict.fromkeys(SORTIES.names)
        self._unread: set[str] = set()
        self._found: list[FormFault] = []

    def faults(self) -> Iterator[FormFault]:
        """Every fault, in the order of the fields; ``values`` are read by the way."""
        for name in _PLAIN:
            self._read(name, name, self._draft.text(name))
        self._launch()
        self._refer("vessel", self._known.vessels)
        self._refer("aircraft", self._known.aircraft)
        self._try("lat", ("lat",), lambda text: (read_angle(text, "NS"),))
        self._try("lon", ("lon",), lambda text: (read_angle(text, "EW"),))
        self._try("wind", ("wind_from", "wind"), lambda text: split_flow(text, "240/14"))
        self._try("current", ("set", "drift"), lambda text: split_flow(text, "090/1.2"))
        self._between()
        yield from sorted(self._found, key=lambda fault: FIELDS.index(fault.place))

    def _read(self, place: str, column: str, text: str) -> None:
        told = SORTIES.columns[SORTIES.index(column)]
        if told.required and not text:
            self._fault(place, column, say("this is needed"), empty=True)
            return
        try:
            self.values[column] = read_cell(told, text, self._known.zone)
        except BadCell as bad:
            self._fault(place, column, sentence(bad.problem, bad.cure))

    def _fault(self, place: str, column: str, told: str, empty: bool = False) -> None:
        self._unread.add(column)
        self._found.append(FormFault(place, told, empty))

    def _try(
        self, place: str, columns: tuple[str, ...], apart: Callable[[str], tuple[str, ...]]
    ) -> None:
        """Take a field apart into the texts of its columns, and read those."""
        text = self._draft.text(place)
        if not text:
            return
        try:
            parts = apart(text)
        except BadCell as bad:
            self._fault(place, columns[0], sentence(bad.problem, bad.cure))
            return
        for column, part in zip(columns, parts, strict=True):
            self._read(place, column, part)

    def _launch(self) -> None:
        for name in ("date", "time"):
            if not self._draft.text(name):
                self._fault(name, "launched", say("this is needed"), empty=True)
        if not self._draft.text("date"):
            return
        place = "date"
        try:
            day = read_day(self._draft.text("date"))
            place = "time"
            if self._draft.text("time"):
                self.values["launched"] = read_launch(
                    day, self._draft.text("time"), self._known.zone
                )
        except BadCell as bad:
            self._fault(place, "launched", sentence(bad.problem, bad.cure))

    def _refer(self, name: str, known: Mapping[str, str]) -> None:
        text = self._draft.text(name)
        if text:
            self.values[name] = text
            if text not in known:
                self._fault(name, name, _unknown(text, known))

    def _between(self) -> None:
        """What must hold between fields, and that the key is free."""
        row = tuple(self.values[name] for name in SORTIES.names)
        for column, problem, cure in row_faults(SORTIES, row, self._unread):
            self._fault(column, column, sentence(problem, cure))
        if self.values["sortie"] in self._known.taken:
            self._fault(
                "sortie",
                "sortie",
                say("there is a sortie {key} already; write another key", key=row[0]),
            )


def _line(
    line: TaskLine, number: int, draft: SortieDraft, known: SortieKnown
) -> tuple[Row, list[FormFault]]:
    """A line as a row, None where a cell could not be read, and what is wrong with it."""
    values: dict[str, Value] = {"sortie": draft.text("sortie")}
    wrong: dict[str, FormFault] = {}
    for name in TASK_FIELDS:
        column = PERFORMANCES.columns[PERFORMANCES.index(name)]
        text, place = line.text(name).strip(), task_place(number, name)
        if column.required and not text:
            wrong[name] = FormFault(place, say("this is needed"), empty=True)
            values[name] = None
            continue
        try:
            values[name] = read_cell(column, text, known.zone)
        except BadCell as bad:
            values[name] = None
            wrong[name] = FormFault(place, sentence(bad.problem, bad.cure))
    for name, names in (
        ("person", known.people),
        ("supervisor", known.people),
        ("task", {key: task.title for key, task in known.tasks.items()}),
    ):
        if values[name] is not None and values[name] not in names:
            wrong[name] = FormFault(task_place(number, name), _unknown(str(values[name]), names))
    row = tuple(values[name] for name in PERFORMANCES.names)
    for name, problem, cure in row_faults(PERFORMANCES, row, wrong):
        wrong[name] = FormFault(task_place(number, name), sentence(problem, cure))
    return row, [wrong[name] for name in TASK_FIELDS if name in wrong]


def _twice(row: Row, number: int, seen: set[tuple[str, str]]) -> list[FormFault]:
    person, task = str(row[1]), str(row[2])
    if (person, task) in seen:
        told = say("{person} has this task in a line above; raise its times", person=person)
        return [FormFault(task_place(number, "task"), told)]
    seen.add((person, task))
    return []


def _unknown(text: str, known: Iterable[str] | Mapping[str, str]) -> str:
    problem = say("{what} is not known", what=shown(text))
    return sentence(problem, likely(text, known) or say("choose one from the list"))
