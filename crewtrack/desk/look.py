"""How a widget looks: what the style sheet asks for, and how much room it takes."""

from PySide6.QtCore import QSize
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLabel, QWidget


def set_property(widget: QWidget, name: str, value: str | bool) -> None:
    """Set a property that the style sheet looks at."""
    if widget.property(name) != value:
        widget.setProperty(name, value)
        widget.style().unpolish(widget)
        widget.style().polish(widget)


def hidden_words(tone: str) -> QLabel:
    """A place for sentences, not to be seen while there are none."""
    label = QLabel()
    label.setProperty("tone", tone)
    label.setWordWrap(True)
    label.hide()
    return label


def quiet_words(told: str) -> QLabel:
    """Quiet words that may take several lines."""
    label = QLabel(told)
    label.setWordWrap(True)
    label.setProperty("tone", "quiet")
    return label


def take_room(window: QWidget, wide: int, high: int) -> None:
    """Make a window so many pixels wide and high, as far as the screen has them: what lies off
    it, such as a dialog's buttons, is out of reach."""
    # Not window.screen(): the binding would take the screen down with the window, and the next
    # window would crash on it.
    free = QGuiApplication.primaryScreen().availableSize()
    window.resize(QSize(wide, high).boundedTo(free * 0.95))
