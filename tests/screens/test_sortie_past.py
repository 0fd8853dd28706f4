"""What stood before in a sortie."""

from crewtrack.office import flying
from crewtrack.office.office import Office
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens.sortie_past import past_lines


def test_what_stood_before_says_who_wrote_it(demo_office: Office, demo_taken: Snapshot) -> None:
    flown = flying.flown(demo_office, "261121-8")
    assert flown is not None
    assert past_lines(demo_taken, flown) == ("1. K-02, 2026-11-24 20:40",)
