"""Who stands for a sign-off: whoever signed it with a key, or whoever attests to the paper that it
came from."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

from crewtrack.facts import SIGNOFFS
from crewtrack.office.duties import IMPORT
from crewtrack.office.office import Office
from crewtrack.records.first_acts import first_acts
from crewtrack.records.journal import PastAct


@dataclass(frozen=True, slots=True)
class Attested:
    """``signed`` by the person ``by`` with a key; ``paper`` where ``by`` attests, with a key, to
    what files say; ``unsigned`` where nobody was identified, and then ``by`` and ``key`` are
    empty. ``key`` is the name of the key."""

    how: Literal["signed", "paper", "unsigned"]
    by: str = ""
    key: str = ""


UNSIGNED: Final = Attested("unsigned")


def attestations(office: Office) -> Mapping[str, Attested]:
    """Who stands for each sign-off that was ever recorded, by its key. What counts is the act
    that recorded it first: a result stays as it was signed."""
    with office.record.reading() as reading:
        acts = first_acts(reading, SIGNOFFS)
    told = {act.seq: _told(act) for act in {act.seq: act for act in acts.values()}.values()}
    return {key: told[act.seq] for key, act in acts.items()}


def _told(act: PastAct) -> Attested:
    signed = json.loads(act.signatures) if act.signatures else []
    if not signed:
        return UNSIGNED
    how: Literal["paper", "signed"] = "paper" if act.kind == IMPORT else "signed"
    return Attested(how, str(signed[0]["by"]), str(signed[0]["key"]))
