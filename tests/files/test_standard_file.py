"""The file as a whole: its own keys, tasks, qualifications and crews, and all faults at once."""

from datetime import date
from pathlib import Path

import pytest

from crewtrack.engine.days import Duration
from crewtrack.engine.standard import Crew, Position, Qualification, Seat, Task
from crewtrack.errors import Refused
from crewtrack.files.standard_file import in_words, read_standard, read_standard_file
from tests.standard_texts import HEAD, faults, read, with_needs

FULL = """\
title = "Deck flight standard"
unit = "Air section"
edition = "2026-1"
effective = 2026-01-01
zone = "America/Detroit"
position = { lat = 47.12, lon = -88 }
notice = "P2W"
dark = "hour"
waiver_limit = "P3M"

[tasks.hand-recovery]
title = "Hand recovery"
duty = "pilot"
moment = "recovery"
needs = "deck-pilot"
evaluator = "deck-pilot"
criteria = ["Calls the wave-off", "Stops the rotors"]
certified_by = "officer"

[qualifications.deck-pilot]
title = "Deck pilot"
duty = "pilot"
minimum = 2
needs = [{ signed = "hand-recovery" }]

[crews.deck-flight]
title = "Deck flight"
minimum = 1
seats = [{ seat = "pilot", holds = "deck-pilot" }, { seat = "second", holds = "deck-pilot" }]
"""


def told(text: str) -> list[str]:
    return [str(fault) for fault in faults(text)]


def test_the_file_s_own_keys_are_read() -> None:
    standard = read(FULL)
    assert (standard.title, standard.unit) == ("Deck flight standard", "Air section")
    assert (standard.edition, standard.effective) == ("2026-1", date(2026, 1, 1))
    assert (standard.zone, standard.position) == ("America/Detroit", Position(47.12, -88.0))
    assert (standard.notice, standard.waiver_limit) == (Duration(days=14), Duration(months=3))
    assert standard.dark == "hour"


def test_tasks_qualifications_and_crews_are_read() -> None:
    standard = read(FULL)
    assert standard.tasks["hand-recovery"] == Task(
        "hand-recovery",
        "Hand recovery",
        "pilot",
        "recovery",
        "deck-pilot",
        "deck-pilot",
        ("Calls the wave-off", "Stops the rotors"),
        "officer",
    )
    qualification = standard.qualifications["deck-pilot"]
    assert qualification == Qualification(
        "deck-pilot", "Deck pilot", "pilot", 2, qualification.needs
    )
    assert [need.id for need in qualification.needs] == ["signed-hand-recovery"]
    seats = (Seat("pilot", "deck-pilot"), Seat("second", "deck-pilot"))
    assert standard.crews["deck-flight"] == Crew("deck-flight", "Deck flight", 1, seats)


def test_edition_effective_and_zone_are_enough() -> None:
    standard = read(HEAD)
    assert (standard.title, standard.unit, standard.position) == ("2026-1", "2026-1", None)
    assert (standard.notice, standard.dark) == (Duration(days=30), "civil")
    assert standard.waiver_limit == Duration(days=180)
    assert (standard.tasks, standard.qualifications, standard.crews) == ({}, {}, {})


def test_the_unit_is_called_by_the_title_unless_it_is_named() -> None:
    assert read(HEAD + 'title = "Section rules"').unit == "Section rules"


def test_tasks_and_qualifications_keep_the_order_of_the_file() -> None:
    text = HEAD + "".join(f"[tasks.{key}]\n" for key in ("zulu", "alpha", "mike"))
    assert list(read(text).tasks) == ["zulu", "alpha", "mike"]


def test_what_has_no_title_is_called_by_its_key_in_words() -> None:
    standard = read(with_needs("{ certificate = 'm' }"))
    assert standard.tasks["hand-recovery"] == Task("hand-recovery", "Hand recovery")
    deck_pilot = standard.qualifications["deck-pilot"]
    assert (deck_pilot.title, deck_pilot.duty, deck_pilot.minimum) == ("Deck pilot", None, 0)
    assert in_words("état_de-mer") == "État de mer"


def test_what_is_missing_at_the_top_is_told_all_at_once() -> None:
    assert told("title = 'x'") == [
        'unit.toml: edition: it is missing; add it at the top, such as edition = "2026-1"',
        "unit.toml: effective: it is missing; add it at the top, such as effective = 2026-01-01",
        'unit.toml: zone: it is missing; add it at the top, such as zone = "America/Detroit"',
    ]


