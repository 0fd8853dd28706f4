"""One fact as a person fills it in: texts by field, what is wrong with each, and the row.

A draft is a value: every key that is typed makes another. Faults are told by field, one sentence
each with its cure; what only the record knows beyond ``Known`` is told by the office on saving.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import BadCell, likely, shown
from crewtrack.cells import cell_text, read_cell
from crewtrack.checks import row_faults
from crewtrack.engine.requirement import Certified, Recent, inside
from crewtrack.errors import Fault
from crewtrack.facts import (
    AIRCRAFT,
    CERTIFICATES,
    RECORDED,
    VESSELS,
    Column,
    InStandard,
    Kind,
    Reference,
    Row,
    Text,
    Value,
)
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens.language import say, told

_NAMED = ("people", "vessels", "aircraft")
_KEYED = (*_NAMED, "sorties")
_CRAFT = (VESSELS, AIRCRAFT)


@dataclass(frozen=True, slots=True)
class FactDraft:
    """The texts of a fact's fields by column; a column without a text is empty."""

    kind: Kind
    texts: Mapping[str, str]

    def text(self, name: str) -> str:
        """What stands in a field."""
        return self.texts.get(name, "")

    def with_text(self, name: str, text: str) -> "FactDraft":
        """The draft with another text in one field."""
        return FactDraft(self.kind, {**self.texts, name: text})


@dataclass(frozen=True, slots=True)
class Known:
    """What may be referred to. ``names``: by kind, the keys and the name of each (the key itself
    where a kind has no names). ``tasks``, ``qualifications``: keys and titles, of all editions.
    ``requirements``: by qualification, the ids that can be waived. ``kinds``: of certificates,
    those that an edition asks for; of boats and aircraft, those too that are in the record."""

    names: Mapping[str, Mapping[str, str]]
    tasks: Mapping[str, str]
    qualifications: Mapping[str, str]
    requirements: Mapping[str, tuple[str, ...]]
    kinds: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def choices(self, column: Column, draft: FactDraft) -> Mapping[str, str]:
        """Keys and names that a column may refer to, or that it usually holds; empty where it
        holds anything."""
        if is_kind(column):
            words = self.kinds.get(draft.kind.name, ())
            return dict(zip(words, words, strict=True))
        match column.type:
            case Reference(kind):
                return self.names.get(kind, {})
            case InStandard("tasks"):
                return self.tasks
            case InStandard("qualifications"):
                return self.qualifications
            case InStandard("requirements"):
                ids = self.requirements.get(draft.text("qualification"), ())
                return dict(zip(ids, ids, strict=True))
            case _:
                return {}


def known_of(snapshot: Snapshot) -> Known:
    """All that a record and its standard know."""
    tasks: dict[str, str] = {}
    qualifications: dict[str, str] = {}
    requirements: dict[str, tuple[str, ...]] = {}
    for standard in snapshot.editions.standards:
        tasks.update({key: task.title for key, task in standard.tasks.items()})
        for key, qualification in standard.qualifications.items():
            qualifications[key] = qualification.title
            ids = (*requirements.get(key, ()), *qualification.named())
            requirements[key] = tuple(dict.fromkeys(ids))
    names = {name: _names(snapshot, name) for name in _KEYED}
    return Known(names, tasks, qualifications, requirements, _kinds(snapshot))


def is_kind(column: Column) -> bool:
    """Whether a column holds a kind of thing that the standard may ask for: any word, but another
    spelling counts for nothing."""
    return column.name == "kind" and isinstance(column.type, Text)


def notes(draft: FactDraft, known: Known) -> str:
    """What should be known of a fact, though it is no fault; empty for nothing."""
    text = draft.text("kind").strip()
    if draft.kind is not CERTIFICATES or not text or text in known.kinds.get("certificates", ()):
        return ""
    return say("The standard asks for no certificate of the kind {kind}: it counts for nothing.",
               kind=shown(text))  # fmt: skip


