"""Hypothesis strategies: what a small unit might hand in, as the contents of its files."""

import csv
from collections.abc import Sequence
from datetime import date, timedelta
from io import StringIO

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

from crewtrack import facts

Files = dict[str, str]
Row = dict[str, str]

FIRST = date(2024, 2, 20)
PEOPLE = ("K-1", "=K", "Ж 3")
SORTIES = ("S-1", "-2", "S,3", '"4"')
TASKS = ("launch", "recovery")
QUALIFICATIONS = ("pilot", "observer")

EDITIONS = tuple(
    f"""\
edition = "{name}"
effective = {effective}
zone = "America/Detroit"
[tasks.launch]
[tasks.recovery]
[qualifications.pilot]
needs = [
  {{ id = "recency", recent = ["launch", "recovery"], within = "P{months}M", times = {times} }},
  {{ id = "regained", recent = "recovery", within = "P{months}M", regain = "supervised" }},
  {{ id = "signed", signed = "recovery", within = "P1Y", through = "month-end" }},
]
[qualifications.observer]
needs = [ {{ id = "either", any = [ {{ certificate = "medical" }}, {{ holds = "pilot" }} ] }} ]
"""
    for name, effective, times, months in (
        ("first", "2024-01-01", 2, 2),
        ("Second 1", "2024-07-01", 1, 1),
        ("second_1", "2024-10-01", 2, 6),
    )
)

days = st.integers(0, 500).map(lambda n: FIRST + timedelta(days=n))
texts = st.one_of(
    st.sampled_from(["=1+1", "'=1", "@x", '-"5"', "+,", "Zoë; 李", "''"]),
    st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=8),
)
people = st.sampled_from(PEOPLE)
launches = st.tuples(days, st.sampled_from(["05:00Z", "03:30Z", "12:00+13:45", "23:59-04:00"]))
spans = st.tuples(days, st.integers(0, 180))