def test_faults_of_all_parts_come_at_once_in_the_order_of_the_file() -> None:
    text = (
        FULL.replace("effective = 2026-01-01", 'effective = "2026-01-01"')
        .replace("America/Detroit", "America/Detriot")
        .replace('"hour"', '"hours"')
        .replace('moment = "recovery"', 'moment = "landing"')
        .replace('signed = "hand-recovery"', 'signed = "hand-recovry"')
        .replace("minimum = 1", "minmum = 1")
        .replace('holds = "deck-pilot" }]', 'holds = "dekc-pilot" }]')
    )
    assert told(text) == [
        "unit.toml:4: effective: '2026-01-01' where a date belongs; "
        "write 2026-01-01 without quotes",
        "unit.toml:5: zone: there is no time zone 'America/Detriot'; "
        "did you mean 'America/Detroit'?",
        "unit.toml:8: dark: 'hours' is not one of the words that go here; did you mean 'hour'?",
        "unit.toml:14: tasks.hand-recovery.moment: 'landing' is not one of the words that go "
        "here; write one of: launch, recovery",
        "unit.toml:24: qualifications.deck-pilot.needs[1].signed: there is no task "
        "'hand-recovry'; did you mean 'hand-recovery'?",
        "unit.toml:28: crews.deck-flight.minmum: the key 'minmum' is not known here; "
        "did you mean 'minimum'?",
        "unit.toml:29: crews.deck-flight.seats[2].holds: there is no qualification "
        "'dekc-pilot'; did you mean 'deck-pilot'?",
    ]


@pytest.mark.parametrize(
    ("written", "fault"),
    [
        ("edition = 2026", '2026 where text belongs; put it in quotes: "2026"'),
        (
            "edition = '2026/1'",
            "'2026/1' can't be an edition; leave out / \\ : * ? \" < > |: it becomes part of a "
            "file's name",
        ),
        ("edition = '2026-1 '", "'2026-1 ' has spaces at an end; leave them out"),
        (f"edition = '{'x' * 41}'", "the text has 41 characters; write at most 40"),
        (
            "effective = 2026-01-01T00:00:00Z",
            "2026-01-01 00:00:00+00:00 where a date belongs; leave the time out: "
            "effective = 2026-01-01",
        ),
        (
            "effective = '1 January 2026'",
            "'1 January 2026' where a date belongs; write year-month-day without quotes, such as "
            "effective = 2026-01-01",
        ),
        (
            "zone = 'Somewhere'",
            "there is no time zone 'Somewhere'; write one such as America/Detroit or Europe/Lisbon",
        ),
        (
            "zone = 'america/detroit'",
            "there is no time zone 'america/detroit'; did you mean 'America/Detroit'?",
        ),
        ("zone = -5", '-5 where text belongs; put it in quotes: "-5"'),
    ],
)
def test_a_key_at_the_top_that_can_not_be_taken_is_told(written: str, fault: str) -> None:
    key = written.split()[0]
    lines = [line for line in HEAD.splitlines() if not line.startswith(key)]
    assert told("\n".join((written, *lines))) == [f"unit.toml:1: {key}: {fault}"]


@pytest.mark.parametrize(
    ("written", "fault"),
    [
        (
            "position = { lat = 91, lon = -88.6 }",
            "position.lat: 91 can't be taken; write a number from -90 to 90, without quotes",
        ),
        (
            "position = { lat = 47.1, lon = 200.5 }",
            "position.lon: 200.5 can't be taken; write a number from -180 to 180, without quotes",
        ),
        (
            "position = { lat = 47.1 }",
            "position.lon: it is missing; add it in degrees, such as lon = -88.57",
        ),
        (
            "position = { lat = 47.1, lon = -88.6, alt = 0 }",
            "position.alt: the key 'alt' is not known here; did you mean 'lat'?",
        ),
        (
            "position = [47.1, -88.6]",
            "position: a list where a table belongs; write position = { … }",
        ),
        (
            "notice = 'P1M15D'",
            "notice: 'P1M15D' is not a duration; write one unit only, such as P45D or P2M",
        ),
        ("title = ''", "title: the text is empty; write something, or leave it out"),
        (f"title = '{'x' * 40_000}'", "title: the text has 40000 characters; write at most 200"),
        (
            'title = "a\\u0007b"',
            "title: 'a\\x07b' is not plain text; write it on one line, without control characters",
        ),
        ("title = [['x']]", "title: a list where text belongs; write text in quotes"),
        (
            "titel = 'x'",
            "titel: the key 'titel' is not known here; did you mean 'title'?",
        ),
        ("tasks = 'x'", "tasks: 'x' where a table belongs; write tasks = { … }"),
        (
            "tasks.x = 'Launch'",
            "tasks.x: 'Launch' where a table belongs; write x = { … }",
        ),
        (
            "tasks.'' = {}",
            "tasks.'': '' can't be a name; write 1 to 40 characters without spaces at the ends",
        ),
        (
            "tasks.x.minutes = 3",
            "tasks.x.minutes: the key 'minutes' is not known here; "
            "the keys here are: title, duty, moment, needs, evaluator, criteria, certified_by",
        ),
        (
            "tasks.x.criteria = 'one'",
            'tasks.x.criteria: \'one\' where a list of texts belongs; write criteria = ["…", "…"]',
        ),
        (
            "tasks.x.needs = 'deck-pilot'",
            "tasks.x.needs: there is no qualification 'deck-pilot'; "
            "add [qualifications.deck-pilot] to this file",
        ),
        (
            "tasks.x.notice = 'P30D'",
            "tasks.x.notice: the key 'notice' is not known here; "
            "it belongs at the top of the file, above the first [table]",
        ),
        (
            "tasks.x.duty = 'pilots'",
            "tasks.x.duty: 'pilots' is not one of the words that go here; did you mean 'pilot'?",
        ),
        (
            "tasks.x.certified_by = 'offiser'",
            "tasks.x.certified_by: 'offiser' is not one of the words that go here; "
            "did you mean 'officer'?",
        ),
        (
            "tasks.x.certified_by = 'nobody'",
            "tasks.x.certified_by: 'nobody' is not one of the words that go here; "
            "write one of: pilot, observer, handler, helm, evaluator, officer, chief",
        ),
        (
            "qualifications.x = { certified_by = 'officer', needs = [ { certificate = 'm' } ] }",
            "qualifications.x.certified_by: the key 'certified_by' is not known here; "
            "the keys here are: title, duty, minimum, needs",
        ),
        (
            "qualifications.x = {}",
            "qualifications.x.needs: it is missing; "
            "add needs = [ { … } ] with at least one requirement",
        ),
        (
            "qualifications.x.needs = []",
            "qualifications.x.needs: an empty list where a list of tables belongs; "
            "write needs = [ { … }, { … } ]",
        ),
        (
            "crews.x = {}",
            'crews.x.seats: it is missing; add seats = [ { seat = "pilot", holds = "…" } ]',
        ),
        (
            "crews.x.minimum = 99999999999999999999",
            "crews.x.minimum: a number of more than 18 digits can't be taken; "
            "write a whole number from 0 to 999, without quotes",
        ),
    ],
)
def test_a_line_that_can_not_be_taken_is_told(written: str, fault: str) -> None:
    assert f"unit.toml:4: {fault}" in told(HEAD + written)


