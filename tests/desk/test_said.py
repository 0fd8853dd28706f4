"""Occurrences and disputes on the screen: reported, raised, marked and answered, by keys."""

from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk.drafts import Drafts
from crewtrack.desk.occurrence_dialog import OccurrenceDialog
from crewtrack.desk.people_page import PeoplePage
from crewtrack.desk.record_page import RecordPage
from crewtrack.desk.said_acts import SaidActs
from crewtrack.desk.said_board import SaidBoard
from crewtrack.desk.said_dialogs import AnswerDialog, DisputeDialog
from crewtrack.desk.said_drafts import NAME
from crewtrack.desk.sorties_page import SortiesPage
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.facts import DISPUTES, OCCURRENCES, PERFORMANCES, SIGNOFFS, SORTIES
from crewtrack.office import access, disputes, occurrences, snapshot
from crewtrack.office.disputes import Disputed, Objection
from crewtrack.office.entries import Order
from crewtrack.office.looking_back import Sought, acts_back
from tests.desk.choices import leave_choices
from tests.desk.walking import nameless

LONG = 20_000
WHAT = "The line caught in the mast."
WORDS = "I was ashore that day."
PASSPHRASE = "heron lantern low tide"


@pytest.fixture
def sorties(qtbot: QtBot, demo_state: State, theme: Theme) -> SortiesPage:
    page = SortiesPage(demo_state, theme)
    shown(qtbot, page)
    return page


@pytest.fixture
def people(qtbot: QtBot, demo_state: State, theme: Theme) -> PeoplePage:
    page = PeoplePage(demo_state, theme)
    shown(qtbot, page)
    return page


def shown(qtbot: QtBot, page: Any) -> Any:
    qtbot.addWidget(page)
    page.resize(1400, 900)
    with qtbot.waitExposed(page):
        page.show()
    page.activateWindow()
    page.take_focus()
    return page


@pytest.fixture
def acts(qtbot: QtBot, demo_state: State, theme: Theme) -> SaidActs:
    parent = QWidget()
    qtbot.addWidget(parent)
    return SaidActs(demo_state, parent)


def read_anew(state: State) -> None:
    """What another program has written is on the screen."""
    state.snapshot = snapshot.take(state.office)
    state.moved.emit()


def press(qtbot: QtBot, panel: QWidget, told: str) -> None:
    button = next(one for one in panel.findChildren(QPushButton) if one.text() == told)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def save(qtbot: QtBot, state: State, panel: QWidget, told: str) -> None:
    with qtbot.waitSignal(state.moved, timeout=LONG):
        press(qtbot, panel, told)


def trigger(page: Any, text: str) -> None:
    next(action for action in page.page_actions() if action.text() == text).trigger()


def sortie_of(state: State) -> str:
    return str(state.snapshot.reckoning.evidence.sorties.key[-1])


def signoff_of(state: State, person: str) -> str:
    rows = state.snapshot.rows(SIGNOFFS)
    return str(next(row[0] for row in rows if row[SIGNOFFS.index("person")] == person))


def dispute(state: State, entry: Disputed, by: str = "K-05") -> None:
    kind = {"sorties": SORTIES, "signoffs": SIGNOFFS, "performances": PERFORMANCES}[entry[0]]
    disputes.raise_dispute(state.office, Objection(kind, entry[1], WORDS, by), Order(by))
    read_anew(state)


def report(state: State, **values: Any) -> None:
    given = {"happened": acts_back(state.office, Sought(), most=1)[0].at, "what": WHAT, **values}
    row = tuple(given.get(column.name, column.default) for column in OCCURRENCES.columns)
    occurrences.report(state.office, row, Order("K-05"), "reported_by" not in given)
    read_anew(state)


def identify(state: State, *people: str) -> None:
    """K-01 becomes chief with a key, then others get one; nobody is signed in."""
    access.give_access(state.office, "K-01", PASSPHRASE, Order("K-01"))
    for person in people:
        with access.signing(state.office, PASSPHRASE):
            access.give_access(state.office, person, PASSPHRASE, Order("K-01"))
    access.sign_out(state.office)
    read_anew(state)


