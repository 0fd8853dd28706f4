"""The log: every sortie as a line of a table, the newest first, and which of them to show.

A row of the table is the sortie's place in the evidence; what a line says is looked up when it is
shown, since there can be tens of thousands. What takes long to sort by is worked out before, and
once.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property, partial
from typing import Any, Final

from crewtrack.bad_cell import BadCell
from crewtrack.engine.conditions import Conditions
from crewtrack.engine.evidence import NOT_RECORDED, Sorties
from crewtrack.facts import AIRCRAFT, LIGHTS, SORTIES, VESSELS, WAYS, Kind, Value
from crewtrack.moments import read_day
from crewtrack.office.disputes import Dispute, open_disputes
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens.dispute_words import by_sortie, disputed_column
from crewtrack.screens.fact_form import sentence
from crewtrack.screens.fields import choice_told, label
from crewtrack.screens.language import say
from crewtrack.screens.log_done import Done, LogDone
from crewtrack.screens.sortie_cells import flow_text
from crewtrack.screens.tables import Table, TableColumn

_FEW: Final = 5_000
"""With up to so many sorties, everything is worked out at once."""
TOLD: Final = ("vessel", "aircraft", "purpose")
"""What is asked of a sortie's row; all else is in the evidence."""


@dataclass(frozen=True, slots=True)
class LogFilter:
    """What to show: keys of a person, a boat and a task, and a span of days, as texts; empty
    where it does not matter."""

    person: str = ""
    vessel: str = ""
    task: str = ""
    first: str = ""
    last: str = ""

    def faults(self) -> Mapping[str, str]:
        """What is wrong with the days, by field."""
        found = {}
        for name, text in (("first", self.first), ("last", self.last)):
            try:
                _day(text)
            except BadCell as bad:
                found[name] = sentence(bad.problem, bad.cure)
        return found


def _day(text: str) -> date | None:
    return read_day(text.strip()) if text.strip() else None


class SortieLog:
    """All sorties of one state of the record."""

    def __init__(self, snapshot: Snapshot) -> None:
        self._snapshot = snapshot
        self._evidence = snapshot.reckoning.evidence
        editions = snapshot.editions
        self._done = LogDone(self._evidence, len(self.sorties.key) > _FEW)
        self._ordered: dict[int, list[Done]] = {}
        self._ranks: dict[str, list[Any]] = {}
        self._conditions = [Conditions(self.sorties, each) for each in editions.standards]

    @property
    def snapshot(self) -> Snapshot:
        """The state of the record that it tells of."""
        return self._snapshot

    @property
    def sorties(self) -> Sorties:
        """All of them, in the order in which they happened."""
        return self._evidence.sorties

    def ranks(self, name: str, rank: Callable[[int], Any]) -> Sequence[Any]:
        """What every sortie is sorted by under a name; worked out at the first asking, which takes
        long for a long history, and kept."""
        if name not in self._ranks:
            self._ranks[name] = list(map(rank, range(len(self.sorties.key))))
        return self._ranks[name]

    def ranked(self, name: str) -> bool:
        """Whether that takes no time any more, or none to speak of."""
        return name in self._ranks or len(self.sorties.key) <= _FEW

    def crew_rank(self, index: int) -> str:
        """What ``crew`` sorts by, when all are going to be asked."""
        self._done.ask_all()
        return self.crew(index).casefold()

    def tasks_rank(self, index: int) -> str:
        """What ``tasks`` sorts by, when all are going to be asked."""
        self._done.ask_all()
        return self.tasks(index).casefold()

    @cached_property
    def _told(self) -> Mapping[str, tuple[Value, ...]]:
        return self._snapshot.told(SORTIES, TOLD)

    def value(self, index: int, name: str) -> str:
        """A sortie's boat, aircraft or purpose; empty where there is none."""
        return str(self._told[self.sorties.key[index]][TOLD.index(name)] or "")

    @cached_property
    def disputed(self) -> Mapping[str, tuple[Dispute, ...]]:
        """The open disputes of sorties and of what was performed on them, by the sortie's key."""
        return by_sortie(open_disputes(self._snapshot))

    def disputes(self, index: int) -> tuple[Dispute, ...]:
        """Those of one sortie."""
        return self.disputed.get(self.sorties.key[index], ())

    def shown(self, chosen: LogFilter) -> tuple[int, ...]:
        """The sorties that a filter leaves, the newest first; a span that can't be read is left
        out."""
        first, last = (_day(text) for text in self._span(chosen))
        low = 0 if first is None else first.toordinal()
        high = 2**62 if last is None else last.toordinal()
        days = self.sorties.day
        found: list[int] | range = range(len(days) - 1, -1, -1)
        if first is not None or last is not None:
            found = [index for index in found if low <= days[index] <= high]
        if chosen.person or chosen.task:
            among = self._done.flown(chosen.person, chosen.task)
            found = [index for index in found if index in among]
        if chosen.vessel:
            found = [i for i in found if self.value(i, "vessel") == chosen.vessel]
        return tuple(found)

    def _span(self, chosen: LogFilter) -> tuple[str, str]:
        wrong = chosen.faults()
        return (
            "" if "first" in wrong else chosen.first,
            "" if "last" in wrong else chosen.last,
        )

    def light(self, index: int) -> str:
        """The light at launch; empty where it is not known."""
        light = self.light_rank(index)
        return "" if light == NOT_RECORDED else choice_told(LIGHTS[light])

    def light_rank(self, index: int) -> int:
        """The light at launch, as a place in ``LIGHTS``."""
        edition = self._snapshot.editions.index_on(self.sorties.day[index])
        return self._conditions[edition].light(index, "launch")

    def crew(self, index: int) -> str:
        """The names of everybody who did something, in the order of the standard's tasks."""
        names = dict.fromkeys(person for person, _, _ in self._in_order(index))
        return ", ".join(self._evidence.books[person].person.name for person in names)

    def tasks(self, index: int) -> str:
        """What was done, and how many times where that was more than once."""
        counts: dict[str, int] = {}
        for _, task, times in self._in_order(index):
            counts[task] = counts.get(task, 0) + times
        tasks = self._snapshot.editions.on(self.sorties.day[index]).tasks
        titles = ((tasks[key].title if key in tasks else key, n) for key, n in counts.items())
        return ", ".join(f"{title} × {times}" if times > 1 else title for title, times in titles)

    def _in_order(self, index: int) -> list[Done]:
        if index not in self._ordered:
            self._ordered[index] = self._put_in_order(index)
        return self._ordered[index]

    def _put_in_order(self, index: int) -> list[Done]:
        tasks = self._snapshot.editions.on(self.sorties.day[index]).tasks
        rank = {key: place for place, key in enumerate(tasks)}
        return sorted(self._done.of(index), key=lambda row: (rank.get(row[1], len(rank)), row[0]))

    def name(self, kind: Kind, index: int) -> str:
        """The name of the boat or aircraft."""
        key = self.value(index, kind.key[0])
        known = self._snapshot.by_key(kind).get((key,))
        return str(known[kind.index("name")]) if known else key

    def launched(self, index: int) -> datetime:
        """The launch, on the clocks of the unit's zone."""
        return datetime.fromtimestamp(self.sorties.launched[index], self._snapshot.editions.zone)


