"""Requirements as values."""

from crewtrack.engine.requirement import AllOf, AnyOf, Certified, Holds, inside

MEDICAL = Certified("medical", True, "medical")
RADIO = Certified("radio", True, "radio")
DECK = Holds("deck", True, "deck-pilot")


def test_nothing_is_nested_in_a_single_requirement() -> None:
    assert inside(MEDICAL) == (MEDICAL,)


def test_a_nest_holds_itself_and_then_all_that_is_in_it_in_the_order_of_the_standard() -> None:
    both = AllOf("both", True, (RADIO, DECK))
    either = AnyOf("either", True, (MEDICAL, both))
    assert inside(either) == (either, MEDICAL, both, RADIO, DECK)
