"""Tests of the officer's day on the page of people."""

from datetime import date, timedelta
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk.book_sections import StandingsSection
from crewtrack.desk.craft_dialog import CraftDialog
from crewtrack.desk.fact_dialog import FactDialog
from crewtrack.desk.people_page import PeoplePage
from crewtrack.desk.reason_dialog import StrikeDialog, WithdrawDialog
from crewtrack.desk.signoff_dialog import DRAFT, SignOffDialog
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.facts import CERTIFICATES, SIGNOFFS
from crewtrack.screens.strip_days import StripDays, around
from tests.desk.choices import leave_choices
from tests.desk.walking import nameless

LONG = 20_000
CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def page(qtbot: QtBot, demo_state: State, theme: Theme) -> PeoplePage:
    made = PeoplePage(demo_state, theme)
    qtbot.addWidget(made)
    made.resize(1400, 900)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    made.take_focus()
    return made


def names(page: PeoplePage) -> list[str]:
    model = page.people.rows
    return [model.row_at(line).key for line in range(model.rowCount())]


def cells(page: PeoplePage, title: str) -> list[str]:
    """A column of the section in sight."""
    model = page.panel.section().table.rows
    place = [column.title for column in model.columns].index(title)
    return [model.columns[place].text(model.row_at(line)) for line in range(model.rowCount())]


def chosen(page: PeoplePage) -> Any:
    """The row that is chosen in the section in sight."""
    line = page.panel.section().table.chosen()
    assert line is not None
    return line


def press(qtbot: QtBot, page: PeoplePage, key: Qt.Key, *modifiers: Qt.KeyboardModifier) -> None:
    held = Qt.KeyboardModifier.NoModifier
    for modifier in modifiers:
        held |= modifier
    qtbot.keyClick(page.focusWidget(), key, held)


def write(qtbot: QtBot, editor: QWidget, text: str) -> None:
    editor.setFocus()
    qtbot.keyClick(editor, Qt.Key.Key_A, CONTROL)
    qtbot.keyClicks(editor, text)
    leave_choices(qtbot, editor)


def save(qtbot: QtBot, page: PeoplePage, panel: QWidget, told: str) -> None:
    """Press a panel's button and wait for the record to be read anew."""
    button = next(one for one in panel.findChildren(QPushButton) if one.text() == told)
    with qtbot.waitSignal(page.state.moved, timeout=LONG):
        qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def section_of(page: PeoplePage, name: str, person: str) -> None:
    page.show_person(person)
    page.panel.turn_to(name)
    page.panel.section().take_focus()


def test_the_list_shows_who_is_on_the_books_and_opens_the_first(page: PeoplePage) -> None:
    assert names(page) == [f"K-{number:02}" for number in range(1, 15)]
    assert page.person() == "K-01"
    assert page.count.text() == "14 people"


def test_typing_finds_a_person_and_enter_goes_to_the_books(qtbot: QtBot, page: PeoplePage) -> None:
    press(qtbot, page, Qt.Key.Key_F, CONTROL)
    assert page.focusWidget() is page.sought
    qtbot.keyClicks(page.sought, "halls")
    assert names(page) == ["K-04"]
    qtbot.keyClick(page.sought, Qt.Key.Key_Return)
    assert page.person() == "K-04"
    assert page.focusWidget() is page.panel.section().table


def test_everybody_also_shows_who_has_left(qtbot: QtBot, page: PeoplePage) -> None:
    page.everybody.setFocus()
    qtbot.keyClick(page.everybody, Qt.Key.Key_Space)
    assert names(page)[-1] == "V-01"


def test_keys_go_through_the_sections_in_reading_order(qtbot: QtBot, page: PeoplePage) -> None:
    titles = []
    for _ in range(9):
        press(qtbot, page, Qt.Key.Key_PageDown, CONTROL)
        titles.append(page.panel.tabs.tabText(page.panel.tabs.currentIndex()))
    assert titles == [
        "Task book", "Sign-offs", "Sorties", "Certificates", "Assignments",
        "Waivers and extensions", "Stand-downs", "Occurrences", "Standings",
    ]  # fmt: skip


def test_all_is_as_of_the_day_that_is_shown(qtbot: QtBot, page: PeoplePage) -> None:
    section_of(page, "standings", "K-02")
    before = cells(page, "Standing")
    page.state.go_to(page.state.day + timedelta(days=365))
    assert cells(page, "Standing") != before
    page.panel.turn_to("sorties")
    page.state.go_to(date(2025, 1, 1))
    assert cells(page, "On the day")[0] == "later, does not count yet"
    assert cells(page, "On the day")[-1] == "counts"


