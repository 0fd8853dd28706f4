"""The history as text: one line for each span of each person × qualification, in columns."""

from collections.abc import Iterator, Sequence
from datetime import datetime

from crewtrack.engine.standings import HistoryRow
from crewtrack.screens.columns import aligned, safe
from crewtrack.screens.standing_words import as_known_at, day_or

HEADER = ("person", "qualification", "first", "last")


def told(rows: Sequence[HistoryRow], known_at: datetime | None = None) -> str:
    """All spans; ``never`` stands where a pair that was assigned has none, ``-`` for no limit.
    Where it is as known at an instant, a line that begins with ``#`` says so first."""
    head = [f"# history{as_known_at(known_at)}"] if known_at else []
    table = aligned([HEADER, *(line for row in rows for line in _lines(row))])
    return "\n".join([*head, *table])


def _lines(row: HistoryRow) -> Iterator[tuple[str, ...]]:
    pair = (safe(row.person), safe(row.qualification))
    for span in row.spans:
        yield (*pair, span.first.isoformat(), day_or(span.last, "-"))
    if not row.spans:
        yield (*pair, "never", "-")
