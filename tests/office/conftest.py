"""A small unit's record: one without evidence, and one with some."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from crewtrack.office import keeping
from tests.office import identified_unit, signed_unit
from tests.office.unit_at_work import EVIDENCE, STANDARD, Clock, Unit, unit_in


@pytest.fixture(scope="session")
def made_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The record without evidence; not to be written to."""
    folder = tmp_path_factory.mktemp("made-once")
    (folder / "unit.toml").write_text(STANDARD, encoding="utf-8")
    keeping.init(folder / "record.crewtrack", folder / "unit.toml", "Ana", Clock())
    return folder / "record.crewtrack"


@pytest.fixture(scope="session")
def signed_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The record of a unit whose people sign; not to be written to."""
    return signed_unit.make(tmp_path_factory.mktemp("signed-once"))


@pytest.fixture(scope="session")
def unit_of_the_attacker(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Another record, in which the attacker is the chief."""
    folder = tmp_path_factory.mktemp("attacker")
    (folder / "unit.toml").write_text(STANDARD, encoding="utf-8")
    chief = keeping.Chief("K-01", "Name of K-01", "a passphrase of my own")
    keeping.init(folder / "record.crewtrack", folder / "unit.toml", "K-01", Clock(), chief)
    return folder / "record.crewtrack"


@pytest.fixture
def unit(made_once: Path, tmp_path: Path) -> Iterator[Unit]:
    """A unit with a standard and no evidence yet."""
    with unit_in(tmp_path, made_once) as made:
        yield made


@pytest.fixture
def full_unit(unit: Unit) -> Unit:
    """The unit with its evidence."""
    unit.take(EVIDENCE)
    return unit


@pytest.fixture(scope="session")
def identified_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The record in which everybody has a key; not to be written to."""
    return identified_unit.make(tmp_path_factory.mktemp("identified"))


@pytest.fixture
def identified(identified_once: Path, tmp_path: Path) -> Iterator[Unit]:
    """A unit in which everybody has a key, and nobody is signed in."""
    with unit_in(tmp_path, identified_once) as made:
        yield made


@pytest.fixture(scope="session")
def certified_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same under a standard that asks for a second signature."""
    folder = tmp_path_factory.mktemp("certified")
    return identified_unit.make(folder, identified_unit.CERTIFIED)


@pytest.fixture
def certified(certified_once: Path, tmp_path: Path) -> Iterator[Unit]:
    """A unit in which everybody has a key, and passes take a second signature."""
    with unit_in(tmp_path, certified_once) as made:
        yield made


@pytest.fixture(scope="session")
def at_work(made_once: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The unit's record with its evidence; not to be written to."""
    folder = tmp_path_factory.mktemp("at-work")
    with unit_in(folder, made_once) as unit:
        unit.take(EVIDENCE)
    return folder / "record.crewtrack"
