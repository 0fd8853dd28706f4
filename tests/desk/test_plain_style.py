"""Parts of controls that a style sheet can't size."""

import pytest
from PySide6.QtWidgets import QStyle
from pytestqt.qtbot import QtBot

from crewtrack.desk.plain_style import PlainStyle
from crewtrack.screens.shades import LIGHT

METRIC = QStyle.PixelMetric


@pytest.mark.parametrize(
    "part", [METRIC.PM_IndicatorWidth, METRIC.PM_IndicatorHeight, METRIC.PM_ScrollBarExtent]
)
def test_check_boxes_and_scroll_bars_grow_with_the_text(
    part: QStyle.PixelMetric, qtbot: QtBot
) -> None:
    small, large = PlainStyle(LIGHT, 20), PlainStyle(LIGHT, 40)
    assert large.pixelMetric(part) == 2 * small.pixelMetric(part)