def as_csv(columns: Sequence[str], rows: Sequence[Row]) -> str:
    """A file with these columns, empty where a row says nothing."""
    text = StringIO()
    writer = csv.DictWriter(text, columns, restval="", lineterminator="\r\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def as_rows(content: str) -> list[Row]:
    """A file's rows."""
    return list(csv.DictReader(StringIO(content, newline="")))


@st.composite
def histories(draw: DrawFn) -> Files:
    """Files of every kind but vessels and aircraft, free of faults, and never large."""
    return {
        kind.name: as_csv(kind.names, drawn)
        for kind, rows in _KINDS
        if (drawn := draw(rows))
    }  # fmt: skip


@st.composite
def turned(draw: DrawFn, files: Files) -> Files:
    """The same files in another order, and within them the rows, save for what the order of rows
    decides: results of one person, task and date, and performances on one sortie."""
    kinds = draw(st.permutations(list(files)))
    told = {}
    for kind in kinds:
        rows = as_rows(files[kind])
        names = list(dict.fromkeys(_group(kind, row) for row in rows))
        order = {name: place for place, name in enumerate(draw(st.permutations(names)))}
        rows.sort(key=lambda row, kind=kind, order=order: order[_group(kind, row)])  # type: ignore[misc] # bound as defaults
        told[kind] = as_csv(list(rows[0]), rows)
    return told


def _group(kind: str, row: Row) -> tuple[str, ...]:
    """Rows of one group keep their order."""
    columns = {"signoffs": ("person", "task", "date"), "performances": ("sortie",)}
    return tuple(row[name] for name in columns.get(kind, row))


@st.composite
def _people(draw: DrawFn) -> list[Row]:
    return [
        {"person": key, "name": draw(texts), "born": str(draw(st.none() | days) or "")}
        for key in PEOPLE
    ]


@st.composite
def _sorties(draw: DrawFn) -> list[Row]:
    return [
        {
            "sortie": key,
            "launched": "T".join(map(str, draw(launches))),
            "minutes": str(draw(st.integers(0, 90))),
            "setting": draw(st.sampled_from(("live", "live", "drill"))),
            "sea": draw(st.sampled_from(("", "0", "3"))),
            "wind": draw(st.sampled_from(("", "0", "7.5"))),
            "remarks": draw(st.just("") | texts),
        }
        for key in SORTIES
    ]


def _rows(row: SearchStrategy[Row], *key: str, most: int = 4) -> SearchStrategy[list[Row]]:
    """Rows of which no two have one key."""
    return st.lists(row, max_size=most, unique_by=lambda one: tuple(one[name] for name in key))


@st.composite
def _assignment(draw: DrawFn) -> Row:
    first, length = draw(spans)
    last = first + timedelta(days=length)
    return {
        "person": draw(people),
        "qualification": draw(st.sampled_from(QUALIFICATIONS)),
        "from": str(first),
        "through": draw(st.sampled_from(("", str(last)))),
    }


@st.composite
def _performance(draw: DrawFn) -> Row:
    person, other = draw(st.permutations(PEOPLE))[:2]
    return {
        "sortie": draw(st.sampled_from(SORTIES)),
        "person": person,
        "task": draw(st.sampled_from(TASKS)),
        "times": str(draw(st.integers(1, 2))),
        "supervisor": draw(st.sampled_from(("", other))),
    }


@st.composite
def _signoff(draw: DrawFn) -> Row:
    person, other = draw(st.permutations(PEOPLE))[:2]
    day, later = draw(spans)
    row = {
        "signoff": draw(texts),
        "person": person,
        "task": draw(st.sampled_from(TASKS)),
        "date": str(day),
        "level": draw(st.sampled_from(("supervised", "alone", "alone"))),
        "result": draw(st.sampled_from(("passed", "passed", "not-yet", "failed"))),
        "evaluator": other,
    }
    if draw(st.booleans()):
        row["withdrawn"] = str(day + timedelta(days=later))
        row["withdrawn_by"], row["withdrawn_reason"] = draw(texts), draw(texts)
    return row


@st.composite
def _certificate(draw: DrawFn) -> Row:
    issued, length = draw(spans)
    return {
        "certificate": draw(texts),
        "person": draw(people),
        "kind": "medical",
        "issued": str(issued),
        "expires": draw(st.sampled_from(("", str(issued + timedelta(days=length))))),
    }


@st.composite
def _waiver(draw: DrawFn) -> Row:
    first, length = draw(spans)
    requirement = draw(st.sampled_from(("recency", "signed", "either")))
    return {
        "waiver": draw(texts),
        "person": draw(people),
        "qualification": "observer" if requirement == "either" else "pilot",
        "requirement": requirement,
        "from": str(first),
        "through": str(first + timedelta(days=length)),
        "reason": draw(texts),
        "by": draw(texts),
    }


@st.composite
def _standdown(draw: DrawFn) -> Row:
    first, length = draw(spans)
    return {
        "standdown": draw(texts),
        "person": draw(people),
        "qualification": draw(st.sampled_from(("", *QUALIFICATIONS))),
        "from": str(first),
        "through": draw(st.sampled_from(("", str(first + timedelta(days=length))))),
        "reason": draw(texts),
        "by": draw(texts),
    }


# One waiver of a requirement at most: two that touch could be longer than the limit allows.
_waivers = _rows(_waiver(), "person", "requirement").filter(
    lambda rows: len({row["waiver"] for row in rows}) == len(rows)
)
_KINDS = (
    (facts.PEOPLE, _people()),
    (facts.ASSIGNMENTS, _rows(_assignment(), "person", "qualification", "from")),
    (facts.SORTIES, _sorties()),
    (facts.PERFORMANCES, _rows(_performance(), "sortie", "person", "task", most=8)),
    (facts.SIGNOFFS, _rows(_signoff(), "signoff")),
    (facts.CERTIFICATES, _rows(_certificate(), "certificate")),
    (facts.WAIVERS, _waivers),
    (facts.STANDDOWNS, _rows(_standdown(), "standdown")),
)
