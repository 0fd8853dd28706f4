"""Drafts on disk."""

from pathlib import Path

import pytest

from crewtrack.desk.drafts import Drafts, claimed, drafts_folder


def test_a_draft_comes_back_as_it_was_kept(tmp_path: Path) -> None:
    texts = {"minutes": "12", "crew": [["pilot", "K-04 Þorgerður"]]}
    assert Drafts(tmp_path / "drafts").save("sortie", texts)
    assert Drafts(tmp_path / "drafts").load("sortie") == texts


def test_a_later_draft_takes_the_place_of_the_one_before(tmp_path: Path) -> None:
    drafts = Drafts(tmp_path)
    drafts.save("sortie", {"minutes": "1"})
    drafts.save("sortie", {"minutes": "12"})
    assert drafts.load("sortie") == {"minutes": "12"}
    assert [file.name for file in tmp_path.iterdir()] == ["sortie.json"]


def test_a_draft_that_was_dropped_is_gone(tmp_path: Path) -> None:
    drafts = Drafts(tmp_path)
    drafts.save("sortie", {})
    drafts.drop("sortie")
    drafts.drop("sortie")
    assert drafts.load("sortie") is None


@pytest.mark.parametrize("content", ["", "{", "[1]", "\x00"])
def test_a_file_that_is_no_draft_is_as_good_as_none(tmp_path: Path, content: str) -> None:
    (tmp_path / "sortie.json").write_text(content, encoding="utf-8")
    assert Drafts(tmp_path).load("sortie") is None


def test_where_no_file_can_be_written_nothing_is_raised(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file", encoding="utf-8")
    drafts = Drafts(tmp_path / "taken")
    assert not drafts.save("sortie", {})
    drafts.drop("sortie")
    assert drafts.load("sortie") is None


def test_every_record_has_drafts_of_its_own(tmp_path: Path) -> None:
    one, other = (drafts_folder(tmp_path / name) for name in ("a.crewtrack", "b.crewtrack"))
    assert one != other
    assert one == drafts_folder(tmp_path / "a.crewtrack")


def test_two_windows_keep_their_drafts_apart(tmp_path: Path) -> None:
    one, other = claimed(tmp_path), claimed(tmp_path)
    one.save("sortie", {"minutes": "1"})
    other.save("sortie", {"minutes": "2"})
    assert one.load("sortie") == {"minutes": "1"}
    assert other.load("sortie") == {"minutes": "2"}


def test_a_place_that_was_left_is_taken_again(tmp_path: Path) -> None:
    one = claimed(tmp_path)
    one.let_go()
    again = claimed(tmp_path)
    again.save("sortie", {"minutes": "1"})
    assert Drafts(tmp_path).load("sortie") == {"minutes": "1"}


def test_a_window_takes_the_place_in_which_a_draft_waits(tmp_path: Path) -> None:
    one, other = claimed(tmp_path), claimed(tmp_path)
    other.save("sortie", {"minutes": "2"})
    one.let_go()
    other.let_go()
    assert claimed(tmp_path).load("sortie") == {"minutes": "2"}


def test_where_no_place_can_be_made_drafts_are_simply_not_kept(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file", encoding="utf-8")
    assert not claimed(tmp_path / "taken").save("sortie", {})


def test_everybody_s_drafts_lie_apart(tmp_path: Path) -> None:
    record = tmp_path / "unit.crewtrack"
    places = {drafts_folder(record), drafts_folder(record, "K-01"), drafts_folder(record, "K-02")}
    assert len(places) == 3


def test_drafts_are_handed_over_where_there_are_none_of_the_name(tmp_path: Path) -> None:
    first, second = Drafts(tmp_path / "a"), Drafts(tmp_path / "b")
    first.save("sortie", {"minutes": "12"})
    first.save("signoff", {"remarks": "mine"})
    second.save("signoff", {"remarks": "another"})
    first.hand_over(second)
    assert second.load("sortie") == {"minutes": "12"}
    assert first.load("sortie") is None
    assert second.load("signoff") == {"remarks": "another"}
    assert first.load("signoff") == {"remarks": "mine"}
