"""What the desk takes for granted of Qt's binding."""

import sys

from PySide6.QtCore import QObject, Signal


class Told(QObject):
    told = Signal(object)


def test_a_signal_does_not_wear_out_the_word_true() -> None:
    # Where booleans can be deallocated, a binding that gives one reference too many away with
    # every signal ends a long day at the desk without a word.
    told = Told()
    before = sys.getrefcount(True)
    for _ in range(100):
        told.told.emit(True)
    assert sys.getrefcount(True) > before - 50