def log_table(log: SortieLog, chosen: LogFilter) -> Table:
    """The log as a table; its rows are places in the evidence, their keys the sorties'."""
    disputed = (disputed_column(log.disputes),) if log.disputed else ()
    columns = (*_outing(log), *disputed, *_conditions(log), *_doing(log))
    return Table(columns, log.shown(chosen), log.sorties.key.__getitem__)


def _slow(
    log: SortieLog, title: str, text: Callable[[int], str], rank: Callable[[int], Any]
) -> TableColumn:
    """A column whose ranks are worked out before anything is sorted by it."""
    return TableColumn(
        title,
        text,
        lambda i: log.ranks(title, rank)[i],
        ready=lambda: log.ranked(title),
        prepare=lambda: log.ranks(title, rank),
    )


def _outing(log: SortieLog) -> tuple[TableColumn, ...]:
    minutes = log.sorties.minutes

    def named(kind: Kind) -> TableColumn:
        title = label(SORTIES, kind.key[0])
        return _slow(log, title, partial(log.name, kind), lambda i: log.name(kind, i).casefold())

    return (
        TableColumn(say("Date"), lambda i: f"{log.launched(i):%Y-%m-%d}", lambda i: i),
        _slow(
            log,
            say("Launch"),
            lambda i: f"{log.launched(i):%H:%M}",
            lambda i: log.launched(i).time(),
        ),
        _slow(log, say("Light"), log.light, log.light_rank),
        named(VESSELS),
        named(AIRCRAFT),
        TableColumn(say("Minutes"), lambda i: str(minutes[i]), minutes.__getitem__, right=True),
    )


def _conditions(log: SortieLog) -> tuple[TableColumn, ...]:
    sorties = log.sorties
    drill = sorties.drill
    return (
        TableColumn(
            say("Setting"), lambda i: say("drill") if drill[i] else say("live"), drill.__getitem__
        ),
        TableColumn(label(SORTIES, "way"), lambda i: _way(sorties.way[i]), sorties.way.__getitem__),
        TableColumn(
            say("Sea"), lambda i: _number(sorties.sea[i]), sorties.sea.__getitem__, right=True
        ),
        TableColumn(
            label(SORTIES, "wind"),
            lambda i: flow_text(sorties.wind_from[i], sorties.wind[i]),
            lambda i: -1.0 if sorties.wind[i] is None else sorties.wind[i],
            right=True,
        ),
    )


def _doing(log: SortieLog) -> tuple[TableColumn, ...]:
    def purpose(index: int) -> str:
        return log.value(index, "purpose")

    return (
        _slow(log, label(SORTIES, "purpose"), purpose, lambda i: purpose(i).casefold()),
        _slow(log, say("Crew"), log.crew, log.crew_rank),
        _slow(log, say("Tasks"), log.tasks, log.tasks_rank),
    )


def _way(way: int) -> str:
    return "" if way == NOT_RECORDED else choice_told(WAYS[way])


def _number(degree: int) -> str:
    return "" if degree == NOT_RECORDED else str(degree)
