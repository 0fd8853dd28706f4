"""What a window without a record offers: open one, make one, or try the demonstration."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from crewtrack.desk import choosing
from crewtrack.desk.settings import Settings
from crewtrack.desk.theme import Theme
from crewtrack.screens.deck_words import CAUTIONS
from crewtrack.screens.language import say


class StartPage(QWidget):
    """``chosen`` carries the path of the record to open. ``told`` says why none is open,
    ``damaged`` is the record for which a backup would be the cure, and ``best`` the backup to
    begin with."""

    chosen = Signal(object)

    def __init__(
        self,
        settings: Settings,
        theme: Theme,
        told: str,
        damaged: Path | None = None,
        best: Path | None = None,
    ) -> None:
        super().__init__()
        self.told = told
        layout = QVBoxLayout(self)
        layout.addStretch(2)
        heading = QLabel(say("Who is current, in what, through when, and why"))
        heading.setFont(theme.font(1.6))
        layout.addWidget(heading, alignment=Qt.AlignmentFlag.AlignHCenter)
        if told:
            layout.addWidget(_trouble(told))
        layout.addSpacing(theme.line())
        self.buttons: list[QPushButton] = []
        self._offer_all(settings, damaged, best)
        layout.addStretch(3)
        cautions = QLabel(" ".join(map(say, CAUTIONS)))
        cautions.setProperty("tone", "quiet")
        cautions.setWordWrap(True)
        layout.addWidget(cautions)
        layout.setContentsMargins(*(4 * theme.line(),) * 4)
        self.setFocusProxy(self.buttons[0])
        first = self.buttons[0]  # which has the focus: what went wrong is read aloud with it
        first.setAccessibleDescription(" ".join(filter(None, (told, first.toolTip()))))

    def _offer_all(self, settings: Settings, damaged: Path | None, best: Path | None) -> None:
        if damaged is not None:
            put_back = partial(choosing.restored, record=damaged, best=best)
            self._offer(say("Put a backup in its place…"), str(best or damaged),
                        lambda: self._take(put_back))  # fmt: skip
        for record in settings.recent[:4]:
            path = Path(record)
            self._offer(say("Open {name}", name=path.name), record,
                        partial(self.chosen.emit, path))  # fmt: skip
        self._offer(say("Open a record…"), say("A file on this machine or a shared drive"),
                    lambda: self._take(choosing.open_record))  # fmt: skip
        self._offer(say("Make a new record…"), say("Empty, with a standard to begin with"),
                    lambda: self._take(choosing.new_record))  # fmt: skip
        self._offer(say("Look around in the demonstration"),
                    say("A unit that does not exist, with three years of records"),
                    lambda: self._take(choosing.demonstration))  # fmt: skip

    def _offer(self, told: str, more: str, slot: Callable[[], object]) -> None:
        button = QPushButton(told)
        button.setAccessibleName(told)
        button.setAccessibleDescription(more)
        button.setToolTip(more)
        button.setMinimumWidth(self.fontMetrics().averageCharWidth() * 44)
        button.clicked.connect(lambda: slot())
        self.buttons.append(button)
        layout = self.layout()
        assert isinstance(layout, QVBoxLayout)
        layout.addWidget(button, alignment=Qt.AlignmentFlag.AlignHCenter)
        beneath = QLabel(more)
        beneath.setProperty("tone", "quiet")
        layout.addWidget(beneath, alignment=Qt.AlignmentFlag.AlignHCenter)

    def _take(self, choose: Callable[[QWidget], Path | None]) -> None:
        record = choose(self)
        if record is not None:
            self.chosen.emit(record)


def _trouble(told: str) -> QLabel:
    """What went wrong, to be read and copied."""
    label = QLabel(told)
    label.setProperty("tone", "fault")
    label.setWordWrap(True)
    label.setAlignment(Qt.AlignmentFlag.AlignHCenter)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
