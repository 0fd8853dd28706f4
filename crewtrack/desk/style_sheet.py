"""The style sheet: thin rules in place of boxes, sizes in lines of text."""

from crewtrack.office.shipped import shipped
from crewtrack.screens.shades import Shades


def style_sheet(shades: Shades, line: int) -> str:
    """The sheet for a set of colours; ``line`` is the height of a line of text in pixels."""
    pad, gap = max(2, line // 5), max(4, line // 2)
    return "\n".join(
        (
            _menus(shades, pad, gap),
            _fields(shades, pad),
            _buttons(shades, pad, gap),
            _tables(shades, pad, gap),
            _pages(shades, pad, gap),
            _labels(shades),
        )
    )


def _arrow(way: str) -> str:
    """The file of an arrow. Its grey stands out from the fields of both themes."""
    return shipped("arrows", f"{way}.svg").as_posix()


def _menus(shades: Shades, pad: int, gap: int) -> str:
    return f"""
QToolTip {{ color: {shades.text}; background: {shades.panel};
    border: 1px solid {shades.strong_rule}; padding: {pad}px; }}
QMenuBar {{ background: {shades.window}; }}
QMenuBar::item {{ padding: {pad}px {gap}px; background: transparent; }}
QMenuBar::item:selected {{ background: {shades.selected}; color: {shades.on_selected}; }}
QMenu {{ background: {shades.panel}; border: 1px solid {shades.strong_rule}; }}
QMenu::item {{ padding: {pad}px {3 * gap}px; }}
QMenu::item:selected {{ background: {shades.selected}; color: {shades.on_selected}; }}
QMenu::item:disabled {{ color: {shades.quiet}; }}
QMenu::separator {{ height: 1px; background: {shades.rule}; margin: {pad}px 0; }}
"""


def _fields(shades: Shades, pad: int) -> str:
    return f"""
QLineEdit, QPlainTextEdit, QTextEdit, QComboBox, QAbstractSpinBox {{
    background: {shades.field}; color: {shades.text};
    placeholder-text-color: {shades.quiet};
    border: 1px solid {shades.strong_rule}; padding: {pad}px;
    selection-background-color: {shades.selected}; selection-color: {shades.on_selected}; }}
QLineEdit:focus, QPlainTextEdit:focus, QTextEdit:focus, QComboBox:focus, QAbstractSpinBox:focus {{
    border: 2px solid {shades.accent}; padding: {pad - 1}px; }}
QLineEdit:disabled, QComboBox:disabled {{ color: {shades.quiet}; background: {shades.window}; }}
QLineEdit[faulty="true"], QPlainTextEdit[faulty="true"], QComboBox[faulty="true"] {{
    border: 2px solid {shades.fault}; padding: {pad - 1}px; }}
QComboBox QLineEdit, QAbstractSpinBox QLineEdit {{ border: none; padding: 0; }}
QComboBox::drop-down {{ border: none; width: {5 * pad}px; }}
QComboBox::down-arrow, QAbstractSpinBox::down-arrow {{ image: url("{_arrow("down")}");
    width: {3 * pad}px; height: {3 * pad}px; }}
QAbstractSpinBox::up-arrow {{ image: url("{_arrow("up")}");
    width: {3 * pad}px; height: {3 * pad}px; }}
QAbstractSpinBox::up-button, QAbstractSpinBox::down-button {{
    border: none; width: {5 * pad}px; subcontrol-origin: border; }}
QAbstractSpinBox::up-button {{ subcontrol-position: top right; }}
QAbstractSpinBox::down-button {{ subcontrol-position: bottom right; }}
QComboBox QAbstractItemView {{ background: {shades.panel};
    border: 1px solid {shades.strong_rule}; }}
"""


def _buttons(shades: Shades, pad: int, gap: int) -> str:
    return f"""
QPushButton {{ background: {shades.panel}; color: {shades.text};
    border: 1px solid {shades.strong_rule}; padding: {pad}px {gap}px; }}
QPushButton:hover {{ border-color: {shades.accent}; }}
QPushButton:focus {{ border: 2px solid {shades.accent}; padding: {pad - 1}px {gap - 1}px; }}
QPushButton:pressed, QPushButton:checked {{
    background: {shades.selected}; color: {shades.on_selected}; }}
QPushButton:disabled {{ color: {shades.quiet}; border-color: {shades.rule}; }}
QPushButton:default {{ background: {shades.accent}; color: {shades.on_accent};
    border-color: {shades.accent}; }}
QPushButton:default:focus {{ border-color: {shades.text}; }}
QPushButton:default:disabled {{ background: {shades.panel}; color: {shades.quiet};
    border-color: {shades.rule}; }}
"""


def _tables(shades: Shades, pad: int, gap: int) -> str:
    return f"""
QHeaderView {{ background: {shades.window}; }}
QHeaderView::section {{ background: {shades.window}; color: {shades.quiet}; border: none;
    border-bottom: 1px solid {shades.strong_rule}; padding: {pad}px {gap}px; }}
QTableView {{ background: {shades.panel}; gridline-color: {shades.rule}; border: none;
    selection-background-color: {shades.selected}; selection-color: {shades.on_selected}; }}
QTableView#names {{ border-right: 1px solid {shades.strong_rule}; }}
QTableView::item {{ padding: 0 {gap - 3}px; }}
QTableView::item:selected {{ background: {shades.selected}; color: {shades.on_selected}; }}
QListView, QTreeView, QTextBrowser {{ background: {shades.panel};
    border: 1px solid {shades.rule}; }}
"""


def _pages(shades: Shades, pad: int, gap: int) -> str:
    return f"""
QTabWidget::pane {{ border: none; border-top: 1px solid {shades.strong_rule}; }}
QTabBar::tab {{ background: transparent; color: {shades.quiet}; padding: {pad}px {gap}px;
    border: none; border-bottom: 3px solid transparent; }}
QTabBar::tab:selected {{ color: {shades.text}; border-bottom-color: {shades.accent}; }}
QTabBar::tab:focus {{ color: {shades.accent}; }}
QTabBar::tab:hover {{ color: {shades.text}; }}
QStatusBar {{ background: {shades.window}; border-top: 1px solid {shades.rule}; }}
QStatusBar::item {{ border: none; }}
QSplitter::handle {{ background: {shades.rule}; }}
QSplitter::handle:vertical {{ height: 3px; }}
QSplitter::handle:horizontal {{ width: 3px; }}
QProgressBar {{ background: {shades.field}; border: 1px solid {shades.strong_rule};
    text-align: center; color: {shades.text}; }}
QProgressBar::chunk {{ background: {shades.selected}; }}
QGroupBox {{ border: none; border-top: 1px solid {shades.rule}; margin-top: {2 * gap}px;
    padding-top: {pad}px; }}
QGroupBox::title {{ subcontrol-origin: margin; left: 0; color: {shades.quiet}; }}
"""


def _labels(shades: Shades) -> str:
    return f"""
QLabel[tone="quiet"] {{ color: {shades.quiet}; }}
QLabel[tone="fault"] {{ color: {shades.fault}; }}
QLabel[tone="warning"] {{ color: {shades.standing["due"]}; }}
QLabel[tone="title"] {{ font-weight: bold; }}
"""
