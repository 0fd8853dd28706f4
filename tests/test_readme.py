"""README.md promises nothing that the program does not keep."""

import re
from pathlib import Path

import pytest

from crewtrack.cli.parser import crewtrack
from crewtrack.facts import KINDS, Kind
from crewtrack.files.standard_file import read_standard

README = (Path(__file__).resolve().parents[1] / "README.md").read_text(encoding="utf-8")


def test_the_small_standard_in_it_has_no_faults() -> None:
    block = re.search(r"```toml\n(.*?)```", README, re.DOTALL)
    assert block is not None
    standard = read_standard(re.sub("^   ", "", block[1], flags=re.MULTILINE), "README.md")
    assert list(standard.qualifications) == ["deck-pilot"]


def test_every_command_in_it_is_one() -> None:
    named = set(re.findall(r"`crewtrack ([a-z]+)", README))
    assert named
    assert named <= crewtrack.commands.keys()


def test_it_tells_of_every_command() -> None:
    for name in crewtrack.commands:
        assert re.search(rf"`(crewtrack )?{name}[ `]", README), name


@pytest.mark.parametrize("kind", KINDS, ids=[kind.name for kind in KINDS])
def test_the_table_of_files_has_every_column_and_marks_the_required_ones(kind: Kind) -> None:
    row = re.search(rf"^\| `{kind.name}` \| (.*) \|$", README, re.MULTILINE)
    assert row is not None
    bare = re.sub(r" \([^)]*\)", "", row[1])
    told = [f"**{c.name}**" if c.required else c.name for c in kind.columns]
    assert bare.split(", ") == told
