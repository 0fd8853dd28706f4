"""Sorties on the screen: a day's entries by keys alone, what saving says, drafts, the log."""

import errno
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Never

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QMessageBox
from pytestqt.qtbot import QtBot

from crewtrack.desk import theme as themes
from crewtrack.desk.drafts import Drafts, drafts_folder
from crewtrack.desk.sorties_page import SortiesPage
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.facts import SORTIES, Value
from crewtrack.office import flying
from crewtrack.office.entries import Order
from crewtrack.office.flying import Flown
from crewtrack.screens import sortie_log
from tests.desk.sorties import CTRL, FLYING, LAST, NEXT, SHIFT, Keys, focused, opened


def recorded(state: State, key: str) -> Flown:
    found = flying.flown(state.office, key)
    assert found is not None
    return found


def value(state: State, key: str, column: str) -> Value:
    return recorded(state, key).sortie.row[SORTIES.index(column)]


def answer(monkeypatch: pytest.MonkeyPatch, told: str) -> list[str]:
    """Answer every question with the button that says so; returns what was asked."""
    asked: list[str] = []

    def choose(box: QMessageBox) -> int:
        asked.append(box.text())
        next(one for one in box.buttons() if one.text() == told).click()
        return 0

    monkeypatch.setattr(QMessageBox, "exec", choose)
    return asked


