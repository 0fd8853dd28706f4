"""Walking through a window as somebody does who hears it: all that takes keys or clicks."""

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QTabBar,
    QTextEdit,
    QWidget,
)
from pytestqt.qtbot import QtBot

_INTERACTIVE = (
    QAbstractButton, QAbstractItemView, QAbstractSpinBox, QComboBox, QLineEdit, QPlainTextEdit,
    QTabBar, QTextEdit,
)  # fmt: skip

_WHOLE = (QAbstractSpinBox, QComboBox, QLineEdit, QTabBar)


def interactive(top: QWidget) -> Iterator[QWidget]:
    """Everything below ``top`` that somebody uses; parts of another widget are left out."""
    for widget in top.findChildren(QWidget):
        takes_keys = widget.focusPolicy() != Qt.FocusPolicy.NoFocus
        inner = isinstance(widget.parentWidget(), _WHOLE)
        popup = widget.window() is not top.window()
        # A label takes the focus only so that its words can be copied.
        used = isinstance(widget, _INTERACTIVE) or (takes_keys and not isinstance(widget, QLabel))
        if used and not inner and not popup and not _by_qt(widget):
            yield widget


def _by_qt(widget: QWidget) -> bool:
    """Parts that Qt itself puts into its widgets."""
    return widget.objectName().startswith("qt_") or type(widget).__name__ in (
        "QHeaderView", "QTableCornerButton", "QScrollArea", "QStackedWidget", "QSplitter",
        "QAbstractButton", "QTabWidget",
    )  # fmt: skip


def name_of(widget: QWidget) -> str:
    """What is read aloud of a widget."""
    told = QAccessible.queryAccessibleInterface(widget)
    return told.text(QAccessible.Text.Name)


def nameless(top: QWidget) -> list[str]:
    """The widgets that have no name to be read aloud."""
    return [
        f"{type(widget).__name__} in {type(widget.parentWidget()).__name__}"
        for widget in interactive(top)
        if not name_of(widget).strip()
    ]


def tab_order(top: QWidget) -> list[QWidget]:
    """The widgets below ``top`` in the order in which Tab reaches them."""
    found: list[QWidget] = []
    widget: QWidget | None = top.nextInFocusChain()
    while widget is not None and widget is not top:
        reached = widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisibleTo(top)
        if reached and top.isAncestorOf(widget):
            found.append(widget)
        widget = widget.nextInFocusChain()
    return found


def tabbed(qtbot: QtBot, first: QWidget) -> list[QWidget]:
    """What the keys are on, from one widget on, until Tab comes back to one of them."""
    first.setFocus()
    found: list[QWidget] = []
    for _ in range(60):
        now = QApplication.focusWidget()
        assert now is not None
        if now in found and now is not found[-1]:  # links within one text are walked one by one
            break
        if not found or now is not found[-1]:
            found.append(now)
        qtbot.keyClick(now, Qt.Key.Key_Tab)
    return found


def usable(top: QWidget) -> set[QWidget]:
    """What Tab is to reach below ``top``."""
    return {widget for widget in tab_order(top) if widget.isEnabled() and not widget.focusProxy()}
