"""The journal as a table, and what one act recorded, line by line."""

from collections.abc import Iterator
from typing import Final

from crewtrack.cells import cell_text
from crewtrack.facts import Value
from crewtrack.office.looking_back import (
    EDITIONS,
    SEALED,
    ActDetail,
    JournalAct,
    RecordedFact,
)
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import kind_told, label, one_told
from crewtrack.screens.language import count_of, later, number, say
from crewtrack.screens.standard_page_lines import Line
from crewtrack.screens.tables import Table, TableColumn

ACT_KINDS: Final = later(
    {
        "adopt": "adopted a standard",
        "import": "imported files",
        "record": "recorded",
        "sortie": "logged a sortie",
        "correct": "corrected",
        "sign-off": "signed off",
        "withdraw": "withdrew a sign-off",
        "strike": "struck out",
        "certify": "certified a sign-off",
        "access": "set who has access",
        "passphrase": "changed a passphrase",
        "sign-in-refused": "was refused at sign-in",
        "occurrence": "reported an occurrence",
        "dispute": "disputed an entry",
        "answer": "answered",
        "policy": "set what the unit has decided",
        "seal": "sealed what is past retention",
    }
)
_SHORT: Final = 12


def nobody_identified() -> str:
    """What a name in the journal is worth so far."""
    return say(
        "Names are as each person gave them: nobody is identified by a passphrase yet. The chain of"
        " digests shows that nothing was changed afterwards, not who it was."
    )


def journal_told(count: int, whole: bool) -> str:
    """How many acts are shown."""
    if whole:
        return count_of(count, "{count} act.", "{count} acts.")
    return count_of(count, "{count} act so far; scroll down for more.",
                    "{count} acts so far; scroll down for more.")  # fmt: skip


def act_kind_told(kind: str) -> str:
    """What was done; as the journal writes it where no words are known for it."""
    return say(ACT_KINDS[kind]) if kind in ACT_KINDS else safe(kind)


def journal_table(acts: tuple[JournalAct, ...]) -> Table:
    """The acts as a table."""
    columns = (
        TableColumn(say("When"), _when, order=lambda act: act.seq, spoken=sentence),
        TableColumn(say("Who"), lambda act: safe(act.author), spoken=sentence),
        TableColumn(say("What"), lambda act: act_kind_told(act.kind), spoken=sentence),
        TableColumn(say("Facts"), lambda act: number(act.count), order=lambda act: act.count,
                    spoken=sentence, right=True),
        TableColumn(say("Why"), lambda act: safe(act.reason), spoken=sentence),
    )  # fmt: skip
    return Table(columns, acts, lambda act: act.seq)


def when(act: JournalAct) -> str:
    """The instant, in the unit's zone."""
    return act.at.strftime("%Y-%m-%d %H:%M")


def _when(act: JournalAct) -> str:
    """The instant, and a word where it is earlier than that of an act before it."""
    return when(act) if act.after is None else say("{when} (clock went back)", when=when(act))


def went_back(act: JournalAct) -> str:
    """What is odd about the act's instant; empty where nothing is."""
    if act.after is None:
        return ""
    return say(
        "The clock went back: dated earlier than act {number}, which comes before it.",
        number=act.after,
    )


def sentence(act: JournalAct) -> str:
    """One act in one sentence, and what is odd about its instant in another."""
    told = _sentence(act)
    return told if act.after is None else f"{told.rstrip('.')}. {went_back(act)}"


def _sentence(act: JournalAct) -> str:
    values = {
        "when": when(act),
        "who": safe(act.author),
        "what": act_kind_told(act.kind),
        "facts": count_of(act.count, "{count} fact", "{count} facts"),
        "why": safe(act.reason),
    }
    if act.reason:
        return say("{when}: {who} {what}, {facts}: {why}", **values)
    return say("{when}: {who} {what}, {facts}.", **values)


