"""What an act did, in text: rows added and revised, a standard found sound, a record verified."""

from collections.abc import Iterator, Sequence

from crewtrack.engine.standard import Standard
from crewtrack.office.heads import OnPaper
from crewtrack.office.importing import Imported
from crewtrack.office.keeping import Adopted
from crewtrack.office.looking_back import SetBack
from crewtrack.screens.columns import aligned, safe


def counted(count: int, one: str, many: str = "") -> str:
    """``1 task``, ``12 tasks``."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def sound_standard(place: str, standard: Standard) -> str:
    """What a standard without a fault holds."""
    return f"{place}: no faults. {_held(standard)}."


def _held(standard: Standard) -> str:
    return (
        f"Edition {safe(standard.edition)}, in effect from"
        f" {standard.effective}: {counted(len(standard.tasks), 'task')},"
        f" {counted(len(standard.qualifications), 'qualification')},"
        f" {counted(len(standard.crews), 'crew')}"
    )


def adopted(done: Adopted) -> str:
    """The edition that was added, and where the journal stands now."""
    if done.digest is None:
        return f"Nothing changed: the record holds edition {safe(done.standard.edition)} already."
    return f"{_held(done.standard)}; journal {done.digest[:12]}."


def imported(done: Imported, dry_run: bool) -> str:
    """How many rows of each kind are new, revised, or as the record holds them already."""
    return "\n".join(_imported(done, dry_run))


def _imported(done: Imported, dry_run: bool) -> Iterator[str]:
    kinds = dict.fromkeys((*done.added, *done.revised, *done.unchanged))
    rows = [
        (kind, *(str(of.get(kind, 0)) for of in (done.added, done.revised, done.unchanged)))
        for kind in kinds
    ]
    yield from aligned([("rows", "added", "revised", "unchanged"), *rows])
    if not done.changed:
        yield "Nothing changed: the record holds all of it as it stands."
    elif dry_run:
        yield "A dry run: nothing was written."
    elif done.digest:
        yield f"Written; journal {done.digest[:12]}."


def clock_went_back(odd: SetBack) -> str:
    """Acts that are dated earlier than one before them in the chain."""
    acts = f"acts {odd.first} to {odd.last}" if odd.count > 1 else f"act {odd.first}"
    if 1 < odd.count <= odd.last - odd.first:
        acts = f"{odd.count} of the acts {odd.first} to {odd.last}"
    verb = "is" if odd.count == 1 else "are"
    return (
        f"The clock went back: {acts} {verb} dated earlier than act {odd.after}, which comes before"
        f" {'it' if odd.count == 1 else 'them'}. The order of the journal holds."
    )


def verified(breaks: Sequence[str], journal: bool = False) -> str:
    """Every break, or that there is none, in a record or in a journal that was exported."""
    if not breaks and journal:
        return "The journal is whole: its acts, their rows and their signatures agree."
    if not breaks:
        return "The journal and every fact in the record agree."
    return "\n".join((*map(safe, breaks), f"{counted(len(breaks), 'break')} found."))


def on_paper(act: OnPaper | None) -> str:
    """Which act a digest on paper is that of."""
    if act is None:
        return "No act of it has this digest."
    return f"act {act.seq} of {safe(act.instant)}, by {safe(act.author)}"


def head(act: OnPaper | None) -> str:
    """The last act's digest in full, and which act it is."""
    if act is None:
        return "No act is recorded yet."
    return f"{act.digest}\n{on_paper(act)}"
