from datetime import UTC, datetime, timedelta, timezone

from crewtrack.prints.closing import (
    Provenance,
    closing,
    grouped,
    note_on_lacking,
    short,
    told_known_at,
)
from tests.prints.samples import HEAD


def test_a_digest_is_grouped_by_fours() -> None:
    assert grouped(HEAD)[:3] == ("3f2a", "9c01", "77be")
    assert "".join(grouped(HEAD)) == HEAD


def test_the_short_form_is_the_first_sixteen_digits() -> None:
    assert short(HEAD) == "3f2a 9c01 77be 4d10"


def test_a_record_without_acts_has_no_digest_yet() -> None:
    assert short("") == "none yet"


def test_the_instant_is_told_with_its_offset_and_no_more_digits_than_it_has() -> None:
    east = timezone(timedelta(hours=-5))
    assert told_known_at(datetime(2026, 11, 25, 9, 5, tzinfo=east)) == "2026-11-25 09:05-05:00"
    whole = datetime(2026, 11, 25, 9, 5, 1, 250, tzinfo=UTC)
    assert told_known_at(whole) == "2026-11-25 09:05:01.000250+00:00"


def test_no_instant_is_the_latest_entry() -> None:
    assert told_known_at(None) == "the latest entry"


def test_the_note_names_every_character_that_was_replaced() -> None:
    (note,) = note_on_lacking(("李", "🚤"))
    assert "U+674E, U+1F6A4" in note
    assert note_on_lacking(()) == ()


def test_the_whole_digest_the_cautions_and_a_place_to_sign_are_there() -> None:
    part = closing(Provenance("2026-1", None, HEAD, "K. Ahti"), (), "Chief", 700)
    told = " ".join(part.rows[0].texts())
    assert "".join(grouped(HEAD)) in told.replace(" ", "")
    for words in ("remote pilot decide", "Local law", "helmet", "Chief: signature", "Date"):
        assert words in told
