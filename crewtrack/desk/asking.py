"""A question with two answers, asked before something typed is lost."""

from PySide6.QtWidgets import QMessageBox, QWidget

from crewtrack.screens.language import say


def sure(parent: QWidget, question: str) -> bool:
    """Whether to close; the answer that loses nothing is the default."""
    box = QMessageBox(QMessageBox.Icon.NoIcon, parent.windowTitle(), question, parent=parent)
    yes = box.addButton(say("Close"), QMessageBox.ButtonRole.DestructiveRole)
    no = box.addButton(say("Keep typing"), QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(no)
    box.exec()
    answer = box.clickedButton() is yes
    box.deleteLater()
    return answer
