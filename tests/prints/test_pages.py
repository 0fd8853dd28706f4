from crewtrack.prints.pages import Page, Section, set_on_pages
from crewtrack.prints.pieces import Piece, Words
from crewtrack.prints.wrapping import Style

STYLE = Style("plain", 8.0, "#000000")


def piece(name: str, height: float) -> Piece:
    return Piece(height, (Words(0, 8, name, STYLE),))


def section(name: str, rows: list[float], *, whole: bool = False) -> Section:
    made = tuple(piece(f"{name}{number}", height) for number, height in enumerate(rows))
    opening, again, top = piece(f"{name}!", 10), piece(f"{name}…", 10), piece("^", 5)
    return Section(name, opening, again, made, whole, top, gap=0)


def told(pages: tuple[Page, ...]) -> list[str]:
    return [" ".join(text for p in page.placed for text in p.piece.texts()) for page in pages]


def test_the_heading_is_repeated_on_every_further_page() -> None:
    pages = set_on_pages([section("a", [30] * 5)], (80, 80))
    assert told(pages) == ["^ a! a0 a1", "^ a… a2 a3", "^ a… a4"]


def test_the_first_page_may_hold_less_than_the_others() -> None:
    pages = set_on_pages([section("a", [30] * 5)], (50, 110))
    assert told(pages) == ["^ a! a0", "^ a… a1 a2 a3", "^ a… a4"]


def test_a_heading_is_not_left_alone_at_the_foot_of_a_page() -> None:
    pages = set_on_pages([section("a", [30]), section("b", [30, 30])], (100, 100))
    assert told(pages) == ["^ a! a0", "^ b! b0 b1"]


def test_what_comes_first_on_a_page_has_its_top_and_what_follows_has_none() -> None:
    pages = set_on_pages([section("a", [30]), section("b", [30])], (100, 100))
    assert told(pages) == ["^ a! a0 b! b0"]


def test_a_whole_section_moves_to_a_new_page_rather_than_run_over() -> None:
    pages = set_on_pages([section("a", [30]), section("b", [20, 20, 20], whole=True)], (100, 100))
    assert told(pages) == ["^ a! a0", "^ b! b0 b1 b2"]


def test_a_whole_section_longer_than_a_page_starts_on_its_own_and_runs_over() -> None:
    pages = set_on_pages([section("a", [5]), section("b", [30] * 4, whole=True)], (100, 100))
    assert told(pages) == ["^ a! a0", "^ b! b0 b1", "^ b… b2 b3"]


def test_bookmarks_lead_to_where_a_section_begins() -> None:
    pages = set_on_pages([section("a", [30]), section("b", [30])], (100, 100))
    assert pages[0].bookmarks == (("a", 0), ("b", 45))


def test_a_row_higher_than_a_page_does_not_turn_pages_for_ever() -> None:
    pages = set_on_pages([section("a", [500, 500])], (100, 100))
    assert told(pages) == ["^ a! a0", "^ a… a1"]
