"""The requirements of one qualification, from the tables that write them.

What may stand beside what is said once, here; the meaning of each key is the engine's.
"""

from collections.abc import Collection
from dataclasses import dataclass, field
from typing import Final

from crewtrack.engine.days import Horizon
from crewtrack.engine.requirement import (
    MEASURES,
    AllOf,
    AnyOf,
    Certified,
    Holds,
    Measure,
    Recent,
    Requirement,
    Signed,
)
from crewtrack.facts import KEY_LENGTH, LEVELS
from crewtrack.files.floor_reader import read_floor, read_only
from crewtrack.files.given_table import GivenTable
from crewtrack.files.known_keys import refuse_unknown
from crewtrack.files.requirement_ids import with_ids
from crewtrack.files.window_reader import (
    HORIZON_KEYS,
    read_ages,
    read_early_and_late,
    read_horizon,
)
from crewtrack.phrases import either, phrase

DEEPEST: Final = 20
"""How many ``any`` and ``all`` may lie inside one another."""

_KEYS: Final = {
    "recent": (*MEASURES, *HORIZON_KEYS, "floor", "only", "drills", "regain", "recheck"),
    "signed": ("level", *HORIZON_KEYS, "early", "late"),
    "certificate": (*HORIZON_KEYS, "ages"),
    "holds": (),
    "any": (),
    "all": (),
}
"""Every kind of requirement by the key that makes it one, and the keys that go with it."""

_MOST_COUNTED: Final = 100_000


@dataclass(frozen=True, slots=True)
class Names:
    """The tasks and qualifications that the file defines."""

    tasks: Collection[str]
    qualifications: Collection[str]


@dataclass(slots=True)
class RequirementReader:
    """Reads the requirements of one qualification. ``holds`` gathers the qualifications that
    they name, each with the table that names it."""

    names: Names
    holds: list[tuple[str, GivenTable]] = field(default_factory=list)
    _ids: set[str] = field(default_factory=set)

    def needs(self, qualification: GivenTable) -> tuple[Requirement, ...]:
        """Everything under the qualification's ``needs``, with an id for each."""
        return with_ids(self._all(qualification, "needs"))

    def _all(self, table: GivenTable, key: str) -> tuple[Requirement, ...]:
        found = (self._one(inside) for inside in table.tables(key))
        return tuple(one for one in found if one is not None)

    def _one(self, table: GivenTable) -> Requirement | None:
        kind = _kind(table)
        if kind is None:
            return None
        id = self._id(table)
        match kind:
            case "recent":
                return self._recent(table, id)
            case "signed":
                return self._signed(table, id)
            case "certificate":
                return _certified(table, id)
            case "holds":
                return self._holds(table, id)
            case _:
                return self._nested(table, id, kind)

    def _id(self, table: GivenTable) -> str:
        """The written id; empty where there is none."""
        id = table.key("id") or ""
        if id == "edition":
            table.fault(
                "id",
                phrase("'edition' has a meaning of its own in answers"),
                phrase("write another id"),
            )
        elif id in self._ids:
            cure = phrase("write an id that no other requirement of this qualification has")
            table.fault("id", phrase("'{id}' stands here a second time", id=id), cure)
        elif id:
            self._ids.add(id)
        return id

    def _recent(self, table: GivenTable, id: str) -> Recent:
        measure, amount = _amount(table)
        drills = table.whole("drills", 0, _MOST_COUNTED)
        if "drills" in table and "days" in table:
            table.fault(
                "drills",
                phrase("'drills' does not go with 'days'"),
                phrase("count times or sorties"),
            )
        return Recent(
            id,
            bool(id),
            table.name_or_names("recent", "task", self.names.tasks),
            measure,
            amount,
            read_horizon(table),
            read_floor(table),
            read_only(table),
            drills,
            table.choice("regain", ("open", "supervised")) == "supervised",
            table.duration("recheck"),
        )

    def _signed(self, table: GivenTable, id: str) -> Signed:
        task = table.name("signed", "task", self.names.tasks)
        level = table.choice("level", LEVELS)
        horizon = read_horizon(table)
        early, late = read_early_and_late(table, horizon)
        at = LEVELS.index(level or "alone")
        return Signed(id, bool(id), task or "", at, horizon, early, late)

    def _holds(self, table: GivenTable, id: str) -> Holds:
        held = table.name("holds", "qualification", self.names.qualifications)
        if held is not None:
            self.holds.append((held, table))
        return Holds(id, bool(id), held or "")

    def _nested(self, table: GivenTable, id: str, kind: str) -> Requirement | None:
        if sum(part in ("any", "all") for part in table.path) >= DEEPEST:
            table.fault(
                kind,
                phrase("more than {most} deep", most=DEEPEST),
                phrase("write it with fewer 'any' and 'all'"),
            )
            return None
        needs = self._all(table, kind)
        return AnyOf(id, bool(id), needs) if kind == "any" else AllOf(id, bool(id), needs)


def _kind(table: GivenTable) -> str | None:
    """The key that says which kind of requirement this is; keys that don't go with it are noted
    on the way."""
    kinds = [key for key in table if key in _KEYS]
    if len(kinds) > 1:
        problem = phrase("'{key}' does not go with '{other}'", key=kinds[1], other=kinds[0])
        table.fault(kinds[1], problem, phrase("write them as two requirements"))
        return None
    kind = kinds[0] if kinds else None
    known = ("id", kind, *_KEYS[kind]) if kind else ("id", *_KEYS)
    unknown = refuse_unknown(table, known, [key for keys in _KEYS.values() for key in keys])
    if kind:
        _refuse_misplaced(table, kind)
    elif not unknown:
        table.fault(
            (),
            phrase("this says no kind of requirement"),
            phrase("write one of: {names}", names=", ".join(_KEYS)),
        )
    return kind


def _refuse_misplaced(table: GivenTable, kind: str) -> None:
    """Keys that go with another kind only."""
    for key in table:
        owners = [f"'{owner}'" for owner, keys in _KEYS.items() if key in keys]
        if owners and f"'{kind}'" not in owners:
            problem = phrase("'{key}' does not go with '{other}'", key=key, other=kind)
            table.fault(key, problem, phrase("it goes with {names}", names=either(owners)))


def _amount(table: GivenTable) -> tuple[Measure, int]:
    written = [measure for measure in MEASURES if measure in table]
    amounts = {measure: table.whole(measure, 1, _MOST_COUNTED) for measure in written}
    for extra in written[1:]:
        problem = phrase("'{key}' does not go with '{other}'", key=extra, other=written[0])
        table.fault(
            extra, problem, phrase("write exactly one of {names}", names=", ".join(MEASURES))
        )
    first: Measure = written[0] if written else "times"
    return first, amounts.get(first) or 1


def _certified(table: GivenTable, id: str) -> Certified:
    kind = table.text("certificate", KEY_LENGTH) or ""
    horizon = read_horizon(table)
    if "ages" not in table:
        return Certified(id, bool(id), kind, horizon)
    return Certified(id, bool(id), kind, Horizon(), read_ages(table, horizon.month_end))
