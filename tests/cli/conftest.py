"""Commands run in this process, as a shell would run them, and a small unit to run them on."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from crewtrack.cli.outcome import run
from tests.cli.small_unit import write_files


@dataclass(frozen=True, slots=True)
class Answer:
    """What a command said, where, and how it ended."""

    code: int
    out: str
    err: str


Ask = Callable[..., Answer]


@dataclass(slots=True)
class Opened:
    """Stands in for the desk, and remembers which records it was asked to open."""

    records: list[Path | None]

    def open(self, record: Path | None) -> int:
        """Open nothing."""
        self.records.append(record)
        return 0


@pytest.fixture
def opened() -> Opened:
    """What the desk was asked to open."""
    return Opened([])


@pytest.fixture
def ask(capsys: pytest.CaptureFixture[str], opened: Opened) -> Ask:
    """Runs one command; standard output is no terminal."""

    def asked(*arguments: str | Path) -> Answer:
        capsys.readouterr()
        code = run([str(each) for each in arguments], opened.open)
        said = capsys.readouterr()
        return Answer(code, said.out, said.err)

    return asked


@pytest.fixture(scope="session")
def small_unit(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The record of a small unit, not to be written to."""
    folder = tmp_path_factory.mktemp("small-unit")
    record = folder / "unit.crewtrack"
    evidence = write_files(folder)
    assert run(["--db", str(record), "init", "--standard", str(folder / "unit.toml")]) == 0
    assert run(["--db", str(record), "import", str(evidence)]) == 0
    return record


@pytest.fixture
def own_unit(tmp_path: Path) -> Path:
    """The record of a small unit, still empty, to be written to; its files lie beside it."""
    write_files(tmp_path)
    record = tmp_path / "unit.crewtrack"
    assert run(["--db", str(record), "init", "--standard", str(tmp_path / "unit.toml")]) == 0
    return record
