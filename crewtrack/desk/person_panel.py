"""One person: who it is, and the books in sections."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QTabWidget, QVBoxLayout, QWidget

from crewtrack.desk.book_sections import BookSection, StandingsSection
from crewtrack.desk.theme import Theme
from crewtrack.screens import people_table, person_books
from crewtrack.screens.person_books import Asked
from crewtrack.screens.strip_days import StripDays


class PersonPanel(QWidget):
    """The books of the person that is asked about; only the section in sight is filled.
    ``opened``: the section and the row of one that was opened; ``evidence_opened``: a kind of
    evidence and its key."""

    opened = Signal(str, object)
    evidence_opened = Signal(str, str)
    section_changed = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.asked: Asked | None = None
        self.heading = QLabel()
        self.heading.setFont(theme.font(1.3, bold=True))
        self.beside = QLabel()
        self.beside.setProperty("tone", "quiet")
        self.changes = QLabel()
        self.changes.setWordWrap(True)
        self.changes.setProperty("tone", "title")
        self.changes.hide()
        self.tabs = QTabWidget()
        self.tabs.setDocumentMode(True)
        self.tabs.setAccessibleName(person_books.books_title())
        self.tabs.tabBar().setAccessibleName(person_books.books_title())
        self.sections = {name: _section(name, theme) for name in person_books.SECTIONS}
        self._stale = set(self.sections)
        for name, section in self.sections.items():
            self.tabs.addTab(section, person_books.title(name))
            section.evidence_opened.connect(self.evidence_opened)
            section.table.opened.connect(lambda row, name=name: self.opened.emit(name, row))
        self.tabs.currentChanged.connect(self._turned)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(theme.line() // 2, theme.line() // 2, 0, 0)
        for part in (self.heading, self.beside, self.changes, self.tabs):
            layout.addWidget(part)
        self.buttons = QHBoxLayout()
        self.buttons.setContentsMargins(0, 0, theme.line() // 2, 0)
        self.buttons.addStretch()
        layout.addLayout(self.buttons)
        layout.setStretchFactor(self.tabs, 1)

    def show_books(self, asked: Asked | None) -> None:
        """Show somebody's books; None for nobody's."""
        if asked is not None and asked == self.asked:
            return
        if self.asked is None or asked is None or self.asked.person != asked.person:
            self.say_changed("")
        self.asked = asked
        self._stale = set(self.sections)
        self.tabs.setVisible(asked is not None)
        if asked is None:
            self.heading.setText("")
            self.beside.setText("")
            return
        books = asked.snapshot.reckoning.evidence.books[asked.person]
        self.heading.setText(books.person.name)
        told = (books.person.key, people_table.duties_told(books.person),
                people_table.books_told(books, asked.on))  # fmt: skip
        self.beside.setText(" · ".join(part for part in told if part))
        self._fill()

    def say_changed(self, told: str) -> None:
        """Say what the last act changed; it stays until another person is shown."""
        self.changes.setText(told)
        self.changes.setVisible(bool(told))

    def section(self) -> BookSection:
        """The section in sight."""
        return self.sections[person_books.SECTIONS[self.tabs.currentIndex()]]

    def show_days(self, days: StripDays) -> None:
        """Draw along the days of the day line."""
        section = self.sections[person_books.STANDINGS]
        if isinstance(section, StandingsSection):
            section.show_days(days)

    def turn_to(self, name: str) -> None:
        """Bring a section into sight."""
        self.tabs.setCurrentIndex(person_books.SECTIONS.index(name))

    def turn(self, step: int) -> None:
        """Go on to the next section, or back, and put the keys there."""
        self.tabs.setCurrentIndex((self.tabs.currentIndex() + step) % self.tabs.count())
        self.section().take_focus()

    def _turned(self) -> None:
        self._fill()
        self.section_changed.emit()

    def _fill(self) -> None:
        section = self.section()
        if self.asked is not None and section.name in self._stale:
            self._stale.discard(section.name)
            section.show_books(self.asked)


def _section(name: str, theme: Theme) -> BookSection:
    return StandingsSection(theme) if name == person_books.STANDINGS else BookSection(name, theme)
