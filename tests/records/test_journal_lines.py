"""The journal written out can be checked with nothing but SHA-256 and a JSON reader."""

import json
from hashlib import sha256

import rfc8785

from crewtrack.records.journal_lines import journal_lines
from crewtrack.records.store import Record
from tests.records.samples import ROWS, strike_some


def sha(text: str) -> str:
    return sha256(text.encode()).hexdigest()


def test_every_line_is_in_canonical_form(record: Record) -> None:
    with record.reading() as reading:
        for line in journal_lines(reading):
            assert rfc8785.dumps(json.loads(line)).decode() == line


def test_the_chain_holds_from_the_first_line_to_the_head(record: Record) -> None:
    previous = "0" * 64
    with record.reading() as reading:
        for line in journal_lines(reading):
            told = json.loads(line)
            if "act" in told:
                assert told["act"]["previous"] == previous
                previous = told["digest"]
                assert sha(line.removeprefix('{"act":').rpartition(',"digest":')[0]) == previous
        assert reading.head().digest == previous


def test_an_acts_rows_follow_it_and_give_the_digests_that_it_tells(record: Record) -> None:
    with record.reading() as reading:
        lines = list(journal_lines(reading))
    acts: list[tuple[dict[str, object], dict[str, list[bytes]]]] = []
    for line in lines:
        told = json.loads(line)
        if "act" in told:
            acts.append((told["act"]["facts"], {}))
        else:
            acts[-1][1].setdefault(told["kind"], []).append(sha256(line.encode()).digest())
    for told, rows in acts:
        assert told == {
            kind: {"count": len(digests), "digest": sha256(b"".join(digests)).hexdigest()}
            for kind, digests in rows.items()
        }
    assert {kind: len(digests) for kind, digests in acts[1][1].items()} == {
        kind.name: len(rows) for kind, rows in ROWS.items()
    }


def test_a_line_that_strikes_a_fact_out_says_so_and_has_the_digest_of_its_row(
    record: Record,
) -> None:
    strike_some(record)
    with record.reading() as reading:
        lines = list(journal_lines(reading))
        digests = reading.connection.exec_driver_sql(
            "SELECT digest FROM performances WHERE struck UNION ALL"
            " SELECT digest FROM waivers WHERE struck"
        )
        wanted = [digest.hex() for digest in digests.scalars()]
    struck = [line for line in lines if json.loads(line).get("struck")]
    assert [sha(line) for line in struck] == wanted
    assert [rfc8785.dumps(json.loads(line)).decode() for line in struck] == struck


def test_the_journal_can_be_told_as_of_an_earlier_act(record: Record) -> None:
    with record.reading() as reading:
        whole = list(journal_lines(reading))
        before = list(journal_lines(reading, 3))
    assert whole[: len(before)] == before
    assert json.loads(whole[len(before)])["act"]["seq"] == 4
