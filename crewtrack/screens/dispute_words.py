"""Disputes in words: the mark on an entry, wherever it is shown, and all of them as a table."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any, Final

from crewtrack.cells import cell_text
from crewtrack.engine.standings import Explained, Explanation
from crewtrack.facts import Kind
from crewtrack.office.disputes import Dispute, Disputed
from crewtrack.office.given_rows import FactKey
from crewtrack.screens.columns import cut, on_one_line, safe
from crewtrack.screens.fields import choice_told, one_told
from crewtrack.screens.language import say
from crewtrack.screens.tables import Table, TableColumn, day_order

Marks = Mapping[Disputed, tuple[Dispute, ...]]
"""The disputes that are open, by what they are about."""

_WIDE: Final = 60
"""Letters of a dispute that are shown in a table."""
EVIDENCE: Final[Mapping[str, str]] = {
    "sign-off": "signoffs",
    "certificate": "certificates",
    "waiver": "waivers",
    "extension": "waivers",
}
"""The kind of fact, by the kind of evidence as ``engine.standings.Counted`` names it; performances
apart, which go by their sorties."""


def dispute_told(dispute: Dispute) -> str:
    """``disputed since 2026-11-02 by K-05: I was ashore``."""
    return say(
        "disputed since {day} by {person}: {words}",
        day=dispute.raised,
        person=safe(dispute.by),
        words=on_one_line(dispute.words),
    )


def entry_told(kind: Kind, key: FactKey) -> str:
    """An entry by its kind and key: ``Performance S-0193, K-07, hand-recovery``."""
    told = ", ".join(safe(cell_text(value)) for value in key)
    return say("{kind} {key}", kind=one_told(kind.name), key=told)


def of_entries(marks: Marks, entries: Iterable[Disputed]) -> tuple[Dispute, ...]:
    """The open disputes of some entries."""
    return tuple(one for entry in entries for one in marks.get(entry, ()))


def by_sortie(marks: Marks) -> Mapping[str, tuple[Dispute, ...]]:
    """The open disputes of sorties and of what was performed on them, by the sortie's key."""
    found: dict[str, tuple[Dispute, ...]] = {}
    for (kind, key), disputes in marks.items():
        if kind in ("sorties", "performances"):
            sortie = str(key[0])
            found[sortie] = (*found.get(sortie, ()), *disputes)
    return found


def strip_told(disputes: Iterable[Dispute]) -> str:
    """What stands above an entry that is disputed, a line for each; empty for none."""
    return "\n".join(f"{entry_told(one.kind, one.fact)}: {dispute_told(one)}" for one in disputes)


def marked(table: Table, entries: Callable[[Any], Iterable[Disputed]], marks: Marks) -> Table:
    """A table with a further column, behind the first, in which disputes are told; the same table
    where none of its rows is disputed. ``entries`` are those that a row shows."""

    def disputes(row: Any) -> tuple[Dispute, ...]:
        return of_entries(marks, entries(row))

    if not marks or not any(map(disputes, table.rows)):
        return table
    first, *rest = table.columns
    return replace(table, columns=(first, disputed_column(disputes), *rest))


def disputed_column(disputes: Callable[[Any], tuple[Dispute, ...]]) -> TableColumn:
    """The column in which disputes are told, as far as there is room beside all else; those rows
    first that are disputed."""

    def text(row: Any) -> str:
        return " · ".join(map(dispute_told, disputes(row)))

    return TableColumn(
        say("Disputed"),
        lambda row: cut(text(row), _WIDE),
        order=lambda row: (not disputes(row), text(row)),
        spoken=lambda row: text(row) or say("not disputed"),
    )


def disputed_evidence(told: Explanation, marks: Marks) -> tuple[str, ...]:
    """A sentence for each open dispute of what a standing rests on."""
    flown = _of_flown(marks, told.standing.person)
    found = (
        one
        for need in told.requirements
        for kind, key in _counted(need)
        for one in _of_evidence(marks, flown, kind, key)
    )
    return tuple(dict.fromkeys(strip_told([one]) for one in found))


def disputes_table(disputes: tuple[Dispute, ...]) -> Table:
    """Disputes as a table."""
    columns = (
        TableColumn(say("Raised"), lambda one: str(one.raised), spoken=sentence),
        TableColumn(say("Entry"), lambda one: entry_told(one.kind, one.fact), spoken=sentence),
        TableColumn(say("By"), lambda one: safe(one.by), spoken=sentence),
        TableColumn(say("Answer"), answer_told, order=_answered, spoken=sentence),
        TableColumn(say("What is wrong"), lambda one: on_one_line(one.words), spoken=sentence),
    )
    return Table(columns, disputes, lambda one: one.key)


def answer_told(dispute: Dispute) -> str:
    """How it was answered, by whom and when."""
    if dispute.outcome is None:
        return say("open")
    return say(
        "{outcome}, {person}, {day}: {words}",
        outcome=choice_told(dispute.outcome),
        person=safe(dispute.answered_by or ""),
        day=dispute.answered,
        words=on_one_line(dispute.answer or ""),
    )


def sentence(dispute: Dispute) -> str:
    """A dispute with its answer in one sentence."""
    return f"{strip_told([dispute])}; {answer_told(dispute)}"


def _answered(dispute: Dispute) -> Any:
    return day_order(dispute.answered)


def _counted(need: Explained) -> Iterator[tuple[str, str]]:
    yield from ((one.kind, one.key) for one in need.counted)
    for inner in need.needs:
        yield from _counted(inner)


def _of_flown(marks: Marks, person: str) -> Mapping[str, tuple[Dispute, ...]]:
    """The open disputes of sorties and of what this person performed on them."""
    return {
        sortie: tuple(one for one in disputes if len(one.fact) == 1 or one.fact[1] == person)
        for sortie, disputes in by_sortie(marks).items()
    }


def _of_evidence(
    marks: Marks, flown: Mapping[str, tuple[Dispute, ...]], kind: str, key: str
) -> tuple[Dispute, ...]:
    if kind in EVIDENCE:
        return marks.get((EVIDENCE[kind], (key,)), ())
    return flown.get(key, ()) if kind == "performance" else ()
