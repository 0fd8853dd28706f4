"""Drafts of sorties as values."""

import json

import pytest

from crewtrack.screens.sortie_draft import SortieDraft, TaskLine, from_plain
from tests.screens.sortie_samples import SOUND


def test_a_draft_changes_one_field_at_a_time() -> None:
    changed = SOUND.with_text("minutes", " 15 ")
    assert changed.text("minutes") == "15"
    assert SOUND.text("minutes") == "14"


def test_a_field_that_there_is_not_is_refused() -> None:
    with pytest.raises(KeyError):
        SOUND.with_text("wind_from", "240")


def test_typing_below_the_last_line_adds_one() -> None:
    draft = SortieDraft().with_task_text(0, "person", "K-01")
    assert draft.tasks == (TaskLine("K-01", times="1"),)


def test_a_line_can_be_changed_and_taken_away() -> None:
    draft = SOUND.with_task_text(1, "times", "4").without_task(0)
    assert [line.times for line in draft.tasks] == ["4", "2"]


def test_a_line_with_nothing_but_its_count_is_blank() -> None:
    assert TaskLine(times="1").blank
    assert not TaskLine(task="catch").blank


def test_a_kept_draft_comes_back_the_same() -> None:
    assert from_plain(json.loads(json.dumps(SOUND.plain()))) == SOUND


@pytest.mark.parametrize(
    "kept", [{}, {"texts": 1}, {"texts": {}, "crew": [1], "tasks": []}, {"texts": {}, "crew": []}]
)
def test_a_draft_that_makes_no_sense_is_none(kept: dict[str, object]) -> None:
    assert from_plain(kept) is None
