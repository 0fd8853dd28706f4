"""Import: all or nothing, every fault told, the same file twice changes nothing."""

from itertools import permutations

import pytest

from crewtrack.errors import RecordUnusable, Refused
from crewtrack.facts import PEOPLE, PERFORMANCES, Kind, Row, Value
from crewtrack.office import importing
from crewtrack.office.importing import ImportOrder
from tests.office.unit_at_work import EVIDENCE, Unit, places, refused

WAIVERS = "waiver,person,qualification,requirement,from,through,reason,by,kind\n"


def rows(unit: Unit, kind: str) -> int:
    with unit.office.view() as view:
        return sum(1 for _ in view.reading.rows(PEOPLE if kind == "people" else PERFORMANCES))


def test_rows_are_counted_by_what_became_of_them(unit: Unit) -> None:
    done = unit.take(people=EVIDENCE["people"])
    assert (done.added, done.revised, done.unchanged) == ({"people": 3}, {}, {})
    assert done.changed
    assert done.digest == unit.head()


def test_one_fault_in_one_file_keeps_all_files_out(unit: Unit) -> None:
    before = unit.head()
    faulty = {**EVIDENCE, "performances": EVIDENCE["performances"] + "S-9,K-01,hand-recovery,1\n"}
    assert places(refused(unit, **faulty)) == [("performances.csv:5", "sortie")]
    assert rows(unit, "people") == 0
    assert unit.head() == before


def test_every_fault_of_every_file_is_told_in_the_order_of_files_and_lines(unit: Unit) -> None:
    faults = refused(
        unit,
        performances=(
            "sortie,person,task,times\nS-1,K-01,hand-recovry,1\nS-1,K-02,hand-recovery,0\n"
        ),
        sorties="sortie,launched,minutes,setting\nS-1,2026-05-01T10:00,x,live\n",
        people="person,name,joined\nK-01,Ana,2026-02-30\n",
    )
    assert places(faults) == [
        ("people.csv:2", "joined"),
        ("sorties.csv:2", "minutes"),
        ("performances.csv:2", "task"),
        ("performances.csv:3", "times"),
        ("performances.csv:3", "person"),
    ]


def test_a_row_with_a_fault_may_still_be_referred_to(unit: Unit) -> None:
    faults = refused(
        unit,
        people="person,name,joined\nK-01,Ana,2026-02-30\n",
        assignments="person,qualification,from\nK-01,deck-pilot,2026-01-01\n",
    )
    assert places(faults) == [("people.csv:2", "joined")]


def test_nothing_is_said_of_references_into_a_file_whose_keys_can_not_be_read(unit: Unit) -> None:
    faults = refused(
        unit,
        people="name\nAna\n",
        assignments="person,qualification,from\nK-01,deck-pilot,2026-01-01\n",
    )
    assert places(faults) == [("people.csv:1", "person")]


def test_what_the_record_holds_may_be_referred_to(unit: Unit) -> None:
    unit.take(people=EVIDENCE["people"])
    assert unit.take(assignments=EVIDENCE["assignments"]).added == {"assignments": 2}


def test_the_same_files_twice_change_nothing(full_unit: Unit) -> None:
    before = full_unit.head()
    done = full_unit.take(EVIDENCE)
    assert not done.changed
    assert done.digest is None
    assert done.unchanged == {
        "people": 3, "assignments": 2, "sorties": 3, "performances": 3, "signoffs": 2
    }  # fmt: skip
    assert full_unit.head() == before


def test_a_row_that_a_later_file_lacks_is_left_alone(full_unit: Unit) -> None:
    full_unit.take(people="person,name\nK-01,Ana Kovač\n")
    assert rows(full_unit, "people") == 3


def test_a_row_that_differs_is_refused_and_told_by_its_columns(full_unit: Unit) -> None:
    (fault,) = refused(full_unit, people="person,name,email\nK-01,Ana,a@example.org\n")
    assert (fault.place, fault.field) == ("people.csv:2", "name, email")
    assert "'K-01' is recorded otherwise" in fault.problem
    assert "--revise --reason" in fault.cure


def test_with_a_reason_a_row_that_differs_is_a_revision(full_unit: Unit) -> None:
    done = full_unit.take(people="person,name\nK-01,Ana Novak\nK-03,New\n", reason="married")
    assert (done.added, done.revised) == ({"people": 1}, {"people": 1})
    with full_unit.office.view() as view:
        revisions = view.reading.revisions(PEOPLE, ("K-01",))
    assert [(one.number, one.row[1]) for one in revisions] == [(1, "Ana Kovač"), (2, "Ana Novak")]
    assert (revisions[1].act.author, revisions[1].act.reason) == ("Ana", "married")


