"""Roster values of every size and shape, made by rule: the same each time."""

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from typing import Final

from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import Person, StandDown, Waiver
from crewtrack.engine.spans import Span
from crewtrack.engine.standard import Qualification
from crewtrack.engine.standings import Explained, Explanation, Roster, Standing, StoodDown, Word

DAY: Final = date(2026, 11, 25)
HEAD: Final = "3f2a9c0177be4d10a5c8e6f20b9d4471" * 2
UNIT: Final = "Tamarack Harbor Marine Rescue, air section"

NAMES: Final = (
    "Ingrid Søndergård",
    "Μαρία Παπαδοπούλου",
    "Олена Ґедзь",
    "Nguyễn Thị Ánh Tuyết",
    "Zoë Ó Briain",
    "Łukasz Wiśniewski",
    "Şükrü İnceoğlu",
    "José Peña y Muñoz",
    "Đorđe Живковић",
    "Ahti Yrjö-Koskinen",
    "Ngozi Ọlábísí",
    "Kahurangi Tāwhiri",
    "Ғалымжан Өтегенов",
    "Sam Lee",
)
TITLES: Final = (
    "Basic remote pilot",
    "Deck pilot",
    "Deck pilot, under way",
    "Deck pilot, rough water",
    "Night deck pilot",
    "Deck handler",
    "Night deck handler",
    "Observer",
    "Helm for flight",
    "Deck evaluator",
    "Search pattern lead",
    "Battery steward",
    "Lost-link drill lead",
    "Night observer",
    "Rough-water helm",
)
DUTIES: Final = (("pilot", "handler"), ("observer",), ("helm", "evaluator", "officer"), ())
_WORDS: Final[tuple[Word, ...]] = (
    "current",
    "current",
    "none",
    "current",
    "due",
    "training",
    "current",
    "lapsed",
    "none",
    "current",
    "stood-down",
)
WAIVER: Final = Waiver(
    "W-2026-03", "q-01", "recency-recovery", DAY.toordinal() - 20, DAY.toordinal() + 40,
    "waiver", "The boat is in the yard until the end of the year.", "A. Moss, chief",
)  # fmt: skip
EXTENSION: Final = Waiver(
    "X-2026-01",
    "q-04",
    "recency-night",
    DAY.toordinal() - 9,
    DAY.toordinal() + 21,
    "extension",
    "No dark evening fit to fly since October.",
    "A. Moss, chief",
)
DOWNS: Final = (
    StandDown(
        "D-7", "q-01", DAY.toordinal() - 9, DAY.toordinal() + 9, "A broken wrist.", "A. Moss"
    ),
    StandDown("D-8", None, DAY.toordinal(), FOREVER, "On leave abroad.", "A. Moss"),
)
MISSING: Final = (
    "2 of 3 hand recoveries since 2026-08-28; 1 more, supervised, brings this back",
    "no pass of hand recovery at level alone since 2025-11-25; one brings this back",
)


def people(count: int) -> tuple[Person, ...]:
    return tuple(
        Person(f"K-{n + 1:02}", NAMES[n % len(NAMES)], duties=DUTIES[n % len(DUTIES)])
        for n in range(count)
    )


def qualifications(count: int) -> tuple[Qualification, ...]:
    return tuple(
        Qualification(f"q-{n:02}", TITLES[n % len(TITLES)], "pilot", n % 4, ())
        for n in range(count)
    )


def standing(person: str, qualification: str, word: Word, days: int) -> Standing:
    since = DAY - timedelta(days) if word in ("current", "due", "lapsed") else None
    through = None
    if word == "due":
        through = DAY + timedelta(days % 30)
    if word == "current" and days % 7:
        through = DAY + timedelta(31 + days)
    return Standing(person, qualification, word, since, through)


def explanation(row: Standing, name: str, title: str) -> Explanation:
    needs = (
        Explained("recency-recovery", "3 within P90D", False, None, (), (), MISSING[:1]),
        Explained("medical", "a certificate", True, None, (Span(DAY, None),), (), ()),
        Explained("signed-hand-recovery", "signed", False, None, (), (), MISSING[1:]),
    )
    return Explanation(row, name, title, "2026-1", (), needs, ())


def roster(
    who: Sequence[Person],
    what: Sequence[Qualification],
    *,
    unit: str = UNIT,
    known_at: datetime | None = None,
    relieved: bool = True,
) -> Roster:
    """Standings of every word over the people and qualifications given."""
    rows = [
        standing(person.key, q.key, _WORDS[(i * 5 + j * 3 + i * j) % len(_WORDS)], 11 * i + 5 * j)
        for i, person in enumerate(who)
        for j, q in enumerate(what)
    ]
    if relieved:
        rows = [_relieved(row) for row in rows]
    names = {person.key: person.name for person in who}
    titles = {q.key: q.title for q in what}
    lapses = [
        explanation(row, names[row.person], titles[row.qualification])
        for row in rows
        if row.word == "lapsed"
    ]
    return Roster(
        DAY,
        known_at,
        unit,
        "2026-1",
        HEAD,
        tuple(who),
        tuple(what),
        tuple(rows),
        tuple(lapses),
        (WAIVER, EXTENSION) if relieved else (),
        tuple(StoodDown(person.key, down) for person, down in zip(who[2:], DOWNS, strict=False)),
    )


def _relieved(row: Standing) -> Standing:
    if row.word in ("current", "due") and (row.person, row.qualification) in (
        ("K-01", "q-01"),
        ("K-02", "q-00"),
        ("K-05", "q-04"),
    ):
        keys = ("W-2026-03", "X-2026-01") if row.person == "K-02" else ("W-2026-03",)
        keys = ("X-2026-01",) if row.person == "K-05" else keys
        return Standing(row.person, row.qualification, row.word, row.since, row.through, (), keys)
    return row


def of(count_of_people: int, count_of_qualifications: int) -> Roster:
    return roster(people(count_of_people), qualifications(count_of_qualifications))


KNOWN: Final = datetime(2026, 11, 25, 14, 5, tzinfo=UTC)


def hard() -> Roster:
    """Names and titles as long as the record takes, and characters that the typeface lacks."""
    who = (
        Person("K-01", "Wilhelmina-" * 18),
        Person("K-02", "W" * 200, duties=DUTIES[2]),
        Person("the-longest-key-that-a-unit-may-give-40x", "Ana Maria " * 20, duties=DUTIES[2] * 2),
        Person("K-04", "李小龍 Li"),
        Person("K-05", "Ana 🚤 Ruiz"),
        Person("K-06", "مريم"),
    )
    what = (
        Qualification(
            "q-00", "Recovery by hand of an aircraft at the battery floor " * 4, None, 2, ()
        ),
        Qualification("q-01", "W" * 200, None, 0, ()),
        *qualifications(15)[2:],
    )
    return roster(who, what, unit="Unit of the long name and the many harbours " * 4)