def test_a_report_comes_with_what_the_chosen_sortie_says(
    qtbot: QtBot, sorties: SortiesPage, demo_state: State
) -> None:
    sorties.log.table.choose(sortie_of(demo_state))
    trigger(sorties, "Report an occurrence…")
    panel = sorties.said.panel
    assert isinstance(panel, OccurrenceDialog)
    draft = panel.fields.draft()
    assert draft.text("sortie") == sortie_of(demo_state)
    assert draft.text("happened")
    assert panel.focusWidget() is panel.fields.fields["what"].editor
    qtbot.keyClicks(panel.focusWidget(), WHAT)
    save(qtbot, demo_state, panel, "Save")
    (row,) = occurrences.listed(demo_state.office)
    assert (row[OCCURRENCES.index("what")], row[OCCURRENCES.index("reported_by")]) == (WHAT, "K-01")


def test_a_report_without_a_name_names_nobody(
    qtbot: QtBot, acts: SaidActs, demo_state: State
) -> None:
    acts.report(sortie_of(demo_state))
    panel = acts.panel
    assert isinstance(panel, OccurrenceDialog)
    panel.fields.fields["what"].editor.set_text(WHAT)
    panel.nameless.setChecked(True)
    assert not panel.fields.fields["reported_by"].editor.isEnabled()
    save(qtbot, demo_state, panel, "Save")
    (row,) = occurrences.listed(demo_state.office)
    assert row[OCCURRENCES.index("reported_by")] is None
    assert acts_back(demo_state.office, Sought(), most=1)[0].author == "anonymous"


def test_a_report_says_who_or_that_nobody_does(acts: SaidActs, qtbot: QtBot) -> None:
    acts.report()
    panel = acts.panel
    assert isinstance(panel, OccurrenceDialog)
    panel.fields.fields["reported_by"].editor.set_text("")
    press(qtbot, panel, "Save")
    assert panel.fields.fields["reported_by"].fault.text() == "this is needed"
    panel.nameless.setChecked(True)
    assert panel.fields.fields["reported_by"].fault.text() == ""


def test_what_is_typed_survives_and_a_draft_without_a_name_holds_none(
    acts: SaidActs, demo_state: State
) -> None:
    acts.report()
    panel = acts.panel
    assert isinstance(panel, OccurrenceDialog)
    panel.fields.fields["what"].editor.set_text(WHAT)
    panel.kept.keep()
    assert drafts(demo_state)["report"]["reported_by"] == "K-01"
    panel.nameless.setChecked(True)
    panel.kept.keep()
    assert "K-01" not in str(drafts(demo_state))
    again = OccurrenceDialog(demo_state)
    assert again.fields.draft().text("what") == WHAT
    assert again.nameless.isChecked()
    assert "when the program ended" in again.resumed.text()
    again.deleteLater()


def drafts(state: State) -> dict[str, Any]:
    found = state.drafts.load(NAME)
    assert found is not None
    return found


def test_drafts_of_several_forms_wait_side_by_side(acts: SaidActs, demo_state: State) -> None:
    sortie = sortie_of(demo_state)
    one = DisputeDialog(demo_state, [("sorties", (sortie,))])
    one.fields["words"].editor.set_text(WORDS)
    one.kept.keep()
    assert acts.waiting()
    other = DisputeDialog(demo_state, [("signoffs", (signoff_of(demo_state, "K-05"),))])
    other.fields["words"].editor.set_text("another")
    other.kept.keep()
    assert len(drafts(demo_state)) == 2
    other.done(0)
    again = DisputeDialog(demo_state, [("sorties", (sortie,))])
    assert again.text("words") == WORDS
    again.done(0)
    assert acts.waiting() == ""
    for panel in (one, other, again):
        panel.deleteLater()


def test_what_waits_is_told_once_on_the_page_of_sorties(
    qtbot: QtBot, demo_state: State, theme: Theme
) -> None:
    demo_state.drafts.save(NAME, {"report": {"what": WHAT}})
    page = SortiesPage(demo_state, theme)
    qtbot.addWidget(page)
    with qtbot.waitSignal(demo_state.told) as told:
        page.show()
    assert "when the program ended" in told.args[0]
    assert isinstance(demo_state.drafts, Drafts)
    demo_state.drafts.drop(NAME)


