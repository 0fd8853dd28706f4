"""What stood before in a sortie and in what was performed on it."""

from crewtrack.facts import PERFORMANCES, SORTIES
from crewtrack.office.flying import Flown
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens.language import say
from crewtrack.screens.revision_lines import revision_lines


def past_lines(snapshot: Snapshot, flown: Flown) -> tuple[str, ...]:
    """The sortie's revisions, the newest first, then those of each performance that was ever
    changed."""
    zone = snapshot.editions.zone
    told = list(revision_lines(SORTIES, snapshot.revisions(SORTIES, (flown.key,)), zone))
    for held in flown.performances:
        if held.number > 1:
            key = tuple(held.row[:3])
            lines = revision_lines(PERFORMANCES, snapshot.revisions(PERFORMANCES, key), zone)
            told += [say("{person}, {task}:", person=key[1], task=key[2]), *lines]
    return tuple(told)
