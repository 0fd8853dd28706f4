"""Where what lasts of two bodies of evidence is equal, so is every later standing."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta
from random import Random

from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import Books, Evidence
from crewtrack.engine.lasting import Seen, asked_about, seen
from crewtrack.engine.needed import Needed
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.spans import Days, intersection
from crewtrack.engine.standing import Docket
from crewtrack.engine.standings import Standing
from crewtrack.engine.thinning import Gone, thinned
from tests.evidence_builder import PERFORMER
from tests.small_units import BESIDE, DAYS, unit_world
from tests.small_worlds import practice_world, signature_world
from tests.strategies import World

Piece = tuple[str, str | int]
LATER = tuple(DAYS[0] + timedelta(days=n) for n in range(25))


def worlds(count: int) -> Iterator[tuple[Random, World]]:
    """Small histories of all kinds, each with a source of further chances."""
    for seed in range(count):
        random = Random(seed)
        make = random.choice((unit_world, unit_world, unit_world, practice_world, signature_world))
        yield random, with_assignments(make(random))


def with_assignments(world: World) -> World:
    """A world of one requirement leaves assignments out."""
    if world.bio.assigned:
        return world
    return replace(world, bio=replace(world.bio, assigned=[f"basic {BESIDE[0]}.."]))


def pieces_before(evidence: Evidence, cutoff: int) -> list[Piece]:
    """What could be left out, the newest first."""
    books, dated = evidence.books[PERFORMER], list[tuple[int, Piece]]()
    named = {s.sortie for s in books.signoffs}
    flown = {sortie for done in books.performances.values() for sortie in done.sortie}
    dated += [(evidence.sorties.day[s], ("sorties", s)) for s in flown - named]
    dated += [(max(s.day, s.withdrawn or 0), ("signoffs", s.key)) for s in books.signoffs]
    dated += [
        (c.revoked or c.expires or c.issued, ("certificates", c.key)) for c in books.certificates
    ]
    dated += [(w.last, ("waivers", w.key)) for w in books.waivers]
    dated += [(d.last, ("standdowns", d.key)) for d in books.standdowns]
    past = [(day, piece) for day, piece in dated if day < cutoff]
    return [piece for _, piece in sorted(past, key=str, reverse=True)]


def without(books: Books, pieces: list[Piece]) -> Books:
    of = {
        kind: frozenset(key for held, key in pieces if held == kind)
        for kind in ("sorties", "signoffs", "certificates", "waivers", "standdowns")
    }
    return thinned(books, Gone(**of))  # type: ignore[arg-type] # keys of each kind's own type


def later(evidence: Evidence, world: World, cutoff: date) -> Mapping[tuple[str, date], Standing]:
    """Every standing on every day from the cutoff on."""
    told = Reckoning(evidence, world.editions())
    days = (*BESIDE, *LATER, date(2024, 12, 24), date(2025, 6, 1))
    return {
        (key, day): told.standing(PERFORMER, key, day)
        for key in world.editions().qualifications
        for day in days
        if day >= cutoff
    }


def history(evidence: Evidence, world: World, cutoff: int) -> dict[str, Days]:
    docket = Reckoning(evidence, world.editions()).docket(evidence.books[PERFORMER], FOREVER)
    after = ((cutoff, FOREVER),)
    return {
        key: intersection(docket.counting(key), after) for key in world.editions().qualifications
    }


def lasts(evidence: Evidence, world: World, books: Books, cutoff: int) -> Mapping[str, Seen]:
    docket: Docket = Reckoning(evidence, world.editions()).docket_of(books)
    return {key: seen(docket, key, cutoff) for key in asked_about(docket, cutoff)}


def test_equal_for_two_bodies_of_evidence_so_is_every_standing_from_then_on() -> None:
    equal = 0
    for random, world in worlds(600):
        evidence = world.evidence()
        books, cutoff = evidence.books[PERFORMER], random.choice(DAYS[3:])
        day = cutoff.toordinal()
        left_out = [p for p in pieces_before(evidence, day) if random.random() < 0.5]
        less = without(books, left_out)
        if not left_out or lasts(evidence, world, less, day) != lasts(evidence, world, books, day):
            continue
        equal += 1
        fewer = replace(evidence, books={**evidence.books, PERFORMER: less})
        assert later(fewer, world, cutoff) == later(evidence, world, cutoff), world
        assert history(fewer, world, day) == history(evidence, world, day), world
    assert equal > 80


def test_without_all_that_nothing_needs_every_later_standing_is_the_same() -> None:
    gone = stayed = 0
    for random, world in worlds(600):
        evidence = world.evidence()
        books, cutoff = evidence.books[PERFORMER], random.choice(DAYS[3:])
        day, pieces = cutoff.toordinal(), pieces_before(evidence, cutoff.toordinal())
        whole = lasts(evidence, world, books, day)

        def changed(kept: object) -> str:
            less = without(books, [p for p in pieces if p not in kept])  # type: ignore[operator]  # noqa: B023
            now = lasts(evidence, world, less, day)  # noqa: B023
            return next((key for key, held in whole.items() if now[key] != held), "")  # noqa: B023

        needed = Needed(pieces, changed).search()
        left = without(books, [p for p in pieces if p not in needed])
        fewer = replace(evidence, books={**evidence.books, PERFORMER: left})
        assert later(fewer, world, cutoff) == later(evidence, world, cutoff), world
        gone += len(pieces) - len(needed)
        stayed += len(needed)
    assert gone > 400
    assert stayed > 40
