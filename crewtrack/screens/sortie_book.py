"""What the form for sorties needs of one state of the record."""

from collections.abc import Mapping
from datetime import date, datetime
from functools import cached_property

from crewtrack.engine.standard import Task
from crewtrack.facts import AIRCRAFT, PEOPLE, SORTIES, VESSELS, Kind
from crewtrack.office.flying import Flown
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens.language import say
from crewtrack.screens.sortie_crew import Usual
from crewtrack.screens.sortie_draft import SortieDraft
from crewtrack.screens.sortie_form import SortieKnown
from crewtrack.screens.sortie_keys import proposed_key
from crewtrack.screens.sortie_recorded import again, draft_of, fresh_draft


class SortieBook:
    """Asked on every key that is typed; what it had to look up it keeps."""

    def __init__(self, snapshot: Snapshot) -> None:
        self.snapshot = snapshot
        self._usual: dict[str, Usual] = {}
        self._known: dict[tuple[date, str], SortieKnown] = {}

    def known(self, day: date, own: str = "") -> SortieKnown:
        """What a sortie of a day may refer to; ``own`` is the key of one that is corrected."""
        asked = day, own
        if asked not in self._known:
            self._known[asked] = self._known_of(day, own)
        return self._known[asked]

    def _known_of(self, day: date, own: str) -> SortieKnown:
        standard = self.snapshot.standard(day)
        return SortieKnown(
            zone=self.snapshot.editions.zone,
            people=self._people(day),
            vessels=self._names(VESSELS),
            aircraft=self._names(AIRCRAFT),
            tasks={**self._every_task, **standard.tasks},
            taken=self._taken - {own} if own else self._taken,
            position=standard.position,
        )

    def choices(self) -> Mapping[str, Mapping[str, str]]:
        """What the log can be narrowed to: keys and names of people, boats and tasks."""
        return {
            "person": self._names(PEOPLE),
            "vessel": self._names(VESSELS),
            "task": {key: task.title for key, task in self._every_task.items()},
        }

    def usual(self, day: date) -> Usual:
        """What people usually do, by the standard of a day."""
        standard = self.snapshot.standard(day)
        if standard.edition not in self._usual:
            evidence = self.snapshot.reckoning.evidence
            self._usual[standard.edition] = Usual(evidence, standard)
        return self._usual[standard.edition]

    def fresh(self, day: date) -> SortieDraft:
        """An empty draft for a day, with a key proposed."""
        seats = tuple(each.seat for each in self.usual(day).seats)
        return fresh_draft(day, self.key(day), seats)

    def key(self, day: date) -> str:
        """The key to propose for a day's next sortie."""
        return proposed_key(self._keys, self._last(day), day)

    def last_key(self, day: date) -> str | None:
        """The key of the last sortie launched on a day or before."""
        last = self._last(day)
        return None if last is None else last[0]

    def recorded(self, flown: Flown) -> SortieDraft:
        """A sortie on record, as a draft."""
        rows = [held.row for held in flown.performances]
        usual = self.usual(_launched(flown).date())
        return draft_of(flown.sortie.row, rows, usual, self.snapshot.editions.zone)

    def again(self, flown: Flown, day: date) -> SortieDraft:
        """The next sortie of a day, from one on record."""
        minutes = flown.sortie.row[SORTIES.index("minutes")]
        last, fresh = self.recorded(flown), self.fresh(day)
        return again(last, _launched(flown), int(str(minutes)), fresh)

    def _last(self, day: date) -> tuple[str, date] | None:
        sorties = self.snapshot.reckoning.evidence.sorties
        ordinal = day.toordinal()
        for index in range(len(sorties.key) - 1, -1, -1):
            if sorties.day[index] <= ordinal:
                return sorties.key[index], date.fromordinal(sorties.day[index])
        return None

    def _people(self, day: date) -> dict[str, str]:
        """Who is on the books that day, then everybody else, who may be typed in all the same."""
        names = self._names(PEOPLE)
        here = {key: names[key] for key in self.snapshot.reckoning.people(day) if key in names}
        away = {
            key: say("{name} (not on the books)", name=name)
            for key, name in names.items()
            if key not in here
        }
        return {**here, **away}

    def _names(self, kind: Kind) -> dict[str, str]:
        name = kind.index("name")
        return {str(row[0]): str(row[name]) for row in self.snapshot.rows(kind)}

    @cached_property
    def _keys(self) -> tuple[str, ...]:
        return self.snapshot.taken_keys(SORTIES)

    @cached_property
    def _taken(self) -> frozenset[str]:
        return frozenset(self._keys)

    @cached_property
    def _every_task(self) -> dict[str, Task]:
        """The tasks of all editions, since any may be recorded."""
        editions = self.snapshot.editions.standards
        return {key: task for each in editions for key, task in each.tasks.items()}


def _launched(flown: Flown) -> datetime:
    launched = flown.sortie.row[SORTIES.index("launched")]
    if not isinstance(launched, datetime):
        raise TypeError("a recorded sortie has a launch")
    return launched
