"""The instant that the record is asked about, as it is typed."""

from datetime import datetime, time
from zoneinfo import ZoneInfo

from crewtrack.moments import read_day, read_instant


def read_known_at(text: str, zone: ZoneInfo, now: datetime) -> datetime:
    """An instant; without an offset it is read in the unit's zone. A date alone means through the
    end of that day there, as a last day is always included, and today's date through ``now``.
    BadCell says what would be right."""
    if len(text) == len("2026-11-25"):
        end = datetime.combine(read_day(text), time.max, tzinfo=zone)
        here = now.astimezone(zone)
        return here if here.date() == end.date() else end
    return read_instant(text, zone)


def known_at_told(instant: datetime, zone: ZoneInfo) -> str:
    """An instant as it may be typed, on the unit's clock: ``2026-11-25T06:40:00-05:00``."""
    return instant.astimezone(zone).isoformat(timespec="seconds")
