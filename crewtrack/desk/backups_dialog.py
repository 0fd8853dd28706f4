"""A panel for where automatic backups go and how many of them are kept."""

from dataclasses import replace
from pathlib import Path

from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QGridLayout,
    QLabel,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk.dialog_buttons import dialog_button
from crewtrack.desk.fields import Field, LineEditor
from crewtrack.desk.look import hidden_words
from crewtrack.desk.troubles import show_trouble, trouble_told
from crewtrack.errors import Refused
from crewtrack.office.backup_settings import (
    MOST,
    BackupSettings,
    read_settings,
    write_settings,
)
from crewtrack.screens.language import say
from crewtrack.screens.window_words import fault_told_here


class BackupsDialog(QDialog):
    """The settings of backups, for every record that is opened on this machine."""

    def __init__(self, record: Path, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Backups"))
        self.about = QLabel(
            say(
                "The record is backed up when a window on it closes, and before an import, an"
                " adoption, and a change of its tables. Each backup is verified before it counts."
                " A copy on another disk outlives this one."
            )
        )
        self.about.setWordWrap(True)
        usual = BackupSettings().folder_for(record)
        line = LineEditor()
        line.setPlaceholderText(say("beside the record: {folder}", folder=usual.name))
        self.folder = Field(say("Folder"), line)
        self.days = _number(say("Days of which the newest is kept"))
        self.weeks = _number(say("Weeks of which the newest is kept"))
        self.months = _number(say("Months of which the newest is kept"))
        self.warning, self.general = hidden_words("warning"), hidden_words("fault")
        self.choose_button = dialog_button(say("&Choose…"))
        self.choose_button.clicked.connect(self._choose)
        self._lay_out()
        self._fill()
        for number in self._numbers():
            number.valueChanged.connect(self._warn)
        self._warn()

    def save(self) -> None:
        """Keep what is set, or say what is wrong with it."""
        folder = self.folder.editor.text().strip()
        numbers = (number.value() for number in self._numbers())
        self.folder.show_fault("")
        try:
            write_settings(BackupSettings(Path(folder) if folder else None, *numbers))
        except Refused as refused:
            fault = replace(refused.faults[0], field="")
            self.folder.show_fault(fault_told_here(fault))
            self.folder.editor.setFocus()
        except OSError as error:
            show_trouble(self, self.windowTitle(), error)
        else:
            self.accept()

    def _fill(self) -> None:
        try:
            settings = read_settings()
        except Refused as refused:
            settings = BackupSettings()
            cure = say("Here is what is usual; saving it puts that right.")
            self.general.setText(f"{trouble_told(refused)}\n{cure}")
            self.general.show()
        self.folder.editor.set_text("" if settings.folder is None else str(settings.folder))
        kept = (settings.days, settings.weeks, settings.months)
        for number, value in zip(self._numbers(), kept, strict=True):
            number.setValue(value)

    def _numbers(self) -> tuple[QSpinBox, QSpinBox, QSpinBox]:
        return self.days, self.weeks, self.months

    def _warn(self) -> None:
        off = not any(number.value() for number in self._numbers())
        self.warning.setText(
            say("With all three at 0 no backup is taken by itself, and none is removed.")
        )
        self.warning.setVisible(off)

    def _choose(self) -> None:
        at = self.folder.editor.text()
        name = QFileDialog.getExistingDirectory(self, say("Folder for backups"), at)
        if name:
            self.folder.editor.set_text(str(Path(name)))

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setColumnStretch(1, 1)
        self.folder.add_to(grid, 0)
        grid.addWidget(self.choose_button, 0, 2)
        for row, number in enumerate(self._numbers(), start=2):
            label = QLabel(number.accessibleName())
            label.setBuddy(number)
            grid.addWidget(label, row, 0)
            grid.addWidget(number, row, 1)
        box = QDialogButtonBox()
        save, cancel = dialog_button(say("&Save")), dialog_button(say("Cancel"))
        save.clicked.connect(self.save)
        cancel.clicked.connect(self.reject)
        box.addButton(save, QDialogButtonBox.ButtonRole.AcceptRole)
        box.addButton(cancel, QDialogButtonBox.ButtonRole.RejectRole)
        layout = QVBoxLayout(self)
        for part in (self.about, self.general):
            layout.addWidget(part)
        layout.addLayout(grid)
        layout.addWidget(self.warning)
        layout.addStretch()
        layout.addWidget(box)
        save.setDefault(True)
        self.setMinimumWidth(84 * self.fontMetrics().averageCharWidth())


def _number(told: str) -> QSpinBox:
    number = QSpinBox()
    number.setRange(0, MOST)
    number.setAccessibleName(told)
    return number
