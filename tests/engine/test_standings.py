"""Answers as values: what a requirement lacks."""

from crewtrack.engine.standings import Explained


def explained(met: bool, *missing: str, needs: tuple[Explained, ...] = ()) -> Explained:
    return Explained("id", "rule", met, None, (), (), missing, needs)


def test_nothing_is_lacking_where_the_requirement_is_met() -> None:
    assert explained(True, "one more keeps this").lacking() == ()


def test_a_requirement_lacks_what_its_own_words_say() -> None:
    nested = (explained(False, "inner"),)
    assert explained(False, "own", needs=nested).lacking() == ("own",)


def test_without_words_of_its_own_it_lacks_what_is_nested_and_not_met() -> None:
    deeper = explained(False, needs=(explained(False, "b"),))
    nested = (explained(False, "a"), explained(True, "keeps"), deeper)
    assert explained(False, needs=nested).lacking() == ("a", "b")
