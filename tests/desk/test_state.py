"""What a window shows, and how it hears of changes."""

import sqlite3
from datetime import date, datetime, timedelta
from pathlib import Path
from threading import Event

import pytest
from PySide6.QtCore import QMetaObject, QTimer
from pytestqt.qtbot import QtBot

from crewtrack.desk import state
from crewtrack.desk.state import State
from crewtrack.errors import Fault, RecordUnusable, Refused
from crewtrack.facts import PEOPLE
from crewtrack.office import recording
from crewtrack.office.entries import Entry, Order
from crewtrack.office.office import Office
from tests.desk.conftest import NOW, TODAY, clock

ADA = ("K-90", "Ada", None, None, None, None, ())


def test_it_begins_today(demo_state: State) -> None:
    assert demo_state.day == demo_state.today == TODAY
    assert demo_state.known_at is None


def test_another_day_is_told(demo_state: State, qtbot: QtBot) -> None:
    with qtbot.waitSignal(demo_state.moved):
        demo_state.go_to(date(2026, 1, 2))
    assert demo_state.day == date(2026, 1, 2)


def test_the_same_day_is_not(demo_state: State, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(demo_state.moved):
        demo_state.go_to(TODAY)


def test_an_act_shows_at_once(demo_state: State, qtbot: QtBot) -> None:
    with qtbot.waitSignal(demo_state.moved):
        changes = demo_state.act(recording.record, [Entry(PEOPLE, ADA)], Order("K-01"))
    assert changes is not None
    assert ADA in demo_state.snapshot.rows(PEOPLE)


def test_a_fault_goes_to_whoever_acted(demo_state: State) -> None:
    with pytest.raises(Refused):
        demo_state.act(recording.record, [Entry(PEOPLE, ADA), Entry(PEOPLE, ADA)], Order("K-01"))


def test_a_record_that_can_t_be_written_is_told_in_a_sentence(
    demo_state: State, qtbot: QtBot
) -> None:
    def full(_: Office) -> None:
        raise RecordUnusable("the disk is full")

    with qtbot.waitSignal(demo_state.failed) as failed:
        assert demo_state.act(full) is None
    assert failed.args == ["the disk is full"]


def test_what_others_write_shows_by_itself(
    demo_state: State, demo_record: Path, qtbot: QtBot
) -> None:
    demo_state.watch()
    with qtbot.waitSignal(demo_state.moved), Office.open(demo_record, clock) as other:
        recording.record(other, [Entry(PEOPLE, ADA)], Order("K-02"))
    assert ADA in demo_state.snapshot.rows(PEOPLE)


def test_what_the_record_said_before_can_be_shown(demo_state: State, qtbot: QtBot) -> None:
    with qtbot.waitSignal(demo_state.moved):
        demo_state.know_at(NOW - timedelta(days=300))
    assert demo_state.known_at == NOW - timedelta(days=300)
    with qtbot.waitSignal(demo_state.moved):
        demo_state.know_at(None)
    assert demo_state.known_at is None


def test_an_instant_that_can_t_be_asked_about_is_told_and_changes_nothing(
    demo_state: State, qtbot: QtBot
) -> None:
    before = demo_state.snapshot
    with qtbot.waitSignal(demo_state.failed) as failed:
        demo_state.know_at(NOW + timedelta(days=1))
    assert "later than now" in failed.args[0]
    assert demo_state.snapshot is before


def test_a_new_day_moves_whoever_looked_at_today(demo_state: State, qtbot: QtBot) -> None:
    def tomorrow() -> datetime:
        return NOW + timedelta(days=1)

    demo_state.office.clock = tomorrow
    demo_state.watch()
    with qtbot.waitSignal(demo_state.moved):
        pass
    assert demo_state.day == TODAY + timedelta(days=1)


def test_asked_twice_while_reading_it_reads_once_more(demo_state: State, qtbot: QtBot) -> None:
    seen = []
    demo_state.moved.connect(lambda: seen.append(demo_state.known_at))
    demo_state.know_at(NOW - timedelta(days=10))
    demo_state.know_at(NOW - timedelta(days=20))
    demo_state.know_at(NOW - timedelta(days=30))
    qtbot.waitUntil(lambda: len(seen) == 2)
    assert seen == [NOW - timedelta(days=10), NOW - timedelta(days=30)]


def test_what_goes_wrong_on_defect_is_left_to_be_found(demo_state: State) -> None:
    def broken(_: Office) -> None:
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        demo_state.act(broken)


def test_refused_faults_are_whole(demo_state: State) -> None:
    def refuse(_: Office) -> None:
        raise Refused(Fault("people 1", "name", "is empty"))

    with pytest.raises(Refused, match="people 1: name: is empty"):
        demo_state.act(refuse)


def test_in_a_long_history_an_act_is_waited_for_while_the_screen_goes_on(
    demo_state: State, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(state, "_FEW", 0)
    ticks: list[int] = []

    def waits_for_the_screen(_: Office) -> str:
        QMetaObject.invokeMethod(timer, "start")  # from another thread
        assert ticked.wait(10)
        return "done"

    ticked, timer = Event(), QTimer()
    timer.timeout.connect(lambda: ticks.append(1))
    timer.timeout.connect(ticked.set)
    with qtbot.waitSignal(demo_state.moved):
        assert demo_state.act(waits_for_the_screen) == "done"
    timer.stop()
    assert ticks


def test_faults_come_through_from_there_too(
    demo_state: State, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(state, "_FEW", 0)
    with pytest.raises(Refused):
        demo_state.act(recording.record, [Entry(PEOPLE, ADA), Entry(PEOPLE, ADA)], Order("K-01"))


def test_what_is_read_while_an_act_goes_on_is_shown_after_it(
    demo_state: State, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(state, "_FEW", 0)
    moves: list[int] = []
    demo_state.moved.connect(lambda: moves.append(len(during)))
    during: list[int] = []

    def while_something_is_read(_: Office) -> None:
        assert demo_state._work is not None
        demo_state._work.wait()
        during.append(len(moves))

    demo_state.refresh()
    demo_state.act(while_something_is_read)
    assert during == [0]
    qtbot.waitUntil(lambda: len(moves) == 2)
    assert moves == [1, 1]


@pytest.mark.parametrize("few", [5_000, -1])  # on the screen's thread, and painted through
def test_an_act_that_waits_for_another_writer_says_so_and_goes_on(
    demo_state: State,
    demo_record: Path,
    monkeypatch: pytest.MonkeyPatch,
    qtbot: QtBot,
    few: int,
) -> None:
    monkeypatch.setattr(state, "_FEW", few)
    other = sqlite3.connect(demo_record, isolation_level=None, check_same_thread=False)
    other.execute("BEGIN IMMEDIATE")
    told: list[str] = []

    def tell(text: str) -> None:
        told.append(text)
        if text.startswith("Another program"):
            other.execute("ROLLBACK")

    demo_state.told.connect(tell)
    with qtbot.waitSignal(demo_state.moved):
        changes = demo_state.act(recording.record, [Entry(PEOPLE, ADA)], Order("K-01"))
    other.close()
    assert changes is not None
    assert told[-1] == "Another program is writing to the record; waiting…"
    assert not demo_state.acting
