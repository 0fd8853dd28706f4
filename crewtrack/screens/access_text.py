"""Who signs in, as text for a terminal."""

from crewtrack.office.who_signs_in import Access
from crewtrack.screens.columns import aligned, safe


def access_lines(people: tuple[Access, ...]) -> str:
    """Everybody who has a key, one a line: person, name, since when, the key's name, duties."""
    able = [one for one in people if one.key is not None]
    if not able:
        return "Nobody is identified: this record has no keys."
    rows = [
        (safe(one.person), safe(one.name), str(one.since), safe(one.key or ""),
         ", ".join(one.duties))
        for one in able
    ]  # fmt: skip
    return "\n".join(aligned(rows))
