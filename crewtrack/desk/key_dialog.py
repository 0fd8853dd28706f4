"""Panels in which somebody gets a key, or another passphrase: what is meant in sentences, some
fields, one button that does it."""

from collections.abc import Mapping, Sequence

from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk.dialog_buttons import dialog_button
from crewtrack.desk.look import hidden_words
from crewtrack.desk.passphrase_field import PassphraseField
from crewtrack.desk.troubles import trouble_told
from crewtrack.errors import RecordUnusable, Refused
from crewtrack.screens import fact_form
from crewtrack.screens.language import say


class KeyDialog(QDialog):
    """What is wrong is said beneath each field, by the names under which they were added."""

    def __init__(
        self, title: str, about: Sequence[str], confirm: str, parent: QWidget | None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self._rows = QFormLayout()
        self._rows.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapLongRows)
        self._rows.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        self._faults: dict[str, QLabel] = {}
        self.passphrases: dict[str, PassphraseField] = {}
        self.general = hidden_words("fault")
        self.buttons = QDialogButtonBox()
        layout = QVBoxLayout(self)
        for sentence in about:
            label = QLabel(sentence)
            label.setWordWrap(True)
            layout.addWidget(label)
        layout.addLayout(self._rows)
        layout.addWidget(self.general)
        layout.addStretch()
        layout.addWidget(self.buttons)
        role = QDialogButtonBox.ButtonRole
        self.confirm_button = self.add_button(confirm, role.ActionRole)
        self.confirm_button.setDefault(True)
        self.confirm_button.clicked.connect(lambda: self.confirm())
        self.add_button(say("Cancel"), role.RejectRole)
        self.buttons.rejected.connect(self.reject)
        self.setMinimumWidth(72 * self.fontMetrics().averageCharWidth())

    def add_button(self, told: str, role: QDialogButtonBox.ButtonRole) -> QPushButton:
        """One more button."""
        button = dialog_button(told)
        self.buttons.addButton(button, role)
        return button

    def add(self, name: str, told: str, editor: QWidget) -> None:
        """Ask for something."""
        label, self._faults[name] = QLabel(told), hidden_words("fault")
        typed_in = editor.focusProxy() or editor
        typed_in.setAccessibleName(told)
        label.setBuddy(typed_in)
        self._rows.addRow(label, editor)
        self._rows.addRow(self._faults[name])

    def show_row(self, editor: QWidget, shown: bool) -> None:
        """Have a field asked for, or not."""
        self._rows.setRowVisible(editor, shown)
        self._grow()

    def add_passphrase(self, name: str, told: str) -> None:
        """Ask for a passphrase."""
        self.passphrases[name] = PassphraseField(told)
        self.add(name, told, self.passphrases[name])

    def add_new_passphrase(self, told: str) -> None:
        """Ask for a new passphrase, twice."""
        self.add_passphrase("passphrase", told)
        self.add_passphrase("again", say("Once more"))

    def passphrase(self, name: str = "passphrase") -> str:
        """What was typed as a passphrase."""
        return self.passphrases[name].text()

    def faults(self) -> Mapping[str, str]:
        """What is wrong before the office is asked."""
        if "again" in self.passphrases and self.passphrase() != self.passphrase("again"):
            return {"again": say("this is not the same as above")}
        return {}

    def do(self) -> bool:
        """Do it; whether it was done. Refused is shown by field."""
        raise NotImplementedError

    def confirm(self) -> None:
        """Do it, or say what is wrong; nothing that was typed stays in sight."""
        found = self.faults()
        done = False
        if not found:
            try:
                done = self.do()
            except Refused as refused:
                found = fact_form.by_field(refused.faults)
            except (RecordUnusable, OSError) as error:
                found = {"": trouble_told(error)}
        for field in self.passphrases.values():
            field.hide_again()
        self._show(found)
        if done:
            self.accept()

    def veiled(self) -> None:
        """The window was locked: nobody is to find what was typed here."""
        self._forget()

    def done(self, result: int) -> None:
        """Let go of what was typed."""
        self._forget()
        super().done(result)

    def _forget(self) -> None:
        for field in self.passphrases.values():
            field.clear()

    def _grow(self) -> None:
        """As high as what is shown asks for, where it was lower."""
        layout = self.layout()
        if layout is not None and self.isVisible():
            layout.activate()
            high = layout.totalHeightForWidth(self.width())
            self.resize(self.width(), max(self.height(), high))

    def _show(self, found: Mapping[str, str]) -> None:
        for name, label in self._faults.items():
            label.setText(found.get(name, ""))
            label.setVisible(name in found)
        for name, field in self.passphrases.items():
            field.say_wrong(found.get(name, ""))
        elsewhere = [told for name, told in found.items() if name not in self._faults]
        self.general.setText("\n".join(elsewhere))
        self.general.setVisible(bool(elsewhere))
        self._grow()
        wrong = next((name for name in self.passphrases if name in found), "")
        if wrong:
            self.passphrases[wrong].setFocus()
