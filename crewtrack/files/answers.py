"""Answers out, for other programs: the roster, the history and one standing, as JSON and as CSV.

The keys and columns here are a promise to those programs. Dates are ``YYYY-MM-DD`` and null (an
empty cell) where there is none, instants carry their offset, spans are closed
(``["2025-11-02", null]`` is open). JSON is UTF-8 text, not escaped. CSV has a header row, lists
joined by ``;``, and newline as its line end, for the sake of pipes; text that a spreadsheet would
run is made harmless as in the files of evidence.
"""

import csv
import json
from collections.abc import Iterable
from datetime import date, datetime
from io import StringIO
from typing import Final

from crewtrack.cells import cell_text
from crewtrack.engine.spans import Span
from crewtrack.engine.standings import (
    Counted,
    Explained,
    Explanation,
    HistoryRow,
    Roster,
    Standing,
)
from crewtrack.facts import Kind, Row, Value
from crewtrack.files.harmless import harmless

Json = str | int | bool | None | list["Json"] | dict[str, "Json"]

ROSTER_COLUMNS: Final = (
    "person",
    "name",
    "qualification",
    "standing",
    "since",
    "through",
    "limiting",
    "by_waiver",
)
HISTORY_COLUMNS: Final = ("person", "qualification", "first", "last")


def roster_json(roster: Roster) -> str:
    """``on``, ``known_at``, ``unit``, ``edition`` and ``rows``, one for each person ×
    qualification with the columns of ``ROSTER_COLUMNS``."""
    return _json(
        {
            "on": _day(roster.on),
            "known_at": _instant(roster.known_at),
            "unit": roster.unit,
            "edition": roster.edition,
            "rows": [_standing(row, name) for row, name in _named(roster)],
        }
    )


def roster_csv(roster: Roster) -> str:
    """The same rows, under ``ROSTER_COLUMNS``."""
    return _csv(
        ROSTER_COLUMNS,
        (
            (
                row.person,
                name,
                row.qualification,
                row.word,
                _day(row.since),
                _day(row.through),
                ";".join(row.limiting),
                ";".join(row.by_waiver),
            )
            for row, name in _named(roster)
        ),
    )


def history_json(rows: Iterable[HistoryRow]) -> str:
    """``rows``, each with ``person``, ``qualification`` and ``spans``."""
    return _json(
        {
            "rows": [
                {
                    "person": row.person,
                    "qualification": row.qualification,
                    "spans": _spans(row.spans),
                }
                for row in rows
            ]
        }
    )


def history_csv(rows: Iterable[HistoryRow]) -> str:
    """One line for each span, under ``HISTORY_COLUMNS``; a pair without a span has none."""
    return _csv(
        HISTORY_COLUMNS,
        (
            (row.person, row.qualification, _day(span.first), _day(span.last))
            for row in rows
            for span in row.spans
        ),
    )


def why_json(explanation: Explanation, on: date, known_at: datetime | None = None) -> str:
    """One standing on a day, down to its evidence.

    ``on``, ``known_at``; a roster row's keys; ``title`` (the qualification's), ``edition``,
    ``spans`` (the qualification's), ``requirements`` and ``notes``. A requirement has ``id``,
    ``rule``, ``met``, ``through``, ``spans``, ``counted`` (each with ``kind``, ``key``, ``task``,
    ``date``, ``through``, ``amount``, ``conditions``), ``missing`` and ``needs``, the
    requirements nested in it.
    """
    head: dict[str, Json] = {"on": _day(on), "known_at": _instant(known_at)}
    return _json(
        head
        | _standing(explanation.standing, explanation.name)
        | {
            "title": explanation.title,
            "edition": explanation.edition,
            "spans": _spans(explanation.spans),
            "requirements": [_requirement(each) for each in explanation.requirements],
            "notes": [*explanation.notes],
        }
    )


def head_json(last: tuple[str, int, str, str] | None) -> str:
    """``digest``, ``act``, ``at`` and ``by`` of the journal's last act; all null before the
    first."""
    digest, act, at, by = last or (None, None, None, None)
    return _json({"digest": digest, "act": act, "at": at, "by": by})


def facts_json(kind: Kind, rows: Iterable[Row]) -> str:
    """``rows``, each with the columns of the kind; several words are a list."""
    return _json(
        {
            "rows": [
                {name: _value(value) for name, value in zip(kind.names, row, strict=True)}
                for row in rows
            ]
        }
    )


def facts_csv(kind: Kind, rows: Iterable[Row]) -> str:
    """One line for each, under the columns of the kind."""
    return _csv(kind.names, ([cell_text(value) for value in row] for row in rows))


def _value(value: Value) -> Json:
    if isinstance(value, tuple):
        return [*value]
    return value if value is None or isinstance(value, int) else cell_text(value)


def _named(roster: Roster) -> Iterable[tuple[Standing, str]]:
    names = {person.key: person.name for person in roster.people}
    return ((row, names[row.person]) for row in roster.rows)


def _standing(row: Standing, name: str) -> dict[str, Json]:
    return {
        "person": row.person,
        "name": name,
        "qualification": row.qualification,
        "standing": row.word,
        "since": _day(row.since),
        "through": _day(row.through),
        "limiting": [*row.limiting],
        "by_waiver": [*row.by_waiver],
    }


def _requirement(explained: Explained) -> Json:
    return {
        "id": explained.id,
        "rule": explained.rule,
        "met": explained.met,
        "through": _day(explained.through),
        "spans": _spans(explained.spans),
        "counted": [_counted(each) for each in explained.counted],
        "missing": [*explained.missing],
        "needs": [_requirement(each) for each in explained.needs],
    }


def _counted(counted: Counted) -> Json:
    return {
        "kind": counted.kind,
        "key": counted.key,
        "task": counted.task or None,
        "date": _day(counted.day),
        "through": _day(counted.through),
        "amount": counted.amount,
        "conditions": counted.conditions or None,
    }


def _spans(spans: Iterable[Span]) -> Json:
    return [[_day(span.first), _day(span.last)] for span in spans]


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def _instant(instant: datetime | None) -> str | None:
    if instant is None:
        return None
    text = instant.isoformat()
    return text.removesuffix("+00:00") + "Z" if text.endswith("+00:00") else text


def _json(answer: Json) -> str:
    return json.dumps(answer, ensure_ascii=False, indent=2) + "\n"


def _csv(columns: Iterable[str], rows: Iterable[Iterable[str | None]]) -> str:
    text = StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows([harmless(cell or "") for cell in row] for row in rows)
    return text.getvalue()
