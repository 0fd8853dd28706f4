"""The deck picture: published triangles, sea state and Beaufort tables, and what must hold."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.engine.deck import (
    LEEWAYS,
    Deck,
    Flow,
    beaufort,
    blowing,
    going,
    off_bow,
    picture,
    sea_degree,
    seen,
    true_wind,
    turned,
)

DIRECTIONS = st.floats(0, 360)
WORKED = Deck(wind_from=240, wind=14, heading=60, set=90, drift=1.2)

DECKS = st.builds(
    Deck,
    wind_from=DIRECTIONS,
    wind=st.floats(0, 60),
    heading=DIRECTIONS,
    speed=st.floats(0, 25),
    set=DIRECTIONS,
    drift=st.floats(0, 5),
    leeway=st.floats(0, 0.1),
    facing=st.none() | DIRECTIONS,
    fixed=st.booleans(),
)


@pytest.mark.parametrize(
    ("boat", "felt", "answer", "within"),
    [
        # C1, maneuvering-board example, a graph's answer: second hand; the speed from memory.
        ((240, 18), (40, 30), (315, 20), (1, 0.2)),
        # C2, deck examination item, nearest of four printed answers: second hand, key not seen.
        ((180, 22), (-70, 20), (51, 24), (0.5, 0.5)),
        # C3, deck examination item: derived.
        ((270, 10), (-10, 30), (255.1, 20.2), (0.05, 0.05)),
        # C4, exact triangle, 8.66 kn from 90 degrees to starboard: read.
        ((0, 5), (60, 10), (90, 8.66), (0.001, 0.005)),
    ],
)
def test_true_wind_is_that_of_the_published_triangles(
    boat: tuple[float, float],
    felt: tuple[float, float],
    answer: tuple[float, float],
    within: tuple[float, float],
) -> None:
    # Course and speed; the wind felt, degrees to starboard of the bow and speed.
    wind = true_wind(blowing(boat[0] + felt[0], felt[1]), going(*boat))
    assert wind.comes_from == pytest.approx(answer[0], abs=within[0])
    assert wind.speed == pytest.approx(answer[1], abs=within[1])


def test_wind_over_the_deck_is_that_of_the_maneuvering_board() -> None:
    # C1 the other way round: 040 relative at 30 kn: second hand.
    told = picture(Deck(wind_from=315, wind=20, heading=240, speed=18))
    assert told.over_deck.comes_from == pytest.approx(280, abs=1)
    assert told.over_deck.speed == pytest.approx(30, abs=0.2)
    assert told.angle is not None
    assert told.angle.degrees == pytest.approx(40, abs=1)
    assert told.angle.side == "starboard"


def test_wind_over_the_deck_is_that_of_the_exact_triangle() -> None:
    # C4: read.
    told = picture(Deck(wind_from=90, wind=8.660254, heading=0, speed=5))
    assert told.over_deck.speed == pytest.approx(10, abs=1e-5)
    assert told.angle is not None
    assert told.angle.degrees == pytest.approx(60, abs=1e-4)
    assert told.angle.side == "starboard"


def test_wind_is_named_for_where_it_comes_from_and_set_for_where_it_goes_to() -> None:
    # C5, ship-observation practice: read.
    north_wind, north_set = blowing(0, 10), going(0, 2)
    assert north_wind.north == pytest.approx(-10)
    assert north_set.north == pytest.approx(2)
    assert north_wind.toward == pytest.approx(180)
    assert north_set.comes_from == pytest.approx(180)


@pytest.mark.parametrize(
    ("degree", "upper"),
    [(0, 0), (1, 0.1), (2, 0.5), (3, 1.25), (4, 2.5), (5, 4), (6, 6), (7, 9), (8, 14)],
)
def test_an_exact_height_belongs_to_the_lower_sea_state_degree(degree: int, upper: float) -> None:
    # C6, WMO-No. 306 code table 3700: read.
    assert sea_degree(upper) == degree
    assert sea_degree(upper + 0.01) == degree + 1


@pytest.mark.parametrize(
    ("force", "least", "most"),
    [
        (1, 1, 3),
        (2, 4, 6),
        (3, 7, 10),
        (4, 11, 16),
        (5, 17, 21),
        (6, 22, 27),
        (7, 28, 33),
        (8, 34, 40),
        (9, 41, 47),
        (10, 48, 55),
        (11, 56, 63),
        (12, 64, 200),
    ],
)
def test_beaufort_force_is_that_of_the_table(force: int, least: int, most: int) -> None:
    # C7: read.
    assert beaufort(least) == force
    assert beaufort(most) == force


@pytest.mark.parametrize(("wind", "force"), [(0, 0), (0.9, 0), (3.4, 1), (10.4, 3), (10.5, 4)])
def test_beaufort_rounds_half_a_knot_up_and_is_calm_below_one(wind: float, force: int) -> None:
    # C7 is in whole knots; how a half is rounded is ours to say.
    assert beaufort(wind) == force


@pytest.mark.parametrize("force", range(1, 13))
def test_beaufort_agrees_with_the_formula_of_its_speeds(force: int) -> None:
    # C8, v = 0.836 B^1.5 m/s: memory.
    assert beaufort(0.836 * force**1.5 * 3600 / 1852) == force


@pytest.mark.parametrize(
    ("craft", "percent"),
    [("person-in-water", 0.96), ("skiff", 3.15), ("sport-boat", 6.54), ("life-raft", 3.52)],
)
def test_leeway_carries_the_boat_downwind_by_the_published_part(craft: str, percent: float) -> None:
    # C9, SAROPS list as in OpenDrift's data: read.
    told = picture(Deck(wind_from=270, wind=20, heading=0, leeway=LEEWAYS[craft]))
    assert told.boat.east == pytest.approx(20 * percent / 100)
    assert told.boat.north == pytest.approx(0)
    assert told.over_deck.speed == pytest.approx(20 * (1 - percent / 100))


def test_the_worked_example_has_its_wind_over_the_deck() -> None:
    # deck.md, worked example.
    told = picture(WORKED)
    assert (told.true.east, told.true.north) == pytest.approx((12.12, 7.00), abs=0.005)
    assert (told.boat.east, told.boat.north) == pytest.approx((1.20, 0), abs=0.005)
    assert (told.over_deck.east, told.over_deck.north) == pytest.approx((10.92, 7.00), abs=0.005)
    assert told.over_deck.speed == pytest.approx(12.97, abs=0.005)
    assert told.over_deck.comes_from == pytest.approx(237.3, abs=0.05)
    assert told.angle is not None
    assert told.angle.degrees == pytest.approx(177.3, abs=0.05)
    assert told.angle.side == "starboard"


def test_the_worked_example_has_its_two_aircraft() -> None:
    # deck.md, worked example.
    told = picture(WORKED)
    drifting, holding = told.drifting, told.holding
    assert (drifting.opens, drifting.across) == pytest.approx((12.96, 0.60), abs=0.005)
    assert (holding.opens, holding.across) == pytest.approx((-1.04, 0.60), abs=0.005)
    assert (drifting.side, holding.side) == ("port", "port")


def test_the_worked_example_has_its_heading_for_the_wind_at_the_back() -> None:
    # deck.md, worked example.
    back = picture(WORKED).at_back
    assert back is not None
    assert back.heading == pytest.approx(57.3, abs=0.05)
    assert back.motion.opens == pytest.approx(12.97, abs=0.005)


def test_moored_or_anchored_the_boat_does_not_move() -> None:
    deck = Deck(wind_from=10, wind=9, heading=70, speed=4, set=90, drift=2, leeway=0.1, fixed=True)
    told = picture(deck)
    assert told.boat == Flow()
    assert told.over_deck == told.true
    assert (told.holding.opens, told.holding.across, told.holding.side) == (0, 0, None)
    assert told.at_back is not None
    assert told.at_back.motion.opens == pytest.approx(9)


def test_where_wind_and_current_cancel_no_heading_is_better() -> None:
    wind_with_current = Deck(wind_from=270, wind=3.2, heading=0, speed=4, set=90, drift=2.5)
    assert picture(wind_with_current).at_back is None


def test_a_knot_left_of_wind_and_current_is_enough_to_name_a_heading() -> None:
    assert picture(Deck(wind_from=270, wind=3.6, heading=0, set=90, drift=2.5)).at_back is not None


def test_in_a_calm_nothing_has_a_direction() -> None:
    told = picture(Deck(wind_from=0, wind=0, heading=0))
    assert told.at_back is None
    assert told.angle is None
    assert told.over_deck.toward is None
    assert told.over_deck.comes_from is None
    assert told.drifting.side is None


def test_making_way_ahead_runs_up_on_an_aircraft_that_holds() -> None:
    assert picture(Deck(wind_from=180, wind=10, heading=0, speed=6)).holding.opens == -6


def test_a_launcher_who_faces_astern_has_the_boat_turned_about() -> None:
    back = picture(Deck(wind_from=0, wind=12, heading=90, speed=3, facing=270)).at_back
    assert back is not None
    assert back.heading == pytest.approx(0)
    assert back.motion.opens == pytest.approx(15)


def test_a_launcher_who_faces_abeam_is_told_what_stays_across() -> None:
    back = picture(Deck(wind_from=0, wind=12, heading=0, speed=3, facing=90)).at_back
    assert back is not None
    assert back.heading == pytest.approx(90)
    assert back.motion.opens == pytest.approx(12)
    assert back.motion.across == pytest.approx(3)
    assert back.motion.side == "starboard"


@pytest.mark.parametrize(
    ("direction", "size", "side"),
    [(0, 0, None), (90, 90, "starboard"), (180, 180, None), (270, 90, "port"), (359, 1, "port")],
)
def test_an_angle_off_the_bow_has_a_side_unless_dead_ahead_or_astern(
    direction: float, size: float, side: str | None
) -> None:
    angle = off_bow(direction, 0)
    assert (angle.degrees, angle.side) == (size, side)


def test_a_hair_below_north_is_north_and_not_360() -> None:
    assert turned(-1e-20) == 0


@given(DECKS)
def test_the_two_aircraft_part_with_the_true_wind(deck: Deck) -> None:
    told = picture(deck)
    apart = told.over_deck - told.boat.times(-1)
    assert (apart.east, apart.north) == pytest.approx((told.true.east, told.true.north), abs=1e-9)


@given(DECKS)
def test_a_motion_along_and_across_is_as_fast_as_the_motion(deck: Deck) -> None:
    told = picture(deck)
    for flow, motion in ((told.over_deck, told.drifting), (told.boat, told.holding)):
        length = (motion.opens**2 + motion.across**2) ** 0.5
        assert length == pytest.approx(flow.speed, abs=1e-5)


@given(DECKS)
def test_on_the_heading_named_the_drifting_aircraft_moves_as_told(deck: Deck) -> None:
    back = picture(deck).at_back
    if back is None:
        return
    turn = back.heading - deck.heading
    there = Deck(
        wind_from=deck.wind_from,
        wind=deck.wind,
        heading=back.heading,
        speed=deck.speed,
        set=deck.set,
        drift=deck.drift,
        leeway=deck.leeway,
        facing=deck.faced + turn,
        fixed=deck.fixed,
    )
    motion = picture(there).drifting
    assert motion.opens == pytest.approx(back.motion.opens, abs=1e-5)
    assert motion.across == pytest.approx(back.motion.across, abs=1e-5)


@given(DECKS)
def test_facing_the_bow_nothing_stays_across_on_the_heading_named(deck: Deck) -> None:
    ahead = Deck(deck.wind_from, deck.wind, deck.heading, deck.speed, deck.set, deck.drift)
    back = picture(ahead).at_back
    if back is not None:
        wind_and_current = ahead.true - ahead.carried
        assert back.motion.across == pytest.approx(0, abs=1e-5)
        assert back.motion.opens == pytest.approx(wind_and_current.speed - deck.speed, abs=1e-5)


@given(DIRECTIONS, st.floats(0.1, 60), DIRECTIONS)
def test_turning_deck_and_wind_together_changes_nothing(
    wind_from: float, wind: float, turn: float
) -> None:
    here = seen(blowing(wind_from, wind), 0)
    there = seen(blowing(wind_from + turn, wind), turn)
    assert (here.opens, here.across) == pytest.approx((there.opens, there.across), abs=1e-5)