def test_a_qualification_that_is_asked_for_is_opened_with_its_reasons(page: PeoplePage) -> None:
    page.show_person("K-04", "night-pilot")
    assert chosen(page).qualification == "night-pilot"
    section = page.panel.section()
    assert isinstance(section, StandingsSection)
    assert section.reasons.toPlainText().startswith("Night pilot")


def test_somebody_who_is_filtered_out_or_off_the_books_is_shown_when_asked_for(
    qtbot: QtBot, page: PeoplePage
) -> None:
    qtbot.keyClicks(page.sought, "halls")
    page.show_person("V-01")
    assert page.person() == "V-01"
    assert page.everybody.isChecked()


def test_the_officer_signs_a_task_off_and_sees_the_standing_move(
    qtbot: QtBot, page: PeoplePage
) -> None:
    section_of(page, "standings", "K-05")
    page.panel.section().table.choose("deck-pilot")
    before = cells(page, "Date")
    press(qtbot, page, Qt.Key.Key_G, CONTROL)
    panel = page.acts.panel
    assert isinstance(panel, SignOffDialog)
    write(qtbot, panel.fields["task"].editor, "hand-recovery")
    write(qtbot, panel.fields["evaluator"].editor, "K-08")
    panel.marks.buttons[0].setFocus()
    for _ in range(5):
        qtbot.keyClicks(panel.focusWidget(), "y")
    save(qtbot, page, panel, "Sign off")
    assert cells(page, "Date") != before
    assert "Deck pilot, current through" in page.panel.changes.text()
    page.panel.turn_to("signoffs")
    assert cells(page, "Criteria")[0] == "5 of 5 criteria met"


def test_from_a_sortie_person_task_sortie_and_day_are_filled_in(page: PeoplePage) -> None:
    page.start_sign_off("K-04", "lost-link-drill", "261113-2")
    panel = page.acts.panel
    assert isinstance(panel, SignOffDialog)
    draft = panel.draft()
    told = [draft.text(name) for name in ("person", "task", "sortie", "date")]
    assert told == ["K-04", "lost-link-drill", "261113-2", "2026-11-13"]
    panel.done(0)


def test_a_sortie_that_is_still_being_read_is_waited_for(qtbot: QtBot, page: PeoplePage) -> None:
    page.start_sign_off("K-04", "lost-link-drill", "not-yet-read")
    assert not page.findChildren(SignOffDialog)
    with qtbot.waitSignal(page.state.moved, timeout=LONG):
        page.state.refresh()
    panel = page.acts.panel
    assert isinstance(panel, SignOffDialog)
    assert panel.draft().text("sortie") == ""
    panel.done(0)


def test_enter_in_the_task_book_opens_the_form_for_that_task(
    qtbot: QtBot, page: PeoplePage
) -> None:
    section_of(page, "tasks", "K-05")
    page.panel.section().table.choose("wave-off")
    press(qtbot, page, Qt.Key.Key_Return)
    panel = page.acts.panel
    assert isinstance(panel, SignOffDialog)
    assert panel.fields["task"].editor.text() == "wave-off"
    assert panel.fields["person"].editor.text() == "K-05"


def test_a_certificate_with_a_faulty_date_is_told_in_words_and_then_taken(
    qtbot: QtBot, page: PeoplePage
) -> None:
    section_of(page, "certificates", "K-05")
    count = len(cells(page, "Kind"))
    press(qtbot, page, Qt.Key.Key_Insert)
    panel = page.acts.panel
    assert isinstance(panel, FactDialog)
    write(qtbot, panel.fields.fields["kind"].editor, "radio-licence")
    write(qtbot, panel.fields.fields["issued"].editor, "24.11.2026")
    told = panel.fields.fields["issued"].fault.text()
    assert told == "'24.11.2026' is not a date; write the year first: 2026-11-24"
    write(qtbot, panel.fields.fields["issued"].editor, "2026-11-24")
    save(qtbot, page, panel, "Save")
    assert cells(page, "Kind")[0] == "radio-licence"
    assert len(cells(page, "Kind")) == count + 1


def test_a_certificate_is_corrected_with_a_reason(qtbot: QtBot, page: PeoplePage) -> None:
    section_of(page, "certificates", "K-05")
    line = chosen(page)
    press(qtbot, page, Qt.Key.Key_F4)
    panel = page.acts.panel
    assert isinstance(panel, FactDialog)
    write(qtbot, panel.fields.fields["number"].editor, "N 123")
    panel.save()
    assert panel.reason.fault.text() == "this is needed"
    write(qtbot, panel.reason.editor, "misread")
    save(qtbot, page, panel, "Save")
    row = page.state.snapshot.by_key(CERTIFICATES)[line.key]
    assert row[CERTIFICATES.index("number")] == "N 123"
    assert page.state.snapshot.revisions(CERTIFICATES, line.key)[-1].act.reason == "misread"


