"""What a deed asks of the fact itself: that everybody acts in their own name alone."""

from collections.abc import Iterator
from datetime import date

from crewtrack.engine.standard import Editions
from crewtrack.errors import Fault
from crewtrack.facts import DISPUTES, SIGNOFFS, Row
from crewtrack.office.able import duties_of, lacking
from crewtrack.office.duties import DEEDS, IMPORT, Written
from crewtrack.office.office import editions_of
from crewtrack.phrases import phrase
from crewtrack.records.acting import Act
from crewtrack.records.finding import find

_ANSWERS = ("outcome", "answer", "answered_by", "answered")


def own_faults(act: Act, author: str, deed: str, one: Written) -> Iterator[Fault]:
    """What a deed asks of the fact itself: that nobody acts for another."""
    match deed:
        case "sign-off":
            yield from _named(author, one, "evaluator", phrase("only the evaluator can sign it"))
        case "certify":
            yield from _certifying(act, author, one)
        case "grant" if one.after is not None:
            yield from _named(author, one, "by", phrase("only who grants it can sign it"))
        case "dispute" | "report":
            yield from _said(author, one)
        case "answer" if one.after is not None:
            yield from _named(author, one, "answered_by", phrase("answer in your own name"))
            yield from _as_it_was_said(one)
        case "correct":
            yield from signed_already(act, one)
        case "withdraw" | "withdraw-own" if not only_withdrawn(one):
            yield from signed_already(act, one)


def _said(author: str, one: Written) -> Iterator[Fault]:
    """A report or a dispute is somebody's own, and nobody answers it beforehand."""
    if one.kind is DISPUTES:
        yield from _named(author, one, "by", phrase("everybody disputes for themselves"))
    elif _cell(one, "reported_by") is not None:
        told = phrase("report for yourself, or without a name")
        yield from _named(author, one, "reported_by", told)
    for name in _ANSWERS:
        if name in one.kind.names and _cell(one, name) is not None:
            problem = phrase("it is answered before it is said")
            yield Fault(one.place, name, problem, phrase("leave it empty; an officer answers"))


def _as_it_was_said(one: Written) -> Iterator[Fault]:
    """What was reported or disputed is not reworded by whoever answers it."""
    for name, before, after in zip(one.kind.names, one.before or (), one.after or (), strict=True):
        if before != after and name not in _ANSWERS:
            problem = phrase("what was said stays as it was said")
            yield Fault(one.place, name, problem, phrase("say in the answer what is meant"))


def _cell(one: Written, name: str) -> object:
    row = one.after or one.before
    return None if row is None else row[one.kind.index(name)]


def _named(author: str, one: Written, name: str, cure: str) -> Iterator[Fault]:
    if _cell(one, name) != author:
        problem = phrase("{name} is not {author}", name=str(_cell(one, name)), author=author)
        yield Fault(one.place, name, problem, cure)


def _certifying(act: Act, author: str, one: Written) -> Iterator[Fault]:
    yield from _named(author, one, "by", phrase("certify in your own name"))
    held = find(act, SIGNOFFS, (str(_cell(one, "signoff")),))
    if held is None:
        return
    if held.row[SIGNOFFS.index("evaluator")] == author:
        problem = phrase("who evaluated can't certify it too")
        able = phrase("two different people sign it")
        yield Fault(one.place, "by", problem, able)
    duty = certifier(editions_of(act.editions()), held.row)
    if duty is None:
        problem = phrase("the standard asks for no certification of this task")
        yield Fault(one.place, "signoff", problem, phrase("it counts as it is"))
    elif duty not in (duties_of(act, author) or ()):
        yield lacking(act, DEEDS["certify"].told, (duty,), one.place)


def certifier(editions: Editions, signoff: Row) -> str | None:
    """The duty that has to certify a sign-off by the edition of its day; None where none has."""
    on = signoff[SIGNOFFS.index("date")]
    if not isinstance(on, date):
        return None
    edition = editions.on(on.toordinal())
    task = edition.tasks.get(str(signoff[SIGNOFFS.index("task")]))
    return getattr(task, "certified_by", None)


def only_withdrawn(one: Written) -> bool:
    """Whether a sign-off stays as it was but for when, by whom and why it was withdrawn."""
    return (
        one.before is not None
        and one.after is not None
        and all(
            old == new or name.startswith("withdrawn")
            for name, old, new in zip(SIGNOFFS.names, one.before, one.after, strict=True)
        )
    )


def signed_already(act: Act, one: Written) -> Iterator[Fault]:
    """A result that its evaluator signed stays as it was signed."""
    if one.kind is not SIGNOFFS or one.before is None:
        return
    first = act.revisions(SIGNOFFS, (one.before[SIGNOFFS.index("signoff")],))[0].act
    if first.signatures is not None and first.kind != IMPORT:
        problem = phrase("it is signed, and stays as it was signed")
        cure = phrase("withdraw it with a reason, and sign another")
        yield Fault(one.place, "signoff", problem, cure)
