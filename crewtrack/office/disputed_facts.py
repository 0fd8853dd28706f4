"""Whether what a dispute is about is there."""

from crewtrack.bad_cell import likely, shown
from crewtrack.errors import Fault
from crewtrack.facts import DISPUTES, KINDS, Row
from crewtrack.office.fact_text import fact_key
from crewtrack.phrases import phrase
from crewtrack.records.acting import Act
from crewtrack.records.finding import find


def disputed_faults(act: Act, row: Row, place: str) -> list[Fault]:
    """What is wrong with a new dispute: it names no kind of entry, or an entry that is not
    there."""
    name, text = (str(row[DISPUTES.index(column)]) for column in ("kind", "fact"))
    kind = next((kind for kind in KINDS if kind.name == name), None)
    if kind is None:
        names = [one.name for one in KINDS]
        cure = likely(name, names) or phrase("write one of {words}", words=", ".join(names))
        problem = phrase("no entries of the kind {what} can be disputed", what=shown(name))
        return [Fault(place, "kind", problem, cure)]
    key = fact_key(kind, text)
    held = None if key is None else find(act, kind, key)
    if held is None or held.struck:
        problem = phrase("no {what} {key}", what=phrase(kind.one), key=shown(text))
        return [Fault(place, "fact", problem, phrase("choose one that is there"))]
    return []
