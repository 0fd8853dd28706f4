"""Which backups are kept, against an oracle that goes through the calendar day by day."""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from crewtrack.office.backup_settings import BackupSettings
from crewtrack.office.thinning import Mark, kept

TODAY = date(2026, 11, 25)
NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
LONGEST = 420
"""So many days ago the first backup may have been taken."""


def mark(days_ago: float, occasion: str = "on-closing") -> Mark:
    """A backup taken so many days before noon of today."""
    instant = NOON - timedelta(days=days_ago)
    return Mark(instant, occasion, instant.isoformat())


def ages(marks: frozenset[Mark]) -> list[float]:
    """How many days ago they were taken, the newest first."""
    return sorted((NOON - each.instant) / timedelta(days=1) for each in marks)


def monday(day: date) -> date:
    """The day with which its week begins."""
    return day - timedelta(days=day.weekday())


def kept_by_calendar(marks: list[Mark], numbers: BackupSettings) -> set[Mark]:
    """The same by going back day by day, from today to before the first backup."""
    wanted = {each for each in marks if each.instant.date() > TODAY}
    past = [each for each in marks if each not in wanted]
    newest = {day: max(each for each in past if each.instant.date() == day)
              for day in {each.instant.date() for each in past}}  # fmt: skip
    begins: tuple[tuple[int, Callable[[date], date]], ...] = (
        (numbers.days, lambda day: day),
        (numbers.weeks, monday),
        (numbers.months, lambda day: day.replace(day=1)),
    )
    for number, begin in begins:
        seen: set[date] = set()
        for back in range(LONGEST + 2):
            day = TODAY - timedelta(days=back)
            if day in newest and begin(day) not in seen and len(seen) < number:
                seen.add(begin(day))
                wanted.add(newest[day])
    for occasion in {each.occasion for each in past}:
        wanted.add(max(each for each in past if each.occasion == occasion))
    return wanted


marks = st.lists(
    st.builds(
        mark,
        st.integers(-30, 24 * LONGEST).map(lambda hours: hours / 24),
        st.sampled_from(("on-closing", "before-import", "before-migration")),
    ),
    max_size=40,
    unique=True,
)
numbers = st.builds(
    BackupSettings, st.none(), st.integers(0, 9), st.integers(0, 9), st.integers(0, 15)
)


@given(marks, numbers)
def test_is_what_going_through_the_calendar_finds(taken: list[Mark], keep: BackupSettings) -> None:
    assert kept(taken, TODAY, keep) == kept_by_calendar(taken, keep)


@given(marks, numbers)
def test_thinned_out_again_on_the_same_day_loses_nothing_more(
    taken: list[Mark], keep: BackupSettings
) -> None:
    once = kept(taken, TODAY, keep)
    assert kept(once, TODAY, keep) == once


@given(marks, numbers)
def test_the_newest_is_never_removed(taken: list[Mark], keep: BackupSettings) -> None:
    if taken:
        assert max(taken) in kept(taken, TODAY, keep)


def test_of_a_day_the_newest_is_kept() -> None:
    taken = [mark(0.1), mark(0.2), mark(1.1), mark(1.2)]
    assert ages(kept(taken, TODAY, BackupSettings(None, 2, 0, 0))) == [0.1, 1.1]


def test_weeks_begin_on_monday() -> None:
    # Today is a Wednesday: two days ago was Monday, three days ago Sunday of the week before.
    taken = [mark(0), mark(2), mark(3), mark(4)]
    assert ages(kept(taken, TODAY, BackupSettings(None, 0, 2, 0))) == [0, 3]


def test_a_month_is_that_of_the_calendar() -> None:
    taken = [mark(0), mark(24), mark(25), mark(26)]  # 25 days ago was 31 October
    assert ages(kept(taken, TODAY, BackupSettings(None, 0, 0, 2))) == [0, 25]


def test_periods_without_a_backup_do_not_count() -> None:
    assert ages(kept([mark(0), mark(400)], TODAY, BackupSettings(None, 2, 0, 0))) == [0, 400]


def test_the_newest_before_a_migration_stays_when_all_of_its_time_have_gone() -> None:
    taken = [*map(mark, range(9)), mark(500, "before-migration"), mark(600, "before-migration")]
    assert ages(kept(taken, TODAY, BackupSettings(None, 1, 0, 0))) == [0, 500]


def test_what_a_wrong_clock_dated_ahead_stays_and_takes_no_other_s_place() -> None:
    taken = [mark(-300), mark(-200), mark(0), mark(1), mark(2)]
    assert ages(kept(taken, TODAY, BackupSettings(None, 2, 0, 0))) == [-300, -200, 0, 1]
