"""Sentences that remember how they were made, so that a screen can say them in another language.

A phrase is the English text, ready to be printed, that also knows its template and the values in
it, which may be phrases themselves. A template is a whole clause, since other languages put its
parts in another order, and stands as a literal in the source, where a catalogue collects it.
"""

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import TypeVar

Wordings = TypeVar("Wordings")


class Phrase(str):
    """An English text: a template with its ``{names}`` filled in."""

    __slots__ = ("_template", "_values")
    _template: str
    _values: tuple[tuple[str, object], ...]

    def __new__(
        cls, template: str, values: Mapping[str, object] = MappingProxyType({})
    ) -> "Phrase":
        """Fill a template in; without values it is the text as it stands."""
        made = super().__new__(cls, template.format(**values) if values else template)
        made._template = template
        made._values = tuple(values.items())
        return made

    @property
    def template(self) -> str:
        """The English wording with its ``{names}``: the key in a catalogue."""
        return self._template

    @property
    def values(self) -> Mapping[str, object]:
        """What was filled in, by name."""
        return dict(self._values)

    def __getnewargs__(self) -> tuple[str, Mapping[str, object]]:  # type: ignore[override]
        return self.template, self.values


class Joined(str):
    """Texts one after the other with a mark between them that is the same in every language."""

    __slots__ = ("_parts", "_separator")
    _parts: tuple[str, ...]
    _separator: str

    def __new__(cls, separator: str, parts: Iterable[str]) -> "Joined":
        """Join the parts that are not empty."""
        kept = tuple(part for part in parts if part)
        made = super().__new__(cls, separator.join(kept))
        made._parts = kept
        made._separator = separator
        return made

    @property
    def separator(self) -> str:
        """What stands between two parts."""
        return self._separator

    @property
    def parts(self) -> tuple[str, ...]:
        """The texts, some of which may be phrases."""
        return self._parts

    def __getnewargs__(self) -> tuple[str, tuple[str, ...]]:  # type: ignore[override]
        return self.separator, self.parts


def phrase(template: str, /, **values: object) -> Phrase:
    """A phrase of a template and its values by name."""
    return Phrase(template, values)


def joined(separator: str, parts: Iterable[str]) -> Joined:
    """The parts that are not empty, with a mark between them: ``", "``, ``"; "``, ``": "``."""
    return Joined(separator, parts)


def count_of(count: int, one: str, many: str, /, **values: object) -> Phrase:
    """The wording for one or for many: each may hold ``{count}`` and the names of the values."""
    return Phrase(one if count == 1 else many, {"count": count, **values})


def either(words: Iterable[str]) -> str:
    """``a``, ``a or b``, ``a, b or c``."""
    *others, last = words
    return phrase("{some} or {last}", some=joined(", ", others), last=last) if others else last


def later(english: Wordings) -> Wordings:
    """A wording that becomes a phrase elsewhere, or a tuple or mapping of some: this marks them
    for the catalogue."""
    return english