def test_the_days_next_sortie_takes_ten_keys_and_no_mouse(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    opened(demo_state, theme, qtbot)
    keys = Keys()
    keys.key(Qt.Key.Key_N, CTRL | SHIFT)
    keys.text("1241")
    keys.key(Qt.Key.Key_Tab)
    keys.text("14")
    keys.key(Qt.Key.Key_S, CTRL)
    assert keys.pressed <= 10
    launched = value(demo_state, NEXT, "launched")
    assert isinstance(launched, datetime)
    assert launched.isoformat() == "2026-11-21T12:41:00-05:00"
    assert value(demo_state, NEXT, "minutes") == 14
    before, after = recorded(demo_state, LAST), recorded(demo_state, NEXT)
    assert [held.row[1:4] for held in after.performances] == [
        held.row[1:4] for held in before.performances
    ]


def test_same_again_proposes_the_time_at_which_the_last_one_came_back(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    assert page.form.draft.text("time") == "12:26"
    assert page.form.draft.text("minutes") == "12"
    assert page.form.draft.text("wind") == "292/10"
    assert page.form.draft.in_seat("helm") == "K-01"


def test_a_new_sortie_is_entered_by_keys_alone(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    keys = Keys()
    keys.key(Qt.Key.Key_N, CTRL)
    for text in (
        "B-2",
        "A-1",
        None,
        "1500",
        "11",
        "live, from a boat",
        None,
        None,
        "drifting",
        "2",
    ):
        if text is not None:
            keys.text(text)
        keys.key(Qt.Key.Key_Tab)
    for text in ("240/14", "60", "0", "090/1.2", "training"):
        keys.text(text)
        keys.key(Qt.Key.Key_Tab)
    assert focused() is page.form.crew.fields["pilot"].editor
    for person in ("K-08", "K-05", "K-07", "K-01"):
        keys.text(person)
        keys.key(Qt.Key.Key_Tab)
    keys.key(Qt.Key.Key_S, CTRL)
    assert page.stack.currentWidget() is page.after
    flown = recorded(demo_state, NEXT)
    assert {held.row[1] for held in flown.performances} == {"K-08", "K-05", "K-07", "K-01"}
    assert value(demo_state, NEXT, "wind_from") == 240.0
    assert value(demo_state, NEXT, "drift") == 1.2


def test_saving_says_what_it_changed(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.save()
    assert page.after.head.text() == f"Sortie {NEXT} is in the record, with 10 tasks."
    assert "(was " in page.after.told.text()
    assert focused() is page.after.same


def test_after_saving_one_key_begins_the_next(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.save()
    Keys().key(Qt.Key.Key_Space)
    assert page.stack.currentWidget() is page.form
    assert page.form.draft.text("sortie") == "261121-10"
    assert page.form.draft.text("time") == "12:38"


def test_after_saving_it_can_be_signed_off(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.save()
    with qtbot.waitSignal(page.sign_off) as caught:
        qtbot.mouseClick(page.after.sign, Qt.MouseButton.LeftButton)
    assert caught.args is not None
    assert caught.args[2] == NEXT


def test_what_is_wrong_is_said_beneath_the_field_while_it_is_typed(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.first.go_to("sea")
    Keys().text("12")
    field = page.form.first.fields["sea"]
    assert field.fault.text() == "12 is more than 9; write a whole number from 0 to 9"
    assert field.fault.isVisible()


def test_an_empty_field_is_left_in_peace_until_it_is_left(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.new()
    minutes = page.form.first.fields["minutes"]
    assert not minutes.fault.isVisible()
    page.form.first.go_to("minutes")
    Keys().key(Qt.Key.Key_Tab)
    assert minutes.fault.text() == "this is needed"


def test_saving_goes_to_the_first_fault(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    page.new()
    Keys().key(Qt.Key.Key_S, CTRL)
    assert focused() is page.form.first.fields["time"].editor
    assert page.form.task_faults.text() == "no task is given; add who did what"


def test_light_and_deck_follow_what_is_typed(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.first.go_to("time")
    Keys().text("1730")
    assert page.form.side.light.text().startswith("Launch 17:30: twilight.")
    page.form.first.go_to("wind")
    Keys().text("242/12")
    assert "Wind over the deck: from 242° at 15.4 kn, dead ahead." in page.form.side.words.text()


def test_a_correction_asks_for_a_reason(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    page.show_sortie(LAST)
    page.form.first.fields["wind"].editor.set_text("250/12")
    Keys().key(Qt.Key.Key_S, CTRL)
    assert page.form.correction.reason.fault.text() == "this is needed"
    assert value(demo_state, LAST, "wind") == 10.0


def test_a_correction_keeps_the_old_revision_in_view(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.show_sortie(LAST)
    page.form.first.fields["wind"].editor.set_text("292/12")
    page.form.correction.reason.editor.set_text("misread")
    Keys().key(Qt.Key.Key_S, CTRL)
    assert page.after.head.text() == f"Sortie {LAST} is corrected."
    with qtbot.waitSignal(demo_state.moved):
        pass
    page.show_sortie(LAST)
    assert (
        page.form.correction.past.toPlainText()
        .splitlines()[0]
        .endswith("K-01, 2026-11-25 12:00: misread — Wind: 12 (was 10)")
    )


def test_a_sortie_entered_by_mistake_is_struck_out_with_a_reason(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.save()
    page.show_sortie(NEXT)
    Keys().key(Qt.Key.Key_X, CTRL | SHIFT)
    assert flying.flown(demo_state.office, NEXT) is not None
    page.form.correction.reason.editor.set_text("entered twice")
    Keys().key(Qt.Key.Key_X, CTRL | SHIFT)
    assert page.after.head.text() == f"Sortie {NEXT} is struck out."
    assert flying.flown(demo_state.office, NEXT) is None


def somebody_else_writes(state: State) -> None:
    seen = recorded(state, LAST)
    row = list(seen.sortie.row)
    row[SORTIES.index("wind")] = 11.0
    rows = [held.row for held in seen.performances]
    flying.correct_sortie(state.office, seen, tuple(row), rows, Order("K-02", "mine"))


def correcting_meanwhile(state: State, theme: Theme, qtbot: QtBot) -> SortiesPage:
    page = opened(state, theme, qtbot)
    page.show_sortie(LAST)
    page.form.first.fields["sea"].editor.set_text("2")
    page.form.correction.reason.editor.set_text("my reason")
    somebody_else_writes(state)
    page.form.save()
    return page


def test_a_change_by_somebody_else_is_shown_beside_ones_own(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = correcting_meanwhile(demo_state, theme, qtbot)
    assert page.form.meanwhile.isVisible()
    told = page.form.meanwhile.told.text()
    assert "Wind from / kn: theirs 292/11, yours 292/10" in told
    assert "Sea state: theirs 3, yours 2" in told
    assert value(demo_state, LAST, "sea") == 3


def test_ones_own_can_be_kept_over_it(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = correcting_meanwhile(demo_state, theme, qtbot)
    qtbot.mouseClick(page.form.meanwhile.keep, Qt.MouseButton.LeftButton)
    page.form.save()
    assert value(demo_state, LAST, "sea") == 2
    assert value(demo_state, LAST, "wind") == 10.0


def test_theirs_can_be_taken_instead(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = correcting_meanwhile(demo_state, theme, qtbot)
    qtbot.mouseClick(page.form.meanwhile.take, Qt.MouseButton.LeftButton)
    assert page.form.draft.text("wind") == "292/11"
    assert not page.form.unsaved()


def test_what_is_typed_is_kept_on_disk_and_offered_at_the_next_start(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.first.go_to("time")
    Keys().text("1305")
    Keys().key(Qt.Key.Key_Tab)
    after_the_crash = opened(demo_state, theme, qtbot)
    assert after_the_crash.log.offer.isVisible()
    qtbot.mouseClick(after_the_crash.log.offer.take, Qt.MouseButton.LeftButton)
    assert after_the_crash.form.draft == page.form.draft
    assert after_the_crash.unsaved()


def test_a_crash_within_a_field_loses_at_most_a_second(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.first.go_to("time")
    Keys().text("1317")
    drafts = Drafts(drafts_folder(Path(demo_state.office.record.path)))
    qtbot.waitUntil(lambda: drafts.load("sortie") is not None)
    kept = drafts.load("sortie")
    assert kept is not None
    assert kept["texts"]["time"] == "1317"


def test_where_the_record_cannot_be_written_what_was_typed_stays(
    demo_state: State, theme: Theme, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> Never:
        raise OSError(errno.ENOSPC, "No space left on device", "record")

    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.first.fields["minutes"].editor.set_text("9")
    monkeypatch.setattr(flying, "log_sortie", full)
    with qtbot.waitSignal(demo_state.failed) as caught:
        page.form.save()
    assert caught.args == ["record: no space left on device"]
    assert page.stack.currentWidget() is page.form
    assert page.form.draft.text("minutes") == "9"


def test_a_proposed_key_that_somebody_else_took_is_proposed_anew(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    seen = recorded(demo_state, LAST)
    row = (NEXT, *seen.sortie.row[1:])
    flying.log_sortie(demo_state.office, row, [seen.performances[0].row], Order("K-02"))
    with qtbot.waitSignal(demo_state.moved):
        demo_state.refresh()
    assert page.form.draft.text("sortie") == "261121-10"


def test_a_correction_that_was_being_typed_comes_back_as_one(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.show_sortie(LAST)
    page.form.first.fields["sea"].editor.set_text("1")
    page.form.correction.reason.editor.set_text("half a reason")
    page.form.keep()
    after = opened(demo_state, theme, qtbot)
    qtbot.mouseClick(after.log.offer.take, Qt.MouseButton.LeftButton)
    assert after.form.correcting
    assert after.form.correction.reason.editor.text() == "half a reason"
    assert after.form.first.fields["sea"].editor.text() == "1"


def test_a_saved_sortie_leaves_no_draft(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.first.fields["minutes"].editor.set_text("9")
    page.form.keep()
    page.form.save()
    assert not opened(demo_state, theme, qtbot).log.offer.isVisible()


def test_a_draft_can_be_let_go(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.first.fields["minutes"].editor.set_text("9")
    page.form.keep()
    after = opened(demo_state, theme, qtbot)
    qtbot.mouseClick(after.log.offer.drop, Qt.MouseButton.LeftButton)
    assert not after.log.offer.isVisible()
    assert not opened(demo_state, theme, qtbot).log.offer.isVisible()


def test_leaving_the_form_asks_once(
    demo_state: State, theme: Theme, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    page.form.first.fields["minutes"].editor.set_text("9")
    asked = answer(monkeypatch, "Keep typing")
    Keys().key(Qt.Key.Key_Escape)
    assert page.stack.currentWidget() is page.form
    asked += answer(monkeypatch, "Give it up")
    Keys().key(Qt.Key.Key_Escape)
    assert page.stack.currentWidget() is page.log
    assert asked == ["The sortie is not saved. Give up what you typed?"]
    assert page.unsaved() == ""


def test_an_untouched_form_is_left_without_a_question(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    assert page.unsaved() == ""
    Keys().key(Qt.Key.Key_Escape)
    assert page.stack.currentWidget() is page.log


def test_enter_opens_the_chosen_sortie(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    keys = Keys()
    page.log.table.choose("261121-7")
    keys.key(Qt.Key.Key_Return)
    assert page.form.draft.text("sortie") == "261121-7"
    assert page.form.correcting


def test_a_person_narrows_the_log(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    page.log.fields["person"].editor.set_text("K-13")
    page.log.fields["first"].editor.set_text(FLYING.isoformat())
    assert page.log.count.text() == "2 of 1109 sorties"


def test_a_day_that_cannot_be_read_is_told(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    page.log.fields["last"].editor.set_text("21.11.2026")
    assert page.log.fields["last"].fault.text().endswith("write the year first: 2026-11-21")
    assert page.log.count.text() == "1109 sorties"


def test_every_action_has_a_key_and_a_sentence(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    for action in page.page_actions():
        assert action.shortcut().toString()
        assert action.toolTip().endswith(".")


def test_a_sortie_that_is_gone_is_told_in_a_sentence(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    with qtbot.waitSignal(demo_state.told) as caught:
        page.show_sortie("S-0")
    assert caught.args == ["Sortie S-0 is not in the record any more."]


def test_nothing_is_entered_into_what_the_record_said_earlier(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.again()
    with qtbot.waitSignal(demo_state.moved, timeout=30_000):
        demo_state.know_at(datetime(2026, 11, 22, tzinfo=UTC))
    with qtbot.waitSignal(demo_state.told) as told:
        Keys().key(Qt.Key.Key_S, CTRL)
    assert "go back to now" in told.args[0]
    assert page.stack.currentWidget() is page.form
    assert flying.flown(demo_state.office, NEXT) is None


def test_a_reason_that_was_typed_is_not_lost_without_a_question(
    demo_state: State, theme: Theme, qtbot: QtBot, panels: list[str]
) -> None:
    page = opened(demo_state, theme, qtbot)
    page.show_sortie(LAST)
    assert page.form.correction.head.text() == f"Correcting sortie {LAST}"
    page.form.correction.reason.editor.set_text("A long story.")
    page.close_form()
    assert len(panels) == 1
    assert page.stack.currentWidget() is page.form


@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
def test_the_page_fits_a_small_screen_at_any_size_of_text(
    demo_state: State, qapp: QApplication, qtbot: QtBot, scale: float
) -> None:
    large = Theme(scale=scale)
    themes.apply(qapp, large)
    page = SortiesPage(demo_state, large)
    qtbot.addWidget(page)
    assert page.minimumSizeHint().width() <= 1280


def test_a_long_log_is_sorted_off_the_screens_thread(
    demo_state: State, theme: Theme, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sortie_log, "_FEW", 0)
    page = opened(demo_state, theme, qtbot)
    rows, crew = page.log.table.rows, 11
    page.log.table.sortByColumn(crew, Qt.SortOrder.AscendingOrder)
    assert page.log.count.text() == "Sorting…"
    qtbot.waitUntil(lambda: page.log.count.text().endswith(" sorties"))
    shown = [str(rows.index(line, crew).data()).casefold() for line in range(rows.rowCount())]
    assert shown == sorted(shown)


def test_another_day_leaves_the_log_as_it_is(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    with qtbot.assertNotEmitted(page.log.table.rows.modelReset):
        demo_state.go_to(date(2026, 10, 1))
