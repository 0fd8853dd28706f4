"""Files of evidence out, and back in."""

import unicodedata
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.facts import KINDS, PEOPLE, PERFORMANCES, SORTIES, Row
from crewtrack.files.evidence_files import read
from crewtrack.files.evidence_writer import write
from crewtrack.files.harmless import as_meant, harmless

DETROIT = ZoneInfo("America/Detroit")


def ignore(place: str, done: int, total: int) -> None:
    """Progress that nobody watches."""


SORTIE: Row = (
    *("S-1", datetime(2026, 11, 25, 6, 40, tzinfo=timezone(timedelta(hours=-5))), 20, "live"),
    *(None, "Q-1", 47.0, -88.5731, "drifting", 3, 240.0, 12.5, None, None, None, None),
    *("night", "fog\nin the harbour", None, '=HYPERLINK("x")'),
)


def test_a_sortie_is_written_in_its_shortest_form(tmp_path: Path) -> None:
    path = write(tmp_path, SORTIES, [SORTIE])
    header, row = path.read_bytes().decode().removesuffix("\r\n").split("\r\n")
    assert header.split(",") == list(SORTIES.names)
    assert row == (
        "S-1,2026-11-25T06:40-05:00,20,live,,Q-1,47,-88.5731,drifting,3,240,12.5,,,,,"
        'night,"fog\nin the harbour",,"\'=HYPERLINK(""x"")"'
    )


def test_how_often_a_task_was_done_is_always_written(tmp_path: Path) -> None:
    row: Row = ("S-1", "K-1", "deck-launch", 1, None, None, None, None)
    assert b"S-1,K-1,deck-launch,1,,,,\r\n" in write(tmp_path, PERFORMANCES, [row]).read_bytes()


def test_a_kind_without_rows_is_a_header(tmp_path: Path) -> None:
    path = write(tmp_path, PEOPLE, [])
    assert path.read_bytes() == b"person,name,joined,left,born,email,duties\r\n"
    assert read([path], DETROIT, ignore).faults == ()


def test_every_kind_is_written_under_its_name(tmp_path: Path) -> None:
    for kind in KINDS:
        write(tmp_path, kind, [])
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(
        f"{k.name}.csv" for k in KINDS
    )


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x", "'=1", "''-x", "＝1", "\t=1"])
def test_text_that_a_spreadsheet_would_run_starts_with_an_apostrophe(text: str) -> None:
    assert harmless(text) == "'" + text
    assert as_meant(harmless(text)) == text


@pytest.mark.parametrize("text", ["K-07", "'tis", "a=b", "", "'"])
def test_other_text_is_written_as_it_is(text: str) -> None:
    assert harmless(text) == text
    assert as_meant(text) == text


@given(st.text(alphabet="'=+-@\tab＝"))
def test_harmless_text_is_always_read_as_it_was_meant(text: str) -> None:
    assert as_meant(harmless(text)) == text


HIDDEN = ("Cc", "Cs", "Cf", "Zl", "Zp")
TEXTS = (
    st.text(
        st.characters(exclude_categories=["Cc", "Cs", "Cf", "Zl", "Zp"]), min_size=1, max_size=30
    )
    | st.text(alphabet="'=+-@,;\"x", min_size=1, max_size=8)
).map(lambda text: "x" if not text.strip() else text.strip())
DAYS = st.none() | st.dates(date(1900, 1, 1))


@given(
    st.lists(
        st.tuples(TEXTS, TEXTS, DAYS, st.none() | TEXTS, st.sampled_from([(), ("pilot", "chief")])),
        max_size=5,
        unique_by=lambda row: row[0],
    )
)
def test_people_written_are_the_people_read(
    tmp_path_factory: pytest.TempPathFactory, drawn: list[tuple[object, ...]]
) -> None:
    rows = [
        tuple(
            unicodedata.normalize("NFC", value) if isinstance(value, str) else value
            for value in (key, name, None, None, born, email, duties)
        )
        for key, name, born, email, duties in drawn
    ]
    rows = list({row[0]: row for row in rows}.values())
    path = write(tmp_path_factory.mktemp("people"), PEOPLE, rows)  # type: ignore[arg-type]  # drawn
    found = read([path], DETROIT, ignore)
    assert found.faults == ()
    assert list(found.sheets[0].rows) == rows


def test_sorties_written_are_the_sorties_read(tmp_path: Path) -> None:
    other: Row = ("S-2", datetime(2026, 1, 1, tzinfo=UTC), 0, "drill", *[None] * 16)
    found = read([write(tmp_path, SORTIES, [SORTIE, other])], DETROIT, ignore)
    assert found.faults == ()
    assert list(found.sheets[0].rows) == [SORTIE, other]
    launched = found.sheets[0].rows[0][1]
    assert isinstance(launched, datetime)
    assert launched.utcoffset() == timedelta(hours=-5)
