"""An officer and a chief seal what is past retention: contents gone, the chain whole, and every
standing from the cutoff on as it was."""

import json
import shutil
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from hashlib import sha256
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewtrack.engine.days import FOREVER
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.spans import intersection
from crewtrack.engine.standings import Standing
from crewtrack.errors import Refused
from crewtrack.facts import KEYS, SIGNOFFS
from crewtrack.office import (
    access,
    asking,
    exporting,
    importing,
    keeping,
    looking_back,
    retention,
    sealing,
)
from crewtrack.office.importing import ImportOrder
from crewtrack.office.office import Office
from crewtrack.office.sealing import Both, Hand, Sealed
from crewtrack.records.journal_lines import journal_lines
from crewtrack.records.signatures import is_signature
from tests.office.identified import BOTH, CHIEF, OFFICER, PHRASES, TOGETHER, name_period, people
from tests.office.test_retention import OLD
from tests.office.unit_at_work import EVIDENCE, Unit, unit_in

MARK = "remark of long ago"
REASON = "past retention, decided in March"


@pytest.fixture(scope="session")
def guarded(made_once: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A record in which people sign in, with a period; not to be written to."""
    folder = tmp_path_factory.mktemp("guarded")
    with unit_in(folder, made_once) as unit:
        people(unit)
        name_period(unit)
    return folder / "record.crewtrack"


@pytest.fixture
def old(guarded: Path, tmp_path: Path) -> Iterator[Unit]:
    """That record with old evidence in it, one sortie of it with a remark."""
    with unit_in(tmp_path, guarded) as unit:
        sign_in(unit)
        take(unit, {**OLD, "sorties": remarked(OLD["sorties"])})
        yield unit


def sign_in(unit: Unit, person: str = CHIEF) -> None:
    access.sign_in(unit.office, person, PHRASES[person])


def take(unit: Unit, given: dict[str, str]) -> None:
    """Import as the chief, which is signed."""
    with access.signing(unit.office, PHRASES[CHIEF]):
        files = unit.files(given)
        importing.import_evidence(unit.office, files, ImportOrder(CHIEF, False, False, None))


def remarked(sorties: str) -> str:
    head, first, *rest = sorties.splitlines()
    return "\n".join([f"{head},remarks", f"{first},{MARK}", *(f"{line}," for line in rest)]) + "\n"


def seal(
    unit: Unit, both: Both = TOGETHER, wanted: Sequence[tuple[str, str]] | None = None
) -> Sealed:
    return sealing.seal(unit.office, wanted, REASON, both)


def faults(
    unit: Unit, both: Both = TOGETHER, wanted: Sequence[tuple[str, str]] | None = None
) -> list[str]:
    """What is refused; the record is as it was."""
    before = unit.head()
    with pytest.raises(Refused) as refusal:
        seal(unit, both, wanted)
    tries = "passphrase" in str(refusal.value)
    assert tries or unit.head() == before
    return [str(fault) for fault in refusal.value.faults]


def test_what_nobody_needs_is_sealed_and_the_rest_stays(old: Unit) -> None:
    days = date(2023, 6, 1), date(2026, 6, 1), date(2030, 1, 1)
    before = rosters(old, *days)
    done = seal(old)
    assert done.facts == 7
    assert done.cleared
    assert {one.key for one in retention.past(old.office).facts} == {"E-1", "S-2"}
    assert keeping.verify(old.office) == ()
    assert rosters(old, *days) == before


def rosters(unit: Unit, *days: date) -> list[tuple[Standing, ...]]:
    return [asking.roster(unit.office, day).rows for day in days]


def test_the_contents_are_in_no_byte_of_the_file(old: Unit) -> None:
    path = old.office.record.path
    log = path.with_name(path.name + "-wal")

    def held() -> bool:
        return any(MARK.encode() in file.read_bytes() for file in (path, log) if file.exists())

    old.office.newest()  # by a connection that stays open
    assert held()
    seal(old)
    assert not held()


def test_both_sign_the_act_that_seals(old: Unit) -> None:
    done = seal(old)
    with old.office.record.reading() as reading:
        lines = list(journal_lines(reading))
        publics = {row[0]: str(row[2]) for row in reading.rows(KEYS)}
    act = next(a for line in lines if (a := json.loads(line).get("act", {})).get("seq") == done.seq)
    assert (act["kind"], act["author"], act["reason"]) == ("seal", CHIEF, REASON)
    signatures = act.pop("signatures")
    assert [one["by"] for one in signatures] == [OFFICER, CHIEF]
    line = json.dumps(act, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
    assert all(is_signature(publics[one["key"]], line, one["signature"]) for one in signatures)
    assert list(act["facts"]) == ["seals"]


def test_the_journal_says_what_was_sealed_and_of_an_act_that_some_of_it_was(old: Unit) -> None:
    imported = old.office.newest()
    done = seal(old)
    detail = looking_back.act_detail(old.office, done.seq)
    assert [(one.kind, one.count) for one in detail.sealed] == [
        ("sorties", 1), ("performances", 2), ("signoffs", 1), ("certificates", 1),
        ("waivers", 1), ("standdowns", 1),
    ]  # fmt: skip
    assert {(str(one.first), str(one.last)) for one in detail.sealed} == {
        ("2026-06-01", "2026-06-01")
    }
    assert looking_back.act_detail(old.office, imported).sealed_by == done.seq
    assert retention.retention_told(old.office).sealed == done.facts


def test_only_what_is_wanted_is_sealed(old: Unit) -> None:
    assert seal(old, wanted=[("waivers", "W-1")]).facts == 1
    assert "D-1" in {one.key for one in retention.past(old.office).facts}


def test_what_is_wanted_and_can_t_be_sealed_is_refused_with_the_reason(old: Unit) -> None:
    assert faults(old, wanted=[("signoffs", "E-1"), ("signoffs", "E-3"), ("waivers", "W-1")]) == [
        "sign-off 'E-1': K-01's Deck pilot rests on it; leave it out",
        "sign-off 'E-3': it is not past retention; leave it out",
    ]


def test_one_person_is_not_enough_whatever_the_duties(old: Unit) -> None:
    sign_in(old, BOTH)
    alone = Hand(BOTH, PHRASES[BOTH])
    assert faults(old, Both(alone, alone)) == [
        "chief: person: one person can't be both; two different people sign it"
    ]
    assert seal(old, Both(alone, TOGETHER.chief)).facts == 7


def test_each_of_the_two_has_the_duty(old: Unit) -> None:
    swapped = Both(TOGETHER.chief, TOGETHER.officer)
    assert [fault.split(":")[0] for fault in faults(old, swapped)] == ["officer", "chief"]


def test_whoever_is_signed_in_is_one_of_the_two(old: Unit) -> None:
    sign_in(old, BOTH)
    assert any("neither of the two" in fault for fault in faults(old))
    access.sign_out(old.office)
    assert any("nobody is signed in" in fault for fault in faults(old))


def test_a_wrong_passphrase_of_either_is_refused_and_counts_as_a_try(old: Unit) -> None:
    wrong = Both(Hand(OFFICER, "not the passphrase at all"), TOGETHER.chief)
    assert faults(old, wrong)[0].startswith("officer: passphrase: this is not the passphrase")
    assert any("too soon" in fault for fault in faults(old, wrong))
    with old.office.record.reading() as reading:
        assert [act.kind for act in reading.acts()][-1] == "sign-in-refused"


def test_where_nobody_is_identified_nobody_seals(full_unit: Unit) -> None:
    assert any("nobody could answer for it" in fault for fault in faults(full_unit))


def test_without_a_reason_nothing_is_sealed(old: Unit) -> None:
    with pytest.raises(Refused, match="sealing needs a reason"):
        sealing.seal(old.office, None, " ", TOGETHER)


def test_where_nothing_can_be_sealed_that_is_said(guarded: Path, tmp_path: Path) -> None:
    with unit_in(tmp_path, guarded) as unit:
        sign_in(unit)
        take(unit, EVIDENCE)
        assert any("nothing that can be sealed" in fault for fault in faults(unit))


def test_a_record_that_is_not_whole_is_not_sealed(old: Unit) -> None:
    with old.office.record.writing() as connection:
        connection.exec_driver_sql("DROP TRIGGER waivers_no_update")
        connection.exec_driver_sql("UPDATE waivers SET reason = 'x' WHERE id = 1")
    assert any("not as it was recorded" in fault for fault in faults(old))


def test_broken_off_it_leaves_the_record_as_it_was(old: Unit) -> None:
    before = old.head()
    seen: list[str] = []

    def stop_at_last(what: str, done: int, total: int) -> None:
        seen.append(what)
        if what == "sealing":
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        sealing.seal(old.office, None, REASON, TOGETHER, stop_at_last)
    assert old.head() == before
    assert "what standings rest on" in seen


def test_what_others_record_meanwhile_makes_it_begin_anew(old: Unit) -> None:
    def meanwhile(what: str, done: int, total: int) -> None:
        if what == "sealing":
            with old.office.record.act("record", "Ana", old.clock()) as act:
                act.note()

    with pytest.raises(Refused, match="changed meanwhile"):
        sealing.seal(old.office, None, REASON, TOGETHER, meanwhile)
    assert len(retention.past(old.office).sealable) == 5


def test_what_was_known_before_no_longer_shows_what_is_sealed(old: Unit) -> None:
    instant = old.clock.at
    old.clock.at += timedelta(days=1)
    seal(old)
    with old.office.view(instant) as view:
        assert "E-2" not in {row[0] for row in view.reading.rows(SIGNOFFS, view.head.seq)}


TASKS = ("hand-recovery", "deck-launch")


def history_of(random: Random) -> dict[str, str]:
    """A small history around the cutoff (2023-06-01), with everything that may be sealed."""
    first = date(2022, 1, 1)

    def day() -> date:
        return first + timedelta(days=random.randrange(1600))

    def span() -> str:
        start = day()
        return f"{start},{start + timedelta(days=random.randrange(80))}"

    who = ("K-01", "K-02", "K-03")
    flown = [f"S-{n},{day()}T10:{n:02d},12,live" for n in range(random.randint(2, 14))]
    done = [
        f"S-{n},{person},hand-recovery,{random.choice((1, 3))}"
        for n in range(len(flown))
        for person in random.sample(who, random.randint(1, 2))
    ]
    signed = [
        f"E-{n},{random.choice(who)},hand-recovery,{day()},alone,"
        f"{random.choice(('passed', 'passed', 'failed'))},V-01,"
        f"{random.choice(('', f'S-{random.randrange(len(flown))}'))}"
        for n in range(random.randint(0, 6))
    ]
    waived = [
        f"W-{n},{random.choice(who)},deck-pilot,{random.choice(('recency', 'signed'))},{span()}"
        ",ice,chief"
        for n in range(random.randint(0, 2))
    ]
    down = [
        f"D-{n},{random.choice(who)},deck-pilot,{span()},knee,chief"
        for n in range(random.randint(0, 2))
    ]
    held = [f"C-{n},{random.choice(who)},medical,{span()}" for n in range(random.randint(0, 4))]
    names = "".join(f"{key},Name {key}\n" for key in (*who, "V-01"))
    assigned = [f"{key},{q},{day()}" for key in who for q in ("deck-pilot", "observer")]
    return {
        "people": f"person,name\n{names}",
        "assignments": _file("person,qualification,from", assigned),
        "sorties": _file("sortie,launched,minutes,setting", flown),
        "performances": _file("sortie,person,task,times", done),
        "signoffs": _file("signoff,person,task,date,level,result,evaluator,sortie", signed),
        "certificates": _file("certificate,person,kind,issued,expires", held),
        "waivers": _file("waiver,person,qualification,requirement,from,through,reason,by", waived),
        "standdowns": _file("standdown,person,qualification,from,through,reason,by", down),
    }


def _file(head: str, lines: Sequence[str]) -> str:
    return "\n".join((head, *lines)) + "\n"


def later(office: Office, cutoff: date) -> object:
    """Every standing, every tenth day from the cutoff on and on the days around it, and the
    history from then on."""
    with office.view() as view:
        told: Reckoning = view.reckoning()
    days = [cutoff + timedelta(days=n) for n in (*range(10), *range(10, 2000, 10))]
    after = ((cutoff.toordinal(), FOREVER),)
    return [told.standings(day) for day in days], {
        (person, key): intersection(told.docket(books, FOREVER).counting(key), after)
        for person, books in told.evidence.books.items()
        for key in told.editions.qualifications
    }


@settings(max_examples=6)
@given(seed=st.integers(0, 10**9))
def test_whatever_is_sealed_no_later_standing_changes_and_the_record_verifies(
    guarded: Path, tmp_path_factory: pytest.TempPathFactory, seed: int
) -> None:
    random, folder = Random(seed), tmp_path_factory.mktemp("history")
    with unit_in(folder, guarded) as unit:
        sign_in(unit)
        take(unit, history_of(random))
        found = retention.past(unit.office)
        before = later(unit.office, found.cutoff)
        if not found.sealable:
            return
        some = [(one.kind, one.key) for one in found.sealable if random.random() < 0.7]
        few = retention.past(unit.office, some)
        wanted = None if seed % 2 else [(one.kind, one.key) for one in few.sealable]
        if wanted == []:
            return
        seal(unit, wanted=wanted)
        assert later(unit.office, found.cutoff) == before
        assert keeping.verify(unit.office) == ()
        check_journal(unit, folder)
    shutil.rmtree(folder)


def check_journal(unit: Unit, folder: Path) -> None:
    """What is written out gives the digests that the acts say."""
    with access.signing(unit.office, PHRASES[CHIEF]):
        exporting.export(unit.office, folder / "out")
    facts: dict[str, object] = {}
    rows: dict[str, list[bytes]] = {}
    for line in (folder / "out" / "journal.jsonl").read_text("utf-8").splitlines():
        told = json.loads(line)
        if "act" in told:
            assert facts == _tallied(rows)
            facts, rows = told["act"]["facts"], {}
        else:
            hashed = bytes.fromhex(told.get("sealed", "")) or sha256(line.encode()).digest()
            rows.setdefault(told["kind"], []).append(hashed)
    assert facts == _tallied(rows)


def _tallied(rows: dict[str, list[bytes]]) -> dict[str, object]:
    return {
        kind: {"count": len(held), "digest": sha256(b"".join(held)).hexdigest()}
        for kind, held in rows.items()
    }
