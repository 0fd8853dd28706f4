"""The form for one sortie, beside the deck picture: faults, light and deck follow every key."""

from datetime import date
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from crewtrack.desk.choice_editor import settle_focused
from crewtrack.desk.drafts import Drafts
from crewtrack.desk.single_shot import single_shot
from crewtrack.desk.sortie_layout import SortieLayout
from crewtrack.desk.sortie_saving import Saved, record_sortie, same_revisions, strike_sortie
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.errors import Fault, Refused
from crewtrack.office import flying
from crewtrack.office.changes import Changes
from crewtrack.office.flying import Flown
from crewtrack.screens.language import say
from crewtrack.screens.sortie_book import SortieBook
from crewtrack.screens.sortie_crew import seated, with_usual
from crewtrack.screens.sortie_deck import deck_shown
from crewtrack.screens.sortie_differences import differences
from crewtrack.screens.sortie_draft import SortieDraft, from_plain
from crewtrack.screens.sortie_form import ReadDraft, draft_day, fault_at, read_draft, told_faults
from crewtrack.screens.sortie_notes import notes
from crewtrack.screens.sortie_past import past_lines
from crewtrack.screens.sortie_sky import draft_light

DRAFT: Final = "sortie"
_KEEP_MS: Final = 1000
_NOTE_MS: Final = 150


