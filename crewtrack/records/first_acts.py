"""Which act recorded each fact of a kind first: for all of them at once."""

from collections.abc import Mapping

from crewtrack.facts import Kind
from crewtrack.records.connecting import fetch
from crewtrack.records.damage import as_recorded
from crewtrack.records.journal import PastAct, acts_at
from crewtrack.records.reading import Reading


def first_acts(reading: Reading, kind: Kind) -> Mapping[str, PastAct]:
    """The act that recorded a fact first, by the fact's key; of a kind that has a single key
    column, a key of its own. The acts are few, also where there are many facts."""
    (key,) = kind.key
    rows = fetch(
        reading.connection, f"SELECT {key}, act FROM {kind.name} WHERE revision = 1 ORDER BY id"
    )
    with as_recorded(kind.name):
        acts = acts_at(reading.connection, {seq for _, seq in rows})
        return {str(found): acts[seq] for found, seq in rows}
