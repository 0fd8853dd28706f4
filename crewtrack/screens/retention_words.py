"""Retention and sealing as a window says them: the period, what is past it, what sealing does."""

from datetime import date

from crewtrack.engine.days import Duration
from crewtrack.office.retention import Past, PastFact, Retention, RetentionTold
from crewtrack.office.sealing import Sealed
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import one_told
from crewtrack.screens.language import count_of, number, say, told
from crewtrack.screens.tables import Table, TableColumn


def page_line(of: RetentionTold) -> tuple[str, str]:
    """What the page Record says of retention: a name and a value."""
    sentences = [_period_line(of.retention), _past_line(of)]
    if of.sealed:
        sentences.append(
            count_of(of.sealed, "{count} fact has been sealed; what the record knew before no"
                     " longer shows it.", "{count} facts have been sealed; what the record knew"
                     " before no longer shows them.")
        )  # fmt: skip
    return say("Retention"), " ".join(sentence for sentence in sentences if sentence)


def _period_line(held: Retention | None) -> str:
    if held is None:
        return say("The unit has named no period.")
    return say("{period}, by {rule}.", period=period_told(held.period), rule=safe(held.rule))


def _past_line(of: RetentionTold) -> str:
    if of.retention is None:
        return ""
    if not of.past:
        return say("Nothing is past it.")
    past = count_of(of.past, "{count} fact is past it", "{count} facts are past it")
    if of.needed is None:
        return f"{past}."
    needed = count_of(of.needed, "{count} of them is still needed",
                      "{count} of them are still needed")  # fmt: skip
    return f"{past}, {needed}."


def period_told(period: str) -> str:
    """A period in words."""
    months = Duration.parse(period).months
    if months % 12:
        return count_of(months, "{count} month", "{count} months")
    return count_of(months // 12, "{count} year", "{count} years")


def past_told(past: Past) -> str:
    """What is past the period, in one sentence."""
    facts = sum(one.count for one in past.facts)
    sealable = sum(one.count for one in past.sealable)
    if not facts:
        return say("Nothing last mattered before {day}.", day=past.cutoff)
    return say(
        "{facts} last mattered before {day}; {sealable} can be sealed.",
        facts=count_of(facts, "{count} fact", "{count} facts"),
        day=past.cutoff,
        sealable=number(sealable) if sealable else say("none of them"),
    )


def past_table(past: Past) -> Table:
    """What is past the period, fact by fact, the oldest first."""
    columns = (
        TableColumn(say("Last mattered"), lambda row: str(row.last), order=_last, spoken=_spoken),
        TableColumn(say("Kind"), lambda row: one_told(row.kind), spoken=_spoken),
        TableColumn(say("Key"), lambda row: safe(row.key), spoken=_spoken),
        TableColumn(say("Person"), lambda row: safe(row.person or ""), spoken=_spoken),
        TableColumn(say("Facts"), lambda row: number(row.count), order=lambda row: row.count,
                    spoken=_spoken, right=True),
        TableColumn(say("Why it stays"), _why, spoken=_spoken),
    )  # fmt: skip
    return Table(columns, past.facts, lambda row: (row.kind, row.key))


def _last(row: PastFact) -> date:
    return row.last


def _why(row: PastFact) -> str:
    return safe(told(row.why)) if row.why else say("can be sealed")


def _spoken(row: PastFact) -> str:
    return say("{kind} {key}, last mattered {day}: {why}", kind=one_told(row.kind),
               key=safe(row.key), day=row.last, why=_why(row))  # fmt: skip


def sealing_told(past: Past) -> tuple[str, ...]:
    """What sealing does, before it is done."""
    facts = sum(one.count for one in past.sealable)
    return (
        count_of(facts, "{count} fact is sealed: what it says is removed from the record for good."
                 " Its digest and the signatures stay, so that the journal still verifies.",
                 "{count} facts are sealed: what they say is removed from the record for good."
                 " Their digests and the signatures stay, so that the journal still verifies."),
        say("No standing on any day from {day} on changes.", day=past.cutoff),
        say("What the record knew at an earlier instant no longer shows what is sealed now."),
        say("Backups that were made before still hold it: whoever keeps them has to remove them."),
        say("An officer and a chief sign it together, each with their own passphrase."),
    )  # fmt: skip


def sealed_told(done: Sealed) -> str:
    """What was sealed."""
    many = count_of(done.facts, "Sealed: {count} fact.", "Sealed: {count} facts.")
    if done.cleared:
        return many
    return say(
        "{sealed} The record is open elsewhere: the file may hold remnants until it is closed"
        " there.", sealed=many,
    )  # fmt: skip
