"""What serves where nothing is named."""

from pathlib import Path

import pytest

from crewtrack.office.unnamed import default_author, default_record, named_record


def test_the_environment_names_the_record(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CREWTRACK_DB", "somewhere/unit.crewtrack")
    assert default_record() == Path("somewhere/unit.crewtrack")


def test_a_record_that_nobody_names_lies_in_the_users_data_folder(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delenv("CREWTRACK_DB", raising=False)
    where = default_record()
    assert where.is_absolute()
    assert (where.parent.name, where.name) == ("crewtrack", "record.crewtrack")


def test_the_environment_names_who_acts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CREWTRACK_BY", "Ana Kovač")
    monkeypatch.setenv("USER", "somebody")
    assert default_author() == "Ana Kovač"


def test_else_it_is_the_one_who_is_logged_in(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("CREWTRACK_BY", "USERNAME"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("USER", "ana")
    assert default_author() == "ana"


def test_where_nobody_is_logged_in_it_is_not_known_who_acts(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for name in ("CREWTRACK_BY", "USERNAME", "USER"):
        monkeypatch.delenv(name, raising=False)

    def nobody() -> str:
        raise OSError

    monkeypatch.setattr("os.getlogin", nobody)
    assert default_author() == "unknown"


def test_an_environment_that_names_no_record_is_told_from_one_that_does(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delenv("CREWTRACK_DB", raising=False)
    assert named_record() is None
    monkeypatch.setenv("CREWTRACK_DB", "unit.crewtrack")
    assert named_record() == Path("unit.crewtrack")
