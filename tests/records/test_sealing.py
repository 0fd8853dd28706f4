"""Facts whose contents are taken out: what is left, and that nothing else can pass for it."""

import json
from hashlib import sha256

import pytest
import rfc8785

from crewtrack import facts
from crewtrack.records.journal_lines import journal_lines
from crewtrack.records.sealing import sealed_facts, sealed_kinds
from crewtrack.records.signatures import SigningKey
from crewtrack.records.store import Record
from crewtrack.records.verifying import verify
from tests.behind_its_back import change
from tests.records.samples import ROWS, at

MARK = "read from a wet note book"
GONE = {"sorties": [2], "performances": [3, 4], "signoffs": [1]}
"""S-1 with its performances, and G-1; both were revised."""


def put_mark(record: Record) -> None:
    """A text of its own in S-1, and later rows, so that nothing of it is the newest."""
    with record.act("correct", "officer", at(5), "found again") as act:
        held = act.current(facts.SORTIES)[("S-1",)]
        row = (*held.row[:-1], MARK)
        act.revise(facts.SORTIES, [(held.entry, held.number, row)])
        act.add(facts.SORTIES, [("S-9", *ROWS[facts.SORTIES][0][1:])])
        act.add(facts.PERFORMANCES, [("S-9", *ROWS[facts.PERFORMANCES][1][1:])])
        act.add(facts.SIGNOFFS, [("G-9", *ROWS[facts.SIGNOFFS][1][1:])])


def seal(record: Record) -> int:
    with record.sealing("officer", at(6), "past retention") as act:
        rows = act.seal(GONE)
        act.sign("2026-2", SigningKey.new("K-07"), SigningKey.new("K-11"))
    return rows


@pytest.fixture
def sealed(record: Record) -> Record:
    put_mark(record)
    assert verify(record) == ()
    seal(record)
    return record


def test_a_record_with_sealed_rows_verifies(sealed: Record) -> None:
    assert verify(sealed) == ()


def test_all_revisions_of_what_is_sealed_are_gone(sealed: Record) -> None:
    with sealed.reading() as reading:
        assert reading.revisions(facts.SORTIES, ("S-1",)) == ()
        assert {row[0] for row in reading.rows(facts.SIGNOFFS)} == {"G-2", "G-9"}
        assert "S-1" not in {row[0] for row in reading.rows(facts.PERFORMANCES)}


def test_what_was_sealed_can_be_told_by_kind(sealed: Record) -> None:
    with sealed.reading() as reading:
        told = sealed_kinds(reading.connection, 6)
        assert [(one.kind, one.count) for one in told] == [
            ("sorties", 3),
            ("performances", 2),
            ("signoffs", 2),
        ]
        assert (told[0].first, told[0].last) == (at(2), at(5))
        assert sealed_facts(reading.connection) == 4


def holds_mark(record: Record) -> bool:
    """Whether the text lies anywhere in the file or in its log."""
    log = record.path.with_name(record.path.name + "-wal")
    files = [one for one in (record.path, log) if one.exists()]
    return any(MARK.encode() in one.read_bytes() for one in files)


def test_the_removed_text_is_in_no_byte_of_the_file_or_its_log(record: Record) -> None:
    record.head_seq()  # by a connection that stays open, so that the log stays
    put_mark(record)
    assert holds_mark(record)
    seal(record)
    assert holds_mark(record), "in the log, until that is emptied"
    assert record.clear()
    assert not holds_mark(record)
    assert verify(record) == ()


def test_what_is_sealed_is_overwritten_with_the_act_itself(record: Record) -> None:
    put_mark(record)
    assert holds_mark(record)
    seal(record)
    assert not holds_mark(record)


def test_while_somebody_reads_the_log_is_kept_and_that_is_said(sealed: Record) -> None:
    with Record.open(sealed.path) as other, other.reading() as reading:
        assert reading.head().seq == 6
        assert not sealed.clear()
    assert sealed.clear()


