"""What must hold between the cells of one row, whatever else the record holds.

Each check looks at two columns of a kind. It asks something of the second where that is recorded,
and is left out where one of the two could not be read.
Nothing here reads a clock, or another row.
"""

from collections.abc import Callable, Container, Iterator, Sequence
from datetime import date
from typing import Final

from crewtrack.facts import KINDS, Kind, Row, Value

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


def _not_before(earlier: str) -> _Judge:
    def judge(first: Value, second: Value) -> tuple[str, str] | None:
        if not isinstance(first, date) or not isinstance(second, date) or second >= first:
            return None
        return f"{second} is before {earlier} {first}", f"write {first} or a later day"

    return judge


def _not_self(verb: str) -> _Judge:
    def judge(person: Value, other: Value) -> tuple[str, str] | None:
        if person != other:
            return None
        return f"'{other}' {verb} himself or herself", "name somebody else"

    return judge


def _needs(needed: str, cure: str) -> _Judge:
    """The second column asks for the first."""

    def judge(first: Value, _: Value) -> tuple[str, str] | None:
        if first is not None:
            return None
        return f"it is given without {needed}", cure

    return judge


def _enough(times: Value, attempts: Value) -> tuple[str, str] | None:
    if not isinstance(times, int) or not isinstance(attempts, int) or attempts >= times:
        return None
    return (
        f"{attempts} is fewer than the {times} times that it was done",
        "attempts count those that succeeded too",
    )


_SPAN: Final[_Check] = ("from", "through", _not_before("from"))
_BY_KIND: Final[dict[str, tuple[_Check, ...]]] = {
    "people": (
        ("joined", "left", _not_before("joined")),
        ("born", "joined", _not_before("born")),
    ),
    "assignments": (_SPAN,),
    "sorties": (
        ("lat", "lon", _needs("lat", "write both, or neither")),
        ("lon", "lat", _needs("lon", "write both, or neither")),
        ("light_reason", "light", _needs("light_reason", "say why it is stated by hand")),
        ("light", "light_reason", _needs("light", "write both, or neither")),
    ),
    "performances": (
        ("person", "supervisor", _not_self("supervises")),
        ("times", "attempts", _enough),
    ),
    "signoffs": (
        ("person", "evaluator", _not_self("evaluates")),
        ("date", "withdrawn", _not_before("date")),
        ("withdrawn", "withdrawn_by", _needs("withdrawn", "write the day, or neither")),
        ("withdrawn", "withdrawn_reason", _needs("withdrawn", "write the day, or neither")),
    ),
    "certificates": (
        ("issued", "expires", _not_before("issued")),
        ("issued", "revoked", _not_before("issued")),
    ),
    "waivers": (_SPAN,),
    "standdowns": (_SPAN,),
}
_CHECKS: Final = {
    kind.name: tuple(
        (first, kind.index(first), second, kind.index(second), judge)
        for first, second, judge in _BY_KIND.get(kind.name, ())
    )
    for kind in KINDS
}
