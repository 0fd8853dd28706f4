"""Cycles are collected on the screen's thread alone."""

import gc
import weakref

from pytestqt.qtbot import QtBot

from crewtrack.desk.collector import Collector


class Ring:
    """Something that holds itself."""

    def __init__(self) -> None:
        self.own = self


def test_cycles_go_when_it_looks_and_not_before(qtbot: QtBot) -> None:
    collector = Collector()
    gc.collect()
    gone = weakref.ref(Ring())
    held = [[] for _ in range(10 * gc.get_threshold()[0])]  # type: ignore[var-annotated] # only made
    assert gone() is not None
    collector.look()
    assert gone() is None
    assert held
    collector.end()


def test_without_it_python_collects_by_itself_again(qtbot: QtBot) -> None:
    collector = Collector()
    assert not gc.isenabled()
    collector.end()
    assert gc.isenabled()
