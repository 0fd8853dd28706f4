"""What every print has, whatever is on it."""

import re
from io import BytesIO

import pytest
from pypdf import PdfReader
from pypdf.generic import DictionaryObject

from crewtrack.prints.pages import Section
from crewtrack.prints.pieces import Area, Piece, Rule, Sign, written
from crewtrack.prints.sheet import LANDSCAPE, PaperName, Print, footer, render
from crewtrack.prints.wrapping import Style

STYLE = Style("plain", 9.0, "#000000")


def sheet(paper: PaperName = "A4", rows: int = 3, foot: tuple[str, ...] = ("foot",)) -> Print:
    marks = Piece(20, (Rule(0, 1, 50), Area(0, 0, 9, 9, "#123456", 0.5), Sign(0, 0, 8, "due")))
    lines = tuple(written([f"row {number}"], STYLE) for number in range(rows))
    return Print(
        title="A print",
        author="K. Ahti",
        subject="A test",
        paper=LANDSCAPE[paper],
        first=written(["first head"], STYLE),
        later=written(["later head"], STYLE),
        foot=foot,
        sections=(
            Section("One", marks, written(["again"], STYLE), lines),
            Section("Two — Δεύτερο", written(["two"], STYLE), Piece(), ()),
        ),
    )


def read(sheet: Print) -> PdfReader:
    return PdfReader(BytesIO(render(sheet)))


@pytest.mark.parametrize(("paper", "size"), [("A4", (841.89, 595.28)), ("letter", (792, 612))])
def test_the_paper_is_landscape(paper: PaperName, size: tuple[float, float]) -> None:
    box = read(sheet(paper)).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(size, abs=0.01)


def test_every_page_has_its_number_its_count_and_the_foot() -> None:
    reader = read(sheet(rows=120))
    assert len(reader.pages) == 3
    for number, page in enumerate(reader.pages, 1):
        text = page.extract_text()
        assert f"Page {number} of 3" in text
        assert "foot" in text
        assert ("first head" if number == 1 else "later head") in text


def test_title_author_language_and_bookmarks_are_set() -> None:
    reader = read(sheet())
    assert reader.metadata is not None
    assert reader.metadata.title == "A print"
    assert reader.metadata.author == "K. Ahti"
    assert reader.metadata.subject == "A test"
    assert str(reader.root_object["/Lang"]) == "en"
    titles = [getattr(entry, "title", None) for entry in reader.outline]
    assert titles == ["One", "Two — Δεύτερο"]


def test_every_typeface_is_embedded() -> None:
    objects = (found.get_object() for found in map(read(sheet()).get_object, range(1, 40)) if found)
    fonts = [each for each in objects if isinstance(each, DictionaryObject)]
    described = [each for each in fonts if each.get("/Type") == "/FontDescriptor"]
    assert len([each for each in fonts if each.get("/Type") == "/Font"]) == len(described) > 0
    assert all("/FontFile2" in each for each in described)


def test_no_instant_and_no_chance_is_in_the_file() -> None:
    data = render(sheet())
    assert data == render(sheet())
    dates = set(re.findall(rb"/(?:CreationDate|ModDate) \(([^)]*)\)", data))
    assert all(b"2000" in each for each in dates)


def test_a_long_foot_is_wrapped_clear_of_the_page_number() -> None:
    long = sheet(foot=("the unit of the long name " * 20,))
    assert footer(long, (1, 1)).height > footer(sheet(), (1, 1)).height
    assert footer(long, (1, 1)).height == footer(long, (1234, 1234)).height
