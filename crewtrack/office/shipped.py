"""Where the files that ship with the program lie.

They are inside the package in an installed program, and beside it in a checkout.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parents[1]


def shipped(*names: str) -> Path:
    """The path of a shipped file, such as ``shipped("standards", "tamarack-harbor.toml")``."""
    for assets in (_PACKAGE / "assets", _PACKAGE.parent / "assets"):
        path = assets.joinpath(*names)
        if path.exists():
            return path
    raise FileNotFoundError(f"the program's own file {'/'.join(names)} is missing; reinstall it")


def shipped_standards() -> tuple[Path, ...]:
    """The standards that ship with the program, by name."""
    return tuple(sorted(shipped("standards").glob("*.toml")))
