"""The house rules that no linter knows: sizes, names, what lies where, and that every import
contract fails on what it forbids."""

import ast
import re
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = ROOT / "crewtrack"

MOST_LINES = 300
MOST_FUNCTION_LINES = 40
MOST_PARAMETERS = 5
VAGUE_NAMES = {"utils", "helpers", "common", "manager", "service", "base"}
AT_THE_TOP = {
    ".ci",
    ".gitignore",
    "CHANGELOG.md",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "assets",
    "crewtrack",
    "migrations",
    "pyproject.toml",
    "requirements.lock",
    "tests",
}
MACHINE_PATHS = re.compile(r"(?<![\w.])/(?:root|work|home/\w+|Users/\w+|private/tmp|farm)/")

Function = ast.FunctionDef | ast.AsyncFunctionDef


def modules(*folders: Path) -> list[Path]:
    return sorted(path for folder in folders for path in folder.rglob("*.py"))


def functions(path: Path) -> Iterator[Function]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, Function):
            yield node


def parameters(function: Function) -> int:
    given = function.args
    names = [each.arg for each in (*given.posonlyargs, *given.args, *given.kwonlyargs)]
    return len([name for name in names if name not in ("self", "cls")])


def length(function: Function) -> int:
    """The lines of a function without its docstring."""
    lines = (function.end_lineno or function.lineno) - function.lineno + 1
    first = function.body[0]
    if ast.get_docstring(function) is not None and first.end_lineno is not None:
        lines -= first.end_lineno - first.lineno + 1
    return lines


def tracked_files() -> list[Path]:
    """The files of the project: what git tracks or would track; without git, what is not hidden."""
    told = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        check=False,
    )
    if told.returncode:
        pytest.skip("not a checkout")
    paths = (ROOT / name for name in told.stdout.decode().split("\0") if name)
    return [path for path in paths if path.is_file()]


def test_no_module_is_longer_than_a_few_screens() -> None:
    long = {
        str(path.relative_to(ROOT)): lines
        for path in modules(PACKAGE, ROOT / "migrations")
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > MOST_LINES
    }
    assert not long


def test_no_function_is_longer_than_a_screen() -> None:
    long = [
        f"{path.relative_to(ROOT)}:{function.lineno} {function.name}: {length(function)}"
        for path in modules(PACKAGE, ROOT / "migrations")
        for function in functions(path)
        if length(function) > MOST_FUNCTION_LINES
    ]
    assert not long


def test_most_functions_are_short() -> None:
    lengths = [length(each) for path in modules(PACKAGE) for each in functions(path)]
    assert sorted(lengths)[len(lengths) // 2] < 10


def test_no_function_takes_more_than_five_parameters() -> None:
    greedy = [
        f"{path.relative_to(ROOT)}:{function.lineno} {function.name}: {parameters(function)}"
        for path in modules(PACKAGE, ROOT / "migrations")
        for function in functions(path)
        if parameters(function) > MOST_PARAMETERS
    ]
    assert not greedy


def test_a_package_module_holds_only_its_docstring() -> None:
    for path in PACKAGE.rglob("__init__.py"):
        body = ast.parse(path.read_text(encoding="utf-8")).body
        assert len(body) == 1, path
        assert isinstance(body[0], ast.Expr), path


def test_every_module_says_what_it_is_for() -> None:
    silent = [
        str(path.relative_to(ROOT))
        for path in modules(PACKAGE, ROOT / "migrations")
        if ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) is None
    ]
    assert not silent


def test_no_module_has_a_name_that_says_nothing() -> None:
    words = {
        str(path.relative_to(ROOT)): set(path.stem.split("_")) & VAGUE_NAMES
        for path in modules(PACKAGE, ROOT / "migrations", ROOT / "tests")
    }
    assert not {path: found for path, found in words.items() if found}


def test_every_test_folder_mirrors_a_package() -> None:
    own = {"bench", "records"}  # benchmarks; and saved records beside the tests of records
    folders = {path.parent for path in (ROOT / "tests").rglob("test_*.py")}
    for folder in folders - {ROOT / "tests"}:
        inside = folder.relative_to(ROOT / "tests")
        assert (PACKAGE / inside).is_dir() or (ROOT / inside).is_dir() or inside.parts[0] in own, (
            inside
        )


