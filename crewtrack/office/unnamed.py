"""What serves where nothing is named: which record, and who acts. Light to import: the desk asks
before anything heavy is loaded."""

import os
from pathlib import Path


def named_record() -> Path | None:
    """The record that ``CREWTRACK_DB`` names; None where it names none."""
    named = os.environ.get("CREWTRACK_DB")
    return Path(named) if named else None


def default_record() -> Path:
    """The record where none is named: ``CREWTRACK_DB``, else one in the user's data folder."""
    named = named_record()
    if named is not None:
        return named
    import platformdirs  # only where no record is named

    return platformdirs.user_data_path("crewtrack", appauthor=False) / "record.crewtrack"


def default_author() -> str:
    """Who acts where nobody is named: ``CREWTRACK_BY``, else the login name."""
    named = os.environ.get("CREWTRACK_BY")
    if named:
        return named
    try:
        return os.environ.get("USERNAME") or os.environ.get("USER") or os.getlogin()
    except OSError:
        return "unknown"
