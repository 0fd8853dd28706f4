"""Colours and sizes as widgets wear them."""

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from crewtrack.desk import theme as themes
from crewtrack.desk.theme import Theme


@pytest.fixture(params=[Theme(), Theme(dark=True, scale=1.5)], ids=["light", "dark, larger"])
def worn(request: pytest.FixtureRequest, qapp: QApplication) -> Iterator[Theme]:
    themes.load_fonts()
    themes.apply(qapp, request.param)
    yield request.param
    themes.apply(qapp, Theme())


def test_a_hint_in_an_empty_field_has_an_ink_of_its_own(worn: Theme, qtbot: QtBot) -> None:
    # Left to Qt it is the text's ink, half seen through: too faint to read.
    field = QLineEdit()
    qtbot.addWidget(field)
    field.ensurePolished()
    assert field.palette().placeholderText().color().name() == worn.shades.quiet


def test_text_is_as_large_as_the_theme_says(worn: Theme, qtbot: QtBot) -> None:
    field = QLineEdit()
    qtbot.addWidget(field)
    field.ensurePolished()
    assert field.font().pointSizeF() == pytest.approx(10 * worn.scale)
    assert field.font().family() == themes.FAMILY


def test_a_line_grows_with_the_text() -> None:
    assert Theme(scale=2.0).line() > Theme(scale=1.0).line() * 1.8


@pytest.mark.parametrize(("setting", "dark"), [("light", False), ("dark", True)])
def test_a_theme_that_is_named_is_worn(qapp: QApplication, setting: str, dark: bool) -> None:
    assert themes.wants_dark(setting) is dark
