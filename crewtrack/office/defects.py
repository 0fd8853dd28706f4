"""A defect of the program: its details go to a file, never before a person."""

import sys

from crewtrack.phrases import phrase


def written_down(unexpected: BaseException) -> str:
    """Write a traceback to a file of its own in the user's log folder; a sentence that says
    where it lies."""
    import tempfile
    import traceback

    from platformdirs import user_log_path

    try:
        folder = user_log_path("crewtrack", appauthor=False, ensure_exists=True)
        with tempfile.NamedTemporaryFile(
            "w", encoding="utf-8", prefix="defect-", suffix=".txt", dir=folder, delete=False
        ) as file:
            file.write(f"crewtrack {_version()}, Python {sys.version}, {sys.platform}\n\n")
            file.writelines(traceback.format_exception(unexpected))
    except OSError as failed:
        return phrase("Its details could not be written down ({why}).", why=failed.strerror)
    return phrase("Its details are in {file}; please report it with that file.", file=file.name)


def _version() -> str:
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version("crewtrack")
    except PackageNotFoundError:
        return "(not installed)"