def test_a_seat_needs_a_name_and_a_qualification() -> None:
    assert told(HEAD + "[crews.x]\nseats = [{}]\n") == [
        'unit.toml:5: crews.x.seats[1].seat: it is missing; add seat = "…"',
        'unit.toml:5: crews.x.seats[1].holds: it is missing; add holds = "…"',
    ]


def test_a_loop_is_refused_and_spelled_out() -> None:
    text = HEAD + (
        "[qualifications.a]\nneeds = [{ holds = 'b' }]\n"
        "[qualifications.b]\nneeds = [{ any = [{ certificate = 'm' }, { holds = 'c' }] }]\n"
        "[qualifications.c]\nneeds = [{ holds = 'a' }]\n"
    )
    assert told(text) == [
        "unit.toml:9: qualifications.c.needs[1].holds: a loop: a → b → c → a; "
        "a qualification can't rest on itself; cut the loop"
    ]


def test_a_faulty_task_is_still_known_to_those_that_name_it() -> None:
    text = with_needs("{ signed = 'wave-off' }") + "[tasks.wave-off]\ndutty = 'pilot'\n"
    assert [fault.field for fault in faults(text)] == ["tasks.wave-off.dutty"]


def test_a_file_gives_its_text_and_its_standard(tmp_path: Path) -> None:
    path = tmp_path / "unit.toml"
    path.write_bytes(b"\xef\xbb\xbf" + FULL.replace("\n", "\r\n").encode())
    text, standard = read_standard_file(path)
    assert text == FULL.replace("\n", "\r\n")
    assert standard == read_standard(FULL, "unit.toml")


def test_a_fault_in_a_file_names_the_file_and_the_line(tmp_path: Path) -> None:
    path = tmp_path / "unit.toml"
    path.write_text(FULL.replace("hour", "ours"), encoding="utf-8", newline="\r\n")
    with pytest.raises(Refused, match=r"^unit\.toml:8: dark: "):
        read_standard_file(path)


def test_reading_stops_at_very_many_faults() -> None:
    found = faults(HEAD + "".join(f"k{number} = 1\n" for number in range(2_000)))
    assert len(found) == 501
    assert str(found[-1]) == (
        "unit.toml: reading stopped at 500 faults; mend those that are listed, and read the file"
        " again"
    )


@pytest.mark.parametrize("key", ["a" + ".a" * 16, 'a . "b.\\"" .' + "'c'." * 15 + "d"])
def test_a_key_of_very_many_parts_is_refused(key: str) -> None:
    (fault,) = faults(f"{HEAD}[{key}]\n")
    assert str(fault) == (
        "unit.toml:4: a key has more than 16 parts with dots between; write it flatter"
    )


def test_dots_in_a_text_are_no_key() -> None:
    assert faults(f'{HEAD}title = "{"A. " * 30}{"a.b." * 3}"\n') == ()
