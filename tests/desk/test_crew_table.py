"""The crew by seat."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk.crew_table import CrewTable
from crewtrack.desk.theme import Theme
from tests.desk.sorties import Keys
from tests.screens.sortie_samples import PEOPLE, SOUND


@pytest.fixture
def window(theme: Theme, qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    QVBoxLayout(made)
    return made


@pytest.fixture
def crew(window: QWidget) -> CrewTable:
    """The table, with something to leave it for."""
    made = CrewTable()
    layout = window.layout()
    assert layout is not None
    layout.addWidget(made)
    layout.addWidget(QLineEdit())
    made.show_crew(SOUND.crew, PEOPLE)
    window.show()
    window.activateWindow()
    return made


def seated(crew: CrewTable) -> list[tuple[str, str]]:
    told: list[tuple[str, str]] = []
    crew.seated.connect(lambda *one: told.append(one))
    return told


def test_every_seat_has_a_named_chooser(crew: CrewTable) -> None:
    assert [field.editor.accessibleName() for field in crew.fields.values()] == [
        "Pilot",
        "Catcher",
    ]


def test_showing_the_crew_seats_nobody_anew(crew: CrewTable) -> None:
    told = seated(crew)
    crew.show_crew(SOUND.with_person("pilot", "K-02").crew, PEOPLE)
    assert told == []
    assert crew.fields["pilot"].editor.text() == "K-02"


def test_a_whole_key_seats_its_person_at_once(crew: CrewTable) -> None:
    told = seated(crew)
    editor = crew.fields["pilot"].editor
    editor.setFocus()
    editor.lineEdit().selectAll()  # type: ignore[union-attr]  # a chooser
    Keys().text("K-03")
    assert told == [("pilot", "K-03")]


def test_half_a_name_seats_nobody_until_it_is_left(crew: CrewTable) -> None:
    told = seated(crew)
    editor = crew.fields["pilot"].editor
    editor.setFocus()
    editor.set_text("Sa")
    assert told == []
    Keys().key(Qt.Key.Key_Tab)
    assert told == [("pilot", "K-03")]


def test_what_fits_nobody_is_taken_as_it_stands(crew: CrewTable) -> None:
    told = seated(crew)
    editor = crew.fields["pilot"].editor
    editor.setFocus()
    editor.lineEdit().selectAll()  # type: ignore[union-attr]  # a chooser
    Keys().text("Xy")
    Keys().key(Qt.Key.Key_Tab)
    assert told == [("pilot", "Xy")]


def test_a_fault_is_told_beneath_its_seat(crew: CrewTable) -> None:
    crew.show_faults({"crew catcher": "'Sa' is not known"})
    assert crew.fields["catcher"].fault.isVisible()
    assert not crew.fields["pilot"].fault.isVisible()
