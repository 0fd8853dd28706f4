"""Finding the files that ship with the program."""

import pytest

from crewtrack.office.shipped import shipped


def test_a_shipped_file_is_found() -> None:
    assert shipped("standards", "tamarack-harbor.toml").is_file()


def test_a_missing_one_says_that_the_program_is_not_whole() -> None:
    with pytest.raises(FileNotFoundError, match=r"standards/none\.toml is missing; reinstall"):
        shipped("standards", "none.toml")
