"""Which passphrases are taken: NIST SP 800-63B-4, section 3.1.1.2 (at least 15 characters where a
passphrase is all there is, at least 64 accepted, any Unicode, no rules of composition, compared
with a list of the commonest)."""

import pytest

from crewtrack.office.passphrases import LONGEST, SHORTEST, normal, passphrase_faults


def told(passphrase: str, *about: str) -> list[str]:
    return [fault.problem for fault in passphrase_faults(passphrase, *about)]


def test_the_shortest_is_what_the_guideline_asks_for() -> None:
    assert (SHORTEST, LONGEST) == (15, 256)
    assert LONGEST >= 64


@pytest.mark.parametrize(
    "taken",
    ["heron lantern", "x" * 14, "", "   ", "ж" * 14],
)
def test_one_that_is_too_short_is_refused_with_its_length(taken: str) -> None:
    assert told(taken) == [f"it has {len(taken)} letters"]


@pytest.mark.parametrize(
    "taken",
    [
        "heron lantern tide",
        "только ветер и вода",
        "🛟🚤 lifeboat at dawn",
        "no digits no capitals",
        "abcdefg" * 36 + "abcd",
        " blanks around it too ",
    ],
)
def test_anything_else_is_taken_without_rules_for_its_letters(taken: str) -> None:
    assert told(taken) == []


def test_one_that_is_too_long_is_refused() -> None:
    assert told("abcdefg" * 40) == ["it has 280 letters"]


@pytest.mark.parametrize(
    "common",
    ["passwordpassword", "Password Password", "1234567890123456", "correct horse battery staple",
     "qwertyuiop12345", "aaaaaaaaaaaaaaaaaaaa", "ababababababababab"],
)  # fmt: skip
def test_the_commonest_are_refused_however_they_are_dressed_up(common: str) -> None:
    assert told(common) == ["it is one of those that are tried first"]


def test_ones_own_name_is_no_passphrase() -> None:
    assert told("Þorgerður Hallgrímsdóttir", "K-04", "Þorgerður Hallgrímsdóttir") == [
        "it is one of those that are tried first"
    ]


def test_letters_typed_in_two_ways_are_the_same() -> None:
    assert normal("Ka\u0301ri") == normal("K\u00e1ri")


def test_half_a_letter_is_refused() -> None:
    assert told("heron lantern tide\ud800") == ["it holds half a letter"]
