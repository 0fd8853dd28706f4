"""The texts that the program shows, found where they are written.

``python -m tests.catalogue`` lists those that the German catalogue lacks, as lines to fill in.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

from crewtrack.screens.language import read_catalogue

ROOT = Path(__file__).resolve().parents[1]
GERMAN = ROOT / "assets" / "languages" / "de.toml"
MARKS = {"say": (0,), "later": (0,), "phrase": (0,), "count_of": (1, 2)}
"""What marks a text, and at which places it stands."""


def texts() -> dict[str, str]:
    """Every text that is marked with its English wording, and the file it stands in."""
    found: dict[str, str] = {}
    for path in sorted((ROOT / "crewtrack").rglob("*.py")):
        for text in _texts_in(ast.parse(path.read_text(encoding="utf-8"))):
            found.setdefault(text, path.relative_to(ROOT).as_posix())
    return found


def _texts_in(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name | ast.Attribute):
            name = node.func.id if isinstance(node.func, ast.Name) else node.func.attr
            for place in MARKS.get(name, ()):
                if place < len(node.args):
                    yield from _literals(node.args[place])


def _literals(node: ast.expr) -> Iterator[str]:
    """The wordings that an argument can be: one, either of two, or all in a collection."""
    match node:
        case ast.Constant(value=str(text)):
            yield text
        case ast.IfExp(body=one, orelse=other):
            yield from _literals(one)
            yield from _literals(other)
        case ast.Dict(values=parts) | ast.Tuple(elts=parts) | ast.List(elts=parts):
            for part in parts:
                yield from _literals(part)
        case _:
            return


def missing() -> dict[str, str]:
    """The texts that the German catalogue lacks."""
    known = read_catalogue(GERMAN)
    return {text: place for text, place in texts().items() if text not in known}


if __name__ == "__main__":
    for text, place in missing().items():
        print(f"# {place}\n{ast.literal_eval(repr(text))!r} = ''")  # noqa: T201 - a list for people
