"""Occurrences and disputes in text: a few lines for each."""

from collections.abc import Iterable, Iterator
from zoneinfo import ZoneInfo

from crewtrack.facts import Row
from crewtrack.office.disputes import Dispute
from crewtrack.screens import dispute_words, occurrence_table
from crewtrack.screens.columns import GAP, on_one_line, safe
from crewtrack.screens.language import say
from crewtrack.screens.occurrence_table import OccurrenceLine, occurrence_lines


def occurrences_told(rows: Iterable[Row], zone: ZoneInfo) -> str:
    """All occurrences, with their answers."""
    lines = occurrence_lines(rows, zone)
    told = [line for one in lines for line in _occurrence(one)]
    return "\n".join(told or [say("No occurrences have been reported.")])


def disputes_told(disputes: Iterable[Dispute]) -> str:
    """Disputes, with their answers."""
    told = [line for one in disputes for line in _dispute(one)]
    return "\n".join(told or [say("No disputes are open.")])


def _occurrence(line: OccurrenceLine) -> Iterator[str]:
    table = occurrence_table
    parts = (
        safe(line.key),
        table.when(line),
        table.harm_told(line),
        safe(line.value("sortie") or ""),
        table.conditions_told(line),
        table.reporter_told(line),
    )
    yield ", ".join(part for part in parts if part)
    yield GAP + on_one_line(line.value("what"))
    yield GAP + say("Answer: {answer}", answer=table.answer_told(line))


def _dispute(dispute: Dispute) -> Iterator[str]:
    yield f"{safe(dispute.key)}, {dispute_words.entry_told(dispute.kind, dispute.fact)}"
    yield GAP + dispute_words.dispute_told(dispute)
    yield GAP + say("Answer: {answer}", answer=dispute_words.answer_told(dispute))
