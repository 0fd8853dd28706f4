"""How long a requirement lets one thing count: ``within``, ``through`` and ``each``, the leave to
be ``early`` or ``late``, and windows by age."""

from itertools import pairwise

from crewtrack.engine.days import PERIODS, Duration, Horizon
from crewtrack.engine.requirement import AgeBand
from crewtrack.files.given_table import GivenTable
from crewtrack.files.known_keys import refuse_unknown
from crewtrack.phrases import phrase

HORIZON_KEYS = ("within", "through", "each")

_NOT_WITH_EACH = ("within", "through", "regain", "recheck")


def read_horizon(table: GivenTable) -> Horizon:
    """The window of a requirement; without limit where none is written."""
    within = table.duration("within")
    through = table.choice("through", ("month-end",))
    each = table.choice("each", PERIODS)
    if "each" in table:
        for other in _NOT_WITH_EACH:
            if other in table:
                table.fault(
                    other,
                    phrase("'{key}' does not go with 'each'", key=other),
                    phrase("keep one of the two"),
                )
        return Horizon(each=each)
    if "through" in table and "ages" not in table:
        _check_through(table, within)
    return Horizon(within, through is not None)


def _check_through(table: GivenTable, within: Duration | None) -> None:
    """``within`` is None where it is not written, or has a fault of its own."""
    cure = phrase("it goes only with 'within' in months or years, such as within = \"P6M\"")
    if "within" not in table:
        table.fault("through", phrase("'through' stands without 'within'"), cure)
    elif within is not None and within.days:
        table.fault("through", phrase("'through' does not go with days or weeks"), cure)


def read_early_and_late(table: GivenTable, horizon: Horizon) -> tuple[int, int]:
    """Whole months, 0 where not written."""
    early, late = _months(table, "early", horizon), _months(table, "late", horizon)
    within = horizon.within.months if horizon.within else 0
    if within and early + late >= within:
        key = "late" if "late" in table else "early"
        fewer = phrase("write fewer than {count} months for the two together", count=within)
        cure = fewer if within > 1 else phrase("leave it out, or write a longer 'within'")
        table.fault(key, phrase("'early' and 'late' reach as far as 'within'"), cure)
    return early, late


def _months(table: GivenTable, key: str, horizon: Horizon) -> int:
    if key not in table:
        return 0
    in_days = horizon.within is not None and horizon.within.days > 0
    if in_days or "within" not in table or "through" not in table:
        cure = phrase("it goes only with 'within' in months or years and through = \"month-end\"")
        table.fault(key, phrase("'{key}' does not go with what stands beside it", key=key), cure)
    length = table.duration(key)
    if length is None:
        return 0
    if not 1 <= length.months <= 6:
        table.fault(
            key,
            phrase("'{length}' can't be taken", length=length),
            phrase("write whole months from P1M to P6M"),
        )
        return 0
    return length.months


def read_ages(table: GivenTable, month_end: bool) -> tuple[AgeBand, ...]:
    """The windows by age of a certificate; ``month_end`` where its own ``through`` says so for
    all of them."""
    for other in ("within", "each"):
        if other in table:
            cure = phrase("write it in the last of the ages, without 'under'")
            table.fault(other, phrase("'{key}' does not go with 'ages'", key=other), cure)
    given = table.tables("ages")
    bands = [_band(inside, month_end) for inside in given]
    for place, inside in enumerate(given, 1):
        _check_under(inside, last=place == len(given))
    _check_ascent(given, bands)
    _check_shortest(given, bands)
    return tuple(bands)


def _band(table: GivenTable, month_end: bool) -> AgeBand:
    refuse_unknown(table, ("under", "within", "through"))
    within = table.duration("within")
    through = table.choice("through", ("month-end",))
    if "within" not in table:
        table.fault("within", phrase("it is missing"), phrase('add it, such as within = "P24M"'))
    elif "through" in table:
        _check_through(table, within)
    elif month_end and within is not None and within.days:
        cure = phrase("write months or years, since 'through' stands beside the ages")
        table.fault("within", phrase("'through' does not go with days or weeks"), cure)
    end = month_end or through is not None
    return AgeBand(table.whole("under", 1, 150), Horizon(within, end))


def _check_under(table: GivenTable, last: bool) -> None:
    if last and "under" in table:
        cure = phrase("add one more window, without 'under', for everybody else")
        table.fault("under", phrase("the last of the ages has no 'under'"), cure)
    elif not last and "under" not in table:
        table.fault(
            "under", phrase("it is missing"), phrase("only the last of the ages goes without it")
        )


def _check_ascent(given: tuple[GivenTable, ...], bands: list[AgeBand]) -> None:
    unders = [(table, band.under) for table, band in zip(given, bands, strict=True) if band.under]
    for (_, before), (table, under) in pairwise(unders):
        if under <= before:
            cure = phrase("write ages that ascend: more than {age}", age=before)
            table.fault(
                "under", phrase("{age} comes after {before}", age=under, before=before), cure
            )


def _check_shortest(given: tuple[GivenTable, ...], bands: list[AgeBand]) -> None:
    windows = [_length(band.horizon) for band in bands if band.horizon.within is not None]
    if len(windows) == len(bands) and windows and windows[-1] > min(windows):
        cure = phrase("make it the shortest: it also judges people whose age is not known")
        given[-1].fault("within", phrase("the last window is longer than one before it"), cure)


def _length(horizon: Horizon) -> tuple[float, bool]:
    """About how many days, to tell windows apart by length."""
    within = horizon.within or Duration()
    return within.days + within.months * 365.2425 / 12, horizon.month_end
