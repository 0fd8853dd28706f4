"""The history as text."""

from datetime import UTC, date, datetime

from crewtrack.engine.spans import Span
from crewtrack.engine.standings import HistoryRow
from crewtrack.screens.history_text import told

SPAN = Span(date(2025, 2, 3), date(2025, 8, 19))


def test_each_span_has_a_line_and_an_open_one_no_last_day() -> None:
    row = HistoryRow("K-07", "deck-pilot", (SPAN, Span(date(2025, 11, 2), None)))
    assert told([row]).splitlines() == [
        "person  qualification  first       last",
        "K-07    deck-pilot     2025-02-03  2025-08-19",
        "K-07    deck-pilot     2025-11-02  -",
    ]


def test_a_pair_that_never_met_it_says_so() -> None:
    assert told([HistoryRow("K-07", "night", ())]).splitlines()[1].split() == [
        "K-07",
        "night",
        "never",
        "-",
    ]


def test_an_earlier_state_of_the_record_is_named_first() -> None:
    known = datetime(2026, 11, 1, 8, tzinfo=UTC)
    assert told([HistoryRow("K-07", "night", ())], known).splitlines()[0] == (
        "# history, as known at 2026-11-01T08:00:00+00:00"
    )


def test_no_rows_leave_the_header() -> None:
    assert told([]) == "person  qualification  first  last"
