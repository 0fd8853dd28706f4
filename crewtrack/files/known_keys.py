"""Keys that a table does not have."""

from collections.abc import Collection

from crewtrack.files.fault_list import nearest, told
from crewtrack.files.given_table import GivenTable
from crewtrack.phrases import phrase

TOP: tuple[str, ...] = (
    "title",
    "unit",
    "edition",
    "effective",
    "zone",
    "position",
    "notice",
    "dark",
    "waiver_limit",
    "tasks",
    "qualifications",
    "crews",
)
"""The keys of the file itself, above and beside its tables."""


def refuse_unknown(
    table: GivenTable, known: Collection[str], elsewhere: Collection[str] = ()
) -> bool:
    """Note every key that is neither known nor (told about in another way) ``elsewhere``; say
    whether there was one."""
    unknown = [key for key in table if key not in known and key not in elsewhere]
    for key in unknown:
        table.fault(
            key, phrase("the key {key} is not known here", key=told(key)), _cure(key, known)
        )
    return bool(unknown)


def _cure(key: str, known: Collection[str]) -> str:
    near = nearest(key, known)
    if near is not None:
        return phrase("did you mean '{word}'?", word=near)
    if key in TOP and key not in known:
        return phrase("it belongs at the top of the file, above the first [table]")
    return phrase("the keys here are: {names}", names=", ".join(known))
