"""A journal that was exported is checked without the record, and by a program of somebody else's
the same: whatever is changed in it is found by both."""

import json
import subprocess
import sys
import tempfile
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewtrack.errors import Refused
from crewtrack.office import exported, keeping
from crewtrack.records.signatures import SigningKey
from crewtrack.records.verifying import Break
from tests.journal_checker import check
from tests.office.signed_unit import CHIEF, EVALUATOR, PILOT, ForgedJournal
from tests.office.signed_unit import exported as exported_from

MINE = SigningKey.new(EVALUATOR)
CHECKER = Path(__file__).parents[1] / "journal_checker.py"


@pytest.fixture(scope="session")
def journal(signed_once: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The journal of the unit whose people sign."""
    return exported_from(signed_once, tmp_path_factory.mktemp("exported") / "all")


def found(path: Path) -> tuple[Break, ...]:
    return keeping.verify_journal(path)


def told(path: Path) -> list[str]:
    return [str(one) for one in found(path)]


def with_bytes(content: bytes, folder: Path) -> Path:
    path = folder / "changed.jsonl"
    path.write_bytes(content)
    return path


def test_a_journal_as_it_was_written_is_whole(journal: Path) -> None:
    assert found(journal) == ()
    assert check(journal.read_bytes()) == []


def test_the_other_checker_is_short_and_runs_by_itself(journal: Path) -> None:
    assert len(CHECKER.read_text(encoding="utf-8").splitlines()) < 80
    assert "crewtrack" not in CHECKER.read_text(encoding="utf-8")
    done = subprocess.run([sys.executable, CHECKER, journal], capture_output=True, check=False)
    assert (done.returncode, done.stdout) == (0, b"")


Tamper = Callable[[ForgedJournal], None]


def another_level(forged: ForgedJournal) -> None:
    forged.act("sign-off")[1][0]["row"]["level"] = "supervised"


def swapped_rows(forged: ForgedJournal) -> None:
    rows = forged.act("import")[1]
    rows[0], rows[1] = rows[1], rows[0]


def act_removed(forged: ForgedJournal) -> None:
    forged.acts.remove(forged.act("sign-off"))


def signature_of_another(forged: ForgedJournal) -> None:
    one, other = (forged.act("sign-off", number)[0] for number in (0, 1))
    one["signatures"], other["signatures"] = other["signatures"], one["signatures"]


def key_replaced(forged: ForgedJournal) -> None:
    for act, rows in forged.acts:
        for line in rows:
            if line["kind"] == "keys" and line["row"]["person"] == EVALUATOR:
                line["row"] |= {"key": MINE.key, "public": MINE.public}
        if act["author"] == EVALUATOR:
            act["signatures"] = "forge"


def key_of_another(forged: ForgedJournal) -> None:
    for _, rows in forged.acts:
        for line in rows:
            if line["kind"] == "keys" and line["row"]["person"] == PILOT:
                line["row"]["person"] = EVALUATOR


def sealed_by_nobody(forged: ForgedJournal) -> None:
    rows = forged.act("sign-off")[1]
    rows[0] = {"kind": "signoffs", "sealed": "0" * 64}


TAMPERS: dict[str, Tamper] = {
    "a value in a row": another_level,
    "two rows swapped": swapped_rows,
    "an act removed": act_removed,
    "the signature of another act": signature_of_another,
    "a key replaced, and all of its signatures": key_replaced,
    "a key given to another": key_of_another,
    "a row sealed by nobody": sealed_by_nobody,
}


@pytest.mark.parametrize("tamper", TAMPERS)
def test_what_is_changed_and_digested_anew_is_found_by_both(
    journal: Path, tmp_path: Path, tamper: str
) -> None:
    forged = ForgedJournal.read(journal)
    TAMPERS[tamper](forged)
    path = forged.write(tmp_path / "forged.jsonl", MINE)
    assert found(path)
    assert check(path.read_bytes())


def one_byte(whole: bytes, place: int, other: int) -> bytes:
    place %= len(whole)
    return whole[:place] + bytes([whole[place] ^ other]) + whole[place + 1 :]


def line_gone(whole: bytes, place: int, _: int) -> bytes:
    parts = whole.splitlines(keepends=True)
    del parts[place % len(parts)]
    return b"".join(parts)


def lines_swapped(whole: bytes, place: int, other: int) -> bytes:
    parts = whole.splitlines(keepends=True)
    one, two = place % len(parts), (place + other) % len(parts)
    parts[one], parts[two] = parts[two], parts[one]
    return b"".join(parts)


def line_twice(whole: bytes, place: int, other: int) -> bytes:
    parts = whole.splitlines(keepends=True)
    parts.insert((place + other) % len(parts), parts[place % len(parts)])
    return b"".join(parts)


def cut(whole: bytes, place: int, _: int) -> bytes:
    return whole[: place % len(whole)]


CHANGES = (one_byte, line_gone, lines_swapped, line_twice, cut)


@settings(max_examples=200)
@given(st.sampled_from(CHANGES), st.integers(0, 2**20), st.integers(1, 255))
def test_both_say_the_same_of_whatever_is_changed(
    journal: Path, change: Callable[[bytes, int, int], bytes], place: int, other: int
) -> None:
    changed = change(journal.read_bytes(), place, other)
    with tempfile.TemporaryDirectory() as folder:
        path = with_bytes(changed, Path(folder))
        try:
            whole = not found(path)
        except Refused:
            whole = False
    assert whole == (not check(changed))
    assert not whole or journal.read_bytes().startswith(changed)


@settings(max_examples=100)
@given(st.data())
def test_both_say_the_same_of_whatever_is_changed_and_digested_anew(
    journal: Path, data: st.DataObject
) -> None:
    forged = ForgedJournal.read(journal)
    places = [(act, row, name) for act, (_, rows) in enumerate(forged.acts)
              for row, line in enumerate(rows) for name in line["row"]]  # fmt: skip
    act, row, name = data.draw(st.sampled_from(places))
    values = [line["row"][name] for _, rows in forged.acts for line in rows if name in line["row"]]
    held = forged.acts[act][1][row]["row"]
    before = held[name]
    held[name] = data.draw(st.sampled_from([*values, "K-01", "2026-06-02"]))
    with tempfile.TemporaryDirectory() as folder:
        path = forged.write(Path(folder) / "forged.jsonl")
        whole = not found(path)
    assert whole == (not check(path_bytes(forged)))
    assert whole == (held[name] == before)


def path_bytes(forged: ForgedJournal) -> bytes:
    """What the forged journal was written as."""
    with tempfile.TemporaryDirectory() as folder:
        return forged.write(Path(folder) / "again.jsonl").read_bytes()


@pytest.mark.parametrize(
    ("line", "problem"),
    [
        (b"{", "it can't be read"),
        (b"", "it can't be read"),
        (b"\xff", "it can't be read"),
        (b"[" * 100_000, "it can't be read"),
        (b"[1e999]", "it can't be read"),
        (b"[]", "it is not in canonical form"),
        (b'{"kind": "people"}', "it is not in canonical form"),
        (b'{"act":1,"act":2}', "it is not in canonical form"),
        (b'{"act":1}', "it is no act"),
        (b'{"act":{},"digest":"' + b"0" * 64 + b'"}', "it is no act"),
        (b'{"kind":"people","revision":1,"row":1}', "it is neither an act nor a row"),
        (b'{"kind":"people","revision":1,"row":{}}', "its row has no key"),
        (b'{"kind":"people","revision":1,"row":{"person":"K-9"}}', "is not one of its kind"),
        (b'{"kind":"keys","revision":1,"row":{"key":[]}}', "its row has no key"),
        (b'{"kind":"editions","revision":1,"row":{}}', "is not one of its kind"),
        (b'{"kind":"seals","revision":1,"row":{}}', "is not one of its kind"),
    ],
)
def test_a_line_that_is_none_is_told_with_its_number(
    journal: Path, tmp_path: Path, line: bytes, problem: str
) -> None:
    path = with_bytes(journal.read_bytes() + line + b"\n", tmp_path)
    number = len(journal.read_bytes().splitlines()) + 1
    assert any(f", line {number}: " in one and problem in one for one in told(path))


def test_reading_stops_where_nothing_is_as_it_should_be(
    journal: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(exported, "_MOST", 3)
    path = with_bytes(journal.read_bytes() + b"{\n" * 9, tmp_path)
    assert [one.problem for one in found(path)][:4] == [
        *["it can't be read"] * 3,
        "after this line nothing more was read",
    ]


@pytest.mark.parametrize("content", [b"", b"\n\n", b"edition = 1\n", b"%PDF-1.7\n\xff", b"[]"])
def test_a_file_that_is_no_journal_is_refused(tmp_path: Path, content: bytes) -> None:
    with pytest.raises(Refused, match="this is no journal"):
        found(with_bytes(content, tmp_path))


def test_rows_that_an_act_sealed_are_no_break(journal: Path, tmp_path: Path) -> None:
    forged = ForgedJournal.read(journal)
    _, rows = forged.act("import")
    path = forged.write(tmp_path / "whole.jsonl")
    digest = digest_of(path, '"vessel":"V-1"')
    act = next(number for number, (_, held) in enumerate(forged.acts, 1) if held is rows)
    before = rows[0]
    rows[0] = {"kind": "vessels", "sealed": digest}
    seal = {"digest": digest, "entry": 1, "kind": "vessels", "of": act, "revision": 1, "row": 1}
    forged.add(CHIEF, "seal", {"kind": "seals", "revision": 1, "row": seal})
    problems = {one.problem for one in found(with_sealed(forged, before, tmp_path))}
    assert problems == {
        "an officer and a chief, two people, had to sign it together",
        "to seal what is past retention takes a signature, and there is none",
    }


def digest_of(path: Path, text: str) -> str:
    line = next(one for one in path.read_text(encoding="utf-8").splitlines() if text in one)
    return sha256(line.encode()).hexdigest()


def with_sealed(forged: ForgedJournal, before: dict[str, object], folder: Path) -> Path:
    """The forged journal, written, with the act of the sealed row as it was recorded."""
    path = folder / "sealed.jsonl"
    rows = forged.act("import")[1]
    sealed, rows[0] = rows[0], before
    text = forged.write(path).read_text(encoding="utf-8")
    whole = json.dumps(before, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    rows[0] = sealed
    text = text.replace(whole, json.dumps(sealed, sort_keys=True, separators=(",", ":")))
    path.write_text(text, encoding="utf-8", newline="")
    return path
