"""Keys for new sorties, in the way in which the unit has given them so far."""

from collections.abc import Sequence
from datetime import date
from typing import Final

from crewtrack.office.numbering import following

_FORMS: Final = ("%Y-%m-%d", "%Y%m%d", "%y%m%d", "%y-%m-%d")


def proposed_key(keys: Sequence[str], last: tuple[str, date] | None, day: date) -> str:
    """A key that none of ``keys`` (in the order of entry) is. Where the last sortie's key begins
    with its date, as ``261121-8`` does, the new one begins with its own day; else it follows
    the newest, and the first of all is ``S-0001``."""
    if last is not None:
        key, flown = last
        for form in _FORMS:
            begins = f"{flown:{form}}"
            if key.startswith(begins) and key != begins:
                return _of_day(keys, key[len(begins) :], f"{day:{form}}")
    return following(keys, "S-")


def _of_day(keys: Sequence[str], ending: str, begins: str) -> str:
    """The key after the day's last one; ``ending`` shows how they end."""
    mark = ending.rstrip("0123456789")
    digits = len(ending) - len(mark)
    begins += mark
    ends = (key[len(begins) :] for key in keys if key.startswith(begins))
    number = max((int(end) for end in ends if end.isdecimal()), default=0) + 1
    return f"{begins}{number:0{digits}}"
