"""A small roster with every word of standing in it."""

from datetime import date

from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import Person, StandDown, Waiver
from crewtrack.engine.spans import Span
from crewtrack.engine.standard import Qualification
from crewtrack.engine.standings import (
    Counted,
    Explained,
    Explanation,
    Roster,
    Standing,
    StoodDown,
)

ON = date(2026, 11, 25)
FIRST, LAST, LAPSE = date(2026, 9, 1), date(2026, 12, 3), date(2026, 11, 2)
UNIT = "Tamarack Harbor"
MISSING = "2 of 3 hand recoveries since 2026-08-28; 1 more, supervised, brings this back"

PEOPLE = (
    Person("K-01", "Ana Kovač"),
    Person("K-02", "Олена Ґедзь"),
    Person("K-03", "Sam Lee"),
)
QUALIFICATIONS = (
    Qualification("deck-pilot", "Deck pilot", "pilot", 2, ()),
    Qualification("night", "Night deck pilot", "pilot", 1, ()),
    Qualification("helm", "Helm for flight", "helm", 1, ()),
)
WAIVER = Waiver(
    "W-3", "night", "recency-night", ON.toordinal() - 5, ON.toordinal() + 8, "waiver",
    "boat in the yard", "A. Moss",
)  # fmt: skip
DOWN = StandDown("D-2", "night", ON.toordinal() - 3, FOREVER, "a broken wrist", "A. Moss")
EXTENSION = Waiver("X-1", "deck-pilot", "medical", ON.toordinal(), ON.toordinal() + 8, "extension")

ROWS = (
    Standing("K-01", "deck-pilot", "current", FIRST),
    Standing("K-01", "night", "due", FIRST, LAST, ("recency-night",), ("W-3",)),
    Standing("K-01", "helm", "none"),
    Standing("K-02", "deck-pilot", "lapsed", LAPSE, None, ("recency",)),
    Standing("K-02", "night", "training", None, None, ("recency-night",)),
    Standing("K-02", "helm", "none"),
    Standing("K-03", "deck-pilot", "current", FIRST, LAST, ("medical",), ("X-1",)),
    Standing("K-03", "night", "stood-down"),
    Standing("K-03", "helm", "none"),
)

COUNTED = Counted(
    "performance", "S-0193", date(2026, 9, 4), 2, "hand-recovery", LAST, "night, drifting, sea 3"
)
SPANS = (Span(date(2025, 2, 3), date(2025, 8, 19)), Span(FIRST, None))

LAPSED = Explanation(
    ROWS[3],
    "Олена Ґедзь",
    "Deck pilot",
    "2026-1",
    SPANS,
    (
        Explained(
            "recency", "hand recovery: 3 in 90 days", False, None, (), (COUNTED,), (MISSING,)
        ),
        Explained("medical", "certificate medical", True, LAST, SPANS, (), ()),
        Explained(
            "either",
            "any one of these",
            False,
            None,
            (),
            (),
            (),
            (Explained("signed", "signed off", False, None, (), (), ("one pass brings it",)),),
        ),
    ),
    ("K-02 has no birth date: the last age band counts",),
)


def roster(**changes: object) -> Roster:
    """The roster, or one that differs from it."""
    values: dict[str, object] = {
        "on": ON,
        "known_at": None,
        "unit": UNIT,
        "edition": "2026-1",
        "head": "3f2a9c0177be4d10" * 4,
        "people": PEOPLE,
        "qualifications": QUALIFICATIONS,
        "rows": ROWS,
        "lapses": (LAPSED,),
        "reliefs": (WAIVER, EXTENSION),
        "standdowns": (StoodDown("K-03", DOWN),),
    }
    return Roster(**(values | changes))  # type: ignore[arg-type]  # the keys are its fields


def plain(text: str, word: str) -> str:
    """Paints nothing."""
    return text


def marked(text: str, word: str) -> str:
    """Paints so that it shows in a test."""
    return f"<{word}>{text}</>"
