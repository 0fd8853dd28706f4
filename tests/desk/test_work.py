"""Long work."""

from threading import Event

from pytestqt.qtbot import QtBot

from crewtrack.desk.work import Cancelled, Progress, Work


def test_what_it_returned_comes_back(qtbot: QtBot) -> None:
    work = Work(lambda _: 42)
    with qtbot.waitSignal(work.done) as done:
        work.start()
    work.wait()
    assert done.args == [42]


def test_what_it_raised_comes_back(qtbot: QtBot) -> None:
    def fail(_: Progress) -> None:
        raise ValueError("no")

    work = Work(fail)
    with qtbot.waitSignal(work.failed) as failed:
        work.start()
    work.wait()
    assert isinstance(failed.args[0], ValueError)


def test_it_tells_how_far_it_is(qtbot: QtBot) -> None:
    def go(told: Progress) -> None:
        told("counting", 1, 2)

    work = Work(go)
    with qtbot.waitSignals([work.progress, work.done]):
        work.start()
    work.wait()


def test_it_stops_where_it_next_tells(qtbot: QtBot) -> None:
    begun, asked = Event(), Event()

    def go(told: Progress) -> None:
        begun.set()
        asked.wait()
        told("counting", 1, 2)

    work = Work(go)
    with qtbot.waitSignal(work.failed) as failed:
        work.start()
        begun.wait()
        work.cancel()
        asked.set()
    work.wait()
    assert isinstance(failed.args[0], Cancelled)