def test_a_certificate_is_struck_out_only_with_a_reason(qtbot: QtBot, page: PeoplePage) -> None:
    section_of(page, "certificates", "K-05")
    line = chosen(page)
    press(qtbot, page, Qt.Key.Key_Delete)
    panel = page.acts.panel
    assert isinstance(panel, StrikeDialog)
    panel.confirm()
    assert panel.fields["reason"].fault.text() == "say why it is struck out"
    write(qtbot, panel.fields["reason"].editor, "somebody else's")
    save(qtbot, page, panel, "Strike out")
    assert line.key not in page.state.snapshot.by_key(CERTIFICATES)
    assert str(line.key[0]) not in cells(page, "Key")


def test_a_sign_off_is_withdrawn_with_who_and_why(qtbot: QtBot, page: PeoplePage) -> None:
    section_of(page, "signoffs", "K-04")
    line = chosen(page)
    press(qtbot, page, Qt.Key.Key_W, CONTROL, SHIFT)
    panel = page.acts.panel
    assert isinstance(panel, WithdrawDialog)
    assert "Deck pilot, through" in panel.effect.text()
    write(qtbot, panel.fields["withdrawn_reason"].editor, "the evaluator had lapsed")
    save(qtbot, page, panel, "Withdraw")
    assert cells(page, "On the day")[0] == "withdrawn"
    row = page.state.snapshot.by_key(SIGNOFFS)[(line.key,)]
    assert row[SIGNOFFS.index("withdrawn_by")] == page.state.author


def test_a_faulty_day_of_withdrawal_is_told_in_its_place(qtbot: QtBot, page: PeoplePage) -> None:
    section_of(page, "signoffs", "K-04")
    press(qtbot, page, Qt.Key.Key_W, CONTROL, SHIFT)
    panel = page.acts.panel
    assert isinstance(panel, WithdrawDialog)
    write(qtbot, panel.fields["withdrawn_reason"].editor, "why not")
    write(qtbot, panel.fields["withdrawn"].editor, "2020-01-01")
    panel.confirm()
    assert "is before date" in panel.fields["withdrawn"].fault.text()
    assert panel.isVisible()


def test_a_new_person_is_taken_and_shown(qtbot: QtBot, page: PeoplePage) -> None:
    press(qtbot, page, Qt.Key.Key_P, CONTROL, SHIFT)
    panel = page.acts.panel
    assert isinstance(panel, FactDialog)
    assert panel.fields.fields["person"].editor.text() == "K-15"
    write(qtbot, panel.fields.fields["name"].editor, "Ida Moe")
    save(qtbot, page, panel, "Save")
    assert page.person() == "K-15"
    assert page.panel.heading.text() == "Ida Moe"


def test_enter_on_a_sortie_asks_for_it(qtbot: QtBot, page: PeoplePage) -> None:
    section_of(page, "sorties", "K-04")
    line = chosen(page)
    with qtbot.waitSignal(page.open_sortie) as asked:
        press(qtbot, page, Qt.Key.Key_Return)
    assert asked.args == [line.key]


def test_evidence_in_the_reasons_opens_in_its_section(page: PeoplePage) -> None:
    section_of(page, "signoffs", "K-04")
    key = page.panel.section().table.rows.row_at(3).key
    page.panel.turn_to("standings")
    page.panel.section().evidence_opened.emit("sign-off", key)
    assert page.panel.section().name == "signoffs"
    assert chosen(page).key == key


def test_nothing_is_changed_in_what_the_record_said_earlier(qtbot: QtBot, page: PeoplePage) -> None:
    earlier = page.state.office.clock() - timedelta(days=30)
    with qtbot.waitSignal(page.state.moved, timeout=LONG):
        page.state.know_at(earlier)
    with qtbot.waitSignal(page.state.told) as told:
        press(qtbot, page, Qt.Key.Key_G, CONTROL)
    assert told.args == ["This shows what the record said earlier; go back to now to change it."]
    assert page.acts.panel is None


def test_boats_and_aircraft_are_listed_and_corrected(qtbot: QtBot, page: PeoplePage) -> None:
    press(qtbot, page, Qt.Key.Key_B, CONTROL, SHIFT)
    panel = page.findChild(CraftDialog)
    assert isinstance(panel, CraftDialog)
    assert panel.tables["vessels"].rows.rowCount() == 3
    qtbot.waitUntil(panel.isActiveWindow)
    panel.tables["aircraft"].choose("A-2")
    panel.tables["aircraft"].setFocus()
    qtbot.keyClick(panel.tables["aircraft"], Qt.Key.Key_F4)
    form = panel.acts.panel
    assert isinstance(form, FactDialog)
    assert form.fields.fields["name"].editor.text() == "Quad 2"


