"""Which choice is meant by a part of one."""

import pytest

from crewtrack.screens.choosing import folded, meant

PEOPLE = {
    "K-01": "Aino Lehtovaara",
    "K-02": "Jiří Šťovíček",
    "K-03": "Łucja Grzędzielska",
    "K-10": "Margit Ööbik-Saar",
    "K-11": "Anahit Ter-Vardani",
}
WAYS = {"moored": "moored", "anchored": "anchored", "under-way": "under way"}


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("jiri", "K-02"),
        ("stov", "K-02"),
        ("LUCJA", "K-03"),
        ("oobik", "K-10"),
        ("k-01", "K-01"),
        ("vardani", "K-11"),
        (" aino ", "K-01"),
    ],
)
def test_a_part_of_a_name_or_key_without_its_marks_is_enough(typed: str, key: str) -> None:
    assert meant(typed, PEOPLE) == key


def test_what_fits_several_means_none_of_them() -> None:
    assert meant("k-1", PEOPLE) == ""


def test_what_fits_none_means_none() -> None:
    assert meant("zz", PEOPLE) == ""


def test_nothing_typed_means_nothing() -> None:
    assert meant(" ", PEOPLE) == ""


def test_a_beginning_goes_before_a_part() -> None:
    assert (
        meant("l", {"live": "live, from a boat", "drill": "drill, from a dock or land"}) == "live"
    )


def test_a_whole_key_goes_before_the_beginning_of_another() -> None:
    assert meant("K-1", {"K-1": "One", "K-10": "Ten"}) == "K-1"


def test_one_letter_chooses_a_word() -> None:
    assert [meant(letter, WAYS) for letter in "mau"] == ["moored", "anchored", "under-way"]


def test_letters_of_any_script_keep_their_own() -> None:
    assert folded("Ђуришић") == folded("ђУРИШИЋ") != ""
