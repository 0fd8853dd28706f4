"""The one way in: ``crewtrack`` and ``python -m crewtrack``."""

import gc
import os
import sys
from pathlib import Path

_OBJECTS_BETWEEN_COLLECTIONS = 100_000


def main() -> None:
    """Run the command line and leave with its exit code."""
    # What is imported and read is no garbage: looking through it as often as Python does unasked
    # takes a tenth of an answer's time.
    gc.set_threshold(_OBJECTS_BETWEEN_COLLECTIONS)
    from crewtrack.cli.outcome import run

    code = run(sys.argv[1:], open_desk)
    # Nor on leaving, when all of it goes anyway: that takes as long again.
    gc.freeze()
    sys.exit(code)


def open_desk(record: Path | None) -> int:
    """Open the desk; the exit code. Refused where this machine has no screen, or lacks what Qt
    needs."""
    from crewtrack.errors import Fault, Refused

    if sys.platform.startswith("linux") and not any(map(os.environ.get, _SCREENS)):
        problem = "there is no screen here: neither DISPLAY nor WAYLAND_DISPLAY is set"
        raise Refused(Fault("desk", "", problem, "see 'crewtrack --help' for what needs none"))
    try:
        from crewtrack.desk import application
    except ImportError as missing:
        if not str(missing.name or "").startswith("PySide6") and "cannot open" not in str(missing):
            raise
        cure = "install the system's packages that README.md names"
        raise Refused(Fault("desk", "", f"Qt can't be loaded: {missing}", cure)) from missing
    return application.run(record)


_SCREENS = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")

if __name__ == "__main__":
    main()
