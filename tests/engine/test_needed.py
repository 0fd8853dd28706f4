"""What can't be left out is found by trying."""

from collections.abc import Callable, Collection

from crewtrack.engine.needed import Need, Needed


def asking_for(*sets: set[int]) -> Callable[[Collection[int]], str]:
    """Something changes unless all of one of the sets stay."""
    return lambda kept: "" if any(one <= set(kept) for one in sets) else "deck-pilot"


def test_nothing_stays_where_nothing_changes_without_it() -> None:
    search = Needed(range(100), asking_for(set()))
    assert search.search() == {}
    assert search.tried == 1


def test_what_is_needed_is_found_among_many_and_nothing_else_stays() -> None:
    found = Needed(range(100), asking_for({3, 40, 41})).search()
    assert found == {piece: Need("deck-pilot", True) for piece in (3, 40, 41)}


def test_of_two_ways_the_newer_one_is_kept() -> None:
    assert set(Needed(range(50), asking_for({40}, {2, 3})).search()) == {2, 3}


def test_what_changes_more_when_more_stays_is_found_all_the_same() -> None:
    def odd(kept: Collection[int]) -> str:
        return "" if len(kept) % 2 == 1 or len(kept) == 20 else "x"

    assert len(Needed(range(20), odd).search()) % 2 == 1


def test_the_trials_are_few_however_many_pieces_there_are() -> None:
    every = set(range(0, 20_000, 2))
    search = Needed(range(20_000), asking_for(every))
    found = search.search()
    assert every <= set(found)
    assert search.tried < 80
    assert not any(need.alone for need in found.values())


def test_what_is_kept_is_enough() -> None:
    for needed in ({0}, {9}, {0, 9}, set(range(10)), {4, 5}):
        changed = asking_for(needed)
        assert changed(Needed(range(10), changed).search().keys()) == ""
