"""A small unit for the forms of sorties: its standard, people, boats, and drafts of a sortie."""

from datetime import date
from zoneinfo import ZoneInfo

from crewtrack.engine.evidence import Books, Evidence, Performances, Person, Sorties
from crewtrack.engine.standard import Position, Standard
from crewtrack.files.standard_file import read_standard
from crewtrack.screens.sortie_draft import CrewLine, SortieDraft, TaskLine
from crewtrack.screens.sortie_form import SortieKnown

ZONE = ZoneInfo("America/Detroit")
DAY = date(2026, 11, 25)

STANDARD: Standard = read_standard(
    """
title = "Small standard"
unit = "Small unit"
edition = "2026-1"
effective = 2026-01-01
zone = "America/Detroit"
position = { lat = 47.1, lon = -88.6 }

[tasks.deck-launch]
title = "Deck launch"
duty = "pilot"
needs = "deck-pilot"
evaluator = "examiner"
[tasks.hand-recovery]
title = "Hand recovery"
duty = "pilot"
moment = "recovery"
needs = "deck-pilot"
evaluator = "examiner"
[tasks.catch]
title = "Catch"
duty = "handler"
[tasks.watch]
title = "Watch"

[qualifications.deck-pilot]
title = "Deck pilot"
duty = "pilot"
needs = [ { recent = "hand-recovery", times = 1, within = "P90D" } ]
[qualifications.handler]
title = "Handler"
duty = "handler"
needs = [ { recent = "catch", times = 1, within = "P90D" } ]
[qualifications.examiner]
title = "Examiner"
needs = [ { certificate = "examiner-course" } ]

[crews.day]
title = "Day"
seats = [ { seat = "pilot", holds = "deck-pilot" }, { seat = "catcher", holds = "handler" } ]
[crews.night]
title = "Night"
seats = [ { seat = "pilot", holds = "deck-pilot" } ]
""",
    "standard.toml",
)

PEOPLE = {"K-01": "Ana Kovač", "K-02": "Олена Ґедзь", "K-03": "Sam Lee"}

KNOWN = SortieKnown(
    zone=ZONE,
    people=PEOPLE,
    vessels={"B-1": "Tamarack"},
    aircraft={"A-1": "Quad 1"},
    tasks=STANDARD.tasks,
    taken=frozenset({"S-0001"}),
    position=Position(47.1, -88.6),
)

SOUND = SortieDraft(
    crew=(CrewLine("pilot", "K-01"), CrewLine("catcher", "K-02")),
    tasks=(
        TaskLine("K-01", "deck-launch", "1"),
        TaskLine("K-01", "hand-recovery", "2", "3", "1", "K-03", "apart"),
        TaskLine("K-02", "catch", "2"),
    ),
).with_texts(
    {
        "vessel": "B-1",
        "aircraft": "A-1",
        "date": "2026-11-25",
        "time": "0640",
        "minutes": "14",
        "lat": "47 07.2 N",
        "lon": "88 36.0 W",
        "setting": "live",
        "way": "drifting",
        "sea": "2",
        "wind": "240/14",
        "heading": "60",
        "speed": "0",
        "current": "090/1.2",
        "purpose": "training",
        "sortie": "S-0002",
    }
)
"""A draft without a fault."""


def books(person: str, **performances: tuple[int, ...]) -> Books:
    """A person's books: the indexes of the sorties by task, with ``_`` for ``-``."""
    return Books(
        Person(person, PEOPLE[person]),
        performances={
            task.replace("_", "-"): Performances(
                sortie=done, order=done, times=(1,) * len(done), supervisor=(None,) * len(done)
            )
            for task, done in performances.items()
        },
    )


def evidence(*each: Books) -> Evidence:
    """The books of some people; sorties are told apart by number alone."""
    return Evidence(Sorties(), {one.person.key: one for one in each})
