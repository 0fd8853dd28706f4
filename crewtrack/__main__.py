"""The one way in: ``crewtrack`` and ``python -m crewtrack``."""

import gc
import sys

_OBJECTS_BETWEEN_COLLECTIONS = 100_000


def main() -> None:
    """Run the command line and leave with its exit code."""
    # What is imported and read is no garbage: looking through it as often as Python does unasked
    # takes a tenth of an answer's time.
    gc.set_threshold(_OBJECTS_BETWEEN_COLLECTIONS)
    from crewtrack.cli.outcome import run

    code = run(sys.argv[1:])
    # Nor on leaving, when all of it goes anyway: that takes as long again.
    gc.freeze()
    sys.exit(code)


if __name__ == "__main__":
    main()
