"""Which past facts can't be sealed, and why not: since standings on later days rest on them, or
since something that stays names them."""

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final

from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import Books
from crewtrack.engine.lasting import Seen, asked_about, seen
from crewtrack.engine.needed import Need, Needed
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.thinning import Gone, thinned
from crewtrack.facts import CERTIFICATES, SIGNOFFS, SORTIES, STANDDOWNS, WAIVERS
from crewtrack.office.entries import named
from crewtrack.office.office import Progress
from crewtrack.phrases import later, phrase
from crewtrack.records.aging import Aged, Aging, FactName
from crewtrack.records.entries import kind_named

_MOST_TURNS: Final = 5
"""So often one person is looked at anew; then all that is left in their books stays."""


def spared(
    reckoning: Reckoning, aging: Aging, cutoff: int, progress: Progress
) -> Mapping[FactName, str]:
    """The past facts that stay, each with a sentence that says why; all others can be sealed
    together, and change no standing on any day from ``cutoff`` on."""
    sparing = _Sparing(reckoning, cutoff, {(one.kind, one.key): one for one in aging.past})
    for name, one in list(sparing.going.items()):
        if why := _of_itself(one, aging.staying.get(name)):
            sparing.stay(name, why)
    sparing.settle(progress)
    return sparing.why


def _of_itself(one: Aged, named_by: FactName | None) -> str:
    """Why a fact stays, whatever standings rest on; empty where nothing keeps it."""
    if one.open:
        return phrase("nobody has answered it yet")
    if named_by is not None:
        return _names_it(named_by)
    if one.newest:
        return phrase("it is the newest of its kind, and the record numbers on from it")
    return ""


def _names_it(name: FactName) -> str:
    kind, key = name
    return phrase("{fact} names it, and stays", fact=named(kind_named(kind), (key,)))


@dataclass(slots=True)
class _Sparing:
    """What is still going, and why the rest stays."""

    reckoning: Reckoning
    cutoff: int
    going: dict[FactName, Aged]
    why: dict[FactName, str] = field(default_factory=dict)
    _shelves: dict[str, list[FactName]] = field(default_factory=dict)
    _owners: dict[FactName, list[str]] = field(default_factory=dict)
    _sorties: dict[str, int] = field(default_factory=dict)
    _waiting: dict[str, None] = field(default_factory=dict)

    def stay(self, name: FactName, why: str) -> None:
        """Keep a fact, and what it names; whoever has any of it in their books is looked at
        anew."""
        one = self.going.pop(name, None)
        if one is None:
            return
        self.why[name] = why
        self._waiting |= dict.fromkeys(self._owners.get(name, ()))
        for other in one.names:
            self.stay(other, _names_it(name))

    def settle(self, progress: Progress) -> None:
        """Keep all that standings rest on."""
        self._put_on_shelves()
        total, turns = len(self._shelves), Counter[str]()
        self._waiting = dict.fromkeys(self._shelves)
        while self._waiting:
            progress(later("what standings rest on"), len(turns), total)
            person = next(iter(self._waiting))
            del self._waiting[person]
            turns[person] += 1
            self._look_at(person, turns[person])

    def _put_on_shelves(self) -> None:
        """What is going by the people in whose books it stands, the newest first."""
        key = self.reckoning.evidence.sorties.key
        going = {name for kind, name in self.going if kind == SORTIES.name}
        self._sorties = {one: place for place, one in enumerate(key) if one in going}
        flown = {place: one for one, place in self._sorties.items()}
        for person, books in self.reckoning.evidence.books.items():
            names = [name for name in _in_books(books, flown) if name in self.going]
            if names:
                names.sort(key=lambda name: (self.going[name].last, name), reverse=True)
                self._shelves[person] = names
                for name in names:
                    self._owners.setdefault(name, []).append(person)

    def _look_at(self, person: str, turn: int) -> None:
        pieces = [name for name in self._shelves[person] if name in self.going]
        if not pieces:
            return
        changed = self._changed(person, pieces)
        if turn <= _MOST_TURNS:
            books = self.reckoning.evidence.books[person]
            size = sum(len(done.sortie) for done in books.performances.values())
            needed = Needed(pieces, changed, size).search()
        else:
            why = changed(())
            needed = {name: Need(why, False) for name in pieces} if why else {}
        for name, need in needed.items():
            self.stay(name, self._rests(person, need))

    def _changed(
        self, person: str, pieces: Collection[FactName]
    ) -> Callable[[Collection[FactName]], str]:
        """A qualification of a person that changes where only some of the pieces stay, empty for
        none. The one that was found last is tried first: it is the likeliest, and one is
        enough."""
        books = self.reckoning.evidence.books[person]
        docket, cutoff = self.reckoning.docket(books, FOREVER), self.cutoff
        keys = list(asked_about(docket, cutoff))
        whole: dict[str, Seen] = {}

        def changed(kept: Collection[FactName]) -> str:
            staying = frozenset(kept)
            less = thinned(books, self._gone(name for name in pieces if name not in staying))
            trial = self.reckoning.docket_of(less)
            for key in keys:
                if key not in whole:
                    whole[key] = seen(docket, key, cutoff)
                if seen(trial, key, cutoff) != whole[key]:
                    keys.remove(key)
                    keys.insert(0, key)
                    return key
            return ""

        return changed

    def _gone(self, names: Iterable[FactName]) -> Gone:
        of: dict[str, set[str]] = {}
        for kind, key in names:
            of.setdefault(kind, set()).add(key)
        return Gone(
            frozenset(self._sorties[key] for key in of.get(SORTIES.name, ())),
            of.get(SIGNOFFS.name, ()),
            of.get(CERTIFICATES.name, ()),
            of.get(WAIVERS.name, ()),
            of.get(STANDDOWNS.name, ()),
        )

    def _rests(self, person: str, need: Need) -> str:
        title = self._title(need.qualification)
        if need.alone:
            return phrase("{person}'s {standing} rests on it", person=person, standing=title)
        return phrase(
            "{person}'s {standing} rests on it, or on others beside it",
            person=person,
            standing=title,
        )  # fmt: skip

    def _title(self, qualification: str) -> str:
        standards = reversed(self.reckoning.editions.standards)
        held = (one.qualifications.get(qualification) for one in standards)
        return next((told.title for told in held if told is not None), qualification)


def _in_books(books: Books, flown: Mapping[int, str]) -> Iterable[FactName]:
    """The facts in somebody's books; of the sorties those that ``flown`` has, by their index."""
    there = {sortie for done in books.performances.values() for sortie in done.sortie}
    yield from ((SORTIES.name, flown[sortie]) for sortie in there & flown.keys())
    yield from ((SIGNOFFS.name, one.key) for one in books.signoffs)
    yield from ((CERTIFICATES.name, one.key) for one in books.certificates)
    yield from ((WAIVERS.name, one.key) for one in books.waivers)
    yield from ((STANDDOWNS.name, one.key) for one in books.standdowns)
