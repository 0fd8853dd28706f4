"""Books without some of the evidence in them: what would be known if it were not there."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from itertools import compress

from crewtrack.engine.evidence import Books, Performances


@dataclass(frozen=True, slots=True)
class Gone:
    """What is left out: sorties by their index, with what was done on them; all else by key."""

    sorties: Collection[int] = frozenset()
    signoffs: Collection[str] = frozenset()
    certificates: Collection[str] = frozenset()
    waivers: Collection[str] = frozenset()
    standdowns: Collection[str] = frozenset()


def thinned(books: Books, gone: Gone) -> Books:
    """One person's books without it. A sign-off that stays must name no sortie that goes."""
    performances = books.performances
    if gone.sorties:
        performances = _flown(performances, gone.sorties)
    return replace(
        books,
        performances=performances,
        signoffs=tuple(s for s in books.signoffs if s.key not in gone.signoffs),
        certificates=tuple(c for c in books.certificates if c.key not in gone.certificates),
        waivers=tuple(w for w in books.waivers if w.key not in gone.waivers),
        standdowns=tuple(d for d in books.standdowns if d.key not in gone.standdowns),
    )


def _flown(
    performances: Mapping[str, Performances], sorties: Collection[int]
) -> Mapping[str, Performances]:
    left = {}
    for task, done in performances.items():
        keep = [sortie not in sorties for sortie in done.sortie]
        if all(keep):
            left[task] = done
        elif any(keep):
            left[task] = Performances(
                tuple(compress(done.sortie, keep)),
                tuple(compress(done.order, keep)),
                tuple(compress(done.times, keep)),
                tuple(compress(done.supervisor, keep)),
            )
    return left
