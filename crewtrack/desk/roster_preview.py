"""The roster as it will be printed: pages to look at, then print or save."""

from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPixmap
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk.look import take_room
from crewtrack.desk.pdf_pages import fit_paper, pages, print_pages
from crewtrack.desk.settings import PAPERS
from crewtrack.desk.theme import Theme
from crewtrack.desk.troubles import show_sentence, trouble_told
from crewtrack.desk.work import Work
from crewtrack.engine.standings import Roster
from crewtrack.prints import roster_sheet
from crewtrack.prints.sheet import PaperName
from crewtrack.screens.language import count_of, say


class RosterPreview(QDialog):
    """Sets the roster on pages off the screen's thread, and shows them."""

    def __init__(
        self, roster: Roster, author: str, paper: PaperName, theme: Theme, parent: QWidget | None
    ) -> None:
        super().__init__(parent)
        self._roster, self._author, self._theme = roster, author, theme
        self._pdf = b""
        self._work: Work | None = None
        self.setWindowTitle(say("Roster of {day}", day=roster.on))
        self.paper = QComboBox()
        self.paper.setAccessibleName(say("Paper"))
        for name in PAPERS:
            self.paper.addItem(name, name)
        self.paper.setCurrentIndex(PAPERS.index(paper))
        self.told = QLabel()
        self.told.setProperty("tone", "quiet")
        self.told.setWordWrap(True)
        self.print_button = QPushButton(say("&Print…"))
        self.save_button = QPushButton(say("&Save PDF…"))
        self.close_button = QPushButton(say("Close"))
        self.pages: list[QLabel] = []
        self._sheets = QVBoxLayout()
        self._lay_out()
        self.paper.currentIndexChanged.connect(lambda _: self._set())
        self.print_button.clicked.connect(lambda: self._print())
        self.save_button.clicked.connect(lambda: self._ask_where())
        self.close_button.clicked.connect(self.reject)
        self._set()

    def _lay_out(self) -> None:
        line = self._theme.line()
        held = QWidget()
        held.setLayout(self._sheets)
        self._sheets.setSpacing(line)
        self._area = QScrollArea()
        self._area.setWidget(held)
        self._area.setWidgetResizable(True)
        self._area.setAccessibleName(say("Pages"))
        bar = QHBoxLayout()
        label = QLabel(say("Pa&per"))
        label.setBuddy(self.paper)
        for widget in (label, self.paper):
            bar.addWidget(widget)
        bar.addStretch(1)
        for button in (self.print_button, self.save_button, self.close_button):
            button.setAccessibleName(button.text().replace("&", ""))
            bar.addWidget(button)
        layout = QVBoxLayout(self)
        layout.addLayout(bar)
        layout.addWidget(self.told)
        layout.addWidget(self._area, 1)
        take_room(self, line * 70, line * 48)

    def _set(self) -> None:
        """Set the pages for the chosen paper."""
        self._ready(False)
        self.told.setText(say("Setting the pages…"))
        roster, author, paper = self._roster, self._author, self._paper()
        if self._work is not None:
            self._work.wait()
        self._work = Work(lambda _: roster_sheet.render(roster, paper, author), self)
        self._work.done.connect(self._show)
        self._work.failed.connect(lambda error: self.told.setText(trouble_told(error)))
        self._work.start()

    def _paper(self) -> PaperName:
        return PAPERS[self.paper.currentIndex()]

    def _show(self, pdf: bytes) -> None:
        self._pdf = pdf
        for page in self.pages:
            self._sheets.removeWidget(page)
            page.deleteLater()
        ratio = self.devicePixelRatioF()
        dots = self.logicalDpiX() * self._theme.scale * ratio
        self.pages = []
        for image in pages(pdf, dots):
            picture = QPixmap.fromImage(image)
            picture.setDevicePixelRatio(ratio)
            page = QLabel()
            page.setPixmap(picture)
            page.setFrameShape(QLabel.Shape.Box)
            edge = 2 * page.frameWidth()
            page.setFixedSize(picture.deviceIndependentSize().toSize() + QSize(edge, edge))
            self._sheets.addWidget(page, alignment=Qt.AlignmentFlag.AlignHCenter)
            self.pages.append(page)
        for number, page in enumerate(self.pages, 1):
            page.setAccessibleName(say("Page {number}", number=number))
        count = count_of(len(self.pages), "{count} page", "{count} pages")
        whole = say("The whole roster of the day is printed, whatever the filter shows.")
        self.told.setText(f"{count}. {whole}")
        self._ready(True)

    def _ready(self, ready: bool) -> None:
        self.print_button.setEnabled(ready)
        self.save_button.setEnabled(ready)

    def _print(self) -> None:
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        fit_paper(printer, self._paper())
        dialog = QPrintDialog(printer, self)
        if dialog.exec() == QDialog.DialogCode.Accepted and not print_pages(self._pdf, printer):
            show_sentence(self, say("The printer did not take the roster."))
        dialog.deleteLater()

    def _ask_where(self) -> None:
        name = f"roster-{self._roster.on.isoformat()}.pdf"
        where, _ = QFileDialog.getSaveFileName(self, say("Save the roster"), name, "PDF (*.pdf)")
        if where:
            self.save(Path(where))

    def save(self, where: Path) -> None:
        """Write the PDF to a file, or tell why it can't be."""
        try:
            where.write_bytes(self._pdf)
        except OSError as error:
            show_sentence(self, trouble_told(error))
        else:
            self.told.setText(say("Saved as {file}", file=where.name))

    def done(self, result: int) -> None:
        """Close, once no page is being set any more."""
        if self._work is not None:
            self._work.wait()
        super().done(result)
