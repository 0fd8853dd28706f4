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

    def names(self, key: str) -> tuple[str, ...]:
        """The names in the table under a key, those with faults too; notes no faults."""
        value = self._values.get(key)
        return tuple(value) if isinstance(value, dict) else ()

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
            self.fault(key, f"{told(value)} has spaces at an end", "leave them out")
            return None
        return value

    def texts(self, key: str, longest: int = LINE_LENGTH) -> tuple[str, ...]:
        """A list of lines of text."""
        value = self._values.get(key, [])
        if not isinstance(value, list):
            self._wrong(key, "a list of texts", f'write {key} = ["…", "…"]')
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
            problem = f"{told(value)} is not one of the words that go here"
            near = did_you_mean(value, options)
            self.fault(key, problem, near or f"write one of: {', '.join(options)}")
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
            self.fault(key, "the list is empty", f"name at least one {one}")
        for place, inside in enumerate(value):
            if isinstance(inside, str) and inside in value[:place]:
                self.fault((key, place), f"{told(inside)} stands here twice", "once is enough")
            elif isinstance(inside, str) and inside.strip():
                self._known((key, place), inside, one, names)
        return self.texts(key)

    def whole(self, key: str, least: int, most: int) -> int | None:
        """A whole number from ``least`` to ``most``, both included."""
        value = self._values.get(key)
        if isinstance(value, int) and not isinstance(value, bool) and least <= value <= most:
            return value
        if key in self:
            cure = f"write a whole number from {least} to {most}, without quotes"
            self.fault(key, f"{told(value)} can't be taken", cure)
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
            cure = f"write a number from {least:g} to {most:g}, without quotes"
            self.fault(key, f"{told(value)} can't be taken", cure)
        return None

    def day(self, key: str) -> date | None:
        """A calendar date, which TOML writes without quotes."""
        value = self._values.get(key)
        if isinstance(value, date) and not isinstance(value, datetime):
            return value
        if key in self:
            self._wrong(key, "a date", _day_cure(key, value))
        return None

    def duration(self, key: str) -> Duration | None:
        """A duration of one unit."""
        value = self._values.get(key)
        if not isinstance(value, str):
            if key in self:
                self._wrong(key, "a duration", _duration_cure(key, value))
            return None
        try:
            return Duration.parse(value)
        except ValueError as why:
            self.fault(key, f"{told(value)} is not a duration", str(why))
            return None

    def table(self, key: str) -> "GivenTable | None":
        """A table inside this one."""
        value = self._values.get(key)
        if isinstance(value, dict):
            return GivenTable(value, (*self.path, key), self._faults)
        if key in self:
            self._wrong(key, "a table", f"write {told_key(key)} = {{ … }}")
        return None

    def tables(self, key: str) -> tuple["GivenTable", ...]:
        """A list of at least one table."""
        value = self._values.get(key, None)
        if not isinstance(value, list) or not value:
            if key in self:
                self._wrong(key, "a list of tables", f"write {key} = [ {{ … }}, {{ … }} ]")
            return ()
        found = []
        for place, inside in enumerate(value):
            if isinstance(inside, dict):
                found.append(GivenTable(inside, (*self.path, key, place), self._faults))
            else:
                problem = f"{told(inside)} where a table belongs"
                self.fault((key, place), problem, "write it as { … }")
        return tuple(found)

    def named_tables(self) -> Iterator[tuple[str, "GivenTable"]]:
        """The tables inside this one, each under a name of the unit's own."""
        for name in self._values:
            if not name or name != name.strip() or len(name) > KEY_LENGTH or _breaks(name):
                cure = f"write 1 to {KEY_LENGTH} characters without spaces at the ends"
                self.fault(name, f"{told(name)} can't be a name", cure)
            elif (inside := self.table(name)) is not None:
                yield name, inside

    def _line(self, at: KeyPath, value: object, longest: int) -> str | None:
        if not isinstance(value, str):
            self.fault(at, f"{told(value)} where text belongs", _text_cure(value))
        elif not value.strip():
            self.fault(at, "the text is empty", "write something, or leave it out")
        elif len(value) > longest:
            self.fault(at, f"the text has {len(value)} characters", f"write at most {longest}")
        elif _breaks(value):
            cure = "write it on one line, without control characters"
            self.fault(at, f"{told(value)} is not plain text", cure)
        else:
            return value
        return None

    def _known(self, at: KeyPath, value: str, one: str, names: Collection[str]) -> bool:
        if value in names:
            return True
        cure = did_you_mean(value, names) or f"add [{one}s.{told_key(value)}] to this file"
        self.fault(at, f"there is no {one} {told(value)}", cure)
        return False

    def _wrong(self, key: str, wanted: str, cure: str) -> None:
        self.fault(key, f"{told(self._values.get(key))} where {wanted} belongs", cure)


def _breaks(text: str) -> bool:
    return not text.isprintable() and any(category(one) in _BREAKS for one in text)


def _text_cure(value: object) -> str:
    if isinstance(value, dict | list):
        return "write text in quotes"
    return f'put it in quotes: "{told(value)}"'


def _day_cure(key: str, value: object) -> str:
    if isinstance(value, datetime):
        return f"leave the time out: {key} = {value.date()}"
    if isinstance(value, str):
        try:
            return f"write {date.fromisoformat(value.strip())} without quotes"
        except ValueError:
            pass
    return f"write year-month-day without quotes, such as {key} = 2026-01-01"


def _duration_cure(key: str, value: object) -> str:
    plain = isinstance(value, int) and not isinstance(value, bool) and 0 < value < 10**6
    return f'write days as {key} = "P{value if plain else 90}D"'
