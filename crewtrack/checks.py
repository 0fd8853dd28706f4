"""What must hold between the cells of one row, whatever else the record holds.

Each check looks at two columns of a kind. It asks something of the second where that is recorded,
and is left out where one of the two could not be read.
Nothing here reads a clock, or another row.
"""

from collections.abc import Callable, Container, Iterator, Sequence
from datetime import date, datetime, timedelta, timezone
from typing import Final

from crewtrack.facts import RECORDED, Kind, Row, Value
from crewtrack.phrases import later, phrase

RowFault = tuple[str, str, str]
"""The column, what is wrong, and what would be right."""

_Judge = Callable[[Value, Value], tuple[str, str] | None]
_Check = tuple[str, str, _Judge]


def row_faults(kind: Kind, row: Row, unread: Container[str] = ()) -> list[RowFault]:
    """All that is wrong between a row's cells; ``unread`` are the columns already refused.

    A fault is told at the second column of its check.
    """
    columns = [(value,) for value in row]
    return [
        (other, problem, cure)
        for _, one, other, problem, cure in column_faults(kind, columns)
        if one not in unread and other not in unread
    ]


def column_faults(
    kind: Kind, columns: Sequence[Sequence[Value]]
) -> Iterator[tuple[int, str, str, str, str]]:
    """The same for many rows at once, given as columns: the row's index, the check's two
    columns, what is wrong, and what would be right."""
    for one, first, other, second, judge in _CHECKS[kind.name]:
        for index, value in enumerate(columns[second]):
            if value is not None:
                found = judge(columns[first][index], value)
                if found is not None:
                    yield index, one, other, *found


def _not_before(told: str) -> _Judge:
    """``told`` holds the second column as ``{day}``, the first as ``{earlier}``."""

    def judge(first: Value, second: Value) -> tuple[str, str] | None:
        if not isinstance(first, date) or not isinstance(second, date) or second >= first:
            return None
        return (
            phrase(told, day=second, earlier=first),
            phrase("write {day} or a later day", day=first),
        )

    return judge


def _not_self(told: str) -> _Judge:
    """``told`` holds the person as ``{person}``."""

    def judge(person: Value, other: Value) -> tuple[str, str] | None:
        if person != other:
            return None
        return phrase(told, person=other), phrase("name somebody else")

    return judge


def _needs(told: str, cure: str) -> _Judge:
    """The second column asks for the first."""

    def judge(first: Value, _: Value) -> tuple[str, str] | None:
        if first is not None:
            return None
        return phrase(told), phrase(cure)

    return judge


def _enough(times: Value, attempts: Value) -> tuple[str, str] | None:
    if not isinstance(times, int) or not isinstance(attempts, int) or attempts >= times:
        return None
    return (
        phrase(
            "{attempts} is fewer than the {times} times that it was done",
            attempts=attempts,
            times=times,
        ),
        phrase("attempts count those that succeeded too"),
    )


def _answered_after(happened: Value, answered: Value) -> tuple[str, str] | None:
    """No answer comes before what it answers, wherever on earth its day was counted."""
    if not isinstance(happened, datetime) or not isinstance(answered, date):
        return None
    first = happened.astimezone(_LAST_ZONE).date()
    if answered >= first:
        return None
    told = phrase("{day} is before happened {earlier}", day=answered, earlier=happened.date())
    return told, phrase("write {day} or a later day", day=happened.date())


_LAST_ZONE: Final = timezone(timedelta(hours=-12))
"""Where a day begins last."""
_SPAN: Final[_Check] = (
    "from",
    "through",
    _not_before(later("{day} is before from {earlier}")),
)
_NEEDS_LAT: Final = _needs(later("it is given without lat"), later("write both, or neither"))
_NEEDS_LON: Final = _needs(later("it is given without lon"), later("write both, or neither"))
_NEEDS_REASON: Final = _needs(
    later("it is given without light_reason"), later("say why it is stated by hand")
)
_NEEDS_LIGHT: Final = _needs(later("it is given without light"), later("write both, or neither"))
_NEEDS_WITHDRAWN: Final = _needs(
    later("it is given without withdrawn"), later("write the day, or neither")
)
_WHOLE_ANSWER: Final = later("write answer, answered_by and answered, or none of them")
_NO_ANSWER: Final = _needs(later("it is given without answer"), _WHOLE_ANSWER)
_ANSWERED: Final[tuple[_Check, ...]] = (
    ("answered_by", "answer", _needs(later("it is given without answered_by"), _WHOLE_ANSWER)),
    ("answered", "answer", _needs(later("it is given without answered"), _WHOLE_ANSWER)),
    ("answer", "answered_by", _NO_ANSWER),
    ("answer", "answered", _NO_ANSWER),
)
_NEEDS_ANSWER: Final = _needs(
    later("it is given without answer"), later("say why in the answer, or write neither")
)
_NEEDS_OUTCOME: Final = _needs(
    later("it is given without outcome"), later("say how it ended, or write neither")
)
_AFTER_ISSUED: Final = _not_before(later("{day} is before issued {earlier}"))
_BY_KIND: Final[dict[str, tuple[_Check, ...]]] = {
    "people": (
        ("joined", "left", _not_before(later("{day} is before joined {earlier}"))),
        ("born", "joined", _not_before(later("{day} is before born {earlier}"))),
    ),
    "assignments": (_SPAN,),
    "sorties": (
        ("lat", "lon", _NEEDS_LAT),
        ("lon", "lat", _NEEDS_LON),
        ("light_reason", "light", _NEEDS_REASON),
        ("light", "light_reason", _NEEDS_LIGHT),
    ),
    "performances": (
        ("person", "supervisor", _not_self(later("'{person}' supervises himself or herself"))),
        ("times", "attempts", _enough),
    ),
    "signoffs": (
        ("person", "evaluator", _not_self(later("'{person}' evaluates himself or herself"))),
        ("date", "withdrawn", _not_before(later("{day} is before date {earlier}"))),
        ("withdrawn", "withdrawn_by", _NEEDS_WITHDRAWN),
        ("withdrawn", "withdrawn_reason", _NEEDS_WITHDRAWN),
    ),
    "certificates": (
        ("issued", "expires", _AFTER_ISSUED),
        ("issued", "revoked", _AFTER_ISSUED),
    ),
    "waivers": (_SPAN,),
    "standdowns": (_SPAN,),
    "occurrences": (("happened", "answered", _answered_after), *_ANSWERED),
    "disputes": (
        ("raised", "answered", _not_before(later("{day} is before raised {earlier}"))),
        ("answer", "outcome", _NEEDS_ANSWER),
        ("outcome", "answer", _NEEDS_OUTCOME),
        *_ANSWERED,
    ),
}
_CHECKS: Final = {
    kind.name: tuple(
        (first, kind.index(first), second, kind.index(second), judge)
        for first, second, judge in _BY_KIND.get(kind.name, ())
    )
    for kind in RECORDED
}