class SortiePage(SortieLayout):
    """``saved`` carries a ``Saved``."""

    saved = Signal(object)

    def __init__(
        self, state: State, theme: Theme, drafts: Drafts, parent: QWidget | None = None
    ) -> None:
        super().__init__(theme, parent)
        self._state = state
        self._drafts = drafts
        self._book = SortieBook(state.snapshot)
        self.draft = self._started = SortieDraft()
        self._seen: Flown | None = None
        self._theirs: Flown | None = None
        self._own_key = False
        self._visited: set[str] = set()
        self._saving = False
        self._refused: dict[str, str] = {}
        self._keeping = single_shot(self, _KEEP_MS, self.keep)
        self._noting = single_shot(self, _NOTE_MS, self._note)
        self._connect()

    def start(self, book: SortieBook, draft: SortieDraft) -> None:
        """Begin a new sortie."""
        self._begin(book, draft, None)

    def correct(self, book: SortieBook, flown: Flown) -> None:
        """Open a recorded sortie."""
        self._begin(book, book.recorded(flown), flown)
        self._show_past()

    def resume(self, book: SortieBook, day: date) -> bool:
        """Go on with the draft that was kept; False where it can't be made sense of, or the
        sortie that it corrects is gone."""
        kept = self._drafts.load(DRAFT) or {}
        draft, key = from_plain(kept), str(kept.get("correcting", ""))
        flown = flying.flown(self._state.office, key) if key else None
        if draft is None or (key and flown is None):
            return False
        if flown is None:
            self.start(book, book.fresh(day))
        else:
            self.correct(book, flown)
            self.correction.reason.editor.set_text(str(kept.get("reason", "")))
        self._take(draft)
        return True

    @property
    def correcting(self) -> bool:
        """Whether the sortie is on record already."""
        return self._seen is not None

    def unsaved(self) -> bool:
        """Whether anything was typed."""
        reason = self._seen is not None and self.correction.reason.editor.text().strip()
        return self.draft != self._started or bool(reason)

    def keep(self) -> None:
        """Keep what is typed on disk."""
        if self.unsaved():
            kept = self.draft.plain()
            if self._seen is not None:
                reason = self.correction.reason.editor.text()
                kept |= {"correcting": self._seen.key, "reason": reason}
            self._drafts.save(DRAFT, kept)

    def let_go(self) -> None:
        """Forget what was typed."""
        self._keeping.stop()
        self._started = self.draft
        self.correction.reason.editor.set_text("")
        self._drafts.drop(DRAFT)

    def show_state(self, book: SortieBook) -> None:
        """The record has moved: what is typed stays, save a proposed key that is taken now."""
        self._book = book
        taken = book.known(self._day()).taken
        if not self._own_key and self.draft.text("sortie") in taken:
            self._renumber()
        self._offer()
        self._show()
        self._show_past()
        self._look_for_others()

    def add_usual(self) -> None:
        """Add the usual tasks of everybody seated."""
        self._take(with_usual(self.draft, self._book.usual(self._day())))

    def save(self) -> None:
        """Record it; where something is wrong, say what, and go to the first of it."""
        settle_focused()
        self._saving, self._refused = True, {}
        read = self._read()
        self._show()
        reason = self._reason()
        if read.faults or reason is None:
            self.go_to(read.faults[0].place if read.faults else "reason")
            return
        try:
            changes = record_sortie(self._state, self._seen, read, reason)
        except Refused as refused:
            self._told_by_office(refused.faults, read)
            return
        self._done(changes)

    def strike(self) -> None:
        """Strike out the sortie and all that was performed on it."""
        seen, reason = self._seen, self._reason()
        if seen is None or not reason:
            self.go_to("reason")
            return
        try:
            self._done(strike_sortie(self._state, seen, reason))
        except Refused as refused:
            self._told_by_office(refused.faults, self._read())

    def _begin(self, book: SortieBook, draft: SortieDraft, seen: Flown | None) -> None:
        self._book, self._seen, self._theirs = book, seen, None
        self.draft = self._started = draft
        self._own_key, self._saving, self._refused = seen is not None, False, {}
        self._visited.clear()
        self.correction.setVisible(seen is not None)
        self.correction.reason.editor.set_text("")
        self.correction.reason.show_fault("")
        self.meanwhile.hide()
        self.last.fields["sortie"].editor.setEnabled(seen is None)
        self._offer()
        self._show_texts()
        self._show()

    def _done(self, changes: Changes | None) -> None:
        if changes is not None:
            saved = Saved(self.draft.text("sortie"), self._day(), self.draft, changes)
            self.let_go()
            self.saved.emit(saved)

    def _reason(self) -> str | None:
        """Why it changes: empty for a new one, None where it is needed and missing."""
        if self._seen is None:
            return ""
        reason = self.correction.reason.editor.text().strip()
        self.correction.reason.show_fault("" if reason else say("this is needed"))
        return reason or None

    def _connect(self) -> None:
        for part in (self.first, self.last):
            part.edited.connect(self._edited)
            part.left.connect(self._left)
        self.crew.seated.connect(self._seated)
        self.tasks.lines.edited.connect(self._task_edited)
        self.tasks.removed.connect(self._task_removed)
        self.meanwhile.mine.connect(self._keep_mine)
        self.meanwhile.theirs.connect(self._take_theirs)
        self.correction.reason.editor.edited.connect(self._keeping.start)

    def _edited(self, name: str) -> None:
        part = self.first if name in self.first.fields else self.last
        self.draft = self.draft.with_text(name, part.text(name))
        self._refused.pop(name, None)
        if name == "sortie":
            self._own_key = True
        if name == "date" and not self._own_key:
            self._renumber()
        self._show()

    def _renumber(self) -> None:
        key = self._book.key(self._day())
        self.draft = self.draft.with_text("sortie", key)
        self.last.show_texts(self.draft.texts)

    def _left(self, name: str) -> None:
        self._visited.add(name)
        self._show()
        self.keep()

    def _seated(self, seat: str, person: str) -> None:
        if person in self._book.known(self._day()).people or not person:
            self._take(seated(self.draft, seat, person, self._book.usual(self._day())))
        else:
            self._take(self.draft.with_person(seat, person))

    def _task_edited(self, number: int, name: str, text: str) -> None:
        self._take(self.draft.with_task_text(number, name, text))

    def _task_removed(self, number: int) -> None:
        if number < len(self.draft.tasks):
            self._take(self.draft.without_task(number))

    def _take(self, draft: SortieDraft) -> None:
        self.draft, self._refused = draft, {}
        self._show_texts()
        self._show()

    def _day(self) -> date:
        return draft_day(self.draft, self._state.day)

    def _read(self) -> ReadDraft:
        own = self._seen.key if self._seen else ""
        return read_draft(self.draft, self._book.known(self._day(), own))

    def _offer(self) -> None:
        known = self._book.known(self._day())
        self.first.offer(known)
        self.crew.offer(known.people)
        self.tasks.lines.offer(known)

    def _show_texts(self) -> None:
        self.first.show_texts(self.draft.texts)
        self.last.show_texts(self.draft.texts)
        self.crew.show_crew(self.draft.crew, self._book.known(self._day()).people)
        self.tasks.lines.show_lines(self.draft.tasks)

    def _show(self) -> None:
        """Say what follows from what is typed."""
        read = self._read()
        self.show_faults({**told_faults(read, self._visited, self._saving), **self._refused})
        standard = self._state.snapshot.standard(self._day())
        self.side.show_light(draft_light(read.values, standard, self._state.zone))
        self.side.show_deck(*deck_shown(read))
        self._noting.start()
        if self.unsaved() and not self._keeping.isActive():
            self._keeping.start()

    def _note(self) -> None:
        self.show_notes(notes(self.draft, self._day(), self._book.snapshot.reckoning))

    def _show_past(self) -> None:
        if self._seen is not None:
            self.correction.show_past(self._seen.key, past_lines(self._state.snapshot, self._seen))

    def _told_by_office(self, faults: tuple[Fault, ...], read: ReadDraft) -> None:
        found = [fault_at(fault, read) for fault in faults]
        self._refused = {fault.place: fault.sentence for fault in found}
        self._show()
        self.go_to(found[0].place)
        self._look_for_others()

    def _look_for_others(self) -> None:
        """Whether somebody else changed the sortie that is being corrected here."""
        if self._seen is None:
            return
        theirs = flying.flown(self._state.office, self._seen.key)
        if theirs is None or same_revisions(theirs, self._seen):
            return
        self._theirs = theirs
        lines = differences(self._book.recorded(theirs), self.draft)
        self.meanwhile.show_differences(
            say("Somebody else changed this sortie meanwhile. Look at both and decide."), lines
        )

    def _keep_mine(self) -> None:
        if self._theirs is not None:
            self._seen, self._theirs, self._refused = self._theirs, None, {}
            self.meanwhile.hide()
            self._show()

    def _take_theirs(self) -> None:
        if self._theirs is not None:
            self.let_go()
            self.correct(self._book, self._theirs)
