"""What was recorded before an act: who had which duty, which key was whose, and how every fact
that matters stood. Built up act by act, so that each is judged by what came before it alone."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from crewtrack.facts import KEYS, PEOPLE, SIGNOFFS, Row
from crewtrack.office.able import duties_in
from crewtrack.office.duties import IMPORT, Written
from crewtrack.records.reading import StoredEdition
from crewtrack.records.recorded_acts import FLOWN, RecordedAct, Wrote

_Fact = tuple[str, tuple[object, ...]]


@dataclass(frozen=True, slots=True)
class PublicKey:
    """A key as it is recorded: whose it is, and its public half in hex digits."""

    person: str
    public: str


@dataclass(slots=True)
class Past:
    """What the record held before an act. ``newest`` are the facts that matter, as their newest
    revision has them; ``gone`` those that are struck out; ``signed`` the sign-offs that were
    signed when they were recorded; ``owners`` everybody who ever had a key."""

    newest: dict[_Fact, Row] = field(default_factory=dict)
    gone: set[_Fact] = field(default_factory=set)
    keys: dict[str, PublicKey] = field(default_factory=dict)
    owners: set[str] = field(default_factory=set)
    signed: set[object] = field(default_factory=set)
    editions: list[StoredEdition] = field(default_factory=list)

    @property
    def identified(self) -> bool:
        """Whether anybody ever had a key."""
        return bool(self.owners)

    def duties(self, person: str) -> frozenset[str] | None:
        """Somebody's duties; None for whoever is not on the books."""
        row = self.newest.get((PEOPLE.name, (person,)))
        return None if row is None else frozenset(duties_in(row))

    def signoff(self, key: object) -> Row | None:
        """A sign-off as it stands; None where there is none."""
        return self.newest.get((SIGNOFFS.name, (key,)))

    def written(self, wrote: Wrote) -> Written | None:
        """What a row amounts to, given how the fact stood before; None where that can't be told,
        since it was sealed."""
        fact = (wrote.kind.name, wrote.key)
        before: Row | None = None
        if wrote.revision > 1 and fact not in self.gone:
            before = wrote.row if wrote.kind in FLOWN else self.newest.get(fact)
            if before is None:
                return None
        return Written(wrote.kind, before, None if wrote.struck else wrote.row)

    def take(self, one: RecordedAct) -> None:
        """From now on this act is past too."""
        for wrote in one.wrote:
            self._take(wrote)
            if wrote.kind is SIGNOFFS and wrote.revision == 1 and _by_hand(one):
                self.signed.add(wrote.row[0])
        self.editions += one.editions

    def _take(self, wrote: Wrote) -> None:
        fact = (wrote.kind.name, wrote.key)
        if wrote.struck:
            self.newest.pop(fact, None)
            self.gone.add(fact)
        else:
            self.gone.discard(fact)
            if wrote.kind not in FLOWN:
                self.newest[fact] = wrote.row
        if wrote.kind is KEYS:
            self._take_key(wrote)

    def _take_key(self, wrote: Wrote) -> None:
        for name, key in keys_in([wrote]):
            self.owners.add(key.person)
            self.keys[name] = key
        if wrote.struck:
            self.keys.pop(str(wrote.row[0]), None)


def keys_in(wrote: Iterable[Wrote]) -> Iterator[tuple[str, PublicKey]]:
    """The keys that rows record, by their names."""
    person, public = KEYS.index("person"), KEYS.index("public")
    for one in wrote:
        if one.kind is KEYS:
            yield str(one.row[0]), PublicKey(str(one.row[person]), str(one.row[public]))


def _by_hand(one: RecordedAct) -> bool:
    return one.past.signatures is not None and one.past.kind != IMPORT
