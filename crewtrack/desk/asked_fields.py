"""The fields of a dialog that asks for a few texts, and what is wrong with them."""

from collections.abc import Mapping

from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QVBoxLayout

from crewtrack.desk.fields import Field, LineEditor
from crewtrack.desk.look import hidden_words


class AskedFields:
    """Fields by name, one beneath the other, and below them a place for what is wrong with none
    of them."""

    def __init__(self, fields: Mapping[str, Field]) -> None:
        self.by_name = dict(fields)
        self.general = hidden_words("fault")

    def add_to(self, layout: QVBoxLayout) -> None:
        """Lay them out."""
        grid = QGridLayout()
        grid.setColumnStretch(1, 1)
        for place, field in enumerate(self.by_name.values()):
            field.add_to(grid, 2 * place)
        layout.addLayout(grid)
        layout.addWidget(self.general)

    def text(self, name: str) -> str:
        """What was typed."""
        return self.by_name[name].editor.text()

    def set_text(self, name: str, text: str) -> None:
        """Put a text into a field."""
        self.by_name[name].editor.set_text(text)

    def ask(self, name: str, asked: bool) -> None:
        """Show a field, or leave it out."""
        field = self.by_name[name]
        field.label.setVisible(asked)
        field.editor.setVisible(asked)

    def show_faults(self, found: Mapping[str, str]) -> None:
        """Say what is wrong, each at its field, and go to the first of them."""
        show_faults(self.by_name, self.general, found)


def show_faults(fields: Mapping[str, Field], general: QLabel, found: Mapping[str, str]) -> None:
    """Say what is wrong, each at its field, what is wrong with none of them in general, and go to
    the first field of them."""
    for name, field in fields.items():
        field.show_fault(found.get(name, ""))
    elsewhere = [told for name, told in found.items() if name not in fields]
    general.setText("\n".join(elsewhere))
    general.setVisible(bool(elsewhere))
    first = next((field for name, field in fields.items() if name in found), None)
    if first is not None:
        first.editor.setFocus()


def secret_editor() -> LineEditor:
    """A field for a passphrase."""
    editor = LineEditor()
    editor.setEchoMode(QLineEdit.EchoMode.Password)
    return editor


def line_editor(hint: str) -> LineEditor:
    """A field that shows what is looked for while it is empty."""
    editor = LineEditor()
    editor.setPlaceholderText(hint)
    return editor
