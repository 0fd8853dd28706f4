"""The demonstration, for what screens say of a whole record."""

from collections.abc import Iterator
from datetime import date

import pytest

from crewtrack.office import demonstration, snapshot
from crewtrack.office.office import Office
from crewtrack.office.snapshot import Snapshot


@pytest.fixture(scope="session")
def demo_office(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Office]:
    """The office over the demonstration of 2026-11-25; not to be written to."""
    record = demonstration.make(tmp_path_factory.mktemp("demo"), date(2026, 11, 25))
    with Office.open(record) as opened:
        yield opened


@pytest.fixture(scope="session")
def demo_taken(demo_office: Office) -> Snapshot:
    """All that it says."""
    return snapshot.take(demo_office)
