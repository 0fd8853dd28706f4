from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from crewtrack.files.standard_loops import find_loops


def test_a_chain_is_no_loop() -> None:
    assert find_loops({"a": ["b", "c"], "b": ["c"], "c": []}) == ()


def test_a_loop_is_spelled_out_from_and_to_the_same_qualification() -> None:
    assert find_loops({"a": ["b"], "b": ["c"], "c": ["b"]}) == (("b", "c", "b"),)


def test_a_qualification_that_names_itself_is_a_loop() -> None:
    assert find_loops({"a": ["a"]}) == (("a", "a"),)


def test_two_loops_apart_are_both_found() -> None:
    found = find_loops({"a": ["b"], "b": ["a"], "c": ["c"]})
    assert found == (("a", "b", "a"), ("c", "c"))


def test_a_chain_longer_than_the_stack_is_followed() -> None:
    chain = {str(n): [str(n + 1)] for n in range(5000)} | {"5000": ["0"]}
    (loop,) = find_loops(chain)
    assert len(loop) == 5002


@given(st.dictionaries(st.sampled_from("abcde"), st.lists(st.sampled_from("abcde"), max_size=3)))
def test_loops_are_found_exactly_where_something_reaches_itself(
    holds: dict[str, list[str]],
) -> None:
    reach = {key: set(held) for key, held in holds.items()}
    for _ in holds:
        for held in reach.values():
            held.update(*(reach.get(one, set()) for one in tuple(held)))
    loops = find_loops(holds)
    assert bool(loops) == any(key in held for key, held in reach.items())
    for loop in loops:
        assert loop[0] == loop[-1]
        assert all(held in holds[key] for key, held in pairwise(loop))
