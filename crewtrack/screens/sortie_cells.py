"""What is typed for a sortie, read: a clock, a place, a direction with a speed; and back."""

import re
from datetime import date, datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import BadCell, shown
from crewtrack.cells import cell_text
from crewtrack.facts import Value
from crewtrack.moments import read_instant, zone_readings
from crewtrack.phrases import phrase

_CLOCK: Final = re.compile(
    r"([0-9]{1,2})[:.]?([0-9]{2})(?:[:.]?([0-9]{2}))? ?([Zz]|[+-][0-9]{2}:?[0-9]{2})?"
)
_PART: Final = re.compile(r"[0-9]{1,3}(?:\.[0-9]{1,10})?")
_MARKS: Final = str.maketrans(dict.fromkeys("°'′’\"″”:", " "))
_PLACES: Final = 6
"""Decimals of a degree that are kept: a tenth of a metre."""


def read_launch(day: date, clock: str, zone: ZoneInfo) -> datetime:
    """The instant of a day and a clock time (``0640``, ``6:40``, ``06:40:30``), read in the zone
    or with an offset after it (``01:30-04:00``); BadCell otherwise."""
    found = _CLOCK.fullmatch(clock.strip())
    if found is None:
        raise BadCell(
            phrase("{text} is not a time", text=shown(clock)), phrase("write it as 0640 or 06:40")
        )
    hour, minute, second, offset = found.groups()
    if int(hour) > 23 or int(minute) > 59 or int(second or 0) > 59:
        raise BadCell(
            phrase("there is no {time}", time=clock.strip()),
            phrase("hours go from 00 to 23, minutes to 59"),
        )
    local = f"{int(hour):02}:{minute}:{second or '00'}"
    if not offset:
        _refuse_change(datetime.fromisoformat(f"{day}T{local}"), zone)
    return read_instant(f"{day}T{local}{offset or ''}", zone)


def _refuse_change(local: datetime, zone: ZoneInfo) -> None:
    """BadCell where the clocks of the zone show a time twice, or never."""
    before, after = zone_readings(local, zone)
    if before == after:
        return
    first, second = (f"{local:%H:%M}{_offset(each)}" for each in (before, after))
    time = f"{local:%H:%M}"
    raise BadCell(
        phrase("{time} comes twice on that day, as the clocks change", time=time)
        if before > after
        else phrase("{time} does not come on that day, as the clocks change", time=time),
        phrase(
            "write {first} by the clock before the change or {second} by the one after it",
            first=first,
            second=second,
        ),
    )


def _offset(offset: timedelta) -> str:
    minutes = offset // timedelta(minutes=1)
    return f"{'-' if minutes < 0 else '+'}{abs(minutes) // 60:02}:{abs(minutes) % 60:02}"


def clock_text(instant: datetime, zone: ZoneInfo) -> str:
    """The clock time that reads back as an instant on its date; with its offset where the zone
    alone would not bring it back."""
    told = f"{instant:%H:%M:%S}" if instant.second else f"{instant:%H:%M}"
    try:
        plain = read_launch(instant.date(), told, zone)
    except BadCell:
        plain = None
    if plain is not None and plain.utcoffset() == instant.utcoffset():
        return told
    return told + _offset(instant.utcoffset() or timedelta())


def read_angle(text: str, letters: str) -> str:
    """A latitude (``letters`` is ``NS``) or longitude (``EW``) as decimal degrees in text.

    Taken are decimal degrees (``47.12``, ``-88.6``), degrees and minutes (``47 07.2 N``) and
    degrees, minutes and seconds; the letter may stand first. BadCell otherwise.
    """
    letter, rest = _letter_apart(text, letters)
    if not letter and not re.search(r"[0-9][ ]+[0-9]", rest):
        return rest.replace(" ", "")
    sign = "-" if letter == letters[1] or rest.startswith("-") else ""
    parts = rest.lstrip("+-").split()
    if not 1 <= len(parts) <= 3 or not all(map(_PART.fullmatch, parts)):
        raise _no_angle(text, letters)
    if letter and rest[:1] in "+-":
        raise BadCell(
            phrase("{text} has both a sign and a letter", text=shown(text)),
            phrase("write one of them"),
        )
    return sign + cell_text(_degrees(text, parts, letters))


def _letter_apart(text: str, letters: str) -> tuple[str, str]:
    """The letter of the hemisphere ("" for none), and the rest."""
    rest = " ".join(text.upper().translate(_MARKS).split())
    if rest[:1] in letters and rest:
        return rest[0], rest[1:].strip()
    if rest[-1:] in letters and rest:
        return rest[-1], rest[:-1].strip()
    if re.search("[A-Z]", rest):
        raise _no_angle(text, letters)
    return "", rest


def _degrees(text: str, parts: list[str], letters: str) -> float:
    if any("." in part for part in parts[:-1]):
        raise _no_angle(text, letters)
    if any(float(part) >= 60 for part in parts[1:]):
        raise BadCell(
            phrase("{text} has 60 minutes or more", text=shown(text)),
            phrase("minutes go up to 59.999"),
        )
    return round(sum(float(part) / (1, 60, 3600)[n] for n, part in enumerate(parts)), _PLACES)


def _no_angle(text: str, letters: str) -> BadCell:
    if letters == "NS":
        return BadCell(
            phrase("{text} is not a latitude", text=shown(text)),
            phrase("write it as 47 07.2 N or 47.12"),
        )
    return BadCell(
        phrase("{text} is not a longitude", text=shown(text)),
        phrase("write it as 88 36.0 W or -88.6"),
    )


def split_flow(text: str, sample: str) -> tuple[str, str]:
    """A direction and a speed with a slash or a blank between them, as two texts; either may be
    left out (``/14``). BadCell where there is only one number and no slash."""
    told = text.strip()
    if not told:
        return "", ""
    parts = told.split("/") if "/" in told else told.split()
    if len(parts) != 2:
        raise BadCell(
            phrase("{text} is not a direction and a speed", text=shown(told)),
            phrase("write degrees true, a slash and knots, such as {sample}", sample=sample),
        )
    return parts[0].strip(), parts[1].strip()


def flow_text(direction: Value, speed: Value) -> str:
    """The text that ``split_flow`` takes apart again; empty where neither is known."""
    if direction is None and speed is None:
        return ""
    first = f"{direction:03.0f}" if _whole(direction) else cell_text(direction)
    return f"{first}/{cell_text(speed)}"


def _whole(value: Value) -> bool:
    return isinstance(value, float) and value == int(value)
