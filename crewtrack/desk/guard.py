"""Who is at a window: signing in before anything is shown, locking, signing out.

What somebody types belongs to them. Where another person signs in at a locked window, the drafts
of the first one (a sortie, a sign-off) stay on disk in that person's own place and are offered
when that person is back; panels that keep no drafts are closed, and what was typed in those is
gone. Whoever signs in begins afresh.
"""

from typing import Final

from PySide6.QtCore import QObject, Qt

from crewtrack.desk.drafts import claimed, drafts_folder
from crewtrack.desk.idle import Idle
from crewtrack.desk.lock import Lock, works_long
from crewtrack.desk.shell import Shell
from crewtrack.desk.sign_in_page import SignInPage
from crewtrack.desk.single_shot import single_shot
from crewtrack.desk.state import State
from crewtrack.facts import KEYS
from crewtrack.office import access
from crewtrack.screens import sign_in_words

_AGAIN_MS: Final = 5_000
"""When to look again whether long work is over."""


class Guard(QObject):
    """Guards one window on one record."""

    def __init__(self, window: Shell, state: State) -> None:
        super().__init__(window)
        self._window = window
        self._state = state
        self.lock = Lock(window, self._opened)
        self.idle = Idle(self)
        self.idle.left_alone.connect(self.lock_now)
        self._again = single_shot(self, _AGAIN_MS, self.lock_now)
        self._enters = single_shot(self, 0, self._enter)
        self._looks = single_shot(self, 0, self._look)
        state.over = window
        state.moved.connect(self._looks.start)
        state.signed_in.connect(self._came_in, Qt.ConnectionType.QueuedConnection)

    def begin(self) -> None:
        """Show the record; where people sign in to it, once somebody has."""
        if access.is_identified(self._state.office):
            self._ask()
        else:
            self._open_place("")
            self._window.build()

    def lock_now(self) -> None:
        """Cover the window until somebody signs in; long work ends first."""
        session = self._state.office.session
        if session is None or self.lock.on:
            return
        if self._state.acting or works_long(self._window):
            self._again.start()
            return
        self._cover(sign_in_words.locked(session.name))

    def sign_out(self) -> None:
        """Let go of the record, as far as the window shows it, and ask who comes next."""
        if self._state.office.session is not None and self._window.may_leave():
            access.sign_out(self._state.office)
            self.idle.stop()
            self._window.clear()
            self._ask()

    def count_anew(self) -> None:
        """Another time after which to lock was chosen."""
        if self._state.office.session is not None and not self.lock.on:
            self.idle.watch(self._window.settings.lock_minutes)

    def close(self) -> None:
        """The window goes."""
        self.lock.uncover()
        self.idle.stop()
        for timer in (self._again, self._enters, self._looks):
            timer.stop()

    def _ask(self) -> None:
        page = self._page(sign_in_words.opening(self._state.snapshot.unit))
        page.signed_in.connect(self._enters.start)
        self._window.setCentralWidget(page)
        page.setFocus()

    def _page(self, told: str) -> SignInPage:
        window = self._window
        page = SignInPage(self._state.office, window.theme, window.settings.person, told)
        page.leaving.connect(window.close, Qt.ConnectionType.QueuedConnection)
        return page

    def _cover(self, told: str) -> None:
        self._window.keep_typed()
        access.sign_out(self._state.office)
        self.idle.stop()
        self.lock.put_on(self._page(told))

    def _opened(self) -> None:
        session = self._state.office.session
        if session is not None and session.person == self._state.author:
            self.lock.take_off()
            self._window.statusBar().clearMessage()
            self._state.catch_up()
            self.idle.watch(self._window.settings.lock_minutes)
        else:
            self.lock.give_up()
            self._enters.start()  # once whoever waits for a panel has seen it closed

    def _enter(self) -> None:
        session = self._state.office.session
        if session is not None:
            self._state.author = self._window.settings.person = session.person
            self._open_place(session.person)
            self._window.build()
            self._state.catch_up()
            self.idle.watch(self._window.settings.lock_minutes)

    def _came_in(self) -> None:
        """The first one with a key was made known here: what was being typed is that person's."""
        session, before = self._state.office.session, self._state.drafts
        if session is not None:
            self._window.keep_typed()
            self._open_place(session.person)
            before.hand_over(self._state.drafts)
            self._enter()

    def _open_place(self, person: str) -> None:
        folder = drafts_folder(self._state.office.record.path, person)
        self._state.drafts.let_go()
        self._state.drafts = claimed(folder)

    def _look(self) -> None:
        """Whether the record asks for somebody else than it did: keys may come and go by other
        hands, and with a backup that is put in its place."""
        state, session = self._state, self._state.office.session
        if self.lock.on or not self._window.shows_record or state.known_at is not None:
            return
        able = {str(row[KEYS.index("person")]) for row in state.snapshot.rows(KEYS)}
        if session is not None and not able:
            access.sign_out(state.office)
            self.idle.stop()
            self._window.build()
        elif able and (session is None or session.person not in able):
            self._cover(sign_in_words.asked_again())
