"""Who may do what, as a window tells it."""

from pathlib import Path

import pytest
from PySide6.QtWidgets import QLabel, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk import record_acts
from crewtrack.desk.fact_dialog import FactDialog
from crewtrack.desk.person_acts import PersonActs
from crewtrack.desk.sorties_page import SortiesPage
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.facts import STANDDOWNS
from crewtrack.office import access, keeping, snapshot
from crewtrack.office.office import Office
from tests.desk.identified import CHIEF, PILOT, WORDS


@pytest.fixture
def pilot(guarded_office: Office, qtbot: QtBot) -> State:
    """The pilot at the small record."""
    access.sign_in(guarded_office, PILOT, WORDS[PILOT])
    return State(guarded_office, snapshot.take(guarded_office), PILOT)


@pytest.fixture
def parent(qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    return made


def test_files_are_written_by_whoever_may(
    pilot: State, parent: QWidget, tmp_path: Path, panels: list[str]
) -> None:
    record_acts.export_to(parent, pilot, tmp_path / "everything")
    assert panels == ["to export the record takes an officer or a chief; K-01 Ana Kovač,"
                      " K-02 Олена Ґедзь could do it"]  # fmt: skip
    assert not (tmp_path / "everything").exists()
    access.sign_in(pilot.office, CHIEF, WORDS[CHIEF])
    record_acts.export_to(parent, pilot, tmp_path / "everything")
    assert (tmp_path / "everything" / "people.csv").exists()
    pilot.close()


def test_so_is_a_backup_put_back(
    pilot: State, parent: QWidget, tmp_path: Path, panels: list[str]
) -> None:
    copy = tmp_path / "copy.crewtrack"
    keeping.backup(pilot.office, copy)
    record_acts.restore_from(parent, pilot, copy)
    assert panels[0].startswith("to put a backup in the record's place takes an officer")
    access.sign_in(pilot.office, CHIEF, WORDS[CHIEF])
    record_acts.restore_from(parent, pilot, copy)
    assert len(panels) == 1
    pilot.close()


def test_a_sortie_of_others_is_refused_in_its_form(
    pilot: State, theme: Theme, qtbot: QtBot
) -> None:
    page = SortiesPage(pilot, theme)
    qtbot.addWidget(page)
    page.resize(1200, 700)
    with qtbot.waitExposed(page):
        page.show()
    page.show_sortie("S-1")
    page.form.correction.reason.editor.set_text("another count")
    minutes = page.form.first.fields["minutes"].editor
    minutes.set_text("13")
    page.form.save()
    said = [one.text() for one in page.findChildren(QLabel) if one.isVisible()]
    assert [one for one in said if "K-02 Олена Ґедзь could do it" in one] != []
    pilot.close()


def test_a_stand_down_is_proposed_in_ones_own_name(
    guarded_office: Office, parent: QWidget, qtbot: QtBot
) -> None:
    access.sign_in(guarded_office, CHIEF, WORDS[CHIEF])
    state = State(guarded_office, snapshot.take(guarded_office), CHIEF)
    acts = PersonActs(state, parent)
    acts.add(STANDDOWNS, PILOT)
    panel = acts.panel
    assert isinstance(panel, FactDialog)
    texts = {name: field.editor.text() for name, field in panel.fields.fields.items()}
    assert (texts["person"], texts["by"]) == (PILOT, CHIEF)
    panel.done(0)
    state.close()