@pytest.mark.parametrize("reason", [None, "", "  "])
def test_a_revision_without_a_reason_is_refused(full_unit: Unit, reason: str | None) -> None:
    before = full_unit.head()
    paths = full_unit.files({"people": "person,name\nK-01,Ana Novak\n"})
    order = ImportOrder("Ana", revise=True, reason=reason)
    with pytest.raises(Refused, match="needs a reason"):
        importing.import_evidence(full_unit.office, paths, order)
    assert full_unit.head() == before


def test_a_dry_run_tells_the_same_and_writes_nothing(unit: Unit) -> None:
    before = unit.head()
    dry = unit.take(EVIDENCE, dry_run=True)
    assert unit.head() == before
    assert rows(unit, "people") == 0
    wet = unit.take(EVIDENCE)
    assert (dry.added, dry.digest) == (wet.added, None)


def test_a_dry_run_finds_the_faults_that_the_import_would_find(full_unit: Unit) -> None:
    waiver = WAIVERS + "W-1,K-01,deck-pilot,recency,2026-01-01,2027-01-01,why,V-01,\n"
    with pytest.raises(Refused, match="waiver_limit"):
        full_unit.take(waivers=waiver, dry_run=True)


def test_a_revised_waiver_is_judged_again(full_unit: Unit) -> None:
    waiver = WAIVERS + "W-1,K-01,deck-pilot,recency,2026-06-01,2026-06-30,why,V-01,\n"
    full_unit.take(waivers=waiver)
    with pytest.raises(Refused, match=r"waivers\.csv:2: through"):
        full_unit.take(waivers=waiver.replace("2026-06-30", "2027-06-30"), reason="longer")
    full_unit.take(waivers=waiver.replace("2026-06-30", "2026-07-30"), reason="longer")


def test_files_may_come_in_any_order(unit: Unit) -> None:
    unit.take(dict(reversed(EVIDENCE.items())))
    assert unit.word("K-01") == "due"


@pytest.mark.parametrize("order", list(permutations(["passed", "failed"])))
def test_two_results_of_one_date_take_effect_in_the_order_of_their_rows(
    full_unit: Unit, order: tuple[str, ...]
) -> None:
    head = "signoff,person,task,date,level,result,evaluator\n"
    lines = [f"E-{r},K-01,hand-recovery,2026-06-02,alone,{r},V-01\n" for r in order]
    full_unit.take(signoffs=head + "".join(lines))
    assert full_unit.word("K-01") == ("due" if order[-1] == "passed" else "lapsed")


def test_notices_tell_whom_the_books_do_not_know(full_unit: Unit) -> None:
    waiver = WAIVERS + "W-1,K-01,deck-pilot,recency,2026-06-01,2026-06-30,why,The chief,\n"
    (notice,) = full_unit.take(waivers=waiver).notices
    assert notice.startswith("waivers.csv:2: by: 'The chief' is not on the books")


def test_progress_is_told_for_each_step(unit: Unit) -> None:
    told: list[str] = []
    paths = unit.files({"people": EVIDENCE["people"]})
    importing.import_evidence(
        unit.office, paths, ImportOrder("Ana"), lambda what, done, total: told.append(what)
    )
    assert list(dict.fromkeys(told)) == ["people.csv", "checking", "writing"]


