"""Text that a spreadsheet would run as a formula, made harmless in a file, and back.

A text whose first mark, apostrophes apart, starts a formula gets one apostrophe more in front;
reading takes exactly one off such a text again. So ``=1+1`` is written ``'=1+1``, ``'=1+1`` is
written ``''=1+1``, and both come back as they were. Numbers and dates are never touched.
"""

import re

# Each also in its full-width form, which some spreadsheets take for the same.
_RUNS = re.compile("'*[-=+@\t\r\n\uff1d\uff0b\uff0d\uff20]")


def harmless(text: str) -> str:
    """The text as it is written to a file."""
    return "'" + text if _RUNS.match(text) else text


def as_meant(text: str) -> str:
    """The text that ``harmless`` was given."""
    return text[1:] if text.startswith("'") and _RUNS.match(text) else text
