"""Rules of regulators and operators, and the dates that follow, from the shell to the shell: the
shipped standard that writes them as requirements, files of evidence, ``history``.

Each case names its source and how far it can be trusted: *second hand* (another publisher quoting
or paraphrasing the rule), *derived* (our arithmetic from a rule that was read), *read*. Copies can
be out of date: test data, never legal advice.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from crewtrack.cli.outcome import run
from crewtrack.office.shipped import shipped


@dataclass(frozen=True, slots=True)
class Case:
    """What one person did for one qualification, and the spans that follow."""

    person: str
    qualification: str
    spans: tuple[tuple[str, str], ...]
    flown: tuple[tuple[str, str, int], ...] = ()
    signed: tuple[tuple[str, str], ...] = ()
    certificates: tuple[tuple[str, str], ...] = ()
    born: str = ""


def days_of(task: str, times: int, *days: str) -> tuple[tuple[str, str, int], ...]:
    return tuple((day, task, times) for day in days)


def both(day: str) -> tuple[tuple[str, str, int], ...]:
    """Three take-offs and three landings on a day."""
    return (*days_of("take-off", 3, day), *days_of("landing", 3, day))


def checks(task: str, *days: str) -> tuple[tuple[str, str], ...]:
    return tuple((day, task) for day in days)


APPROACH = "instrument-approach"
BY_DAY = "passengers-by-day"
TWO_STAGES = "instruments-in-two-stages"
MEDICAL = (("2024-02-29", "medical-third-class"),)
YEAR = ("2025-07-01", "2025-08-01", "2025-09-01", "2025-10-01", "2025-11-01", "2025-12-01")

CASES = (
    # A1: three take-offs and landings within 90 days, 14 CFR 61.57(a)(1). Derived, both readings.
    Case("A1-a", BY_DAY, (("2024-01-01", "2024-03-31"),), both("2024-01-01")),
    Case("A1-b", BY_DAY, (("2023-01-01", "2023-04-01"),), both("2023-01-01")),
    Case("A1-c", BY_DAY, (("2025-12-02", "2026-03-02"),), both("2025-12-02")),
    Case(
        "A1-d",
        f"{BY_DAY}-counting-the-day",
        (("2024-01-01", "2024-03-30"),),
        both("2024-01-01"),
    ),
    # A3: six within the six calendar months preceding, 14 CFR 61.57(c). Second hand.
    Case("A3-a", "instruments", (("2025-12-01", "2026-01-31"),), days_of(APPROACH, 1, *YEAR)),
    Case(
        "A3-b",
        "instruments",
        (("2026-02-03", "2026-07-31"),),
        days_of(APPROACH, 3, "2026-01-26", "2026-02-03"),
    ),
    Case(
        "A3-c",
        "instruments",
        (("2026-07-01", "2026-07-31"),),
        days_of(APPROACH, 2, "2026-01-01", "2026-03-01", "2026-07-01"),
    ),
    # A4: two ways back, 14 CFR 61.57(c) and (d). Second hand.
    Case(
        "A4-a",
        TWO_STAGES,
        (("2014-12-10", "2015-06-30"), ("2015-12-31", "2016-06-30")),
        days_of(APPROACH, 6, "2015-12-31"),
        checks(APPROACH, "2014-12-10"),
    ),
    Case(
        "A4-b",
        TWO_STAGES,
        (("2014-12-10", "2015-06-30"), ("2016-02-01", "2016-08-31")),
        days_of(APPROACH, 6, "2016-01-01"),
        checks(APPROACH, "2014-12-10", "2016-02-01"),
    ),
    # A5: flight review, 24 calendar months, 14 CFR 61.56(c). The first two second hand, the others
    # derived.
    *(
        Case(
            f"A5-{day}",
            "flight-review",
            ((day, last),),
            signed=checks("flight-review", day),
        )
        for day, last in (
            ("2010-07-01", "2012-07-31"),
            ("2008-08-15", "2010-08-31"),
            ("2023-04-12", "2025-04-30"),
            ("2024-02-29", "2026-02-28"),
        )
    ),
    # A6: knowledge within the previous 24 calendar months, 14 CFR 107.65. Second hand.
    Case(
        "A6",
        "remote-pilot-knowledge",
        (("2023-01-20", "2025-01-31"),),
        certificates=(("2023-01-20", "remote-pilot-knowledge"),),
    ),
    # A7: medical by age on the day of the examination, 14 CFR 61.23(d). Derived.
    Case(
        "A7-39",
        "medical-third-class",
        (("2024-02-29", "2029-02-28"),),
        certificates=MEDICAL,
        born="1984-03-01",
    ),
    Case(
        "A7-40",
        "medical-third-class",
        (("2024-02-29", "2026-02-28"),),
        certificates=MEDICAL,
        born="1984-02-28",
    ),
    # A8: a month early or late keeps the due month, 14 CFR 61.58(i). Second hand. Cover runs
    # through the late month: the due dates are January 2021, January 2021 and March 2021.
    Case(
        "A8-early",
        "type-check",
        (("2019-01-15", "2021-02-28"),),
        signed=checks("type-check", "2019-01-15", "2019-12-10"),
    ),
    Case(
        "A8-late",
        "type-check",
        (("2019-01-15", "2021-02-28"),),
        signed=checks("type-check", "2019-01-15", "2020-02-10"),
    ),
    Case(
        "A8-too-late",
        "type-check",
        (("2019-01-15", "2020-02-29"), ("2020-03-10", "2021-04-30")),
        signed=checks("type-check", "2019-01-15", "2020-03-10"),
    ),
    # A9: dangerous goods, the last three months of validity keep the date (IATA, by a training
    # publisher's worked example). Read.
    Case(
        "A9-once",
        "dangerous-goods",
        (("2013-02-07", "2015-02-28"),),
        signed=checks("dangerous-goods", "2013-02-07"),
    ),
    Case(
        "A9-early",
        "dangerous-goods",
        (("2013-02-07", "2017-02-28"),),
        signed=checks("dangerous-goods", "2013-02-07", "2014-12-01"),
    ),
    Case(
        "A9-too-early",
        "dangerous-goods",
        (("2013-02-07", "2016-09-30"),),
        signed=checks("dangerous-goods", "2013-02-07", "2014-09-10"),
    ),
    # A12: 24 months to the day, Canadian Aviation Regulations 901.56. Derived.
    Case(
        "A12",
        "recency-to-the-day",
        (("2024-06-15", "2026-06-15"),),
        certificates=(("2024-06-15", "recency-activity"),),
    ),
)


@dataclass(frozen=True, slots=True)
class Files:
    """The files of evidence, line by line."""

    folder: Path
    lines: dict[str, list[str]] = field(default_factory=dict)

    def add(self, kind: str, header: str, rows: Iterable[str]) -> None:
        self.lines.setdefault(kind, [header]).extend(rows)

    def write(self) -> None:
        for kind, lines in self.lines.items():
            text = "\n".join(lines) + "\n"
            (self.folder / f"{kind}.csv").write_text(text, encoding="utf-8")


def add_case(files: Files, case: Case) -> None:
    who = case.person
    files.add("people", "person,name,born", [f"{who},Somebody,{case.born}"])
    files.add(
        "assignments",
        "person,qualification,from",
        [f"{who},{case.qualification},2000-01-01"],
    )
    for number, (day, task, times) in enumerate(case.flown):
        sortie = f"{who}-{number}"
        files.add(
            "sorties",
            "sortie,launched,minutes,setting",
            [f"{sortie},{day}T12:00Z,20,live"],
        )
        files.add("performances", "sortie,person,task,times", [f"{sortie},{who},{task},{times}"])
    for number, (day, task) in enumerate(case.signed):
        files.add(
            "signoffs",
            "signoff,person,task,date,level,result,evaluator",
            [f"{who}-{number},{who},{task},{day},alone,passed,E-1"],
        )
    for number, (day, kind) in enumerate(case.certificates):
        files.add(
            "certificates",
            "certificate,person,kind,issued",
            [f"{who}-{number},{who},{kind},{day}"],
        )


Spans = Mapping[str, list[list[str]]]


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> Spans:
    """The spans that the command line tells, by person."""
    folder = tmp_path_factory.mktemp("published")
    files = Files(folder)
    files.add("people", "person,name,born", ["E-1,The evaluator,"])
    for case in CASES:
        add_case(files, case)
    files.write()
    record, told = folder / "record.crewtrack", folder / "history.json"
    standard = shipped("standards", "regulations.toml")
    for command in (
        ["init", "--standard", str(standard)],
        ["import", str(folder)],
        ["history", "--out", str(told)],
    ):
        assert run(["--db", str(record), *command]) == 0
    rows = json.loads(told.read_text(encoding="utf-8"))["rows"]
    return {row["person"]: row["spans"] for row in rows}


@pytest.mark.parametrize("case", CASES, ids=[case.person for case in CASES])
def test_a_published_date_holds_through_the_command_line(case: Case, found: Spans) -> None:
    assert found[case.person] == [list(span) for span in case.spans]
