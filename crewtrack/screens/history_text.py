"""The history as text: one line for each span of each person × qualification, in columns."""

from collections.abc import Iterator, Sequence

from crewtrack.engine.standings import HistoryRow
from crewtrack.screens.columns import aligned, safe
from crewtrack.screens.standing_words import day_or

HEADER = ("person", "qualification", "first", "last")


def told(rows: Sequence[HistoryRow]) -> str:
    """All spans; ``never`` stands where a pair that was assigned has none, ``-`` for no limit."""
    return "\n".join(aligned([HEADER, *(line for row in rows for line in _lines(row))]))


def _lines(row: HistoryRow) -> Iterator[tuple[str, ...]]:
    pair = (safe(row.person), safe(row.qualification))
    for span in row.spans:
        yield (*pair, span.first.isoformat(), day_or(span.last, "-"))
    if not row.spans:
        yield (*pair, "never", "-")