def test_a_sortie_or_what_was_done_on_it_is_disputed_from_the_log(
    qtbot: QtBot, sorties: SortiesPage, demo_state: State
) -> None:
    sorties.log.table.choose(sortie_of(demo_state))
    trigger(sorties, "Dispute…")
    panel = sorties.said.panel
    assert isinstance(panel, DisputeDialog)
    editor = panel.fields["entry"].editor
    performances = [one for one in panel._entries if one.startswith("performances")]
    assert performances
    editor.set_text(performances[0])
    leave_choices(qtbot, editor)
    panel.fields["by"].editor.set_text("K-05")
    panel.fields["words"].editor.set_text(WORDS)
    save(qtbot, demo_state, panel, "Dispute")
    (one,) = disputes.listed(demo_state.office)
    assert (one.kind, one.fact[0], one.by) == (PERFORMANCES, sortie_of(demo_state), "K-05")


def test_a_sortie_that_is_not_recorded_yet_is_not_disputed(
    sorties: SortiesPage, qtbot: QtBot
) -> None:
    sorties.new()
    with qtbot.waitSignal(sorties.state.told) as told:
        trigger(sorties, "Dispute…")
    assert told.args == ["Choose first what you dispute."]


def test_a_dispute_needs_words_and_a_name(acts: SaidActs, qtbot: QtBot, demo_state: State) -> None:
    acts.dispute([("sorties", (sortie_of(demo_state),))])
    panel = acts.panel
    assert isinstance(panel, DisputeDialog)
    panel.fields["by"].editor.set_text("")
    press(qtbot, panel, "Dispute")
    assert [panel.fields[name].fault.text() for name in ("by", "words")] == ["this is needed"] * 2


def test_a_disputed_sortie_is_marked_in_the_log_and_above_its_form(
    sorties: SortiesPage, demo_state: State
) -> None:
    sortie = sortie_of(demo_state)
    assert "Disputed" not in titles(sorties.log.table)
    dispute(demo_state, ("sorties", (sortie,)))
    told = "disputed since 2026-11-25 by K-05: I was ashore that day."
    columns = sorties.log.table.rows.columns
    column = columns[titles(sorties.log.table).index("Disputed")]
    texts = [column.text(row) for row in range(sorties.log.table.rows.rowCount())]
    assert [text for text in texts if text] == [told]
    sorties.show_sortie(sortie)
    assert sorties.form.disputed.isVisible()
    assert told in sorties.form.disputed.text()
    sorties.close_form()
    sorties.new()
    assert not sorties.form.disputed.isVisible()


def titles(table: Any) -> list[str]:
    return [column.title for column in table.rows.columns]


def test_a_disputed_sign_off_is_marked_in_the_books(people: PeoplePage, demo_state: State) -> None:
    dispute(demo_state, ("signoffs", (signoff_of(demo_state, "K-05"),)))
    people.show_person("K-05")
    people.panel.turn_to("signoffs")
    table = people.panel.section().table
    assert titles(table)[1] == "Disputed"
    people.show_person("K-01")
    people.panel.turn_to("signoffs")
    assert "Disputed" not in titles(people.panel.section().table)


def test_an_entry_is_disputed_from_the_books(
    qtbot: QtBot, people: PeoplePage, demo_state: State
) -> None:
    people.show_person("K-05")
    people.panel.turn_to("signoffs")
    people.panel.section().table.choose(signoff_of(demo_state, "K-05"))
    trigger(people, "Dispute…")
    panel = people.said.panel
    assert isinstance(panel, DisputeDialog)
    assert people.unsaved() == ""
    panel.fields["words"].editor.set_text(WORDS)
    assert people.unsaved()
    save(qtbot, demo_state, panel, "Dispute")
    assert disputes.listed(demo_state.office)[0].fact == (signoff_of(demo_state, "K-05"),)


def test_what_was_done_on_a_sortie_is_disputed_from_the_books(people: PeoplePage) -> None:
    people.show_person("K-02")
    people.panel.turn_to("sorties")
    trigger(people, "Dispute…")
    panel = people.said.panel
    assert isinstance(panel, DisputeDialog)
    kinds = [kind for kind, _ in panel._entries.values()]
    assert kinds[0] == "performances"
    assert kinds[-1] == "sorties"
    panel.reject()


def test_an_officer_answers_a_dispute(qtbot: QtBot, acts: SaidActs, demo_state: State) -> None:
    dispute(demo_state, ("sorties", (sortie_of(demo_state),)))
    acts.answer(DISPUTES, "Q-0001")
    panel = acts.panel
    assert isinstance(panel, AnswerDialog)
    assert WORDS in panel.told.toPlainText()
    press(qtbot, panel, "Answer")
    assert panel.fields["outcome"].fault.text()
    panel.fields["outcome"].editor.set_text("refused")
    panel.fields["answer"].editor.set_text("The log says so.")
    save(qtbot, demo_state, panel, "Answer")
    (one,) = disputes.listed(demo_state.office)
    assert (one.outcome, one.answered_by) == ("refused", "K-01")


