"""One table of a TOML file that a user wrote, read key by key.

Every method gives the value of a key, or None (an empty tuple) where it is not written or can't be
taken. What is wrong with it goes to the ``FaultList`` that all tables of the file share, so that
one reading finds all there is to find.
"""

from collections.abc import Collection, Iterator, Mapping
from datetime import date, datetime
from typing import Final, TypeVar
from unicodedata import category

from crewtrack.engine.days import Duration
from crewtrack.facts import KEY_LENGTH, LINE_LENGTH
from crewtrack.files.fault_list import FaultList, did_you_mean, told, told_key
from crewtrack.files.toml_lines import KeyPath
from crewtrack.phrases import phrase

Word = TypeVar("Word", bound=str)

# Category "Cc" is control characters; the other two end a line as they do.
_BREAKS: Final = ("Cc", "Zl", "Zp")


class GivenTable:
    """A table at ``path``; see the module for what its methods give."""

    def __init__(self, values: Mapping[str, object], path: KeyPath, faults: FaultList) -> None:
        self._values = values
        self.path = path
        self._faults = faults

    def __contains__(self, key: str) -> bool:
        return key in self._values

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def is_empty_list(self, key: str) -> bool:
        """A list without anything in it is written."""
        return self._values.get(key) == []

    def names(self, key: str) -> Collection[str]:
        """The names in the table under a key, those with faults too; notes no faults."""
        value = self._values.get(key)
        return value.keys() if isinstance(value, dict) else ()

    def fault(self, at: str | KeyPath, problem: str, cure: str = "") -> None:
        """Note a fault of a key, or at a path inside this table; the empty path is the table."""
        inside = (at,) if isinstance(at, str) else at
        self._faults.add((*self.path, *inside), problem, cure)

    def text(self, key: str, longest: int = LINE_LENGTH) -> str | None:
        """One line of text, not blank."""
        return self._line((key,), self._values[key], longest) if key in self else None

    def key(self, key: str) -> str | None:
        """The unit's own key: at most 40 characters, without spaces at its ends."""
        value = self.text(key, KEY_LENGTH)
        if value is not None and value != value.strip():
            self.fault(
                key,
                phrase("{value} has spaces at an end", value=told(value)),
                phrase("leave them out"),
            )
            return None
        return value

    def texts(self, key: str, longest: int = LINE_LENGTH) -> tuple[str, ...]:
        """A list of lines of text."""
        value = self._values.get(key, [])
        if not isinstance(value, list):
            self._wrong(key, phrase("a list of texts"), phrase('write {key} = ["…", "…"]', key=key))
            return ()
        lines = (self._line((key, place), one, longest) for place, one in enumerate(value))
        return tuple(line for line in lines if line is not None)

    def choice(self, key: str, options: tuple[Word, ...]) -> Word | None:
        """One of a few words."""
        value = self.text(key)
        for option in options:
            if value == option:
                return option
        if value is not None:
            problem = phrase("{value} is not one of the words that go here", value=told(value))
            near = did_you_mean(value, options)
            self.fault(
                key, problem, near or phrase("write one of: {names}", names=", ".join(options))
            )
        return None

    def name(self, key: str, one: str, names: Collection[str]) -> str | None:
        """The name of a task or a qualification (``one``) that is among ``names``."""
        value = self.text(key)
        return value if value is None or self._known((key,), value, one, names) else None

    def name_or_names(self, key: str, one: str, names: Collection[str]) -> tuple[str, ...]:
        """One such name, or a list of different ones."""
        value = self._values.get(key)
        if not isinstance(value, list):
            single = self.name(key, one, names)
            return () if single is None else (single,)
        if not value:
            self.fault(
                key,
                phrase("the list is empty"),
                phrase("name at least one {what}", what=phrase(one)),
            )
        seen: set[str] = set()
        for place, inside in enumerate(value):
            if isinstance(inside, str) and inside in seen:
                self.fault(
                    (key, place),
                    phrase("{value} stands here twice", value=told(inside)),
                    phrase("once is enough"),
                )
            elif isinstance(inside, str) and inside.strip():
                self._known((key, place), inside, one, names)
            if isinstance(inside, str):
                seen.add(inside)
        return self.texts(key)

    def whole(self, key: str, least: int, most: int) -> int | None:
        """A whole number from ``least`` to ``most``, both included."""
        value = self._values.get(key)
        if isinstance(value, int) and not isinstance(value, bool) and least <= value <= most:
            return value
        if key in self:
            cure = phrase(
                "write a whole number from {least} to {most}, without quotes",
                least=least,
                most=most,
            )
            self.fault(key, phrase("{value} can't be taken", value=told(value)), cure)
        return None

    def number(self, key: str, least: float, most: float) -> float | None:
        """A number from ``least`` to ``most``, both included."""
        value = self._values.get(key)
        if (
            isinstance(value, int | float)
            and not isinstance(value, bool)
            and least <= value <= most
        ):
            return float(value)
        if key in self:
            cure = phrase(
                "write a number from {least} to {most}, without quotes",
                least=f"{least:g}",
                most=f"{most:g}",
            )
            self.fault(key, phrase("{value} can't be taken", value=told(value)), cure)
        return None

    def day(self, key: str) -> date | None:
        """A calendar date, which TOML writes without quotes."""
        value = self._values.get(key)
        if isinstance(value, date) and not isinstance(value, datetime):
            return value
        if key in self:
            self._wrong(key, phrase("a date"), _day_cure(key, value))
        return None

    def duration(self, key: str) -> Duration | None:
        """A duration of one unit."""
        value = self._values.get(key)
        if not isinstance(value, str):
            if key in self:
                self._wrong(key, phrase("a duration"), _duration_cure(key, value))
            return None
        try:
            return Duration.parse(value)
        except ValueError as why:
            self.fault(key, phrase("{value} is not a duration", value=told(value)), *why.args)
            return None

    def table(self, key: str) -> "GivenTable | None":
        """A table inside this one."""
        value = self._values.get(key)
        if isinstance(value, dict):
            return GivenTable(value, (*self.path, key), self._faults)
        if key in self:
            self._wrong(key, phrase("a table"), phrase("write {key} = {{ … }}", key=told_key(key)))
        return None

    def tables(self, key: str) -> tuple["GivenTable", ...]:
        """A list of at least one table."""
        value = self._values.get(key, None)
        if not isinstance(value, list) or not value:
            if key in self:
                self._wrong(
                    key,
                    phrase("a list of tables"),
                    phrase("write {key} = [ {{ … }}, {{ … }} ]", key=key),
                )
            return ()
        found = []
        for place, inside in enumerate(value):
            if isinstance(inside, dict):
                found.append(GivenTable(inside, (*self.path, key, place), self._faults))
            else:
                problem = phrase("{value} where a table belongs", value=told(inside))
                self.fault((key, place), problem, phrase("write it as { … }"))
        return tuple(found)

    def named_tables(self) -> Iterator[tuple[str, "GivenTable"]]:
        """The tables inside this one, each under a name of the unit's own."""
        for name in self._values:
            if not name or name != name.strip() or len(name) > KEY_LENGTH or _breaks(name):
                cure = phrase(
                    "write 1 to {most} characters without spaces at the ends", most=KEY_LENGTH
                )
                self.fault(name, phrase("{name} can't be a name", name=told(name)), cure)
            elif (inside := self.table(name)) is not None:
                yield name, inside

    def _line(self, at: KeyPath, value: object, longest: int) -> str | None:
        if not isinstance(value, str):
            self.fault(
                at, phrase("{value} where text belongs", value=told(value)), _text_cure(value)
            )
        elif not value.strip():
            self.fault(at, phrase("the text is empty"), phrase("write something, or leave it out"))
        elif len(value) > longest:
            self.fault(
                at,
                phrase("the text has {count} characters", count=len(value)),
                phrase("write at most {most}", most=longest),
            )
        elif _breaks(value):
            cure = phrase("write it on one line, without control characters")
            self.fault(at, phrase("{value} is not plain text", value=told(value)), cure)
        else:
            return value
        return None

    def _known(self, at: KeyPath, value: str, one: str, names: Collection[str]) -> bool:
        if value in names:
            return True
        cure = did_you_mean(value, names) or phrase(
            "add {table} to this file", table=f"[{one}s.{told_key(value)}]"
        )
        self.fault(
            at, phrase("there is no {what} {value}", what=phrase(one), value=told(value)), cure
        )
        return False

    def _wrong(self, key: str, wanted: str, cure: str) -> None:
        self.fault(
            key,
            phrase(
                "{value} where {wanted} belongs", value=told(self._values.get(key)), wanted=wanted
            ),
            cure,
        )


def _breaks(text: str) -> bool:
    return not text.isprintable() and any(category(one) in _BREAKS for one in text)


def _text_cure(value: object) -> str:
    if isinstance(value, dict | list):
        return phrase("write text in quotes")
    return phrase('put it in quotes: "{value}"', value=told(value))


def _day_cure(key: str, value: object) -> str:
    if isinstance(value, datetime):
        return phrase("leave the time out: {key} = {day}", key=key, day=value.date())
    if isinstance(value, str):
        try:
            return phrase("write {day} without quotes", day=date.fromisoformat(value.strip()))
        except ValueError:
            pass
    return phrase("write year-month-day without quotes, such as {key} = 2026-01-01", key=key)


def _duration_cure(key: str, value: object) -> str:
    plain = isinstance(value, int) and not isinstance(value, bool) and 0 < value < 10**6
    return phrase('write days as {key} = "P{value}D"', key=key, value=value if plain else 90)
