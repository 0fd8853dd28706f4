"""The roster read back from paper."""

import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from io import BytesIO
from itertools import combinations
from typing import NamedTuple

import pytest
from pypdf import PdfReader

from crewtrack.engine.standings import Roster
from crewtrack.prints.fonts import REPLACEMENT
from crewtrack.prints.pages import Page
from crewtrack.prints.pieces import Sign, Words
from crewtrack.prints.roster_sheet import render, roster_print
from crewtrack.prints.sheet import MARGIN, PaperName, footer, laid_out
from tests.prints import samples

CASES = {
    "nobody": samples.of(0, 10),
    "nothing": samples.of(5, 0),
    "one": samples.of(1, 1),
    "one person, forty qualifications": samples.of(1, 40),
    "fourteen": samples.of(14, 10),
    "sixty by fifteen": samples.of(60, 15),
    "two hundred": samples.of(200, 15),
    "long names": samples.hard(),
}
PAPERS: tuple[PaperName, ...] = ("A4", "letter")


@cache
def pages(roster: Roster, paper: PaperName = "A4") -> tuple[str, ...]:
    reader = PdfReader(BytesIO(render(roster, paper, "j.ogden")))
    return tuple(page.extract_text() for page in reader.pages)


def unspaced(text: str) -> str:
    return "".join(text.split())


class Box(NamedTuple):
    left: float
    top: float
    right: float
    bottom: float
    told: str

    def overlaps(self, other: "Box") -> bool:
        beside = self.right <= other.left + 0.01 or other.right <= self.left + 0.01
        apart = self.bottom <= other.top + 0.01 or other.bottom <= self.top + 0.01
        return not (beside or apart)


def boxes(page: Page) -> Iterator[Box]:
    """What stands on a page, as tight boxes: capitals' height above the baseline, and a
    little below it."""
    for placed in page.placed:
        for item in placed.piece.items:
            top = placed.y + item.y
            if isinstance(item, Words):
                size = item.style.size
                right = item.x + item.style.width(item.text)
                yield Box(item.x, top - 0.72 * size, right, top + 0.2 * size, item.text)
            elif isinstance(item, Sign):
                yield Box(item.x, top, item.x + item.size, top + item.size, item.word)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("case", list(CASES))
def test_nothing_overlaps_and_nothing_runs_off_the_paper(case: str, paper: PaperName) -> None:
    sheet = roster_print(CASES[case], paper, "j.ogden")
    foot = footer(sheet, (1, 1)).height
    for number, page in enumerate(laid_out(sheet)):
        head = sheet.later if number else sheet.first
        room = sheet.paper.height - 2 * MARGIN - head.height - foot
        found = sorted(boxes(page), key=lambda box: box.top)
        assert all(box.left >= -0.5 and box.right <= sheet.paper.inner + 0.5 for box in found)
        assert all(box.bottom <= room for box in found)
        assert [(a, b) for a, b in near(found) if a.overlaps(b)] == []


def near(found: list[Box]) -> Iterator[tuple[Box, Box]]:
    """Pairs that could overlap, of boxes ordered by their tops."""
    for index, box in enumerate(found):
        for other in found[index + 1 :]:
            if other.top >= box.bottom:
                break
            yield box, other


@pytest.mark.parametrize("paper", PAPERS)
def test_fourteen_people_take_three_pages(paper: PaperName) -> None:
    assert len(pages(samples.of(14, 10), paper)) == 3


def test_the_grid_of_sixty_by_fifteen_takes_three_pages_of_a4() -> None:
    found = laid_out(roster_print(samples.of(60, 15), "A4", "j.ogden"))
    grid = [
        page for page in found if any("Person" in placed.piece.texts() for placed in page.placed)
    ]
    assert len(grid) == 3


def test_names_of_every_script_can_be_searched() -> None:
    first = pages(samples.of(14, 10))[0]
    assert all(name in first for name in samples.NAMES)


def test_cells_read_word_then_date_along_each_row() -> None:
    roster = samples.of(1, 5)
    text = pages(roster)[0]
    row = text[text.index("K-01") :]
    for standing in roster.rows:
        assert standing.word in row
        if standing.through:
            assert f"through {standing.through.isoformat()}" in row


def test_headings_are_repeated_on_every_page_of_the_grid() -> None:
    grid = [text for text in pages(samples.of(40, 3)) if "Person\n" in text]
    assert len(grid) == 3
    for text in grid:
        assert "Deck pilot, under way" in text
        assert "not assigned" in text


