"""The log as a table, and what narrows it down."""

import pytest

from crewtrack.office.snapshot import Snapshot
from crewtrack.screens import sortie_log
from crewtrack.screens.log_done import LogDone
from crewtrack.screens.sortie_log import LogFilter, SortieLog, log_table
from crewtrack.screens.tables import Table

LAST = "261121-8"


@pytest.fixture
def log(demo_taken: Snapshot) -> SortieLog:
    return SortieLog(demo_taken)


def keys(log: SortieLog, **chosen: str) -> list[str]:
    return [log.sorties.key[index] for index in log.shown(LogFilter(**chosen))]


def texts(table: Table, line: int) -> dict[str, str]:
    return {column.title: column.text(table.rows[line]) for column in table.columns}


def test_the_newest_sortie_comes_first(log: SortieLog) -> None:
    assert texts(log_table(log, LogFilter()), 0) == {
        "Date": "2026-11-21",
        "Launch": "12:14",
        "Light": "day",
        "Boat": "Merganser",
        "Aircraft": "Quad 1",
        "Minutes": "12",
        "Setting": "live",
        "Way": "under way",
        "Sea": "3",
        "Wind": "292/10",
        "Purpose": "exercise with the shore party",
        "Crew": "Милутин Ђуришић, Jiří Šťovíček, Łucja Grzędzielska, Aino Lehtovaara",
        "Tasks": "Brief and go/no-go, Start-up on a moving deck, Deck launch, Manual hold without"
        " position fix, Tail-in approach × 2, Hand recovery (pilot), Hand recovery (handler),"
        " Search pattern, Observer watch, Helm for flight",
    }


def test_a_span_of_days_holds_both_its_ends(log: SortieLog) -> None:
    found = keys(log, first="2026-11-18", last="2026-11-21")
    assert found[0] == LAST
    assert {key[:6] for key in found} == {"261118", "261121"}


def test_a_person_is_found_by_what_was_done(log: SortieLog) -> None:
    assert keys(log, person="K-13", first="2026-11-21") == ["261121-4", "261121-3"]
    assert keys(log, person="K-99") == []


def test_a_person_and_a_task_are_asked_together(log: SortieLog) -> None:
    found = keys(log, person="K-05", task="handler-recovery", first="2026-11-21")
    assert LAST in found
    assert "261121-6" not in found


def test_a_boat_narrows_the_log(log: SortieLog) -> None:
    found = keys(log, vessel="B-1")
    assert found
    assert not any(key.startswith("261121") for key in found)


def test_a_span_that_cannot_be_read_is_told_and_left_out(log: SortieLog) -> None:
    chosen = LogFilter(first="21.11.2026", vessel="")
    assert list(chosen.faults()) == ["first"]
    assert len(log.shown(chosen)) == len(log.sorties.key)


def test_a_long_log_reads_only_what_it_shows(
    demo_taken: Snapshot, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = SortieLog(demo_taken)
    monkeypatch.setattr(sortie_log, "_FEW", 0)
    table = log_table(SortieLog(demo_taken), LogFilter())
    assert texts(table, 0) == texts(log_table(whole, LogFilter()), 0)
    monkeypatch.setattr(LogDone, "all", property(lambda _: pytest.fail("read all")))
    assert texts(table, 1)["Crew"]


@pytest.mark.parametrize("title", ["Date", "Boat", "Purpose", "Crew", "Tasks", "Wind", "Light"])
def test_every_column_can_be_sorted_by(log: SortieLog, title: str) -> None:
    table = log_table(log, LogFilter(first="2026-10-01"))
    column = next(column for column in table.columns if column.title == title)
    ranks = [column.rank(row) for row in table.rows]
    assert len(sorted(ranks)) == len(table.rows)


@pytest.mark.parametrize("title", ["Launch", "Light", "Boat", "Purpose", "Crew", "Tasks"])
def test_what_takes_long_to_sort_by_waits_until_it_has_been_worked_out(
    demo_taken: Snapshot, monkeypatch: pytest.MonkeyPatch, title: str
) -> None:
    def ranks(log: SortieLog) -> list[object]:
        table = log_table(log, LogFilter())
        (column,) = (column for column in table.columns if column.title == title)
        if column.waits:
            assert column.prepare is not None
            column.prepare()
            assert not column.waits
        return [column.rank(row) for row in table.rows]

    at_once = ranks(SortieLog(demo_taken))
    monkeypatch.setattr(sortie_log, "_FEW", 0)
    long = log_table(SortieLog(demo_taken), LogFilter())
    assert [column.title for column in long.columns if column.waits].count(title) == 1
    assert ranks(SortieLog(demo_taken)) == at_once


def test_light_is_sorted_by_how_dark_it_is(log: SortieLog) -> None:
    table = log_table(log, LogFilter())
    light = next(column for column in table.columns if column.title == "Light")
    told = dict.fromkeys(map(light.text, sorted(table.rows, key=light.rank)))
    assert list(told) == [word for word in ("", "day", "twilight", "night") if word in told]
