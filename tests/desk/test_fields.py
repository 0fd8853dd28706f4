"""Fields of a form."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox
from pytestqt.qtbot import QtBot

from crewtrack.desk.choice_editor import ChoiceEditor
from crewtrack.desk.fields import (
    ChecksEditor,
    FactFields,
    LineEditor,
    LinesEditor,
    editor_for,
    needed_now,
)
from crewtrack.desk.theme import Theme
from crewtrack.facts import CERTIFICATES, PEOPLE, RECORDED, SIGNOFFS, WAIVERS, Kind
from crewtrack.screens.fact_form import FactDraft, Known
from crewtrack.screens.language import say

KNOWN = Known(
    names={"people": {"K-1": "Aino", "K-2": "Jiří"}},
    tasks={"hand-recovery": "Hand recovery"},
    qualifications={"deck-pilot": "Deck pilot", "helm": "Helm"},
    requirements={"deck-pilot": ("recency-recovery",), "helm": ("medical",)},
)


@pytest.fixture
def certificate(qtbot: QtBot, theme: Theme) -> FactFields:
    shown = FactFields(CERTIFICATES, CERTIFICATES.names, KNOWN)
    qtbot.addWidget(shown)
    shown.show()
    return shown


@pytest.mark.parametrize("kind", RECORDED, ids=lambda kind: kind.name)
def test_every_kind_of_fact_can_be_filled_in(qtbot: QtBot, theme: Theme, kind: Kind) -> None:
    shown = FactFields(kind, kind.names, KNOWN)
    qtbot.addWidget(shown)
    assert all(field.editor.accessibleName() for field in shown.fields.values())
    assert all(field.label.buddy() is field.editor for field in shown.fields.values())


def test_typing_makes_the_draft(certificate: FactFields, qtbot: QtBot) -> None:
    editor = certificate.fields["issued"].editor
    with qtbot.waitSignal(certificate.edited):
        qtbot.keyClicks(editor, "2026-11-25")
    assert certificate.draft().text("issued") == "2026-11-25"


def test_what_has_no_field_is_kept(qtbot: QtBot, theme: Theme) -> None:
    shown = FactFields(CERTIFICATES, ("kind",), KNOWN)
    qtbot.addWidget(shown)
    shown.set_draft(FactDraft(CERTIFICATES, {"certificate": "C-1", "kind": "first-aid"}))
    assert dict(shown.draft().texts) == {"certificate": "C-1", "kind": "first-aid"}


def test_a_person_is_shown_by_name_and_kept_by_key(certificate: FactFields) -> None:
    editor = certificate.fields["person"].editor
    assert isinstance(editor, ChoiceEditor)
    editor.set_text("K-2")
    assert editor.currentText() == "Jiří — K-2"
    assert certificate.draft().text("person") == "K-2"


def test_a_key_can_be_typed(certificate: FactFields, qtbot: QtBot) -> None:
    editor = certificate.fields["person"].editor
    qtbot.keyClicks(editor, "K-1")
    assert certificate.draft().text("person") == "K-1"


def test_faults_are_told_beneath_and_to_the_ear(certificate: FactFields) -> None:
    certificate.show_faults({"issued": "this is needed"})
    field = certificate.fields["issued"]
    assert (field.fault.text(), field.fault.isVisible()) == ("this is needed", True)
    assert field.editor.accessibleDescription() == "this is needed"
    certificate.show_faults({})
    assert not field.fault.isVisible()


def test_the_first_field_with_a_fault_gets_the_focus(certificate: FactFields, qtbot: QtBot) -> None:
    certificate.focus_first({"expires": "x", "issued": "x"})
    qtbot.waitUntil(certificate.fields["issued"].editor.hasFocus)


def test_what_can_be_waived_hangs_on_the_qualification(qtbot: QtBot, theme: Theme) -> None:
    shown = FactFields(WAIVERS, WAIVERS.names, KNOWN)
    qtbot.addWidget(shown)
    requirement = shown.fields["requirement"].editor
    assert isinstance(requirement, ChoiceEditor)
    shown.fields["qualification"].editor.set_text("helm")
    assert [requirement.itemText(n) for n in range(requirement.count())] == ["", "medical"]


def test_duties_are_ticked(qtbot: QtBot, theme: Theme) -> None:
    editor = editor_for(PEOPLE.columns[PEOPLE.index("duties")])
    qtbot.addWidget(editor)
    assert isinstance(editor, ChecksEditor)
    editor.set_text("pilot;chief")
    boxes = {box.text(): box for box in editor.findChildren(QCheckBox)}
    boxes["pilot"].click()
    assert editor.text() == "chief"


def test_remarks_take_lines_and_tab_leaves_them(qtbot: QtBot, theme: Theme) -> None:
    editor = editor_for(SIGNOFFS.columns[SIGNOFFS.index("remarks")])
    qtbot.addWidget(editor)
    assert isinstance(editor, LinesEditor)
    assert editor.tabChangesFocus()
    qtbot.keyClicks(editor, "calm")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.keyClicks(editor, "sea")
    assert editor.text() == "calm\nsea"


def test_a_choice_is_shown_in_words_and_kept_as_a_file_has_it(qtbot: QtBot, theme: Theme) -> None:
    editor = editor_for(SIGNOFFS.columns[SIGNOFFS.index("result")])
    qtbot.addWidget(editor)
    editor.set_text("not-yet")
    assert isinstance(editor, ChoiceEditor)
    assert editor.currentText() == "not yet"
    assert editor.text() == "not-yet"


def test_an_empty_day_shows_what_a_day_looks_like(qtbot: QtBot, theme: Theme) -> None:
    editor = editor_for(PEOPLE.columns[PEOPLE.index("joined")])
    qtbot.addWidget(editor)
    assert isinstance(editor, LineEditor)
    assert editor.placeholderText() == "2026-11-25"


def test_a_field_that_nobody_was_in_yet_is_left_in_peace() -> None:
    needed = say("this is needed")
    found = {"name": needed, "joined": needed, "left": "is before joined"}
    assert needed_now(found, ["joined"]) == {"joined": needed, "left": "is before joined"}
