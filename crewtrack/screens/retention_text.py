"""What is past retention, as text for a terminal or a pipe, and as JSON for programs."""

import json
from collections.abc import Iterator

from crewtrack.facts import RECORDED
from crewtrack.office.retention import Past
from crewtrack.screens.changes_text import counted
from crewtrack.screens.columns import aligned, safe


def past_text(past: Past) -> str:
    """The period, then a line for each fact: its last day, what it is, and why it stays."""
    return "\n".join(_lines(past))


def _lines(past: Past) -> Iterator[str]:
    held = past.retention
    yield f"# Retention {held.period}: {safe(held.rule)}"
    yield f"# Past it is what last mattered before {past.cutoff}."
    one = {kind.name: kind.one for kind in RECORDED}
    rows = [
        (
            str(fact.last),
            f"{one[fact.kind]} {safe(fact.key)}",
            safe(fact.person or ""),
            counted(fact.count, "fact"),
            safe(fact.why) if fact.why else "can be sealed",
        )
        for fact in past.facts
    ]
    yield from aligned(rows)
    facts = sum(fact.count for fact in past.facts)
    sealable = sum(fact.count for fact in past.sealable)
    yield f"# {counted(facts, 'fact')} past retention, {sealable} can be sealed."


def past_json(past: Past) -> str:
    """``period``, ``rule``, ``cutoff`` and ``rows``, each with ``kind``, ``key``, ``person``,
    ``last``, ``facts``, ``sealable`` and ``why`` (null where it can be sealed)."""
    rows = [
        {
            "kind": fact.kind,
            "key": fact.key,
            "person": fact.person,
            "last": fact.last.isoformat(),
            "facts": fact.count,
            "sealable": not fact.why,
            "why": str(fact.why) or None,
        }
        for fact in past.facts
    ]
    held = past.retention
    told = {"period": held.period, "rule": held.rule, "cutoff": past.cutoff.isoformat()}
    return json.dumps({**told, "rows": rows}, ensure_ascii=False, indent=2) + "\n"