def test_what_is_answered_is_not_answered_again(
    qtbot: QtBot, acts: SaidActs, demo_state: State
) -> None:
    report(demo_state)
    acts.answer(OCCURRENCES, "R-0001")
    panel = acts.panel
    assert isinstance(panel, AnswerDialog)
    panel.fields["answer"].editor.set_text("Rigged lower now.")
    save(qtbot, demo_state, panel, "Answer")
    with qtbot.waitSignal(demo_state.told) as told:
        acts.answer(OCCURRENCES, "R-0001")
    assert told.args == ["It is answered already."]


def test_all_of_them_are_listed_from_the_record_page(
    qtbot: QtBot, demo_state: State, theme: Theme
) -> None:
    report(demo_state, harm=("hurt",))
    dispute(demo_state, ("sorties", (sortie_of(demo_state),)))
    page = shown(qtbot, RecordPage(demo_state, theme))
    trigger(page, "Occurrences and disputes…")
    board = page.findChild(SaidBoard)
    assert isinstance(board, SaidBoard)
    assert [table.rows.rowCount() for table in board.tables.values()] == [1, 1]
    assert "everybody can read" in board.readers.text()
    assert nameless(board) == []
    board.tables["disputes"].choose("Q-0001")
    qtbot.keyClick(board.tables["disputes"], Qt.Key.Key_Return)
    assert isinstance(board.acts.panel, AnswerDialog)
    board.acts.panel.reject()
    board.close()


def test_occurrences_are_shown_to_officers_and_chiefs_only(
    qtbot: QtBot, people: PeoplePage, demo_state: State
) -> None:
    report(demo_state, sortie=None)
    report(demo_state, reported_by="K-05")
    people.show_person("K-05")
    people.panel.turn_to("occurrences")
    section = people.panel.section()
    assert section.table.rows.rowCount() == 1
    assert "everybody can read" in section.note.text()
    identify(demo_state, "K-05")
    access.sign_in(demo_state.office, "K-05", PASSPHRASE)
    demo_state.moved.emit()
    assert section.table.rows.rowCount() == 0
    assert "closed to you" in section.nothing.text()
    board = SaidBoard(demo_state)
    qtbot.addWidget(board)
    assert board.tables["occurrences"].rows.rowCount() == 0
    assert "closed to you" in board.readers.text()
    access.sign_in(demo_state.office, "K-01", PASSPHRASE)
    demo_state.moved.emit()
    assert section.table.rows.rowCount() == 1
    assert board.tables["occurrences"].rows.rowCount() == 2


def test_where_people_sign_in_the_name_is_theirs_and_not_asked_for(
    qtbot: QtBot, acts: SaidActs, demo_state: State
) -> None:
    identify(demo_state)
    access.sign_in(demo_state.office, "K-01", PASSPHRASE)
    acts.report()
    panel = acts.panel
    assert isinstance(panel, OccurrenceDialog)
    assert "reported_by" not in panel.fields.fields
    panel.fields.fields["happened"].editor.set_text("2026-11-20T10:00")
    panel.fields.fields["what"].editor.set_text(WHAT)
    save(qtbot, demo_state, panel, "Save")
    (row,) = occurrences.listed(demo_state.office)
    assert row[OCCURRENCES.index("reported_by")] == "K-01"


@pytest.mark.parametrize("which", ["report", "dispute", "answer"])
def test_everything_has_a_name(acts: SaidActs, demo_state: State, which: str) -> None:
    dispute(demo_state, ("sorties", (sortie_of(demo_state),)))
    if which == "report":
        acts.report()
    elif which == "dispute":
        acts.dispute([("sorties", (sortie_of(demo_state),))])
    else:
        acts.answer(DISPUTES, "Q-0001")
    assert acts.panel is not None
    assert nameless(acts.panel) == []


def test_nothing_is_said_into_what_the_record_said_earlier(
    acts: SaidActs, demo_state: State, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(demo_state, "may_change", lambda: False)
    acts.report()
    acts.dispute([("sorties", (sortie_of(demo_state),))])
    acts.answer(DISPUTES, "Q-0001")
    assert acts.panel is None
