"""A sortie's draft, read: faults in words at their fields, and the rows."""

from datetime import date

import pytest

from crewtrack.errors import Fault
from crewtrack.facts import PERFORMANCES, SORTIES, Kind, Row, Value
from crewtrack.screens.sortie_draft import FIELDS, SortieDraft, TaskLine
from crewtrack.screens.sortie_form import draft_day, fault_at, read_draft, told_faults
from tests.screens.sortie_samples import DAY, KNOWN, SOUND


def faults(draft: SortieDraft) -> dict[str, str]:
    return dict(told_faults(read_draft(draft, KNOWN), (), True))


def named(kind: Kind, row: Row) -> dict[str, Value]:
    return {n: value for n, value in zip(kind.names, row, strict=True) if value is not None}


def test_a_sound_draft_is_a_row() -> None:
    read = read_draft(SOUND, KNOWN)
    assert not read.faults
    sortie = named(SORTIES, read.sortie)
    launched = sortie.pop("launched")
    assert str(launched) == "2026-11-25 06:40:00-05:00"
    assert sortie == {
        "sortie": "S-0002",
        "minutes": 14,
        "setting": "live",
        "vessel": "B-1",
        "aircraft": "A-1",
        "lat": 47.12,
        "lon": -88.6,
        "way": "drifting",
        "sea": 2,
        "wind_from": 240.0,
        "wind": 14.0,
        "heading": 60.0,
        "speed": 0.0,
        "set": 90.0,
        "drift": 1.2,
        "purpose": "training",
    }


def test_a_sound_line_is_a_row() -> None:
    read = read_draft(SOUND, KNOWN)
    assert named(PERFORMANCES, read.performances[1]) == {
        "sortie": "S-0002",
        "person": "K-01",
        "task": "hand-recovery",
        "times": 2,
        "supervisor": "K-03",
        "attempts": 3,
        "waveoffs": 1,
        "stood": "apart",
    }


def test_the_day_is_the_one_typed_once_it_can_be_read() -> None:
    other = date(2020, 1, 1)
    assert draft_day(SOUND, other) == DAY
    assert draft_day(SOUND.with_text("date", "25.11."), other) == other


def test_blank_lines_mean_nothing() -> None:
    draft = SOUND.with_tasks((TaskLine(times="1"), *SOUND.tasks))
    read = read_draft(draft, KNOWN)
    assert len(read.performances) == 3
    assert read.lines == (1, 2, 3)


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("vessel", "B-9", "'B-9' is not known; choose one from the list"),
        ("aircraft", "balloon", "'balloon' is not known; choose one from the list"),
        ("date", "25.11.2026", "'25.11.2026' is not a date; write the year first: 2026-11-25"),
        ("date", "2026-02-30", "there is no 2026-02-30; February 2026 has 28 days"),
        ("time", "noon", "'noon' is not a time; write it as 0640 or 06:40"),
        ("minutes", "-3", "-3: the sortie ends before it starts; "
                          "write a whole number from 0 to 1440"),
        ("lat", "47 70 N", "'47 70 N' has 60 minutes or more; minutes go up to 59.999"),
        ("lat", "91", "91 is more than 90; write a number from -90 to 90"),
        ("setting", "lively", "'lively' is not one of live, drill; did you mean 'live'?"),
        ("sea", "12", "12 is more than 9; write a whole number from 0 to 9"),
        ("wind", "14", "'14' is not a direction and a speed; write degrees true, a slash and"
                       " knots, such as 240/14"),
        ("wind", "400/14", "400 is more than 360; write a number from 0 to 360"),
        ("current", "090/1,2", "'1,2' is not a number; write a decimal point: 1.2"),
        ("heading", "x", "'x' is not a number; write a number from 0 to 360"),
        ("sortie", "S-0001", "there is a sortie S-0001 already; write another key"),
    ],
)  # fmt: skip
def test_a_fault_is_told_at_its_field_with_its_cure(name: str, text: str, told: str) -> None:
    assert faults(SOUND.with_text(name, text)) == {name: told}


def test_a_place_needs_both_its_halves() -> None:
    assert faults(SOUND.with_text("lon", "")) == {
        "lat": "it is given without lon; write both, or neither"
    }


def test_stated_light_needs_a_reason() -> None:
    assert faults(SOUND.with_text("light", "night")) == {
        "light": "it is given without light_reason; say why it is stated by hand"
    }


@pytest.mark.parametrize(
    ("line", "place", "told"),
    [
        (TaskLine("X", "catch", "1"), "person", "'X' is not known; choose one from the list"),
        (TaskLine("K-01", "wach", "1"), "task", "'wach' is not known; did you mean 'watch'?"),
        (TaskLine("K-01", "", "1"), "task", "this is needed"),
        (TaskLine("", "catch", "1"), "person", "this is needed"),
        (TaskLine("K-01", "catch", "0"), "times", "0 is less than 1; "
                                                  "write a whole number from 1 to 999"),
        (TaskLine("K-01", "catch", "3", "2"), "attempts",
         "2 is fewer than the 3 times that it was done; attempts count those that succeeded too"),
        (TaskLine("K-01", "catch", "1", supervisor="K-01"), "supervisor",
         "'K-01' supervises himself or herself; name somebody else"),
    ],
)  # fmt: skip
def test_a_fault_in_a_line_is_told_at_its_field(line: TaskLine, place: str, told: str) -> None:
    assert faults(SOUND.with_tasks((SOUND.tasks[0], line))) == {f"tasks 1 {place}": told}


def test_a_task_twice_for_one_person_is_a_fault() -> None:
    draft = SOUND.with_tasks((SOUND.tasks[0], SOUND.tasks[0]))
    assert faults(draft) == {"tasks 1 task": "K-01 has this task in a line above; raise its times"}


def test_somebody_unknown_in_a_seat_is_a_fault() -> None:
    assert list(faults(SOUND.with_person("pilot", "Ann"))) == ["crew pilot"]


def test_all_that_is_needed_is_told_in_reading_order_on_saving() -> None:
    assert list(faults(SortieDraft())) == ["date", "time", "minutes", "setting", "sortie", "tasks"]


def test_an_empty_field_that_nobody_was_in_yet_is_left_in_peace() -> None:
    read = read_draft(SortieDraft(), KNOWN)
    assert told_faults(read, (), False) == {}
    assert told_faults(read, ("minutes",), False) == {"minutes": "this is needed"}


def test_every_fault_is_at_a_field_of_the_form() -> None:
    wrong = SOUND.with_texts(dict.fromkeys(FIELDS, "\x01"))
    assert set(faults(wrong)) <= set(FIELDS)


@pytest.mark.parametrize(
    ("fault", "place"),
    [
        (Fault("sorties 1", "launched", "no"), "time"),
        (Fault("sorties 1", "drift", "no"), "current"),
        (Fault("sorties 1", "sortie", "no"), "sortie"),
        (Fault("performances 2", "task", "no"), "tasks 2 task"),
        (Fault("struck performances 1", "task", "no"), "tasks 1 task"),
        (Fault("", "reason", "no"), "reason"),
        (Fault("", "", "no"), "sortie"),
    ],
)
def test_what_the_office_refuses_is_told_at_the_field_it_means(fault: Fault, place: str) -> None:
    read = read_draft(SOUND.with_tasks((TaskLine(), *SOUND.tasks)), KNOWN)
    assert fault_at(fault, read).place == place
