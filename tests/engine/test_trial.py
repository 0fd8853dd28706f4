"""Evidence with a flight that was not flown: what was known of a person on the day before."""

import pytest

from crewtrack.engine.trial import Trial
from tests.evidence_builder import PERFORMER, Bio, day, evidence, flights

FLOWN = ("2026-03-01 recovery as:S-1", "2026-03-05 recovery as:S-2")


def known(line: str) -> tuple[int | None, int | None, int | None]:
    """The sortie, the certification and the withdrawal of a sign-off as known on 1 March."""
    told = evidence(flights(FLOWN), (Bio(signed=(line,)),))
    trial = Trial.after(told.sorties, day("2026-03-01"), ())
    (signoff,) = trial.books(told.books[PERFORMER]).signoffs
    return signoff.sortie, signoff.certified, signoff.withdrawn


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        ("", (None, None, None)),
        ("on:S-1 certified:2026-03-01", (0, day("2026-03-01"), None)),
        ("withdrawn:2026-03-01", (None, None, day("2026-03-01"))),
        ("on:S-2 certified:2026-03-02 withdrawn:2026-03-02", (None, None, None)),
    ],
)
def test_a_sign_off_is_without_what_came_only_later(
    told: str, expected: tuple[int | None, int | None, int | None]
) -> None:
    assert known(f"2026-03-01 recovery {told}") == expected