def act_lines(act: JournalAct, detail: ActDetail) -> tuple[Line, ...]:
    """One act with what it recorded."""
    return tuple(_act_lines(act, detail))


def _act_lines(act: JournalAct, detail: ActDetail) -> Iterator[Line]:
    yield Line("heading", say("Act {number}", number=act.seq))
    yield Line("said", say("{when}: {who} {what}.", when=when(act), who=safe(act.author),
                           what=act_kind_told(act.kind)))  # fmt: skip
    if act.reason:
        yield Line("said", say("Why: {reason}", reason=safe(act.reason)))
    if act.after is not None:
        yield Line("said", went_back(act))
    yield Line("beside", say("Digest: {digest}", digest=act.digest))
    for kind, count in act.counts.items():
        yield Line("beside", say("{kind}: {count}", kind=_kind(kind), count=number(count)))
    yield from (Line("said", say("Edition {edition} adopted", edition=safe(edition)))
                for edition in detail.editions)  # fmt: skip
    yield from _sealing(detail)
    for fact in detail.facts:
        yield from _fact(fact)
    more = detail.total - len(detail.facts)
    if more > 0:
        yield Line("beside", count_of(more, "and {count} more fact", "and {count} more facts"))


def _sealing(detail: ActDetail) -> Iterator[Line]:
    for one in detail.sealed:
        values = {"kind": kind_told(one.kind), "count": number(one.count)}
        days = {"first": one.first, "last": one.last}
        yield Line("said", say("{kind}: {count} sealed, recorded from {first} through {last}",
                               **values, **days))  # fmt: skip
    if detail.sealed:
        yield Line("said", say("Their contents are removed; digests and signatures stay. What the"
                               " record knew before this act no longer shows them."))  # fmt: skip
    if detail.sealed_by is not None:
        yield Line("said", say("Some of what this act recorded was sealed later, by act {number}.",
                               number=detail.sealed_by))  # fmt: skip


def _kind(name: str) -> str:
    named = {EDITIONS: say("Editions of the standard"), SEALED: say("Sealed rows")}
    return named.get(name) or kind_told(name)


def _fact(fact: RecordedFact) -> Iterator[Line]:
    values = {"kind": one_told(fact.kind.name), "key": _key(fact), "revision": fact.revision}
    if fact.closed:
        yield Line("title", say("{kind} {key}, revision {revision}", **values))
        yield Line("said", say("what it says is open to officers and chiefs only"), 1)
    elif fact.struck:
        yield Line("title", say("{kind} {key}, revision {revision}: struck out", **values))
    elif fact.before is None:
        yield Line("title", say("{kind} {key}: new", **values))
        yield Line("said", "; ".join(_values(fact)), 1)
    else:
        yield Line("title", say("{kind} {key}, revision {revision}", **values))
        yield from (Line("said", text, 1) for text in _differences(fact))


def _key(fact: RecordedFact) -> str:
    return " + ".join(_value(value) for value in fact.key)


def _values(fact: RecordedFact) -> Iterator[str]:
    """What is recorded, the key's columns and empty ones left out."""
    for column, value in zip(fact.kind.columns, fact.row, strict=True):
        if value not in (None, ()) and column.name not in fact.kind.key:
            yield say("{field}: {value}", field=label(fact.kind, column.name), value=_value(value))


def _differences(fact: RecordedFact) -> Iterator[str]:
    before = fact.before or ()
    same = True
    for column, new, old in zip(fact.kind.columns, fact.row, before, strict=True):
        if new != old:
            same = False
            yield say("{field}: {new} (was {old})", field=label(fact.kind, column.name),
                      new=_value(new), old=_value(old))  # fmt: skip
    if same:
        yield say("brought back as it was")


def _value(value: Value) -> str:
    return say("nothing") if value in (None, ()) else safe(cell_text(value))


def short(digest: str) -> str:
    """The first digits of a digest: enough to compare with paper."""
    return digest[:_SHORT]