def test_the_foot_matches_the_paper_to_the_record_on_every_page() -> None:
    roster = replace(samples.of(14, 10), known_at=samples.KNOWN)
    for number, text in enumerate(found := pages(roster), 1):
        told = " ".join(text.split())
        assert f"Page {number} of {len(found)}" in told
        assert f"{samples.UNIT} · Currency roster for 2026-11-25" in told
        assert "as known at 2026-11-25 14:05+00:00" in told
        assert "edition 2026-1 · printed by j.ogden · journal 3f2a 9c01 77be 4d10" in told
        assert "The master of the boat and the remote pilot decide." in told


def test_the_whole_digest_the_cautions_and_the_signature_close_it() -> None:
    last = pages(samples.of(14, 10))[-1]
    assert samples.HEAD in unspaced(last)
    assert "Chief: signature" in last
    assert "Hand recovery injures." in last


def test_the_lapse_list_follows_the_grid() -> None:
    text = "\n".join(pages(samples.of(14, 10)))
    assert text.index("Current or due") < text.index("What brings it back")
    assert text.count(samples.MISSING[0]) == len(samples.of(14, 10).lapses)


def test_without_a_lapse_the_list_says_so() -> None:
    assert "Nothing has lapsed." in pages(replace(samples.of(1, 1), lapses=()))[0]


def test_without_a_waiver_there_is_no_list_of_them() -> None:
    plain = samples.roster(samples.people(3), samples.qualifications(3), relieved=False)
    assert "Resting on" not in "".join(pages(plain))
    assert "Resting on" in "".join(pages(samples.of(3, 3)))


def test_only_where_somebody_is_stood_down_is_there_a_list_of_them() -> None:
    assert "A broken wrist." in "".join(pages(samples.of(3, 3)))
    assert "Stood down" not in "".join(pages(replace(samples.of(3, 3), standdowns=())))


def test_long_names_are_there_to_the_last_letter() -> None:
    text = unspaced("".join(pages(samples.hard())))
    for person in samples.hard().people[:3]:
        assert unspaced(person.name) in text


def test_letters_that_the_typeface_lacks_are_replaced_and_told() -> None:
    found = pages(samples.hard())
    assert f"{REPLACEMENT * 3} Li" in found[0]
    assert "a letter the typeface lacks" in found[0]
    assert "U+674E" in found[-1]


def test_bookmarks_lead_to_the_grid_the_lists_and_the_closing() -> None:
    reader = PdfReader(BytesIO(render(samples.of(14, 33), "A4", "j.ogden")))
    titles = [getattr(entry, "title", None) for entry in reader.outline]
    assert titles == [
        "Roster, sheet 1 of 3",
        "Roster, sheet 2 of 3",
        "Roster, sheet 3 of 3",
        "Lapsed",
        "Resting on a waiver or an extension",
        "Stood down",
        "Cautions and signature",
    ]


def test_title_and_author_tell_what_it_is() -> None:
    reader = PdfReader(BytesIO(render(samples.of(1, 1), "A4", "j.ogden")))
    assert reader.metadata is not None
    assert reader.metadata.title == f"Currency roster, {samples.UNIT}, 2026-11-25"
    assert reader.metadata.author == "j.ogden"


def test_the_same_roster_gives_the_same_bytes_in_any_process() -> None:
    script = (
        "import hashlib; from tests.prints import samples; "
        "from crewtrack.prints.roster_sheet import render; "
        "print(hashlib.sha256(render(samples.hard(), 'A4', 'x')).hexdigest(), end='')"
    )
    found = {
        subprocess.run(
            [sys.executable, "-c", script],
            env={
                **os.environ,
                "PYTHONHASHSEED": seed,
                "TZ": zone,
                "PYTHONPATH": os.pathsep.join(sys.path),
            },
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    }
    assert len(found) == 1


@pytest.mark.parametrize(
    ("one", "other"),
    list(
        combinations(
            [
                samples.of(2, 2),
                replace(samples.of(2, 2), head="0" * 64),
                replace(samples.of(2, 2), known_at=samples.KNOWN),
                replace(samples.of(2, 2), edition="2026-2"),
            ],
            2,
        )
    ),
)
def test_another_question_gives_other_bytes(one: Roster, other: Roster) -> None:
    assert render(one, "A4", "x") != render(other, "A4", "x")