def test_an_unfinished_sign_off_is_offered_at_the_next_start(
    qtbot: QtBot, demo_state: State, theme: Theme, page: PeoplePage
) -> None:
    page.acts.drafts.save(DRAFT, {"person": "K-05", "task": "wave-off", "date": "2026-11-25"})
    started = PeoplePage(demo_state, theme)
    qtbot.addWidget(started)
    with qtbot.waitExposed(started):
        started.show()
    assert "Ctrl+Shift+G goes on" in started.panel.changes.text()
    started.activateWindow()
    started.setFocus()
    press(qtbot, started, Qt.Key.Key_G, CONTROL, SHIFT)
    panel = started.acts.panel
    assert isinstance(panel, SignOffDialog)
    assert panel.fields["task"].editor.text() == "wave-off"
    panel.done(0)


def test_the_bars_and_their_day_are_seen_and_follow_the_day_line(
    page: PeoplePage, theme: Theme
) -> None:
    section_of(page, "standings", "K-04")
    table = page.panel.section().table
    before = table.grab().toImage()
    days = around(page.state.day)
    page.show_days(StripDays(days.first + timedelta(days=90), days.last))
    assert table.grab().toImage() != before


def test_everything_that_takes_keys_or_clicks_has_a_name(page: PeoplePage) -> None:
    section_of(page, "signoffs", "K-04")
    assert nameless(page) == []
    page.start_sign_off("K-04", "wave-off")
    for panel in (page.acts.panel, WithdrawDialog(page.state, chosen(page).row, page)):
        assert panel is not None
        assert nameless(panel) == []
        panel.done(0)
    assert nameless(StrikeDialog(page.state, SIGNOFFS, chosen(page).row, page)) == []
    assert nameless(CraftDialog(page.state, page)) == []


def test_actions_that_mean_nothing_in_a_section_are_off(page: PeoplePage) -> None:
    def on() -> set[str]:
        return {one.text() for one in page.page_actions() if one.isEnabled()}

    page.panel.turn_to("sorties")
    assert not on() & {"Add…", "Correct…", "Strike out…", "Withdraw…"}
    page.panel.turn_to("signoffs")
    assert on() >= {"Add…", "Correct…", "Strike out…", "Withdraw…"}


def test_every_action_has_a_key_of_its_own_and_a_sentence(page: PeoplePage) -> None:
    keys = [one.shortcut().toString() for one in page.page_actions()]
    assert all(keys)
    assert len(set(keys)) == len(keys)
    assert all(one.toolTip().endswith(".") for one in page.page_actions())


def test_a_section_without_rows_holds_the_keys(qtbot: QtBot, page: PeoplePage) -> None:
    section_of(page, "standdowns", "K-04")
    assert page.focusWidget() is page.panel.section().nothing
    press(qtbot, page, Qt.Key.Key_Insert)
    assert isinstance(page.acts.panel, FactDialog)


def test_what_was_just_added_is_chosen(qtbot: QtBot, page: PeoplePage) -> None:
    section_of(page, "certificates", "K-04")
    press(qtbot, page, Qt.Key.Key_Insert)
    panel = page.acts.panel
    assert isinstance(panel, FactDialog)
    panel.fields.fields["certificate"].editor.set_text("NEW-1")
    panel.fields.fields["kind"].editor.set_text("first-aid")
    panel.fields.fields["issued"].editor.set_text("2020-01-01")
    save(qtbot, page, panel, "Save")
    assert chosen(page).key == ("NEW-1",)


def test_a_withdrawal_before_the_sign_off_is_told_while_it_is_typed(
    qtbot: QtBot, page: PeoplePage
) -> None:
    section_of(page, "signoffs", "K-04")
    press(qtbot, page, Qt.Key.Key_W, CONTROL, SHIFT)
    panel = page.acts.panel
    assert isinstance(panel, WithdrawDialog)
    write(qtbot, panel.fields["withdrawn"].editor, "2020-01-01")
    assert "is before date" in panel.fields["withdrawn"].fault.text()
    assert not panel.effect.isVisible()


def test_a_typed_reason_is_not_lost_without_a_question(
    qtbot: QtBot, page: PeoplePage, panels: list[str]
) -> None:
    section_of(page, "signoffs", "K-04")
    press(qtbot, page, Qt.Key.Key_W, CONTROL, SHIFT)
    panel = page.acts.panel
    assert isinstance(panel, WithdrawDialog)
    write(qtbot, panel.fields["withdrawn_reason"].editor, "a long story")
    qtbot.keyClick(panel, Qt.Key.Key_Escape)
    assert panels == ["Close without saving what you typed?"]
    assert panel.isVisible()


def test_buttons_do_what_the_keys_do(qtbot: QtBot, page: PeoplePage) -> None:
    button = next(one for one in page.findChildren(QPushButton) if one.text() == "New person…")
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert isinstance(page.acts.panel, FactDialog)
