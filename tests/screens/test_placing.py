"""Words beside what they name."""

from crewtrack.screens.placing import Box, placed

ROOM = Box(0, 0, 100, 100)


def test_a_word_stands_at_the_nearest_place() -> None:
    near, far = Box(10, 10, 20, 10), Box(60, 60, 20, 10)
    assert placed([(near, far)], (), ROOM) == (near,)


def test_what_is_taken_is_left_alone() -> None:
    near, far = Box(10, 10, 20, 10), Box(60, 60, 20, 10)
    assert placed([(near, far)], (Box(15, 12, 5, 5),), ROOM) == (far,)


def test_two_words_do_not_lie_on_one_another() -> None:
    near, far = Box(10, 10, 20, 10), Box(60, 60, 20, 10)
    assert placed([(near, far), (near, far)], (), ROOM) == (near, far)


def test_a_word_stays_in_the_room() -> None:
    outside, inside = Box(90, 10, 20, 10), Box(60, 60, 20, 10)
    assert placed([(outside, inside)], (), ROOM) == (inside,)


def test_where_no_place_is_free_the_one_that_covers_least_is_taken() -> None:
    one, other = Box(0, 0, 20, 10), Box(15, 0, 20, 10)
    assert placed([(one, other)], (Box(0, 0, 18, 10),), ROOM) == (other,)
