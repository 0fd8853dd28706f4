"""Retention in the window: the period, what is past it, and sealing by two people."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from crewtrack.desk.record_page import RecordPage
from crewtrack.desk.retention_dialog import RetentionDialog
from crewtrack.desk.seal_dialog import SealDialog
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.desk.veil import Veil
from crewtrack.office import access, keeping, retention, snapshot
from crewtrack.screens.retention_words import sealed_told
from tests.office.identified import CHIEF, OFFICER, PHRASES, RULE, people
from tests.office.test_retention import OLD
from tests.office.unit_at_work import STANDARD, Clock, Unit, unit_in


@pytest.fixture(scope="module")
def made_here(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A record with old evidence, in which people sign in; not to be written to."""
    folder = tmp_path_factory.mktemp("made-here")
    (folder / "unit.toml").write_text(STANDARD, encoding="utf-8")
    keeping.init(folder / "first.crewtrack", folder / "unit.toml", "Ana", Clock())
    with unit_in(folder, folder / "first.crewtrack") as unit:
        unit.take(OLD)
        people(unit)
    return folder / "record.crewtrack"


@pytest.fixture
def unit(made_here: Path, tmp_path: Path) -> Iterator[Unit]:
    with unit_in(tmp_path, Path(shutil.copy(made_here, tmp_path / "given.crewtrack"))) as made:
        access.sign_in(made.office, CHIEF, PHRASES[CHIEF])
        yield made


@pytest.fixture
def state(unit: Unit) -> Iterator[State]:
    shown = State(unit.office, snapshot.take(unit.office), CHIEF)
    yield shown
    shown.close()


@pytest.fixture
def dialog(state: State, theme: Theme, qtbot: QtBot) -> RetentionDialog:
    shown = RetentionDialog(state, theme)
    qtbot.addWidget(shown)
    shown.look()
    shown.show()
    return shown


def fill(dialog: RetentionDialog | SealDialog, **texts: str) -> None:
    for name, text in texts.items():
        dialog.fields.set_text(name.replace("_", " "), text)


def name(dialog: RetentionDialog, qtbot: QtBot, period: str = "P3Y") -> None:
    """The chief names a period in the dialog."""
    fill(dialog, period=period, rule=RULE, passphrase=PHRASES[CHIEF])
    with qtbot.waitSignal(dialog._state.moved):
        dialog.name_button.click()


def sealer(dialog: RetentionDialog, state: State, qtbot: QtBot) -> SealDialog:
    assert dialog.past is not None
    shown = SealDialog(state, dialog.past, dialog)
    qtbot.addWidget(shown)
    shown.show()
    return shown


def test_where_no_period_is_named_that_is_said_and_nothing_can_be_sealed(
    dialog: RetentionDialog,
) -> None:
    assert dialog.told.text() == "The unit has named no period."
    assert not dialog.table.isVisible()
    assert not dialog.seal_button.isEnabled()
    assert not dialog.fields.by_name["reason"].editor.isVisible()


def test_a_chief_names_the_period_and_sees_what_is_past_it(
    dialog: RetentionDialog, qtbot: QtBot
) -> None:
    name(dialog, qtbot)
    assert dialog.told.text() == "10 facts last mattered before 2023-06-01; 7 can be sealed."
    rows = dialog.table.rows
    told = {rows.index(n, 2).data(): rows.index(n, 5).data() for n in range(rows.rowCount())}
    assert told["E-1"] == "K-01's Deck pilot rests on it"
    assert told["W-1"] == "can be sealed"
    assert dialog.seal_button.isEnabled()
    assert dialog.fields.text("passphrase") == ""


def test_what_is_wrong_is_told_at_its_field(dialog: RetentionDialog) -> None:
    fill(dialog, period="P90D", rule="", passphrase=PHRASES[CHIEF])
    dialog.name_button.click()
    fields = dialog.fields.by_name
    assert "whole months or years" in fields["period"].fault.text()
    assert "the rule that it follows is missing" in fields["rule"].fault.text().lower()
    fill(dialog, period="P3Y", rule=RULE, passphrase="not the passphrase of the chief")
    dialog.name_button.click()
    assert "not the passphrase" in fields["passphrase"].fault.text()
    assert retention.named_period(dialog._state.office) is None


def test_the_two_seal_together_and_the_page_says_so(
    dialog: RetentionDialog, state: State, theme: Theme, qtbot: QtBot
) -> None:
    name(dialog, qtbot)
    asked = sealer(dialog, state, qtbot)
    assert "Backups that were made before still hold it" in asked.told.text()
    fill(asked, reason="decided in March", officer_person=OFFICER)
    assert asked.fields.text("chief person") == CHIEF
    fill(asked, officer_passphrase=PHRASES[OFFICER], chief_passphrase=PHRASES[CHIEF])
    asked.seal_button.click()
    assert asked.sealed is not None
    assert sealed_told(asked.sealed).startswith("Sealed: 7 facts.")
    assert asked.fields.text("chief passphrase") == ""
    page = RecordPage(state, theme)
    qtbot.addWidget(page)
    page.show_state()
    told = " ".join(label.text() for label in page.findChildren(QLabel))
    assert f"3 years, by {RULE}. 3 facts are past it, 3 of them are still needed." in told
    assert "7 facts have been sealed" in told


def test_a_wrong_passphrase_is_told_at_its_field_and_nothing_is_sealed(
    dialog: RetentionDialog, state: State, qtbot: QtBot
) -> None:
    name(dialog, qtbot)
    asked = sealer(dialog, state, qtbot)
    fill(asked, reason="x", officer_person=OFFICER, officer_passphrase="wrong from end to end",
         chief_passphrase=PHRASES[CHIEF])  # fmt: skip
    asked.seal_button.click()
    assert "not the passphrase" in asked.fields.by_name["officer passphrase"].fault.text()
    fill(asked, officer_person=CHIEF)
    asked.seal_button.click()
    assert asked.fields.by_name["officer person"].fault.text()
    assert asked.sealed is None
    assert retention.retention_told(state.office).sealed == 0


def test_no_passphrase_is_left_in_it_when_the_window_is_locked(
    dialog: RetentionDialog, state: State, qtbot: QtBot
) -> None:
    fill(dialog, period="P3Y", passphrase=PHRASES[CHIEF])
    Veil(dialog).lift()
    assert (dialog.fields.text("period"), dialog.fields.text("passphrase")) == ("P3Y", "")
