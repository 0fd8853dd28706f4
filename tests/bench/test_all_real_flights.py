"""All 336,776 real flights, engine against pandas: what tests/engine samples."""

from tests.real_flights import (
    counts_by_day,
    met_by_pandas,
    real_flights,
    spans_by_engine,
    spans_by_pandas,
)


def test_spans_of_all_real_flights_agree_with_an_independent_reckoning() -> None:
    flown = real_flights()
    met = met_by_pandas(counts_by_day(flown))
    expected = {key: spans_by_pandas(days) for key, days in met.items()}
    assert spans_by_engine(flown) == expected
