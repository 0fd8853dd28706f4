"""Whether whoever did an act had the right to, by what was recorded before it.

These are the rules of ``rights`` and ``own_name``, asked of what is recorded instead of what is
about to be: so an act that was put into a file by other means is judged like any other.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from crewtrack.errors import RecordUnusable
from crewtrack.facts import KEPT, OCCURRENCES, SIGNOFFS
from crewtrack.office.able import any_of
from crewtrack.office.attested_past import Past
from crewtrack.office.duties import DEEDS, IMPORT, Written, deeds_of
from crewtrack.office.office import editions_of
from crewtrack.office.own_name import certifier, only_withdrawn
from crewtrack.office.rights import ANONYMOUS, FROM_PAPER, REPORT
from crewtrack.phrases import phrase
from crewtrack.records.recorded_acts import BY_NAME, FLOWN, RecordedAct, Wrote
from crewtrack.records.stored import layout
from crewtrack.records.tables import EDITIONS, SEALS

SEAL: Final = "seal"
_KEEPERS: Final = frozenset(DEEDS["correct"].duties)
_NAMELESS: Final = (REPORT, ANONYMOUS)
"""Kind and author of an act that reports an occurrence without a name."""
_ANSWERS: Final = frozenset({"outcome", "answer", "answered_by", "answered"})
_WITHDRAWAL: Final = ("withdraw", "withdraw-own")


@dataclass(frozen=True, slots=True)
class Deed:
    """What an act amounts to, by its word in the table of deeds, and the fact that makes it so
    (None: the act itself)."""

    word: str
    one: Written | None = None

    @property
    def where(self) -> tuple[str, str]:
        """The fact's kind and key."""
        if self.one is None:
            return "", ""
        row = self.one.after or self.one.before
        key = layout(self.one.kind).key_of(row) if row else ()
        return self.one.kind.name, " ".join(map(str, key))


def deeds(past: Past, one: RecordedAct) -> tuple[Deed, ...]:
    """All that an act amounts to."""
    return tuple(_deeds(past, one))


def _deeds(past: Past, one: RecordedAct) -> Iterator[Deed]:
    act = one.past
    if EDITIONS in one.told:
        yield Deed("adopt")
    if act.kind == SEAL or SEALS in one.told:
        yield Deed("seal")
    written = tuple(_written(past, one))
    if act.kind == IMPORT:
        yield Deed("import")
        yield from (Deed(word, fact) for word, fact in deeds_of(act.author, written)
                    if word in FROM_PAPER or fact.kind in KEPT)  # fmt: skip
        return
    yield from (Deed(word, fact) for word, fact in deeds_of(act.author, written))
    yield from (
        Deed("keep", Written(kind, None, None)) for kind in BY_NAME if kind.name in one.told
    )


def _written(past: Past, one: RecordedAct) -> Iterator[Written]:
    """What the act writes. Whoever may correct what was flown may log it too: then nobody needs
    to know who was on board."""
    rows = list(one.wrote)
    flew = any(kind.name in one.told for kind in FLOWN)
    open_question = flew and not one.own and one.past.kind != IMPORT
    if open_question and not _KEEPERS.intersection(past.duties(one.past.author) or ()):
        rows = _with_flown(one)
    yield from (known for row in rows if (known := past.written(row)) is not None)


def _with_flown(one: RecordedAct) -> list[Wrote]:
    """All rows of an act; where some of what was flown is sealed, nobody can tell who was on
    board, and it is left out."""
    flown = [*one.flown(), *(row for row in one.wrote if row.kind in FLOWN)]
    others = [row for row in one.wrote if row.kind not in FLOWN]
    counts = Counter(row.kind.name for row in flown)
    complete = all(one.counted(kind.name) == counts[kind.name] for kind in FLOWN)
    return [*flown, *others] if complete else others


