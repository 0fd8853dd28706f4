"""What is recorded of a sortie, as a draft: to be corrected, or to start the next one from."""

from collections.abc import Iterable
from datetime import date, datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.cells import cell_text
from crewtrack.facts import PERFORMANCES, SORTIES, Row, Value
from crewtrack.screens.sortie_cells import clock_text, flow_text
from crewtrack.screens.sortie_crew import Usual, crew_of
from crewtrack.screens.sortie_draft import TASK_FIELDS, CrewLine, SortieDraft, TaskLine

_AGAIN: Final = (
    "vessel", "aircraft", "lat", "lon", "setting", "way", "sea", "wind", "heading", "speed",
    "current", "purpose", "minutes",
)  # fmt: skip
_ANOTHER_DAY: Final = ("vessel", "aircraft", "setting", "purpose")
"""What the first sortie of a day takes over from an earlier day: no weather."""


def draft_of(sortie: Row, performances: Iterable[Row], usual: Usual, zone: ZoneInfo) -> SortieDraft:
    """A recorded sortie in the texts that read back as it."""
    values = dict(zip(SORTIES.names, sortie, strict=True))
    tasks = tuple(_line(row) for row in performances)
    crew = tuple(CrewLine(seat, person) for seat, person in crew_of(tasks, usual))
    texts = {
        name: cell_text(values[name])
        for name in SORTIES.names
        if name not in ("launched", "wind_from", "wind", "set", "drift")
    }
    texts["wind"] = flow_text(values["wind_from"], values["wind"])
    texts["current"] = flow_text(values["set"], values["drift"])
    texts |= _launch(values["launched"], zone)
    return SortieDraft(crew=crew, tasks=tasks).with_texts(texts)


def _launch(launched: Value, zone: ZoneInfo) -> dict[str, str]:
    if not isinstance(launched, datetime):
        return {}
    return {"date": launched.date().isoformat(), "time": clock_text(launched, zone)}


def _line(row: Row) -> TaskLine:
    values = dict(zip(PERFORMANCES.names, row, strict=True))
    return TaskLine(**{name: cell_text(values[name]) for name in TASK_FIELDS})


def fresh_draft(day: date, key: str, seats: tuple[str, ...]) -> SortieDraft:
    """An empty draft for a day."""
    crew = tuple(CrewLine(seat) for seat in seats)
    texts = {"date": day.isoformat(), "sortie": key}
    return SortieDraft(crew=crew).with_texts(texts)


def again(last: SortieDraft, launched: datetime, minutes: int, fresh: SortieDraft) -> SortieDraft:
    """The next sortie, from the last one: same crew and tasks, and on the same day the same
    place, weather and minutes, launched when the last one came back. What came of the last one
    (attempts, wave-offs, remarks) is left behind."""
    same_day = last.text("date") == fresh.text("date")
    names = _AGAIN if same_day else _ANOTHER_DAY
    texts = {name: last.texts[name] for name in names}
    if same_day:
        back = launched + timedelta(minutes=minutes)
        texts["date"], texts["time"] = back.date().isoformat(), f"{back:%H:%M}"
    tasks = (line.with_text("attempts", "").with_text("waveoffs", "") for line in last.tasks)
    return SortieDraft(crew=last.crew, tasks=tuple(tasks)).with_texts({**fresh.texts, **texts})
