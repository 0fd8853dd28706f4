"""One state of the record, asked over and over: it stays what it was."""

from datetime import timedelta

from crewtrack.facts import PEOPLE, PERFORMANCES, SIGNOFFS, SORTIES
from crewtrack.office import asking, snapshot
from crewtrack.office.entries import Entry, Strike
from crewtrack.office.snapshot import history_of
from tests.office.given_by_hand import MENDED, changed, done, held, row
from tests.office.unit_at_work import FIRST_ACT, ON, STANDARD, Unit

NEW = Entry(PEOPLE, row(PEOPLE, person="K-03", name="Noor Vos"))
SECOND = STANDARD.replace("2026-1", "2026-2").replace("2026-01-01", "2026-07-01")


def renamed(unit: Unit) -> Entry:
    values, number = held(unit, PEOPLE, "K-01")
    return Entry(PEOPLE, changed(values, PEOPLE, name="Ana Novak"), number)


def test_a_snapshot_answers_as_the_record_does(full_unit: Unit) -> None:
    state = snapshot.take(full_unit.office)
    assert state.roster(ON) == asking.roster(full_unit.office, ON)
    assert state.history() == asking.history(full_unit.office)
    assert state.explain("K-01", "deck-pilot", ON) == asking.why(
        full_unit.office, "K-01", "deck-pilot", ON
    )


def test_it_says_which_state_it_is(full_unit: Unit) -> None:
    state = snapshot.take(full_unit.office)
    assert (state.head.digest, state.head.seq) == (full_unit.head(), full_unit.office.newest())
    assert (state.known_at, state.today, state.unit) == (None, FIRST_ACT.date(), "Small unit")


def test_the_edition_goes_by_the_day(full_unit: Unit) -> None:
    full_unit.adopt(SECOND)
    state = snapshot.take(full_unit.office)
    days = ON - timedelta(days=1), ON
    assert [state.standard(day).edition for day in days] == ["2026-1", "2026-2"]
    assert [one.edition for one in state.editions.standards] == ["2026-1", "2026-2"]


def test_rows_asked_for_later_are_those_of_then(full_unit: Unit) -> None:
    before, after = (snapshot.take(full_unit.office) for _ in range(2))
    expected = before.rows(PEOPLE), before.rows(SIGNOFFS)
    done(full_unit, NEW, renamed(full_unit), Strike(SIGNOFFS, ("E-1",), 1), order=MENDED)
    assert (after.rows(PEOPLE), after.rows(SIGNOFFS)) == expected
    assert len(snapshot.take(full_unit.office).rows(PEOPLE)) == len(expected[0]) + 1
    assert len(snapshot.take(full_unit.office).rows(SIGNOFFS)) == len(expected[1]) - 1


def test_rows_are_found_by_their_keys(full_unit: Unit) -> None:
    state = snapshot.take(full_unit.office)
    assert list(state.by_key(SORTIES)) == [("S-1",), ("S-2",), ("S-3",)]
    found = state.by_key(PERFORMANCES)[("S-3", "K-01", "hand-recovery")]
    assert found in state.rows(PERFORMANCES)


def test_rows_are_read_once(full_unit: Unit) -> None:
    state = snapshot.take(full_unit.office)
    assert state.rows(PEOPLE) is state.rows(PEOPLE)
    assert state.by_key(PEOPLE) is state.by_key(PEOPLE)


def test_the_record_can_be_asked_as_it_was_known_at_an_instant(full_unit: Unit) -> None:
    full_unit.clock.at += timedelta(days=3)
    done(full_unit, NEW)
    then = FIRST_ACT + timedelta(days=1)
    state = snapshot.take(full_unit.office, then)
    assert state.known_at == then
    assert state.today == full_unit.clock.at.date()
    assert ("K-03",) not in state.by_key(PEOPLE)
    assert state.roster(ON) == asking.roster(full_unit.office, ON, then)


def test_revisions_are_those_of_then_and_history_those_of_now(full_unit: Unit) -> None:
    state = snapshot.take(full_unit.office)
    done(full_unit, NEW, renamed(full_unit), order=MENDED)
    assert [one.number for one in state.revisions(PEOPLE, ("K-01",))] == [1]
    assert state.revisions(PEOPLE, ("K-03",)) == ()
    told = history_of(full_unit.office, PEOPLE, ("K-01",))
    assert [(one.number, one.act.author, one.act.reason) for one in told] == [
        (1, "Ana", None),
        (2, "Ana", "typing slip"),
    ]


def test_the_newest_act_is_noticed(full_unit: Unit) -> None:
    before = full_unit.office.newest()
    done(full_unit, NEW)
    assert full_unit.office.newest() == before + 1


def test_progress_is_told(full_unit: Unit) -> None:
    told: list[str] = []
    snapshot.take(full_unit.office, progress=lambda what, done, total: told.append(what))
    assert told == ["reading"]


def test_a_few_rows_are_read_as_they_were_then(full_unit: Unit) -> None:
    state = snapshot.take(full_unit.office)
    asked = [("K-01",), ("K-02",), ("K-99",)]
    before = state.rows_of(PEOPLE, asked)
    assert before == {key: state.by_key(PEOPLE)[key] for key in asked[:2]}
    done(full_unit, NEW, renamed(full_unit), order=MENDED)
    assert state.rows_of(PEOPLE, asked) == before
    assert snapshot.take(full_unit.office).rows_of(PEOPLE, asked[:1]) != before


def test_a_few_columns_say_what_the_rows_say(full_unit: Unit) -> None:
    state = snapshot.take(full_unit.office)
    columns = ("vessel", "aircraft", "purpose", "setting")
    expected = {
        str(row[0]): tuple(row[SORTIES.index(name)] for name in columns)
        for row in state.rows(SORTIES)
    }
    assert state.told(SORTIES, columns) == expected
    assert state.told(SORTIES, columns) is state.told(SORTIES, columns)


def test_keys_that_were_taken_are_read_on_from_where_they_were_read(full_unit: Unit) -> None:
    state = snapshot.take(full_unit.office)
    first = state.taken_keys(PEOPLE)
    done(full_unit, NEW, renamed(full_unit), order=MENDED)
    assert state.taken_keys(PEOPLE) == (*first, "K-03")
    full_unit.office.taken.clear()
    assert state.taken_keys(PEOPLE) == (*first, "K-03")
