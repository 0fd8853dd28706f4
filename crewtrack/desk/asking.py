"""A question with two answers, asked before something is lost."""

from PySide6.QtWidgets import QMessageBox, QWidget

from crewtrack.desk.troubles import trouble_told
from crewtrack.errors import NotBackedUp
from crewtrack.screens.language import say


def agreed(parent: QWidget, question: str, yes: str, no: str, more: str = "") -> bool:
    """Whether the answer is ``yes``; ``no`` is the default, since it loses nothing. ``more`` is
    said beneath the question."""
    title = parent.window().windowTitle()
    box = QMessageBox(QMessageBox.Icon.NoIcon, title, question, parent=parent)
    box.setInformativeText(more)
    agrees = box.addButton(yes, QMessageBox.ButtonRole.DestructiveRole)
    box.setDefaultButton(box.addButton(no, QMessageBox.ButtonRole.RejectRole))
    box.exec()
    answer = box.clickedButton() is agrees
    box.deleteLater()
    return answer


def sure(parent: QWidget) -> bool:
    """Whether to close a form and lose what was typed in it."""
    question = say("Close without saving what you typed?")
    return agreed(parent, question, say("Close"), say("Keep typing"))


def without_backup(parent: QWidget, error: NotBackedUp) -> bool:
    """Whether to go on although there can be no backup before."""
    return agreed(parent, trouble_told(error), say("Go on without a backup"), say("Leave it"))