def _kinds(snapshot: Snapshot) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, dict[str, None]] = {kind.name: {} for kind in (CERTIFICATES, *_CRAFT)}
    for standard in snapshot.editions.standards:
        for one in standard.qualifications.values():
            for need in (leaf for whole in one.needs for leaf in inside(whole)):
                if isinstance(need, Certified):
                    found["certificates"][need.kind] = None
                elif isinstance(need, Recent):
                    found["vessels"].update(dict.fromkeys(need.only.vessel))
                    found["aircraft"].update(dict.fromkeys(need.only.aircraft))
    for kind in _CRAFT:
        recorded = (row[kind.index("kind")] for row in snapshot.rows(kind))
        found[kind.name].update(dict.fromkeys(str(word) for word in recorded if word is not None))
    return {name: tuple(sorted(words)) for name, words in found.items()}


def _names(snapshot: Snapshot, name: str) -> Mapping[str, str]:
    if name == "sorties":  # known already, and there may be very many
        return {key: key for key in snapshot.reckoning.evidence.sorties.key}
    kind = next(kind for kind in RECORDED if kind.name == name)
    told = kind.index("name") if name in _NAMED else 0
    return {str(row[0]): str(row[told]) for row in snapshot.rows(kind)}


def draft_of(kind: Kind, row: Row) -> FactDraft:
    """A recorded fact, to be corrected."""
    return FactDraft(kind, dict(zip(kind.names, map(cell_text, row), strict=True)))


def faults(draft: FactDraft, known: Known, zone: ZoneInfo) -> Mapping[str, str]:
    """What is wrong, by field; empty where nothing is."""
    values, found = _read(draft, zone)
    for column in draft.kind.columns:
        if column.name not in found and values[column.name] is not None:
            problem = _not_known(draft, column, known)
            if problem:
                found[column.name] = problem
    row = tuple(values[name] for name in draft.kind.names)
    for name, problem, cure in row_faults(draft.kind, row, found):
        found.setdefault(name, sentence(problem, cure))
    return found


def row(draft: FactDraft, zone: ZoneInfo) -> Row:
    """The row of a draft in which nothing is wrong."""
    values, _ = _read(draft, zone)
    return tuple(values[name] for name in draft.kind.names)


def sentence(problem: str, cure: str) -> str:
    """What is wrong, then what would be right, in the language in use."""
    return "; ".join(told(part) for part in (problem, cure) if part)


def by_field(found: tuple[Fault, ...]) -> Mapping[str, str]:
    """The faults that the office told of one fact, by field (the first of each); those of no
    field under the empty name."""
    by_name: dict[str, str] = {}
    for fault in found:
        by_name.setdefault(fault.field, sentence(fault.problem, fault.cure))
    return by_name


def _read(draft: FactDraft, zone: ZoneInfo) -> tuple[dict[str, Value], dict[str, str]]:
    values: dict[str, Value] = {}
    found: dict[str, str] = {}
    for column in draft.kind.columns:
        text = draft.text(column.name)
        values[column.name] = None
        if column.required and not text.strip():
            found[column.name] = say("this is needed")
            continue
        try:
            values[column.name] = read_cell(column, text, zone)
        except BadCell as bad:
            found[column.name] = sentence(bad.problem, bad.cure)
    return values, found


def _not_known(draft: FactDraft, column: Column, known: Known) -> str:
    """A sentence where a field refers to nothing that is there."""
    if not isinstance(column.type, Reference | InStandard):
        return ""
    text, choices = draft.text(column.name).strip(), known.choices(column, draft)
    if text in choices:
        return ""
    if column.type == InStandard("requirements") and not choices:
        return say("none of its requirements has an id of its own, so none can be waived")
    problem = say("{what} is not known", what=shown(text))
    return sentence(problem, likely(text, choices) or say("choose one from the list"))
