"""A PDF's pages as pictures: the very bytes that are saved are shown and printed.

Qt's own PDF module lies outside the essentials, and painting a print a second time would leave
two layouts that must agree.
"""

from collections.abc import Iterator
from typing import Final

import pypdfium2
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrinter

from crewtrack.prints.sheet import PaperName

POINTS: Final = 72.0
_PRINTED: Final = 300.0
"""Dots to an inch on paper."""


def pages(pdf: bytes, dots: float) -> Iterator[QImage]:
    """Each page, at so many dots to an inch."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        for number in range(len(document)):
            bitmap = document[number].render(
                scale=dots / POINTS, rev_byteorder=True, prefer_bgrx=True
            )
            image = QImage(
                bitmap.buffer,
                bitmap.width,
                bitmap.height,
                bitmap.stride,
                QImage.Format.Format_RGBX8888,
            )
            yield image.copy()  # the bitmap's memory is the library's
    finally:
        document.close()


def print_pages(pdf: bytes, printer: QPrinter) -> bool:
    """Print a PDF, each page on the whole of its paper; whether the printer took it."""
    painter = QPainter()
    if not painter.begin(printer):
        return False
    for number, image in enumerate(pages(pdf, _PRINTED)):
        if number and not printer.newPage():
            return False
        whole = printer.paperRect(QPrinter.Unit.DevicePixel)
        painter.drawImage(QRectF(0, 0, whole.width(), whole.height()), image)
    return painter.end()


def fit_paper(printer: QPrinter, paper: PaperName) -> None:
    """Set a printer to a print's paper, on its side and without margins: a print has its own."""
    size = QPageSize.PageSizeId.A4 if paper == "A4" else QPageSize.PageSizeId.Letter
    printer.setPageSize(QPageSize(size))
    printer.setPageOrientation(QPageLayout.Orientation.Landscape)
    printer.setFullPage(True)
