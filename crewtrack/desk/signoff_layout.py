"""How the sign-off form is laid out: what, who and when on the left, criteria and remarks on the
right, what is to be said of it below."""

from collections.abc import Callable, Mapping, Sequence
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QPalette, QShortcut
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk.criteria_marks import CriteriaMarks
from crewtrack.desk.fields import Field, editor_for
from crewtrack.desk.look import take_room
from crewtrack.facts import SIGNOFFS
from crewtrack.screens import fields
from crewtrack.screens.language import say

_WIDE: Final = 130
"""Of the form, in letters."""
_HIGH: Final = 30
"""In lines."""
_APART: Final = "remarks"
"""The field that stands below the criteria."""


def field(name: str) -> Field:
    """A field of the form."""
    column = SIGNOFFS.columns[SIGNOFFS.index(name)]
    return Field(fields.label(SIGNOFFS, name), editor_for(column))


def lay_out(
    dialog: QDialog,
    parts: Mapping[str, Field],
    marks: CriteriaMarks,
    said: Sequence[QLabel],
    save: Callable[[], None],
) -> None:
    """Lay the parts of the form out; ``save`` is what its button does."""
    metrics = dialog.fontMetrics()
    body = QHBoxLayout()
    body.addWidget(_left(parts), 5)
    body.addSpacing(metrics.lineSpacing())
    body.addWidget(_right(parts[_APART], marks), 5)
    layout = QVBoxLayout(dialog)
    layout.addLayout(body, 1)
    layout.addWidget(_rule())
    for label in said:
        layout.addWidget(label)
    sign = QPushButton(say("Sign off"))
    layout.addWidget(_buttons(dialog, sign, save))
    sign.setDefault(True)  # only in the dialog: else Enter goes to whichever button Tab saw last
    take_room(dialog, metrics.averageCharWidth() * _WIDE, _HIGH * metrics.lineSpacing())


def _left(parts: Mapping[str, Field]) -> QWidget:
    inside = QWidget()
    grid = QGridLayout(inside)
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setColumnStretch(1, 1)
    for place, name in enumerate(name for name in parts if name != _APART):
        parts[name].add_to(grid, 2 * place)
    grid.setRowStretch(2 * len(parts), 1)
    return inside


def _right(remarks: Field, marks: CriteriaMarks) -> QWidget:
    inside = QWidget()
    column = QVBoxLayout(inside)
    column.setContentsMargins(0, 0, 0, 0)
    title = QLabel(say("Criteria"))
    title.setProperty("tone", "title")
    scroll = QScrollArea()
    scroll.setWidgetResizable(True)
    scroll.setFrameShape(QFrame.Shape.NoFrame)
    scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    scroll.setWidget(marks)
    column.addWidget(title)
    column.addWidget(scroll, 1)
    for part in (remarks.label, remarks.editor, remarks.fault):
        column.addWidget(part)
    return inside


def _buttons(dialog: QDialog, sign: QPushButton, save: Callable[[], None]) -> QDialogButtonBox:
    box = QDialogButtonBox()
    cancel = QPushButton(say("Cancel"))
    sign.setToolTip(say("Record the sign-off (Ctrl+Enter)"))
    sign.clicked.connect(lambda: save())
    cancel.clicked.connect(dialog.reject)
    for button, role in (
        (sign, QDialogButtonBox.ButtonRole.AcceptRole),
        (cancel, QDialogButtonBox.ButtonRole.RejectRole),
    ):
        button.setAccessibleName(button.text())
        box.addButton(button, role)
    for key in ("Ctrl+Return", "Ctrl+Enter"):
        QShortcut(QKeySequence(key), dialog).activated.connect(save)
    return box


def _rule() -> QFrame:
    rule = QFrame()
    rule.setFrameShape(QFrame.Shape.HLine)
    palette = rule.palette()
    palette.setColor(QPalette.ColorRole.WindowText, palette.color(QPalette.ColorRole.Mid))
    rule.setPalette(palette)
    return rule
