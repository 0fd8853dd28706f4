"""The one way in: ``crewtrack`` and ``python -m crewtrack``."""

import sys


def main() -> None:
    """Run the command line and leave with its exit code."""
    from crewtrack.cli.outcome import run

    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
