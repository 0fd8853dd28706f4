"""The demonstration unit's own standard, as it ships: a full one to start from."""

from functools import lru_cache

from crewtrack.engine.requirement import (
    AllOf,
    AnyOf,
    Certified,
    Holds,
    Recent,
    Requirement,
    Signed,
    inside,
)
from crewtrack.engine.standard import Standard
from crewtrack.files.standard_file import read_standard_file
from crewtrack.office.shipped import shipped


@lru_cache(maxsize=1)
def _standard() -> Standard:
    return read_standard_file(shipped("standards", "tamarack-harbor.toml"))[1]


def _requirements() -> list[Requirement]:
    return [
        one
        for qualification in _standard().qualifications.values()
        for need in qualification.needs
        for one in inside(need)
    ]


def test_every_task_has_criteria_to_mark_and_says_who_does_it_and_who_signs_it() -> None:
    assert len(_standard().tasks) == 14
    for task in _standard().tasks.values():
        assert len(task.criteria) >= 4, task.key
        assert task.needs, task.key
        assert task.evaluator, task.key
        assert task.duty, task.key


def test_it_uses_every_kind_of_requirement() -> None:
    kinds = {type(one) for one in _requirements()}
    assert kinds == {AllOf, AnyOf, Certified, Holds, Recent, Signed}


def test_it_uses_every_way_to_count_practice() -> None:
    recent = [one for one in _requirements() if isinstance(one, Recent)]
    assert {one.measure for one in recent} == {"times", "minutes", "sorties", "days"}
    assert any(one.horizon.each for one in recent)
    assert any(one.recheck and one.supervised_regain for one in recent)
    assert any(one.drills for one in recent)
    assert any(one.only.vessel for one in recent)
    floors = [one.floor for one in recent]
    assert any(floor.light is not None for floor in floors)
    assert any(floor.sea is not None for floor in floors)
    assert any(floor.apparent is not None for floor in floors)


def test_every_top_level_requirement_that_may_have_to_be_waived_has_an_id_of_its_own() -> None:
    for qualification in _standard().qualifications.values():
        for need in qualification.needs:
            if isinstance(need, Recent | AnyOf | AllOf):
                assert need.named, (qualification.key, need.id)


def test_there_is_a_crew_for_the_day_and_one_for_the_night() -> None:
    assert list(_standard().crews) == ["day-flight", "night-flight"]
    for crew in _standard().crews.values():
        assert crew.minimum >= 1
        assert [seat.seat for seat in crew.seats] == ["pilot", "handler", "observer", "helm"]