def is_nameless(one: RecordedAct) -> bool:
    """Whether an act reports one occurrence without a name, and does nothing else: that is for
    everybody, known or not."""
    if (one.past.kind, one.past.author) != _NAMELESS or one.told.keys() != {OCCURRENCES.name}:
        return False
    named = OCCURRENCES.index("reported_by")
    return one.counted(OCCURRENCES.name) == 1 and all(
        row.revision == 1 and row.row[named] is None for row in one.wrote
    )


def lacking_duty(past: Past, author: str, deed: Deed) -> Iterator[str]:
    """That the author had none of the duties that a deed asks for, if so."""
    asked = DEEDS[deed.word].duties
    if asked and not (past.duties(author) or frozenset()).intersection(asked):
        yield _lacking(deed.word, asked)


def _lacking(word: str, duties: tuple[str, ...]) -> str:
    told = phrase(DEEDS[word].told)
    return phrase("to {deed} takes {duty}, and the author was none", deed=told, duty=any_of(duties))


def for_another(past: Past, one: RecordedAct, deed: Deed) -> Iterator[str]:
    """That a fact is in the name of another than the act's author, or was not theirs to change."""
    fact, author = deed.one, one.past.author
    if fact is None:
        return
    if one.past.kind == IMPORT:
        return
    match deed.word:
        case "sign-off":
            yield from _named(author, fact, "evaluator")
        case "certify":
            yield from _named(author, fact, "by")
            yield from _certifying(past, author, fact)
        case "grant" if fact.after is not None:
            yield from _named(author, fact, "by")
        case "dispute":
            yield from _named(author, fact, "by")
            yield from _answered_already(fact)
        case "report":
            if _cell(fact, "reported_by") is not None:
                yield from _named(author, fact, "reported_by")
            yield from _answered_already(fact)
        case "answer" if fact.after is not None:
            yield from _named(author, fact, "answered_by")
            yield from _reworded(fact)


def _cell(fact: Written, name: str) -> object:
    row = fact.after or fact.before
    return None if row is None else row[fact.kind.index(name)]


def _named(author: str, fact: Written, name: str) -> Iterator[str]:
    named = _cell(fact, name)
    if named != author:
        yield phrase("{column} is {name}, who did not do this act", column=name, name=str(named))


def _answered_already(fact: Written) -> Iterator[str]:
    if any(_cell(fact, name) for name in _ANSWERS.intersection(fact.kind.names)):
        yield phrase("it is answered before it is said")


def _reworded(fact: Written) -> Iterator[str]:
    cells = zip(fact.kind.names, fact.before or (), fact.after or (), strict=True)
    if any(old != new and name not in _ANSWERS for name, old, new in cells):
        yield phrase("what was said does not stand as it was said")


def _certifying(past: Past, author: str, fact: Written) -> Iterator[str]:
    held = past.signoff(_cell(fact, "signoff"))
    if held is None:
        return
    if held[SIGNOFFS.index("evaluator")] == author:
        yield phrase("who evaluated certified it too")
    try:
        duty = certifier(editions_of(tuple(past.editions)), held)
    except (RecordUnusable, ValueError):
        yield phrase("the standard of that day can't be read")
        return
    if duty is None:
        yield phrase("the standard asks for no certification of this task")
    elif duty not in (past.duties(author) or ()):
        yield _lacking("certify", (duty,))


def changed_though_signed(past: Past, one: RecordedAct) -> Iterator[tuple[Written, str]]:
    """Sign-offs that their evaluator had signed, and that were changed in more than that they are
    withdrawn."""
    for wrote in one.wrote:
        if wrote.kind is not SIGNOFFS or wrote.revision == 1 or wrote.row[0] not in past.signed:
            continue
        fact = past.written(wrote)
        if fact is None or fact.before is None:
            continue
        if one.past.kind == IMPORT or not _is_withdrawal(fact, one.past.author):
            yield fact, phrase("it was signed, and is no longer as it was signed")


def _is_withdrawal(fact: Written, author: str) -> bool:
    words = [word for word, _ in deeds_of(author, [fact])]
    return words[0] in _WITHDRAWAL and only_withdrawn(fact)
