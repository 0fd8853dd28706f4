"""What there is to be seen of one person's standings from a day on, as one value.

Where it is equal for two bodies of evidence, so is every standing on every day from that one on
(word, since, through, limiting requirements, waivers), asked as each day knew it, and so are the
days of the history from that one on. It may differ where no standing does, by what one of several
requirements that would do is covered by: then an explanation would be another.
"""

from bisect import bisect_right
from collections.abc import Iterator

from crewtrack.engine.cover import Cover
from crewtrack.engine.covers import Leaf
from crewtrack.engine.days import FOREVER
from crewtrack.engine.reckoning import asked
from crewtrack.engine.requirement import Certified, Recent, Signed
from crewtrack.engine.spans import Days, intersection, run_at
from crewtrack.engine.standard import Qualification, Standard
from crewtrack.engine.standing import Docket, on_the_books

Seen = tuple[Days, ...]
"""The days met, then how long each requirement is covered, step by step."""


def asked_about(docket: Docket, cutoff: int) -> tuple[str, ...]:
    """The qualifications to which the person is assigned on any day from ``cutoff`` on: with all
    others the standing is none, whatever the evidence."""
    books = (on_the_books(docket.books),)
    return tuple(
        key
        for key in docket.editions.qualifications
        if any(last >= cutoff for _, last in intersection(docket.assigned(key), books))
    )


def seen(docket: Docket, qualification: str, cutoff: int) -> Seen:
    """What there is to be seen of one of them; the docket is one with all evidence (``until`` is
    ``FOREVER``)."""
    assigned = docket.assigned(qualification)
    since = min(first for first, last in assigned if last >= cutoff)
    met = _met(docket.met(qualification), cutoff, since)
    return (met, *_covered(docket, qualification, cutoff))


def _met(days: Days, cutoff: int, assigned_from: int) -> Days:
    """The runs that reach the cutoff, whole, since a standing says when they began; of the last
    one before it only the end, since which somebody is lapsed, unless that was before they were
    assigned."""
    place = bisect_right(days, (cutoff, FOREVER))
    while place and days[place - 1][1] >= cutoff:
        place -= 1
    if not place or run_at(days, cutoff) or days[place - 1][1] < assigned_from:
        return days[place:]
    return ((0, days[place - 1][1]), *days[place:])


def _covered(docket: Docket, qualification: str, cutoff: int) -> Iterator[Days]:
    """The covers under each edition that is in effect on any day from the cutoff on."""
    for index, case in enumerate(docket.cases):
        told = case.standard.qualifications.get(qualification)
        if told is not None and docket.editions.stretch(index)[1] >= cutoff:
            for leaf in _leaves(case.standard, told):
                yield _steps(case.cover(leaf), cutoff)


def _leaves(standard: Standard, told: Qualification) -> Iterator[Leaf]:
    for requirement in asked(standard, told):
        if isinstance(requirement, Recent | Signed | Certified):
            yield requirement


def _steps(cover: Cover, cutoff: int) -> Days:
    """The steps from the cutoff on, its own first: each a day and the last day covered from it,
    the day before where there is none. Steps that change nothing are left out."""
    steps = [(cutoff, max(cover.last_on(cutoff), cutoff - 1))]
    place = bisect_right(cover.days, cutoff)
    for day, last in zip(cover.days[place:], cover.lasts[place:], strict=True):
        last = max(last, day - 1)
        if last != max(steps[-1][1], day - 1):
            steps.append((day, last))
    return tuple(steps)