def test_the_top_of_the_project_holds_only_what_it_must() -> None:
    found = {path.relative_to(ROOT).parts[0] for path in tracked_files()}
    assert found <= AT_THE_TOP


def test_no_file_names_a_place_on_one_machine() -> None:
    found = []
    for path in tracked_files():
        try:
            text = path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue  # a picture or a saved record
        found += [
            f"{path.relative_to(ROOT)}: {match[0]}"
            for match in MACHINE_PATHS.finditer(text)
            if path.name != Path(__file__).name
        ]
    assert not found


def test_the_lock_file_names_versions_and_nothing_else() -> None:
    lines = (ROOT / "requirements.lock").read_text(encoding="utf-8").splitlines()
    assert lines
    for line in lines:
        assert re.fullmatch(r"[A-Za-z0-9_.-]+==[0-9][A-Za-z0-9.+]*", line), line


def test_ci_runs_the_very_command_that_the_readme_gives() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    commands = re.findall(r"python3 -m venv .*pytest", readme)
    assert commands
    for command in commands:
        assert f"\n{command}\n" in script


PLANTED = {
    "floors": ("files/planted.py", "import crewtrack.office"),
    "pure-engine": ("engine/planted.py", "import os"),
    "sky-only": ("engine/planted.py", "import ephem"),
    "sql-only-in-records": ("office/planted.py", "import sqlalchemy"),
    "office-opens-records": ("screens/planted.py", "import crewtrack.records.record"),
    "paper-only-in-prints": ("office/planted.py", "import reportlab"),
    "workbooks-only-in-files": ("office/planted.py", "import openpyxl"),
    "terminal-only-in-cli": ("screens/planted.py", "import click"),
    "qt-only-in-desk": ("screens/planted.py", "import PySide6.QtCore"),
    "keys-in-two-modules": ("office/planted.py", "import cryptography"),
    "no-cycles": ("engine/deck.py", "import crewtrack.engine.planted"),
}


def contracts() -> set[str]:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    return {contract["id"] for contract in settings["tool"]["importlinter"]["contracts"]}


def kept(folder: Path, *names: str) -> subprocess.CompletedProcess[str]:
    """Check contracts (all, or those named) on the copy of the project in a folder."""
    chosen = [part for name in names for part in ("--contract", name)]
    run = "from importlinter.cli import lint_imports_command; lint_imports_command()"
    return subprocess.run(
        [sys.executable, "-c", run, "--no-cache", *chosen],
        cwd=folder,
        env={"PYTHONPATH": str(folder), "PATH": "", "SYSTEMROOT": ""},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A copy of what the contracts look at."""
    shutil.copytree(PACKAGE, tmp_path / "crewtrack", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def test_every_contract_is_kept(copy: Path) -> None:
    done = kept(copy)
    assert done.returncode == 0, done.stdout + done.stderr


def test_every_contract_has_a_planted_import_below() -> None:
    assert contracts() == PLANTED.keys()


@pytest.mark.parametrize("contract", PLANTED)
def test_a_contract_fails_on_what_it_forbids(copy: Path, contract: str) -> None:
    place, line = PLANTED[contract]
    with (copy / "crewtrack" / place).open("a", encoding="utf-8") as module:
        module.write(f"\n{line}\n")
    if contract == "no-cycles":
        back = copy / "crewtrack" / "engine" / "planted.py"
        back.write_text("import crewtrack.engine.deck\n", encoding="utf-8")
    done = kept(copy, contract)
    assert done.returncode == 1, done.stdout + done.stderr
    assert "BROKEN" in done.stdout
    assert "planted" in done.stdout or line.split()[1] in done.stdout


def test_a_module_that_no_floor_names_is_noticed(copy: Path) -> None:
    (copy / "crewtrack" / "planted.py").write_text("", encoding="utf-8")
    done = kept(copy, "floors")
    assert done.returncode == 1, done.stdout + done.stderr
    assert "planted" in done.stdout