def test_a_failure_half_way_leaves_the_record_as_it_was(
    unit: Unit, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise RecordUnusable("the disk is full")

    before = unit.head()
    monkeypatch.setattr("crewtrack.records.journal.append", full)
    with pytest.raises(RecordUnusable):
        unit.take(EVIDENCE)
    assert unit.head() == before
    assert rows(unit, "performances") == 0


def people(unit: Unit) -> list[Row]:
    with unit.office.view() as view:
        return list(view.reading.rows(PEOPLE))


def test_a_column_that_a_file_lacks_leaves_what_is_recorded(full_unit: Unit) -> None:
    born = "person,name,born,duties\nK-01,Ana,1990-02-03,pilot;chief\n"
    full_unit.take(reason="a birth date came in", people=born)
    before = people(full_unit)
    done = full_unit.take(reason="married", people="person,name\nK-01,Ana B\n")
    assert people(full_unit) == [
        (row[0], "Ana B" if row[0] == "K-01" else row[1], *row[2:]) for row in before
    ]
    told = "people.csv:2: person 'K-01': name: 'Ana' in the record, 'Ana B' in the file"
    assert done.notices == (told,)


def test_a_correction_must_fit_what_is_recorded_in_the_columns_it_lacks(full_unit: Unit) -> None:
    full_unit.take(reason="joined", people="person,name,joined\nK-01,Ana,2026-01-10\n")
    with pytest.raises(Refused) as refusal:
        full_unit.take(reason="left", people="person,name,left\nK-01,Ana,2026-01-09\n")
    assert places(refusal.value.faults) == [("people.csv:2", "left")]


def strike(unit: Unit, kind: Kind, *keys: tuple[Value, ...]) -> None:
    """Strike facts out."""
    with unit.office.record.act("strike", "Ana", unit.clock(), "by mistake") as act:
        current = act.current(kind)
        act.strike(kind, [(current[key].entry, current[key].number) for key in keys])


FLOWN = "sortie,person,task,times\nS-3,K-01,hand-recovery,1\n"


def test_a_row_of_a_fact_that_is_struck_out_is_recorded_otherwise(full_unit: Unit) -> None:
    strike(full_unit, PERFORMANCES, ("S-3", "K-01", "hand-recovery"))
    (fault,) = refused(full_unit, performances=FLOWN)
    assert str(fault) == (
        "performances.csv:2: performance 'S-3 + K-01 + hand-recovery' is recorded otherwise "
        '(struck out); to revise it, import with --revise --reason "why it changed"'
    )


def test_with_a_reason_a_row_brings_back_what_is_struck_out(full_unit: Unit) -> None:
    strike(full_unit, PERFORMANCES, ("S-3", "K-01", "hand-recovery"))
    assert rows(full_unit, "performances") == 2
    done = full_unit.take(performances=FLOWN, reason="it was right")
    assert (done.revised, done.added, done.unchanged) == ({"performances": 1}, {}, {})
    assert done.notices == (
        "performances.csv:2: performance 'S-3 + K-01 + hand-recovery': "
        "struck out before, brought back",
    )
    assert rows(full_unit, "performances") == 3


def test_what_is_brought_back_may_differ_from_what_was_struck_out(full_unit: Unit) -> None:
    strike(full_unit, PERFORMANCES, ("S-3", "K-01", "hand-recovery"))
    twice = FLOWN.replace("y,1", "y,2")
    (fault,) = refused(full_unit, performances=twice)
    assert "(struck out; times: '1' in the record, '2' in the file)" in fault.problem
    (notice,) = full_unit.take(performances=twice, reason="it was right").notices
    assert notice.endswith("brought back; times: '1' in the record, '2' in the file")


def test_a_row_may_not_refer_to_what_is_struck_out(full_unit: Unit) -> None:
    strike(full_unit, PEOPLE, ("K-02",))
    flown = FLOWN.replace("K-01", "K-02")
    assert places(refused(full_unit, performances=flown)) == [("performances.csv:2", "person")]


def test_a_row_that_is_brought_back_refers_to_nothing_struck_out_by_a_column_it_lacks(
    full_unit: Unit,
) -> None:
    full_unit.take(
        reason="who watched",
        performances="sortie,person,task,times,supervisor\nS-3,K-01,hand-recovery,1,K-02\n",
    )
    strike(full_unit, PERFORMANCES, ("S-3", "K-01", "hand-recovery"))
    strike(full_unit, PEOPLE, ("K-02",))
    with pytest.raises(Refused) as refusal:
        full_unit.take(performances=FLOWN, reason="it was right")
    assert [str(fault) for fault in refusal.value.faults] == [
        "performances.csv:2: supervisor: person 'K-02' is struck out, and the record has it here; "
        "add a column supervisor to the file"
    ]
    with_column = "sortie,person,task,times,supervisor\nS-3,K-01,hand-recovery,1,V-01\n"
    assert full_unit.take(performances=with_column, reason="it was right").changed


def test_an_import_that_is_broken_off_leaves_the_record_as_it_was(unit: Unit) -> None:
    before, paths = unit.head(), unit.files(EVIDENCE)
    for word in ("people.csv", "checking", "writing"):

        def stop(what: str, _done: int, _total: int, word: str = word) -> None:
            if what == word:
                raise ZeroDivisionError

        with pytest.raises(ZeroDivisionError):
            importing.import_evidence(unit.office, paths, ImportOrder("Ana"), stop)
        assert (unit.head(), rows(unit, "people")) == (before, 0)
