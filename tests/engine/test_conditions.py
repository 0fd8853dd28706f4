"""Conditions of a sortie: light by moment and place, wind over the deck, floors, words."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.engine.conditions import Conditions
from crewtrack.engine.deck import Deck
from crewtrack.engine.evidence import NOT_RECORDED
from crewtrack.engine.requirement import Floor, Only
from crewtrack.engine.sky import DAY, NIGHT, TWILIGHT
from crewtrack.engine.standard import Dark, Position, Task
from crewtrack.facts import LIGHTS, WAYS
from tests.evidence_builder import evidence, flights
from tests.standard_builder import Rules, standard

ATLANTA = Position(33.8, -84.4)
ANY_CRAFT = Only()


def flown(*lines: str, position: Position | None = None, dark: Dark = "civil") -> Conditions:
    """The conditions of flights in the notation of the evidence builder."""
    tasks = {"hand-recovery": Task("hand-recovery", "Hand recovery", moment="recovery")}
    rules = replace(standard(Rules({}, tasks=tasks)), position=position, dark=dark)
    return Conditions(evidence(flights(lines)).sorties, rules)


def apparent(line: str) -> float | None:
    return flown(f"2026-07-01 {line}").apparent(0)


def meets(line: str, floor: Floor, only: Only = ANY_CRAFT) -> bool:
    return flown(f"2026-07-01 {line}").meets(0, "launch", floor, only)


def test_light_is_worked_out_at_launch_and_at_recovery() -> None:
    # Civil twilight ends 20:21 (check value B1, USNO: read).
    known = flown("2009-09-06T20:15-04:00 10min", position=ATLANTA)
    assert known.light(0, "launch") == TWILIGHT
    assert known.light(0, "recovery") == NIGHT


def test_light_is_told_by_the_rule_of_the_edition() -> None:
    # Check value B2: derived.
    line = "2009-09-06T20:23-04:00"
    answers = [flown(line, position=ATLANTA, dark=d).light(0, "launch") for d in ("civil", "hour")]
    assert answers == [NIGHT, TWILIGHT]


def test_the_sorties_own_position_goes_before_the_units() -> None:
    line = "2009-09-06T20:23-04:00 lat33.8 lon-124.4"
    assert flown(line, position=ATLANTA).light(0, "launch") == DAY


def test_half_a_position_of_the_sorties_own_is_none() -> None:
    line = "2009-09-06T20:23-04:00 lon-124.4"
    assert flown(line, position=ATLANTA).light(0, "launch") == NIGHT


def test_without_a_position_light_is_not_recorded() -> None:
    assert flown("2026-07-01").light(0, "launch") == NOT_RECORDED


def test_light_stated_by_hand_counts_for_both_moments() -> None:
    known = flown("2026-07-01 night", position=ATLANTA)
    assert known.light(0, "launch") == known.light(0, "recovery") == NIGHT


def test_light_asked_for_again_is_the_same() -> None:
    known = flown("2009-09-06T20:15-04:00", position=ATLANTA)
    assert known.light(0, "launch") == known.light(0, "launch")


def test_the_moment_is_that_of_the_task() -> None:
    assert flown("2026-07-01").moment("hand-recovery") == "recovery"


def test_a_task_that_the_edition_lacks_counts_at_launch() -> None:
    assert flown("2026-07-01").moment("deck-launch") == "launch"


@pytest.mark.parametrize("way", ["moored", "anchored"])
def test_moored_or_anchored_the_wind_over_the_deck_is_the_true_wind(way: str) -> None:
    assert apparent(f"{way} from240 wind14 heading60 speed5 set90 drift1.2") == 14.0


def test_moored_only_the_winds_speed_is_needed() -> None:
    assert apparent("moored wind14") == 14.0


def test_adrift_the_wind_over_the_deck_is_that_of_the_worked_example() -> None:
    # deck.md, worked example: 12.97 kn.
    assert apparent("drifting from240 wind14 speed0 set90 drift1.2") == 13.0


def test_under_way_it_is_that_of_the_exact_triangle() -> None:
    # Check value C4: read.
    assert apparent("under-way from90 wind8.660254 heading0 speed5") == 10.0


@pytest.mark.parametrize(
    "line",
    [
        "under-way from90 heading0 speed5",
        "under-way wind8 heading0 speed5",
        "under-way from90 wind8 heading0",
        "under-way from90 wind8 speed5",
        "from90 wind8 heading0",
        "moored from90",
    ],
)
def test_where_something_needed_is_missing_it_is_not_recorded(line: str) -> None:
    assert apparent(line) is None


def test_the_wind_over_the_deck_asked_for_again_is_the_same() -> None:
    known = flown("2026-07-01 moored wind14")
    assert known.apparent(0) == known.apparent(0)


def test_at_speed_nought_no_heading_is_needed() -> None:
    assert apparent("drifting from90 wind8 speed0") == 8.0


@pytest.mark.parametrize("half", ["", "set90", "drift2"])
def test_a_current_that_was_not_recorded_whole_is_none(half: str) -> None:
    assert apparent(f"under-way from0 wind8 heading0 speed5 {half}") == 13.0


def test_in_a_calm_no_direction_of_wind_is_needed() -> None:
    assert apparent("under-way wind0 heading0 speed5") == 5.0


def test_it_is_rounded_before_it_is_compared() -> None:
    # 9.96 kn over the deck counts as 10.0, 9.94 as 9.9.
    floor = Floor(apparent=10.0)
    assert meets("drifting from0 wind9.96 speed0", floor)
    assert not meets("drifting from0 wind9.94 speed0", floor)


@given(
    st.integers(0, 360), st.integers(0, 60), st.integers(0, 360), st.integers(0, 25), st.booleans()
)
def test_it_is_the_decks_without_leeway(
    wind_from: int, wind: int, heading: int, speed: int, fixed: bool
) -> None:
    way = "anchored" if fixed else "under-way"
    line = f"{way} from{wind_from} wind{wind} heading{heading} speed{speed} set45 drift1"
    deck = Deck(wind_from, wind, heading, speed, 45, 1, fixed=fixed)
    assert apparent(line) == pytest.approx(deck.over_deck.speed, abs=0.0501)


@pytest.mark.parametrize(
    ("floor", "below", "at", "above"),
    [
        (Floor(light=1), "day", "twilight", "night"),
        (Floor(way=2), "anchored", "drifting", "under-way"),
        (Floor(sea=3), "sea2", "sea3", "sea4"),
        (Floor(wind=12), "wind11.9", "wind12", "wind20"),
        (Floor(apparent=12), "moored wind11.9", "moored wind12", "moored wind20"),
    ],
)
def test_a_floor_counts_what_lies_at_it_and_above(
    floor: Floor, below: str, at: str, above: str
) -> None:
    assert [meets(line, floor) for line in (below, at, above)] == [False, True, True]


@pytest.mark.parametrize(
    "floor", [Floor(light=0), Floor(way=0), Floor(sea=0), Floor(wind=0), Floor(apparent=0)]
)
def test_what_was_not_recorded_never_meets_a_floor(floor: Floor) -> None:
    assert not meets("", floor)


def test_every_part_of_a_floor_must_be_met() -> None:
    floor = Floor(light=2, way=2, sea=2, wind=10, apparent=5)
    assert meets("night drifting sea2 from0 wind10 speed0", floor)
    assert not meets("night drifting sea1 from0 wind10 speed0", floor)


def test_without_a_floor_every_sortie_counts() -> None:
    assert meets("", Floor())


def test_a_floor_on_light_is_judged_at_the_moment_asked_for() -> None:
    known = flown("2009-09-06T20:15-04:00 10min", position=ATLANTA)
    assert not known.meets(0, "launch", Floor(light=2), ANY_CRAFT)
    assert known.meets(0, "recovery", Floor(light=2), ANY_CRAFT)


@pytest.mark.parametrize(
    ("line", "counts"),
    [
        ("aircraft:light-quad vessel:rib", True),
        ("aircraft:light-quad vessel:lifeboat", True),
        ("aircraft:light-quad vessel:launch", False),
        ("aircraft:heavy-quad vessel:rib", False),
        ("aircraft:light-quad", False),
        ("vessel:rib", False),
    ],
)
def test_only_counts_craft_of_the_kinds_named(line: str, counts: bool) -> None:
    only = Only(aircraft=("light-quad",), vessel=("rib", "lifeboat"))
    assert meets(line, Floor(), only) is counts


def test_asked_again_a_sortie_meets_what_it_met() -> None:
    known = flown("2026-07-01 sea3", "2026-07-02 sea1")
    first = [known.meets(i, "launch", Floor(sea=2), ANY_CRAFT) for i in (0, 1)]
    assert first == [known.meets(i, "launch", Floor(sea=2), ANY_CRAFT) for i in (0, 1)]
    assert first == [True, False]


@given(
    st.sampled_from(["", *LIGHTS]),
    st.sampled_from(["", *WAYS]),
    st.sampled_from(["", "sea0", "sea4"]),
    st.builds(Floor, light=st.none() | st.integers(0, 2), way=st.none() | st.integers(0, 3)),
)
def test_a_harder_floor_never_counts_what_an_easier_one_does_not(
    light: str, way: str, sea: str, floor: Floor
) -> None:
    line = f"{light} {way} {sea}"
    if meets(line, replace(floor, sea=4)):
        assert meets(line, replace(floor, sea=0))
        assert meets(line, floor)


def test_conditions_are_told_in_words() -> None:
    line = "2009-09-06T20:15-04:00 10min drifting sea3 from240 wind12 speed0 vessel:rib"
    told = flown(line, position=ATLANTA).told(0, "recovery")
    assert told == "night, drifting, sea 3, wind 12 kn, live, from a rib"


def test_the_words_tell_the_wind_over_the_deck_where_it_differs() -> None:
    told = flown("2026-07-01 under-way from0 wind12.5 heading0 speed5").told(0, "launch")
    assert told == "under way, wind 12.5 kn, 17.5 kn over the deck, live"


def test_the_words_say_that_light_was_stated() -> None:
    assert flown("2026-07-01 night drill").told(0, "launch") == "night (stated), drill"


def test_the_words_leave_out_what_was_not_recorded() -> None:
    assert flown("2026-07-01 vessel:open-launch").told(0, "launch") == "live, from an open-launch"
