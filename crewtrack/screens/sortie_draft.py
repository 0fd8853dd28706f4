"""A sortie as it is being typed: texts by field, the crew by seat, and a line for each task."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any, Final

FIELDS: Final = (
    "vessel", "aircraft", "date", "time", "minutes", "lat", "lon", "setting", "way", "sea", "wind",
    "heading", "speed", "current", "purpose", "light", "light_reason", "remarks", "sortie",
)  # fmt: skip
"""The fields of the form in reading order. ``date`` and ``time`` make the launch; ``wind`` is
where it comes from and its speed, ``current`` set and drift, each with a slash between."""

TASK_FIELDS: Final = (
    "person", "task", "times", "attempts", "waveoffs", "supervisor", "stood",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class CrewLine:
    """Who sits where: a seat's name in the standard, and a person's key or what was typed."""

    seat: str
    person: str = ""


@dataclass(frozen=True, slots=True)
class TaskLine:
    """One person's performances of one task, as texts."""

    person: str = ""
    task: str = ""
    times: str = ""
    attempts: str = ""
    waveoffs: str = ""
    supervisor: str = ""
    stood: str = ""

    def text(self, name: str) -> str:
        """The text of one of ``TASK_FIELDS``."""
        return str(getattr(self, name))

    def with_text(self, name: str, text: str) -> "TaskLine":
        """The line with another text in one field."""
        return TaskLine(**{each: self.text(each) for each in TASK_FIELDS} | {name: text})

    @property
    def blank(self) -> bool:
        """Whether nobody has typed anything that matters."""
        return not any(self.text(name).strip() for name in TASK_FIELDS if name != "times")


def _texts(given: Mapping[str, str]) -> Mapping[str, str]:
    return MappingProxyType({name: given.get(name, "") for name in FIELDS})


@dataclass(frozen=True, slots=True)
class SortieDraft:
    """What is typed. ``texts`` has every one of ``FIELDS``; blank lines mean nothing."""

    texts: Mapping[str, str] = field(default_factory=lambda: _texts({}))
    crew: tuple[CrewLine, ...] = ()
    tasks: tuple[TaskLine, ...] = ()

    def text(self, name: str) -> str:
        """What stands in a field, without blanks around it."""
        return self.texts[name].strip()

    def with_text(self, name: str, text: str) -> "SortieDraft":
        """The draft with another text in one field; KeyError for a field that there is not."""
        return self.with_texts({name: text})

    def with_texts(self, texts: Mapping[str, str]) -> "SortieDraft":
        """The same for several fields."""
        unknown = texts.keys() - self.texts.keys()
        if unknown:
            raise KeyError(*unknown)
        return replace(self, texts=_texts({**self.texts, **texts}))

    def in_seat(self, seat: str) -> str:
        """Who sits in a seat; empty for nobody."""
        return next((line.person for line in self.crew if line.seat == seat), "")

    def with_person(self, seat: str, person: str) -> "SortieDraft":
        """The draft with somebody in a seat; their tasks are another matter."""
        crew = (CrewLine(seat, person) if line.seat == seat else line for line in self.crew)
        return replace(self, crew=tuple(crew))

    def with_tasks(self, tasks: tuple[TaskLine, ...]) -> "SortieDraft":
        """The draft with other lines of tasks."""
        return replace(self, tasks=tasks)

    def with_task_text(self, number: int, name: str, text: str) -> "SortieDraft":
        """The draft with another text in one line, counted from 0; a line is added where the
        number is one past the last."""
        lines = list(self.tasks)
        if number == len(lines):
            lines.append(TaskLine(times="1"))
        lines[number] = lines[number].with_text(name, text)
        return self.with_tasks(tuple(lines))

    def without_task(self, number: int) -> "SortieDraft":
        """The draft without one line."""
        return self.with_tasks((*self.tasks[:number], *self.tasks[number + 1 :]))

    def plain(self) -> dict[str, Any]:
        """The draft as it is kept in a file."""
        return {
            "texts": dict(self.texts),
            "crew": [[line.seat, line.person] for line in self.crew],
            "tasks": [[line.text(name) for name in TASK_FIELDS] for line in self.tasks],
        }


def from_plain(kept: Mapping[str, Any]) -> SortieDraft | None:
    """A draft as it was kept; None where that can't be made sense of."""
    try:
        return SortieDraft(
            _texts({str(name): str(text) for name, text in kept["texts"].items()}),
            tuple(CrewLine(str(seat), str(person)) for seat, person in kept["crew"]),
            tuple(TaskLine(*map(str, line)) for line in kept["tasks"]),
        )
    except (KeyError, TypeError, ValueError, AttributeError):
        return None
