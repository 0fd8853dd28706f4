"""A sample record, made once for all and copied for each test."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from crewtrack.records.store import Record
from tests.records.samples import make_sample


@pytest.fixture(scope="session")
def made_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample record; not to be written to."""
    path = tmp_path_factory.mktemp("sample") / "record.crewtrack"
    make_sample(path)
    return path


@pytest.fixture
def sample(made_once: Path, tmp_path: Path) -> Path:
    """A copy of the sample record of the test's own."""
    return Path(shutil.copy(made_once, tmp_path / "record.crewtrack"))


@pytest.fixture
def record(sample: Path) -> Iterator[Record]:
    """The copy, open."""
    with Record.open(sample, busy_seconds=0.1) as opened:
        yield opened
