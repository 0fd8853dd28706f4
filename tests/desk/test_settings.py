"""What a window remembers."""

from pathlib import Path

import pytest
from PySide6.QtCore import QByteArray

from crewtrack.desk.settings import Settings


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "desk.ini"


def test_a_new_desk_is_plain(file: Path) -> None:
    kept = Settings(file)
    assert (kept.scale, kept.theme, kept.paper, kept.language) == (1.0, "system", "A4", "")
    assert (kept.author, kept.recent) == ("", ())


def test_what_was_set_is_there_at_the_next_start(file: Path) -> None:
    kept = Settings(file)
    kept.scale, kept.theme, kept.paper, kept.language = 1.5, "dark", "letter", "de"
    kept.author = "Aino"
    kept.keep_shape("window", QByteArray(b"shape"))
    del kept
    again = Settings(file)
    assert (again.scale, again.theme, again.paper) == (1.5, "dark", "letter")
    assert (again.language, again.author) == ("de", "Aino")
    assert again.shape("window") == QByteArray(b"shape")
    assert again.shape("another").isEmpty()


def test_the_last_record_comes_first_and_none_twice(file: Path, tmp_path: Path) -> None:
    kept = Settings(file)
    for name in ("a", "b", "a"):
        kept.opened(tmp_path / name)
    assert [Path(name).name for name in kept.recent] == ["a", "b"]


def test_only_some_records_are_remembered(file: Path, tmp_path: Path) -> None:
    kept = Settings(file)
    for number in range(20):
        kept.opened(tmp_path / str(number))
    assert len(kept.recent) == 8


@pytest.mark.parametrize("text", ["scale=huge", "scale=7", "theme=pink", "paper=A3"])
def test_a_value_that_can_t_be_used_is_as_good_as_none(file: Path, text: str) -> None:
    file.write_text(f"[General]\n{text}\n", encoding="utf-8")
    kept = Settings(file)
    assert (kept.scale, kept.theme, kept.paper) == (1.0, "system", "A4")


def test_a_window_locks_after_a_quarter_of_an_hour_where_nothing_else_is_said(file: Path) -> None:
    kept = Settings(file)
    assert (kept.lock_minutes, kept.person) == (15, "")
    kept.lock_minutes, kept.person = 0, "K-03"
    del kept
    again = Settings(file)
    assert (again.lock_minutes, again.person) == (0, "K-03")


@pytest.mark.parametrize("minutes", ["7", "-5", "soon"])
def test_a_time_that_is_not_offered_is_as_good_as_none(file: Path, minutes: str) -> None:
    file.write_text(f"[General]\nlock_minutes={minutes}\n", encoding="utf-8")
    assert Settings(file).lock_minutes == 15
