"""Tests of the sections of a person's books, by a small unit's record."""

from collections.abc import Iterator
from datetime import date

import pytest

from crewtrack.facts import CERTIFICATES, SIGNOFFS
from crewtrack.office import keeping, snapshot
from crewtrack.screens import person_books, signoff_form
from crewtrack.screens.fact_form import known_of
from crewtrack.screens.person_books import SECTIONS, Asked
from crewtrack.screens.signoff_advice import SignOffAdvice
from tests.office.unit_at_work import EVIDENCE, STANDARD, Clock, unit_in

ON = date(2026, 7, 1)


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Asked]:
    """K-01 of the small unit, as of a day."""
    folder = tmp_path_factory.mktemp("unit")
    (folder / "unit.toml").write_text(STANDARD, encoding="utf-8")
    keeping.init(folder / "made.crewtrack", folder / "unit.toml", "Ana", Clock())
    with unit_in(folder, folder / "made.crewtrack") as unit:
        unit.take(EVIDENCE)
        yield Asked(snapshot.take(unit.office), "K-01", ON)


def rows(section: str, asked: Asked) -> list[list[str]]:
    table = person_books.table(section, asked)
    return [[column.text(row) for column in table.columns] for row in table.rows]


def test_every_section_has_a_name_and_a_sentence_for_where_it_is_empty() -> None:
    names = [person_books.title(section) for section in SECTIONS]
    assert len(set(names)) == len(names) == 9
    assert all(person_books.nothing(section).endswith(".") for section in SECTIONS)


def test_facts_are_added_where_a_section_is_of_one_kind() -> None:
    kinds = {section: person_books.kind_of(section) for section in SECTIONS}
    assert kinds["signoffs"] is SIGNOFFS
    assert kinds["certificates"] is CERTIFICATES
    assert [section for section, kind in kinds.items() if kind is None] == [
        "standings",
        "tasks",
        "sorties",
        "occurrences",
    ]


def test_standings_and_task_book_are_as_of_the_day(asked: Asked) -> None:
    told = rows("standings", asked)
    assert [row[:3] for row in told] == [["Deck pilot", "due", "2026-07-30"]]
    early = Asked(asked.snapshot, "K-01", date(2026, 4, 30))
    assert rows("tasks", early)[0][2] == "–"
    assert rows("tasks", asked)[0][2] == "alone"


def test_sign_offs_sorties_and_papers_are_the_person_s_own(asked: Asked) -> None:
    assert [row[-1] for row in rows("signoffs", asked)] == ["E-1"]
    assert [row[-1] for row in rows("sorties", asked)] == ["S-3", "S-2"]
    assert [row[0] for row in rows("assignments", asked)] == ["Deck pilot"]
    assert rows("certificates", asked) == []


def test_advice_is_silent_about_what_the_form_does_not_say_yet(asked: Asked) -> None:
    advice = SignOffAdvice(asked.snapshot, ON)
    told = advice.told(signoff_form.new_draft("", "", "", date(2026, 5, 31)), ())
    assert (told.standing, told.warning, told.effect, told.notices) == ("", "", "", ())


def test_advice_tells_evaluator_effect_and_contradiction(asked: Asked) -> None:
    draft = signoff_form.new_draft("K-01", "hand-recovery", "", ON)
    draft = draft.with_text("evaluator", "V-01").with_text("result", "failed")
    told = SignOffAdvice(asked.snapshot, ON).told(draft, ("not-yet",))
    assert told.standing == "The standard asks nothing of whoever signs this task off."
    assert told.effect == "What it changes: ends Deck pilot from 2026-07-01."
    assert told.ends
    passed = draft.with_text("result", "passed")
    (*_, last) = SignOffAdvice(asked.snapshot, ON).told(passed, ("not-yet",)).notices
    assert last == "1 criterion is marked not yet, and the result is a pass."


def test_advice_offers_people_tasks_and_that_day_s_sorties(asked: Asked) -> None:
    draft = signoff_form.new_draft("K-01", "hand-recovery", "", date(2026, 5, 20))
    advice = SignOffAdvice(asked.snapshot, ON)
    choices = advice.choices(draft, known_of(asked.snapshot))
    assert list(choices["sortie"]) == ["S-3"]
    assert list(choices["task"]) == ["hand-recovery"]
    assert list(choices["evaluator"]) == ["V-01", "K-02"]
    assert advice.sortie(draft) == "S-3"
    assert advice.day_of("S-2") == date(2026, 5, 1)
