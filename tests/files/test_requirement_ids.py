from crewtrack.engine.requirement import Requirement, inside
from tests.standard_texts import faults, read, with_needs


def ids(*needs: str) -> list[str]:
    qualification = read(with_needs(*needs)).qualifications["deck-pilot"]
    return [one.id for need in qualification.needs for one in inside(need)]


def test_an_id_is_made_of_kind_and_subject() -> None:
    assert ids(
        "{ recent = 'hand-recovery' }",
        "{ signed = 'hand-recovery' }",
        "{ certificate = 'medical' }",
        "{ holds = 'observer' }",
        "{ any = [ { holds = 'observer' } ] }",
        "{ all = [ { certificate = 'first-aid' } ] }",
    ) == [
        "recent-hand-recovery",
        "signed-hand-recovery",
        "certificate-medical",
        "holds-observer",
        "any",
        "holds-observer-2",
        "all",
        "certificate-first-aid",
    ]


def test_several_tasks_are_joined() -> None:
    made = ids("{ recent = ['hand-recovery', 'deck-launch'] }")
    assert made == ["recent-hand-recovery-deck-launch"]


def test_numbers_count_over_all_depths_in_the_order_of_the_file() -> None:
    assert ids(
        "{ signed = 'hand-recovery' }",
        "{ any = [ { signed = 'hand-recovery' }, { all = [ { signed = 'hand-recovery' } ] } ] }",
        "{ signed = 'hand-recovery' }",
    ) == [
        "signed-hand-recovery",
        "any",
        "signed-hand-recovery-2",
        "all",
        "signed-hand-recovery-3",
        "signed-hand-recovery-4",
    ]


def test_a_written_id_is_kept_and_its_number_left_out_also_when_it_comes_later() -> None:
    assert ids(
        "{ signed = 'hand-recovery' }",
        "{ signed = 'hand-recovery' }",
        "{ any = [ { id = 'signed-hand-recovery', signed = 'deck-launch' } ] }",
        "{ id = 'signed-hand-recovery-3', signed = 'deck-launch' }",
    ) == [
        "signed-hand-recovery-2",
        "signed-hand-recovery-4",
        "any",
        "signed-hand-recovery",
        "signed-hand-recovery-3",
    ]


def test_only_a_written_id_can_be_waived() -> None:
    text = with_needs("{ any = [ { id = 'x', holds = 'observer' }, { certificate = 'm' } ] }")
    assert read(text).qualifications["deck-pilot"].named() == ("x",)


def test_an_id_that_is_written_twice_in_a_qualification_is_refused() -> None:
    text = with_needs(
        "{ id = 'x', certificate = 'm' }", "{ any = [ { id = 'x', certificate = 'n' } ] }"
    )
    (fault,) = faults(text)
    assert (fault.place, fault.field) == (
        "unit.toml:12",
        "qualifications.deck-pilot.needs[2].any[1].id",
    )
    assert fault.problem == "'x' stands here a second time"


def test_two_qualifications_may_use_the_same_id() -> None:
    text = with_needs("{ id = 'x', certificate = 'm' }")
    assert not faults(text + "[qualifications.helm]\nneeds = [{ id = 'x', certificate = 'm' }]\n")


def test_the_word_that_answers_use_for_a_dropped_qualification_is_no_id() -> None:
    (fault,) = faults(with_needs("{ id = 'edition', certificate = 'm' }"))
    assert fault.problem == "'edition' has a meaning of its own in answers"


def test_ids_differ_whatever_the_names_are() -> None:
    text = with_needs("{ signed = 'x' }", "{ signed = 'x' }", "{ signed = 'x-2' }")
    text += "[tasks.x]\n[tasks.x-2]\n"
    needs: tuple[Requirement, ...] = read(text).qualifications["deck-pilot"].needs
    assert [need.id for need in needs] == ["signed-x", "signed-x-2", "signed-x-2-2"]
