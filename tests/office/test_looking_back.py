"""The journal, looked through from its newest act back."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from crewtrack.office import keeping
from crewtrack.office.importing import ImportOrder, import_evidence
from crewtrack.office.looking_back import (
    SetBack,
    Sought,
    act_detail,
    act_kinds,
    acts_back,
    clock_set_back,
)
from crewtrack.office.office import Office
from crewtrack.office.record_told import record_told

STANDARD = """
edition = "1"
effective = 2026-01-01
zone = "America/Detroit"
[tasks.recovery]
[qualifications.deck]
needs = [{ recent = "recovery", times = 1, within = "P90D" }]
"""
START = datetime(2026, 3, 1, 12, tzinfo=UTC)


class Clock:
    """A clock that a test sets."""

    def __init__(self) -> None:
        self.at = START

    def __call__(self) -> datetime:
        return self.at


def people(folder: Path, *lines: str) -> list[Path]:
    """A file of people."""
    file = folder / "people.csv"
    file.write_text("\n".join(("person,name", *lines)), encoding="utf-8")
    return [file]


@pytest.fixture
def office(tmp_path: Path) -> Iterator[Office]:
    """A record with four acts on four days: adopted, two people, one of them revised, a third."""
    clock = Clock()
    (tmp_path / "standard.toml").write_text(STANDARD, encoding="utf-8")
    keeping.init(tmp_path / "unit.crewtrack", tmp_path / "standard.toml", "Chief", clock)
    with Office.open(tmp_path / "unit.crewtrack", clock) as opened:
        clock.at = START + timedelta(days=1)
        import_evidence(opened, people(tmp_path, "K-01,Ann", "K-02,Bo"), ImportOrder("Ann"))
        clock.at = START + timedelta(days=2)
        order = ImportOrder("Bo", revise=True, reason="Misspelt")
        import_evidence(opened, people(tmp_path, "K-01,Anne"), order)
        clock.at = START + timedelta(days=3)
        import_evidence(opened, people(tmp_path, "K-03,Cy"), ImportOrder("Ann"))
        yield opened


def seqs(office: Office, sought: Sought, before: int | None = None, most: int = 200) -> list[int]:
    """The places in the chain of the acts that are found."""
    return [act.seq for act in acts_back(office, sought, before, most)]


def test_the_newest_act_comes_first(office: Office) -> None:
    assert seqs(office, Sought()) == [4, 3, 2, 1]


def test_reads_on_from_where_it_stopped(office: Office) -> None:
    assert seqs(office, Sought(), most=2) == [4, 3]
    assert seqs(office, Sought(), before=3, most=2) == [2, 1]
    assert seqs(office, Sought(), before=1) == []


@pytest.mark.parametrize(
    ("sought", "found"),
    [
        (Sought("ann"), [4, 2]),
        (Sought("misspelt"), [3]),
        (Sought(kind="import"), [4, 3, 2]),
        (Sought(kind="adopt"), [1]),
        (Sought(first=date(2026, 3, 3)), [4, 3]),
        (Sought(last=date(2026, 3, 2)), [2, 1]),
        (Sought("ann", "import", date(2026, 3, 2), date(2026, 3, 2)), [2]),
        (Sought("nobody"), []),
    ],
)
def test_finds_by_text_kind_and_days(office: Office, sought: Sought, found: list[int]) -> None:
    assert seqs(office, sought) == found


def test_a_filter_and_a_limit_go_together(office: Office) -> None:
    assert seqs(office, Sought(kind="import"), most=1) == [4]
    assert seqs(office, Sought(kind="import"), before=4, most=1) == [3]


def test_an_act_tells_who_when_why_and_how_much(office: Office) -> None:
    act = acts_back(office, Sought("misspelt"))[0]
    assert (act.author, act.kind, act.reason) == ("Bo", "import", "Misspelt")
    assert act.at.isoformat() == "2026-03-03T07:00:00-05:00"
    assert (act.count, dict(act.counts)) == (1, {"people": 1})
    assert len(act.digest) == 64


def test_an_act_tells_what_was_new(office: Office) -> None:
    detail = act_detail(office, 2)
    assert detail.total == 2
    assert [(fact.key, fact.revision, fact.before) for fact in detail.facts] == [
        (("K-01",), 1, None),
        (("K-02",), 1, None),
    ]


def test_an_act_tells_what_was_there_before_it(office: Office) -> None:
    [fact] = act_detail(office, 3).facts
    assert fact.revision == 2
    assert fact.row[1] == "Anne"
    assert fact.before is not None
    assert fact.before[1] == "Ann"


def test_an_act_tells_the_edition_it_adopted(office: Office) -> None:
    detail = act_detail(office, 1)
    assert (detail.total, detail.facts, detail.editions) == (0, (), ("1",))


def test_of_a_large_act_only_the_first_facts_are_read(office: Office) -> None:
    detail = act_detail(office, 2, most=1)
    assert detail.total == 2
    assert [fact.key for fact in detail.facts] == [("K-01",)]


def test_the_kinds_of_act_are_those_that_came(office: Office) -> None:
    assert act_kinds(office) == ("adopt", "import")


def test_a_record_tells_what_it_holds(office: Office) -> None:
    told = record_told(office)
    assert told.path == office.record.path
    assert told.size >= told.path.stat().st_size > 0
    assert told.facts["people"] == 3
    assert (told.editions, told.acts) == (1, 4)
    assert told.last is not None
    assert told.digest == told.last.digest


def set_back(office: Office, tmp_path: Path, *years: int) -> list[int]:
    """One act more for each year, that much earlier than the acts before; their places."""
    clock = office.clock
    assert isinstance(clock, Clock)
    found = []
    for number, year in enumerate(years):
        clock.at = START + timedelta(days=4, hours=number) - timedelta(days=365 * year)
        import_evidence(office, people(tmp_path, f"K-{number + 50},Dee"), ImportOrder("Dee"))
        found.append(office.newest())
    return found


def test_acts_stay_in_the_order_of_the_chain_when_the_clock_is_set_back(
    office: Office, tmp_path: Path
) -> None:
    assert set_back(office, tmp_path, 1, 1, 0) == [5, 6, 7]
    assert seqs(office, Sought()) == [7, 6, 5, 4, 3, 2, 1]
    assert keeping.verify(office) == ()


def test_an_act_that_is_dated_before_an_earlier_one_names_that(
    office: Office, tmp_path: Path
) -> None:
    set_back(office, tmp_path, 1, 1, 0)
    assert {act.seq: act.after for act in acts_back(office, Sought()) if act.after} == {5: 4, 6: 4}
    (found,) = acts_back(office, Sought("Dee"), before=6)
    assert (found.seq, found.after) == (5, 4)


def test_where_a_clock_went_back_is_told_once_for_all_acts_after_it(
    office: Office, tmp_path: Path
) -> None:
    assert clock_set_back(office) == ()
    set_back(office, tmp_path, 1, 1, 0, 1)
    assert clock_set_back(office) == (SetBack(4, 5, 6, 2), SetBack(7, 8, 8, 1))


def test_an_act_that_had_to_wait_for_its_turn_is_not_odd(office: Office, tmp_path: Path) -> None:
    clock = office.clock
    assert isinstance(clock, Clock)
    clock.at -= timedelta(seconds=60)
    import_evidence(office, people(tmp_path, "K-50,Dee"), ImportOrder("Dee"))
    assert clock_set_back(office) == ()