def test_nothing_is_sealed_where_it_is_still_referred_to(record: Record) -> None:
    put_mark(record)
    with (
        pytest.raises(ValueError, match="refers to nothing"),
        record.sealing("officer", at(6), "x") as act,
    ):
        act.seal({"sorties": [2]})
    assert verify(record) == ()
    with record.reading() as reading:
        assert reading.head().seq == 5


def test_the_newest_row_of_a_table_stays(record: Record) -> None:
    with (
        pytest.raises(ValueError, match="is the newest"),
        record.sealing("officer", at(6), "x") as act,
    ):
        act.seal({"standdowns": [2]})
    assert verify(record) == ()


def test_recording_goes_on_after_a_sealing(sealed: Record) -> None:
    with sealed.act("record", "officer", at(7)) as act:
        act.add(facts.SORTIES, [("S-1", *ROWS[facts.SORTIES][0][1:])])
    assert verify(sealed) == ()


def test_the_exported_journal_gives_every_digest_with_what_is_sealed_in_its_place(
    sealed: Record,
) -> None:
    with sealed.reading() as reading:
        lines = list(journal_lines(reading))
    acts: list[tuple[dict[str, object], dict[str, list[bytes]]]] = []
    for line in lines:
        told = json.loads(line)
        assert rfc8785.dumps(told).decode() == line
        if "act" in told:
            acts.append((told["act"]["facts"], {}))
            continue
        hashed = bytes.fromhex(told.get("sealed", "")) or sha256(line.encode()).digest()
        acts[-1][1].setdefault(told["kind"], []).append(hashed)
    for facts_told, rows in acts:
        assert facts_told == {
            kind: {"count": len(digests), "digest": sha256(b"".join(digests)).hexdigest()}
            for kind, digests in rows.items()
        }
    seals = [json.loads(line)["row"] for line in lines if '"kind":"seals"' in line]
    marks = [json.loads(line)["sealed"] for line in lines if '"sealed":' in line]
    assert len(seals) == 7
    assert sorted(one["digest"] for one in seals) == sorted(marks)


TAMPERINGS = {
    "another digest": "UPDATE seals SET digest = zeroblob(32) WHERE id = 2",
    "another row": "UPDATE seals SET row = 99 WHERE id = 3",
    "another entry": "UPDATE seals SET entry = 99 WHERE id = 1",
    "another kind": "UPDATE seals SET kind = 'people' WHERE id = 1",
    "another act sealed it": "UPDATE seals SET act = 5 WHERE id = 7",
    "another act recorded it": 'UPDATE seals SET "of" = 1 WHERE id = 7',
    "text for a number": "UPDATE seals SET row = 'x' WHERE id = 7",
    "a seal gone": "DELETE FROM seals WHERE id = 7",
    "all seals gone": "DELETE FROM seals",
    "a row gone without a seal": "DELETE FROM waivers WHERE id = 1",
    "a row gone with a seal of nobody's": (
        "INSERT INTO seals SELECT 8, 6, 'sorties', id, entry, revision, act, digest FROM sorties"
        " WHERE id = 3"
    ),
    "a sealed row back": (
        "INSERT INTO signoffs SELECT 1, 1, 1, 2, 'G-1', person_id, task, date, level, result,"
        " evaluator_id, sortie_id, remarks, withdrawn, withdrawn_by, withdrawn_reason, digest,"
        " struck FROM signoffs WHERE id = 2"
    ),
}


@pytest.mark.parametrize("how", TAMPERINGS)
def test_whatever_is_changed_about_a_seal_is_found(sealed: Record, how: str) -> None:
    change(sealed.path, TAMPERINGS[how])
    assert verify(sealed)


def test_a_sealing_that_one_person_signed_is_a_break(record: Record) -> None:
    put_mark(record)
    one = SigningKey.new("K-07")
    with record.sealing("officer", at(6), "past retention") as act:
        act.seal(GONE)
        act.sign("2026-2", one, one)
    assert [found.problem for found in verify(record)] == ["two people sign what is sealed"]
