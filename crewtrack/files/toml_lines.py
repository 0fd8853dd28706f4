"""Where each key of a TOML file stands: key paths and the lines on which they are first written.

``tomllib`` gives values without lines, so this reads the same text again, for places only. It
follows tables, arrays of tables, dotted keys, inline tables and the elements of arrays, and takes
the text as it comes: what ``tomllib`` would refuse gives fewer or odder places, never an error.
Lines count from 1, positions in arrays from 0.
"""

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final, NamedTuple

KeyPath = tuple[str | int, ...]

_MOST_PARTS: Final = 4_000_000
"""Of all paths together: deep nesting would fill the memory with them."""
_TOKEN: Final = re.compile(
    r"""
    (?P<newline>\n)
    | (?P<blank>[ \t\r]+ | \#[^\n]*)
    | (?P<string>\"{3}(?:\\.|[^\\])*?\"{3,5} | '{3}.*?'{3,5} | "(?:\\.|[^"\\\n])*" | '[^'\n]*')
    | (?P<mark>[\[\]{},=.])
    | (?P<bare>[^\s\[\]{},=.\#"']+ | .)
    """,
    re.VERBOSE | re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class Twice:
    """A key or table that is written a second time."""

    path: KeyPath
    first: int
    second: int


@dataclass(slots=True)
class Lines:
    """The line of every key path, and what is written twice, in the order of the file."""

    of: dict[KeyPath, int] = field(default_factory=dict)
    twice: list[Twice] = field(default_factory=list)

    def nearest(self, path: KeyPath) -> int | None:
        """The line of a path, or of the innermost thing around it that has one."""
        for length in range(len(path), 0, -1):
            if path[:length] in self.of:
                return self.of[path[:length]]
        return None


def find_lines(text: str) -> Lines:
    """The lines of all key paths of a TOML text."""
    scan = _Scan(text)
    scan.run()
    return scan.lines


class _Token(NamedTuple):
    """A plain tuple, since a file has hundreds of thousands."""

    kind: str
    text: str
    line: int

    def is_mark(self, marks: str) -> bool:
        return self.kind == "mark" and self.text in marks

    def key(self) -> str:
        """The key that this token writes, without quotes."""
        if self.kind != "string":
            return self.text
        try:
            return str(tomllib.loads(f"key = {self.text}")["key"])
        except ValueError:
            return self.text


def _tokens(text: str) -> Iterator[_Token]:
    line = 1
    for found in _TOKEN.finditer(text):
        kind = found.lastgroup or ""
        if kind != "blank":
            yield _Token(kind, found[0], line)
        line += found[0].count("\n")
    yield _Token("end", "", line)


@dataclass(slots=True)
class _Open:
    """An array or an inline table whose end is still to come; ``count`` of elements so far."""

    path: KeyPath
    array: bool
    count: int = 0


class _Scan:
    def __init__(self, text: str) -> None:
        self.lines = Lines()
        self._tokens = tuple(_tokens(text))
        self._place = 0
        self._kept = 0
        self._elements: dict[KeyPath, int] = {}
        self._written: dict[KeyPath, int] = {}

    def run(self) -> None:
        """Statement by statement to the end of the text."""
        table: KeyPath = ()
        while (token := self._peek()).kind != "end":
            if token.is_mark("["):
                table = self._header()
            elif token.kind == "newline":
                self._place += 1
            else:
                self._value(self._key(table))

    def _peek(self) -> _Token:
        return self._tokens[self._place]

    def _take(self) -> _Token:
        token = self._tokens[self._place]
        self._place = min(self._place + 1, len(self._tokens) - 1)
        return token

    def _header(self) -> KeyPath:
        """The table that ``[a.b]`` opens, or the new element that ``[[a.b]]`` does."""
        line = self._take().line
        new = self._peek().is_mark("[")
        path: KeyPath = ()
        keys = [token.key() for token in self._parts("]")]
        for position, key in enumerate(keys, 1):
            path = (*path, key)
            self._note(path, line)
            if new and position == len(keys):
                self._elements[path] = self._elements.get(path, 0) + 1
            if path in self._elements:
                path = (*path, self._elements[path] - 1)
                self._note(path, line)
        self._write(path, line)
        while self._peek().is_mark("]"):
            self._place += 1
        return path

    def _key(self, table: KeyPath) -> KeyPath:
        """The path of a key before its value; reads through the ``=``."""
        path, line = table, self._peek().line
        for token in self._parts("="):
            path = (*path, token.key())
            self._note(path, token.line)
        self._write(path, line)
        return path

    def _parts(self, end: str) -> list[_Token]:
        """The parts of a dotted key, read through the mark that ends it."""
        parts: list[_Token] = []
        while (token := self._take()).kind != "end" and not token.is_mark(end):
            if token.kind in ("bare", "string"):
                parts.append(token)
        return parts

    def _note(self, path: KeyPath, line: int) -> None:
        """Note where a path is; past the most that is kept, reading ends."""
        self.lines.of.setdefault(path, line)
        self._kept += len(path)
        if self._kept > _MOST_PARTS:
            self._place = len(self._tokens) - 1

    def _write(self, path: KeyPath, line: int) -> None:
        if path in self._written:
            self.lines.twice.append(Twice(path, self._written[path], line))
        self._written.setdefault(path, line)

    def _value(self, path: KeyPath) -> None:
        """Read one value through its end, with all that lies in it.

        A stack of its own instead of recursion: nesting is limited by nothing here.
        """
        opened: list[_Open] = []
        target: KeyPath | None = path
        while (token := self._peek()).kind != "end":
            if target is not None and token.is_mark("[{"):
                opened.append(_Open(target, token.text == "["))
                target = None
            elif target is not None:
                self._scalar()
                target = None
                if not opened:
                    return
                continue
            elif token.is_mark("]}"):
                opened.pop()
                if not opened:
                    self._place += 1
                    return
            elif token.kind != "newline" and not token.is_mark(","):
                target = self._member(opened[-1])
                continue
            self._place += 1

    def _member(self, inside: _Open) -> KeyPath:
        """The path of the next element of an array, or of the next key of an inline table."""
        if not inside.array:
            return self._key(inside.path)
        path = (*inside.path, inside.count)
        inside.count += 1
        self._note(path, self._peek().line)
        return path

    def _scalar(self) -> None:
        """Pass over a value that holds no others: up to the mark or line end that follows it."""
        while (token := self._peek()).kind not in ("newline", "end"):
            if token.is_mark(",]}"):
                return
            self._place += 1
