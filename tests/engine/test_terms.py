"""What one edition asks of one person, as sets of days."""

from collections.abc import Mapping, Sequence

from crewtrack.engine.covers import Leaf
from crewtrack.engine.days import FOREVER
from crewtrack.engine.requirement import AllOf, AnyOf, Certified, Holds, Requirement
from crewtrack.engine.spans import Days
from crewtrack.engine.standard import Standard
from crewtrack.engine.terms import Terms
from tests.evidence_builder import PERFORMER, Bio, evidence
from tests.standard_builder import Rules, standard

ONE, TWO = Certified("one", True, "one"), Certified("two", True, "two")
MET: Mapping[str, Days] = {"one": ((10, 20),), "two": ((15, 30),)}
JANUARY = "0001-01-05..0001-01-12"
"""Days 5 to 12."""


def edition(needs: Mapping[str, Sequence[Requirement]]) -> Standard:
    return standard(Rules(needs))


def terms(told: Standard, bio: Bio | None = None, until: int = FOREVER) -> Terms:
    books = evidence((), (bio or Bio(),)).books[PERFORMER]
    return Terms(books, told, lambda leaf: MET[leaf.id], until)


def met(*needs: Requirement, bio: Bio | None = None, until: int = FOREVER) -> Days:
    return terms(edition({"deck": needs}), bio, until).qualification("deck")


def test_all_requirements_are_met_where_each_is() -> None:
    assert met(ONE, TWO) == met(AllOf("both", True, (ONE, TWO))) == ((15, 20),)


def test_some_requirement_is_met_where_one_is() -> None:
    assert met(AnyOf("either", True, (ONE, TWO))) == ((10, 30),)


def test_a_qualification_that_asks_for_nothing_is_always_met() -> None:
    assert met() == ((1, FOREVER),)


def test_each_requirement_is_told_apart_in_the_order_of_the_standard() -> None:
    assert list(terms(edition({"deck": (TWO, ONE)})).each("deck")) == [MET["two"], MET["one"]]


HELD = edition({"basic": (ONE,), "deck": (Holds("holds", True, "basic"),)})


def test_a_qualification_held_counts_but_for_stand_downs() -> None:
    bio = Bio(standdowns=("basic 0001-01-12..0001-01-14",))
    assert terms(HELD).qualification("deck") == ((10, 20),)
    assert terms(HELD, bio).qualification("deck") == ((10, 11), (15, 20))


def test_a_stand_down_that_starts_later_does_not_show() -> None:
    bio = Bio(standdowns=("basic 0001-01-12..0001-01-14",))
    assert terms(HELD, bio, until=11).stood_down("basic") == ()
    assert terms(HELD, bio, until=12).stood_down("basic") == ((12, 14),)


def test_a_waiver_widens_the_requirement_that_it_names_from_its_first_day_on() -> None:
    bio = Bio(waivers=(f"deck one {JANUARY}",))
    assert met(ONE, bio=bio) == ((5, 20),)
    assert met(TWO, bio=bio) == ((15, 30),)
    assert met(ONE, bio=bio, until=4) == ((10, 20),)


def test_a_requirement_without_a_written_id_cannot_be_waived() -> None:
    assert met(Certified("one", False, "one"), bio=Bio(waivers=(f"deck one {JANUARY}",))) == (
        (10, 20),
    )


def test_waivers_can_be_left_out() -> None:
    asked = terms(edition({"deck": (ONE,)}), Bio(waivers=(f"deck one {JANUARY}",)))
    assert asked.leaving_out(["W-001"]).qualification("deck") == ((10, 20),)
    assert asked.qualification("deck") == asked.leaving_out([]).qualification("deck") == ((5, 20),)


def test_by_itself_a_requirement_is_met_without_its_waivers() -> None:
    asked = terms(edition({"deck": (ONE,)}), Bio(waivers=(f"deck one {JANUARY}",)))
    assert asked.by_itself("deck", ONE) == ((10, 20),)


def test_a_qualification_is_worked_out_once() -> None:
    asked: list[str] = []

    def leaf(requirement: Leaf) -> Days:
        asked.append(requirement.id)
        return MET[requirement.id]

    books = evidence((), (Bio(),)).books[PERFORMER]
    once = Terms(books, edition({"deck": (ONE, TWO)}), leaf, FOREVER)
    assert once.qualification("deck") == once.qualification("deck")
    assert list(once.each("deck")) == [MET["one"], MET["two"]]
    assert asked == ["one", "two"]
