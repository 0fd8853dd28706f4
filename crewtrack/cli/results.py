"""Where a result goes: to standard output, or whole into a file that it replaces."""

import os
from pathlib import Path

import click

from crewtrack.cli.terminal import emit, emit_bytes, on_terminal, tell
from crewtrack.errors import Fault, Refused

_RECORD_BEGINS = b"SQLite format 3\0"


def deliver(result: str | bytes, out: str | None) -> None:
    """Write a result to standard output, or to the file that ``--out`` names."""
    if out is not None:
        write_file(Path(out), result.encode() if isinstance(result, str) else result)
        tell(f"Wrote {out}.")
    elif isinstance(result, str):
        emit(result)
    elif on_terminal():
        raise click.UsageError("A terminal can't show a PDF; give --out FILE, or pipe it.")
    else:
        emit_bytes(result)


def write_file(path: Path, content: bytes) -> None:
    """Write a file so that at every moment either the old one or the new one is there, whole.

    A record is never replaced: nothing in it could be brought back. What is no file, such as a
    pipe or a device, is written into."""
    import tempfile

    try:
        if path.exists() and not path.is_file():
            path.write_bytes(content)
            return
        if _is_record(path):
            cure = "name another file; a record is never overwritten"
            raise Refused(Fault(str(path), "", "a record is in this file", cure))
        handle, draft = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            _with_usual_mode(Path(draft))
            Path(draft).replace(path)
        except BaseException:
            Path(draft).unlink(missing_ok=True)
            raise
    except OSError as failed:
        reason = (failed.strerror or str(failed)).lower()
        cure = "name a file in a folder that exists and can be written"
        raise Refused(Fault(str(path), "", f"can't be written ({reason})", cure)) from failed


def _is_record(path: Path) -> bool:
    """Whether a record is there already, whole or not."""
    if not path.is_file():
        return False
    with path.open("rb") as file:
        return file.read(len(_RECORD_BEGINS)) == _RECORD_BEGINS


def _with_usual_mode(path: Path) -> None:
    """Give a temporary file, which only its owner may read, the mode that a new file gets."""
    mask = os.umask(0)
    os.umask(mask)
    path.chmod(0o666 & ~mask)
