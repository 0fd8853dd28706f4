"""The menus: everything that can be done, each with its key; the help sheet is made from them."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu

from crewtrack.desk import settings
from crewtrack.desk.actions import add
from crewtrack.desk.help_sheet import HelpSheet
from crewtrack.desk.languages import LANGUAGES, own_name
from crewtrack.desk.pages import Pages
from crewtrack.desk.record_menu import fill_record_menu
from crewtrack.desk.shell import Shell
from crewtrack.desk.state import State
from crewtrack.screens.language import in_use, say


class Menus:
    """The menu bar of a window whose record is open."""

    def __init__(
        self,
        window: Shell,
        state: State,
        pages: Pages,
        day_actions: Sequence[QAction],
        go_to_page: Callable[[int], None],
    ) -> None:
        self._window = window
        self._pages = pages
        self._signed_in = state.office.session is not None
        bar = window.menuBar()
        bar.clear()
        self._menus: list[QMenu] = []
        fill_record_menu(self.menu(say("&File")), window, state)
        self._fill_pages(self.menu(say("&Go")), go_to_page)
        self.menu(say("&Day")).addActions(list(day_actions))
        self._here = self.menu(say("&Here"))
        self._fill_look(self.menu(say("&View")))
        self._fill_help(self.menu(say("&Help")))

    def menu(self, title: str) -> QMenu:
        """Another menu of the bar."""
        made = self._window.menuBar().addMenu(title)
        made.setToolTipsVisible(True)
        self._menus.append(made)
        return made

    def show_page(self, title: str, actions: Sequence[QAction]) -> None:
        """Put a page's actions into their menu."""
        self._here.clear()
        self._here.setTitle(title)
        self._here.addActions(list(actions))
        self._here.menuAction().setVisible(bool(actions))

    def groups(self) -> Iterator[tuple[str, Sequence[QAction]]]:
        """All that can be done, by menu; every page's too, whether it is shown or not."""
        for menu in self._menus:
            if menu is self._here:
                for page in self._pages.pages():
                    yield page.title(), page.page_actions()
            else:
                yield menu.title().replace("&", ""), tuple(_leaves(menu))

    def _fill_pages(self, menu: QMenu, go_to_page: Callable[[int], None]) -> None:
        for number, title in enumerate(self._pages.titles()):
            tip = say("Show the page {title}.", title=title)
            add(menu, title, f"Alt+{number + 1}", tip,
                partial(go_to_page, number))  # fmt: skip

    def _fill_look(self, menu: QMenu) -> None:
        add(menu, say("Larger text"), "Ctrl++", say("Show all text larger."),
            lambda: self._scale(1))  # fmt: skip
        add(menu, say("Smaller text"), "Ctrl+-", say("Show all text smaller."),
            lambda: self._scale(-1))  # fmt: skip
        kept = self._window.settings
        looks = {
            "system": say("As the system has it"),
            "light": say("Light colours"),
            "dark": say("Dark colours"),
        }
        self._choose(menu, say("Theme"), looks, kept.theme, self._theme)
        papers = {"A4": "A4", "letter": say("US letter")}
        self._choose(menu, say("Paper"), papers, kept.paper, self._paper)
        tongues = {name: own_name(name) for name in LANGUAGES}
        self._choose(menu, say("Language"), tongues, in_use(), self._language)
        if self._signed_in:
            times = {str(one): _lock_told(one) for one in settings.LOCK_MINUTES}
            self._choose(menu, say("Lock by itself"), times, str(kept.lock_minutes), self._lock)

    def _choose(
        self,
        menu: QMenu,
        title: str,
        options: dict[str, str],
        now: str,
        take: Callable[[str], None],
    ) -> None:
        inner = menu.addMenu(title)
        group = QActionGroup(inner)
        for option, told in options.items():
            action = inner.addAction(told)
            action.setCheckable(True)
            action.setChecked(option == now)
            action.setToolTip(f"{title}: {told}")
            action.triggered.connect(lambda _=False, option=option: take(option))
            group.addAction(action)

    def _fill_help(self, menu: QMenu) -> None:
        add(menu, say("Keys and what they do"), "F1", say("Show every action with its key."),
            self.show_help)  # fmt: skip

    def show_help(self) -> None:
        """The help sheet."""
        sheet = HelpSheet(tuple(self.groups()), self._window)
        sheet.exec()
        sheet.deleteLater()

    def _scale(self, step: int) -> None:
        scales = settings.SCALES
        place = scales.index(self._window.settings.scale) + step
        self._window.settings.scale = scales[max(0, min(place, len(scales) - 1))]
        self._window.wear.emit()

    def _theme(self, theme: str) -> None:
        self._window.settings.theme = theme
        self._window.wear.emit()

    def _paper(self, paper: str) -> None:
        self._window.settings.paper = "letter" if paper == "letter" else "A4"

    def _lock(self, minutes: str) -> None:
        self._window.settings.lock_minutes = int(minutes)
        self._window.idle_chosen.emit()

    def _language(self, name: str) -> None:
        self._window.settings.language = name
        self._window.wear.emit()


def _lock_told(minutes: int) -> str:
    return say("after {minutes} minutes", minutes=minutes) if minutes else say("never")


def _leaves(menu: QMenu) -> Iterator[QAction]:
    for action in menu.actions():
        inner = action.menu()
        if isinstance(inner, QMenu):
            yield from _leaves(inner)
        elif not action.isSeparator():
            yield action
