"""Values that no act recorded: told as damage where they are read, and nowhere else."""

from collections.abc import Callable
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from crewtrack import facts
from crewtrack.errors import RecordUnusable
from crewtrack.records.journal_lines import journal_lines
from crewtrack.records.reading import Reading
from crewtrack.records.store import Record
from crewtrack.records.verifying import verify
from tests.behind_its_back import change

Read = Callable[[Reading], object]


def evidence(reading: Reading) -> object:
    return reading.evidence(ZoneInfo("America/Detroit"))


def rows(reading: Reading) -> object:
    return [list(reading.rows(kind)) for kind in facts.RECORDED]


def current(reading: Reading) -> object:
    return [reading.current(kind) for kind in facts.RECORDED]


def journal(reading: Reading) -> object:
    return list(journal_lines(reading))


def editions(reading: Reading) -> object:
    return reading.editions()


def revisions(reading: Reading) -> object:
    return reading.revisions(facts.PEOPLE, ("K-07",))


def damage(path: Path, values: str) -> None:
    """Change values as a failing disk would."""
    change(path, f"UPDATE {values}")


def why(path: Path, read: Read) -> str:
    """What is said of what can't be read, less the name and the cure."""
    with Record.open(path) as record:
        with pytest.raises(RecordUnusable) as told, record.reading() as reading:
            read(reading)
        assert verify(record)
    before, _, cure = str(told.value).partition("; ")
    assert cure == (
        "see 'crewtrack verify', and put the last good backup back with 'crewtrack restore FILE'"
    )
    said = before.removeprefix(f"{path} holds something that is not as it was recorded (")
    return said.removesuffix(")")


IN_ALL = [
    ("people SET joined = '2021-13-01' WHERE id = 1", "people"),
    ("people SET name = x'414243' WHERE id = 1", "people"),
    ("assignments SET \"from\" = 'soon' WHERE id = 1", "assignments"),
    ("sorties SET launched = '2026-02-02T99:40:00Z' WHERE id = 1", "sorties"),
    ("sorties SET minutes = 'long' WHERE id = 1", "sorties"),
    ("sorties SET minutes = 1000000000000 WHERE id = 1", "sorties"),
    ("sorties SET wind = 'fresh' WHERE id = 1", "sorties"),
    ("sorties SET way = 'flying' WHERE id = 1", "sorties"),
    ("sorties SET vessel_id = 99 WHERE id = 3", "sorties"),
    ("performances SET sortie_id = 99 WHERE id = 1", "performances"),
    ("performances SET person_id = 99 WHERE id = 1", "performances"),
    ("performances SET supervisor_id = 99 WHERE id = 1", "performances"),
    ("performances SET times = 'often' WHERE id = 1", "performances"),
    ("performances SET task = x'00' WHERE id = 1", "performances"),
    ("signoffs SET evaluator_id = 99 WHERE id = 2", "signoffs"),
    ("signoffs SET level = 'well' WHERE id = 2", "signoffs"),
    ("certificates SET person_id = 99 WHERE id = 1", "certificates"),
    ("waivers SET through = 20260301 WHERE id = 1", "waivers"),
    ("standdowns SET \"from\" = '' WHERE id = 1", "standdowns"),
]


@pytest.mark.parametrize("read", [evidence, rows, current])
@pytest.mark.parametrize(("change", "kind"), IN_ALL)
def test_a_damaged_fact_makes_the_record_unusable(
    sample: Path, change: str, kind: str, read: Read
) -> None:
    damage(sample, change)
    assert why(sample, read).startswith(kind)


@pytest.mark.parametrize(
    ("change", "read", "what"),
    [
        ("sorties SET sea = 'rough' WHERE id = 1", evidence, "sorties, sea"),
        ("performances SET person_id = 99 WHERE id = 1", evidence, "performances, person"),
        ("people SET born = 'then' WHERE id = 1", revisions, "people"),
        ("people SET born = 'then' WHERE id = 1", journal, "act 2, people"),
        ("acts SET facts = '{' WHERE seq = 2", journal, "act 2"),
        ("editions SET effective = 'now' WHERE id = 1", journal, "editions"),
        ("editions SET effective = 'now' WHERE id = 1", editions, "editions"),
    ],
)
def test_where_the_damage_lies_is_told(sample: Path, change: str, read: Read, what: str) -> None:
    damage(sample, change)
    assert why(sample, read) == what


def test_a_bug_in_what_is_done_with_a_record_stays_a_bug(record: Record) -> None:
    def stumble() -> None:
        with record.reading() as reading:
            for row in reading.rows(facts.PEOPLE):
                raise KeyError(row)

    with pytest.raises(KeyError):
        stumble()
