"""Texts that remember how they were made."""

import ast
import copy
import pickle
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from crewtrack.phrases import Joined, Phrase, count_of, either, joined, later, phrase


def test_a_phrase_is_the_english_text() -> None:
    told = phrase("{done} of {needed}", done=1, needed=3)
    assert told == "1 of 3"
    assert hash(told) == hash("1 of 3")
    assert f"{told}" == "1 of 3"


def test_a_phrase_remembers_its_template_and_values() -> None:
    told = phrase("{done} of {needed}", done=1, needed=3)
    assert told.template == "{done} of {needed}"
    assert told.values == {"done": 1, "needed": 3}


def test_a_value_may_be_a_phrase() -> None:
    told = phrase("at level {level}", level=phrase("alone"))
    assert told == "at level alone"
    assert isinstance(told.values["level"], Phrase)


def test_braces_in_a_value_and_in_a_text_without_values_are_left_alone() -> None:
    assert phrase("{name} is out", name="{x}") == "{x} is out"
    assert phrase("a {brace}") == "a {brace}"


def test_what_a_phrase_was_made_of_can_not_be_changed() -> None:
    told = phrase("{done} done", done=1)
    with pytest.raises(AttributeError):
        told.template = "x"  # type: ignore[misc]
    told.values["done"] = 2  # type: ignore[index]
    assert told.values == {"done": 1}


def test_joined_texts_remember_their_parts_and_leave_out_the_empty_ones() -> None:
    told = joined(", ", (phrase("live"), "", "sea 3"))
    assert told == "live, sea 3"
    assert told.separator == ", "
    assert told.parts == ("live", "sea 3")
    assert isinstance(told.parts[0], Phrase)
    assert not joined(", ", ())


def pickled(told: Joined) -> Joined:
    again = pickle.loads(pickle.dumps(told))
    assert isinstance(again, Joined)
    return again


@pytest.mark.parametrize("again", [copy.copy, copy.deepcopy, pickled])
def test_a_copy_remembers_as_much(again: Callable[[Joined], Joined]) -> None:
    told = again(joined("; ", (phrase("by {name}", name="A"), "B")))
    assert told == "by A; B"
    assert isinstance(told.parts[0], Phrase)
    assert told.parts[0].values == {"name": "A"}


@pytest.mark.parametrize(("count", "told"), [(0, "0 days"), (1, "1 day"), (2, "2 days")])
def test_one_and_many_have_their_own_wording(count: int, told: str) -> None:
    assert count_of(count, "{count} day", "{count} days") == told


def test_the_wording_for_many_may_hold_other_values() -> None:
    assert count_of(2, "{what} keeps this", "{what} keep this", what="2 more") == "2 more keep this"


@pytest.mark.parametrize(
    ("words", "told"),
    [(("A",), "A"), (("A", "B"), "A or B"), (("A", "B", "C"), "A, B or C")],
)
def test_any_of_several_is_told_with_or(words: tuple[str, ...], told: str) -> None:
    assert either(words) == told


def test_what_is_marked_for_the_catalogue_stays_as_it_is() -> None:
    assert later("live") == "live"


TOLD_AT = {
    "Fault": slice(2, 4),
    "BadCell": slice(0, 2),
    "Broken": slice(1, 3),
    "fault": slice(1, 3),
}
"""Which arguments of these are said to a person: what is wrong, and what would be right."""
PACKAGE = Path(__file__).resolve().parents[1] / "crewtrack"
COMMANDS = {PACKAGE / "__main__.py", *(PACKAGE / "cli").glob("*.py")}


def said_in(node: ast.AST) -> Iterator[ast.expr]:
    """The texts that a call, or a variable of that name, gives for what is wrong and its cure."""
    match node:
        case ast.Call():
            name = ast.unparse(node.func).rpartition(".")[2]
            yield from node.args[TOLD_AT.get(name, slice(0, 0))]
        case ast.Assign(targets=[ast.Name(id="problem" | "cure")]):
            yield node.value


def glued(path: Path) -> Iterator[str]:
    """Where a fault is given a text that no catalogue can be asked for."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        for said in said_in(node):
            plain = isinstance(said, ast.Constant) and bool(said.value)
            if plain or isinstance(said, ast.JoinedStr):
                yield f"{path.name}:{said.lineno}: {ast.unparse(said)}"


def test_a_fault_that_a_screen_may_show_is_told_in_phrases() -> None:
    modules = [path for path in PACKAGE.rglob("*.py") if path not in COMMANDS]
    assert len(modules) > 100
    assert [told for path in modules for told in glued(path)] == []
