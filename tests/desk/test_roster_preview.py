"""The roster's preview: what is shown is what is saved and printed."""

from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QDialog, QFileDialog
from pytestqt.qtbot import QtBot

from crewtrack.desk import roster_preview
from crewtrack.desk.board_page import BoardPage
from crewtrack.desk.pdf_pages import fit_paper, pages, print_pages
from crewtrack.desk.roster_preview import RosterPreview
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.prints import roster_sheet
from tests.screens.rosters import roster

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def preview(theme: Theme, qtbot: QtBot) -> RosterPreview:
    shown = RosterPreview(roster(), "A. Moss", "A4", theme, None)
    qtbot.addWidget(shown)
    shown.show()
    qtbot.waitUntil(shown.save_button.isEnabled)
    return shown


def size(preview: RosterPreview) -> float:
    picture = preview.pages[0].pixmap()
    return round(picture.width() / picture.height(), 2)


def test_every_page_is_shown_on_its_paper(preview: RosterPreview, qtbot: QtBot) -> None:
    assert preview.told.text().startswith(f"{len(preview.pages)} page")
    assert size(preview) == 1.41
    assert preview.pages[0].accessibleName() == "Page 1"


def test_other_paper_sets_the_pages_anew(preview: RosterPreview, qtbot: QtBot) -> None:
    preview.paper.setCurrentIndex(preview.paper.findText("letter"))
    assert not preview.save_button.isEnabled()
    qtbot.waitUntil(preview.save_button.isEnabled)
    assert size(preview) == 1.29


def test_the_pdf_is_saved_as_it_is_shown(
    preview: RosterPreview, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "roster.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(file), ""))
    qtbot.mouseClick(preview.save_button, LEFT)
    assert file.read_bytes() == roster_sheet.render(roster(), "A4", "A. Moss")
    assert preview.told.text() == "Saved as roster.pdf"


def test_a_folder_that_can_not_be_written_is_told(
    preview: RosterPreview, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.setattr(roster_preview, "show_sentence", lambda _, text: told.append(text))
    preview.save(tmp_path / "missing" / "roster.pdf")
    assert len(told) == 1
    assert "no such file or directory" in told[0]


def test_no_file_chosen_saves_nothing(
    preview: RosterPreview, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    before = preview.told.text()
    qtbot.mouseClick(preview.save_button, LEFT)
    assert preview.told.text() == before


def test_it_is_printed_page_by_page(tmp_path: Path, theme: Theme) -> None:
    pdf = roster_sheet.render(roster(), "A4", "A. Moss")
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "out.pdf"))
    fit_paper(printer, "A4")
    assert print_pages(pdf, printer)
    printed = PdfReader(tmp_path / "out.pdf")
    assert len(printed.pages) == len(list(pages(pdf, 36)))
    assert round(float(printed.pages[0].mediabox.width)) == 842


def test_a_printer_that_fails_is_told(
    preview: RosterPreview, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.setattr(QPrintDialog, "exec", lambda _: QDialog.DialogCode.Accepted)
    monkeypatch.setattr(roster_preview, "print_pages", lambda *_: False)
    monkeypatch.setattr(roster_preview, "show_sentence", lambda _, text: told.append(text))
    qtbot.mouseClick(preview.print_button, LEFT)
    assert told == ["The printer did not take the roster."]


def test_a_page_is_drawn_with_ink(theme: Theme) -> None:
    image = next(pages(roster_sheet.render(roster(), "A4", "A. Moss"), 144))
    assert isinstance(image, QImage)
    heading = range(60, 110)
    shades = {image.pixelColor(x, y).lightness() for x in range(image.width()) for y in heading}
    assert image.pixelColor(2, 2).name() == "#ffffff"
    assert min(shades) < 80


def test_it_opens_from_the_board(
    demo_state: State, theme: Theme, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = BoardPage(demo_state, theme)
    qtbot.addWidget(page)
    page.show()
    opened: list[str] = []
    monkeypatch.setattr(RosterPreview, "exec", lambda dialog: opened.append(dialog.windowTitle()))
    page.preview()
    assert opened == ["Roster of 2026-11-25"]


def test_escape_closes_it(preview: RosterPreview, qtbot: QtBot) -> None:
    with qtbot.waitSignal(preview.rejected):
        qtbot.keyClick(preview, Qt.Key.Key_Escape)
    assert not preview.isVisible()
