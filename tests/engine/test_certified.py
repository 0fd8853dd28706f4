"""Certificates: covered from issue through expiry, window or revocation, whichever is first."""

from datetime import date

import pytest

from crewtrack.engine.certified import age, cover
from crewtrack.engine.days import FOREVER, Horizon
from crewtrack.engine.requirement import AgeBand, Certified
from tests.case_builder import written
from tests.evidence_builder import PERFORMER, Bio, day, evidence
from tests.standard_builder import within

YEARLY = within("P12M")
NO_WINDOW = Horizon()
BY_AGE = Certified(
    "medical",
    True,
    "medical",
    ages=(AgeBand(40, within("P60M")), AgeBand(50, within("P24M")), AgeBand(None, within("P6M"))),
)


def met(
    *lines: str,
    horizon: Horizon = NO_WINDOW,
    until: str = "",
) -> list[str]:
    requirement = Certified("medical", True, "medical", horizon)
    held = evidence((), (Bio(certificates=lines),)).books[PERFORMER].certificates
    return written(cover(requirement, held, None).known_on(day(until) if until else FOREVER))


def met_by_age(line: str, born: date | None) -> list[str]:
    held = evidence((), (Bio(certificates=(line,)),)).books[PERFORMER].certificates
    return written(cover(BY_AGE, held, born).known_on(FOREVER))


def test_without_expiry_and_window_a_certificate_has_no_limit() -> None:
    assert met("medical 2026-01-10") == ["2026-01-10.."]


def test_a_certificate_covers_through_its_expiry_date() -> None:
    assert met("medical 2026-01-10 expires:2026-06-30") == ["2026-01-10..2026-06-30"]


def test_a_certificate_covers_through_its_window() -> None:
    assert met("medical 2026-01-10", horizon=YEARLY) == ["2026-01-10..2027-01-10"]


@pytest.mark.parametrize(
    ("expires", "through"), [("2026-06-30", "2026-06-30"), ("2028-01-01", "2027-01-10")]
)
def test_the_earlier_of_expiry_and_window_ends_it(expires: str, through: str) -> None:
    assert met(f"medical 2026-01-10 expires:{expires}", horizon=YEARLY) == [
        f"2026-01-10..{through}"
    ]


def test_a_revoked_certificate_covers_nothing_from_its_revocation_on() -> None:
    assert met("medical 2026-01-10 revoked:2026-03-01") == ["2026-01-10..2026-02-28"]


def test_a_certificate_revoked_on_its_first_day_covers_nothing() -> None:
    assert met("medical 2026-01-10 revoked:2026-01-10") == []


def test_a_revocation_does_not_show_before_its_date() -> None:
    assert met("medical 2026-01-10 revoked:2026-03-01", until="2026-02-28") == ["2026-01-10.."]


def test_a_certificate_does_not_show_before_its_issue() -> None:
    assert met("medical 2026-01-10", until="2026-01-09") == []


def test_a_certificate_of_another_kind_covers_nothing() -> None:
    assert met("radio 2026-01-10") == []


def test_several_certificates_stand_side_by_side() -> None:
    lines = ("medical 2026-01-10 expires:2026-03-31", "medical 2026-02-01 expires:2026-05-31")
    assert met(*lines) == ["2026-01-10..2026-05-31"]


@pytest.mark.parametrize(
    ("born", "through"),
    [
        (date(1984, 3, 1), "2029-02-28"),
        (date(1984, 2, 29), "2026-02-28"),
        (date(1974, 2, 28), "2024-08-29"),
        (None, "2024-08-29"),
    ],
)
def test_the_first_band_that_fits_the_age_on_the_issue_date_holds_and_the_last_without_a_birth_date(
    born: date | None, through: str
) -> None:
    assert met_by_age("medical 2024-02-29", born) == [f"2024-02-29..{through}"]


@pytest.mark.parametrize(
    ("on", "years"),
    [(date(2023, 2, 28), 22), (date(2023, 3, 1), 23), (date(2024, 2, 28), 23)],
)
def test_somebody_born_on_29_february_is_a_year_older_on_1_march(on: date, years: int) -> None:
    assert age(date(2000, 2, 29), on) == years


def test_in_a_leap_year_somebody_born_on_29_february_is_a_year_older_on_that_day() -> None:
    assert age(date(2000, 2, 29), date(2024, 2, 29)) == 24
