"""What rows refer to: other facts, and what the standard defines."""

import pytest

from crewtrack.errors import Fault
from tests.office.unit_at_work import STANDARD, Unit, places, refused

SECOND = (
    STANDARD.replace("2026-1", "2090-1")
    .replace("2026-01-01", "2090-01-01")
    .replace("hand-recovery", "net-recovery")
)


def only(faults: tuple[Fault, ...]) -> Fault:
    (fault,) = faults
    return fault


@pytest.mark.parametrize(
    ("kind", "content", "field"),
    [
        ("assignments", "person,qualification,from\nK-9,deck-pilot,2026-01-01\n", "person"),
        ("sorties", "sortie,launched,minutes,setting,vessel\nS,2026-01-01T10:00,1,live,B\n",
         "vessel"),
        ("sorties", "sortie,launched,minutes,setting,aircraft\nS,2026-01-01T10:00,1,live,A\n",
         "aircraft"),
        ("performances", "sortie,person,task\nS-9,K-01,hand-recovery\n", "sortie"),
        ("performances", "sortie,person,task,supervisor\nS-1,K-01,hand-recovery,X\n",
         "supervisor"),
        ("signoffs", "signoff,person,task,date,level,result,evaluator\n"
         "E-9,K-01,hand-recovery,2026-01-01,alone,passed,X\n", "evaluator"),
        ("certificates", "certificate,person,kind,issued\nC,X,medical,2026-01-01\n", "person"),
    ],
)  # fmt: skip
def test_a_fact_that_is_not_there_is_told_with_where_to_add_it(
    full_unit: Unit, kind: str, content: str, field: str
) -> None:
    fault = only(refused(full_unit, **{kind: content}))
    assert (fault.place, fault.field) == (f"{kind}.csv:2", field)
    assert fault.problem.startswith("no ")
    assert "add it to" in fault.cure or "did you mean" in fault.cure


def test_a_key_that_is_nearly_one_is_told_with_that_one(full_unit: Unit) -> None:
    fault = only(refused(full_unit, performances="sortie,person,task\nS-1,K-1,hand-recovery\n"))
    assert (fault.problem, fault.cure) == ("no person 'K-1'", "did you mean 'K-01'?")


def test_a_key_that_resembles_none_is_told_with_where_to_add_it(full_unit: Unit) -> None:
    fault = only(refused(full_unit, performances="sortie,person,task\nS-1,Z,hand-recovery\n"))
    assert fault.cure == "write the key of one that is there, or add it to people.csv"


def test_a_task_that_the_standard_lacks_is_told_with_those_that_it_has(full_unit: Unit) -> None:
    fault = only(refused(full_unit, performances="sortie,person,task\nS-1,K-01,juggling\n"))
    assert (fault.problem, fault.cure) == ("no task 'juggling'", "the standard has hand-recovery")


def test_a_qualification_that_the_standard_lacks_is_told_with_those_that_it_has(
    full_unit: Unit,
) -> None:
    fault = only(
        refused(full_unit, assignments="person,qualification,from\nK-01,cook,2026-01-01\n")
    )
    assert fault.problem == "no qualification 'cook'"
    assert fault.cure == "the standard has deck-pilot, observer"


def test_what_any_edition_defines_may_be_named(full_unit: Unit) -> None:
    full_unit.adopt(SECOND)
    full_unit.take(
        performances=(
            "sortie,person,task\nS-1,K-01,net-recovery\nS-1,K-01,hand-recovery\n"
        )
    )  # fmt: skip


def test_a_stand_down_from_everything_names_no_qualification(full_unit: Unit) -> None:
    full_unit.take(
        standdowns="standdown,person,from,reason,by\nX-1,K-01,2026-06-01,broken wrist,V-01\n"
    )
    assert full_unit.word("K-01") == "stood-down"


@pytest.mark.parametrize(
    ("qualification", "requirement", "cure"),
    [
        ("deck-pilot", "recencey", "did you mean 'recency'?"),
        ("deck-pilot", "x", "those that can be waived are recency, signed"),
        ("observer", "certificate-medical", "none can be waived"),
    ],
)
def test_only_a_requirement_with_a_written_id_can_be_waived(
    full_unit: Unit, qualification: str, requirement: str, cure: str
) -> None:
    waiver = f"W-1,K-01,{qualification},{requirement},2026-06-01,2026-06-30,why,V-01\n"
    head = "waiver,person,qualification,requirement,from,through,reason,by\n"
    fault = only(refused(full_unit, waivers=head + waiver))
    assert (fault.place, fault.field) == ("waivers.csv:2", "requirement")
    assert cure in fault.cure


def test_a_long_file_of_the_same_mistake_is_told_row_by_row(full_unit: Unit) -> None:
    rows = "".join(f"K-01,nobody-{n % 3},2026-01-{n % 28 + 1:02}\n" for n in range(3000))
    faults = refused(full_unit, assignments="person,qualification,from\n" + rows)
    missing = [place for place, field in places(faults) if field == "qualification"]
    assert len(missing) == 3000


def test_whoever_is_named_in_free_text_is_noticed_once(full_unit: Unit) -> None:
    done = full_unit.take(
        standdowns=(
            "standdown,person,from,reason,by\n"
            "X-1,K-01,2026-06-01,ill,The chief\nX-2,K-02,2026-06-01,ill,The chief\n"
            "X-3,K-02,2026-06-05,ill,V-01\n"
        )
    )
    assert len(done.notices) == 1
