"""A unit of three people with evidence enough for one current, one due and one lapsed pilot.

On 2026-11-25: K-01 is current (through 2027-02-08), K-02 due (through 2026-12-03), K-03 lapsed
(since 2026-11-02), by 14 CFR 61.57's count of three within 90 days, as the standard here asks it.
"""

from pathlib import Path

STANDARD = """\
title = "Small standard"
unit = "Small unit"
edition = "2026-1"
effective = 2026-01-01
zone = "America/Detroit"

[tasks.hand-recovery]
title = "Hand recovery"

[qualifications.deck-pilot]
title = "Deck pilot"
needs = [ { id = "recency", recent = "hand-recovery", times = 3, within = "P90D" } ]

[qualifications.night]
title = "Night deck pilot"
needs = [ { holds = "deck-pilot" } ]
"""

SECOND_EDITION = STANDARD.replace("2026-1", "2090-1").replace("2026-01-01", "2090-01-01")

PEOPLE = """\
person,name
K-01,Ana Kovač
K-02,Олена Ґедзь
K-03,Sam Lee
"""

ASSIGNMENTS = """\
person,qualification,from
K-01,deck-pilot,2026-01-01
K-02,deck-pilot,2026-01-01
K-03,deck-pilot,2026-01-01
"""

SORTIES = """\
sortie,launched,minutes,setting
S-1,2026-08-03T10:00-04:00,12,live
S-2,2026-09-04T10:00-04:00,12,live
S-3,2026-11-10T10:00-05:00,12,live
"""

PERFORMANCES = """\
sortie,person,task,times
S-3,K-01,hand-recovery,3
S-2,K-02,hand-recovery,3
S-1,K-03,hand-recovery,3
"""

FILES = {
    "people.csv": PEOPLE,
    "assignments.csv": ASSIGNMENTS,
    "sorties.csv": SORTIES,
    "performances.csv": PERFORMANCES,
}


def write_files(folder: Path) -> Path:
    """Write the standard, and the evidence into a folder beside it; returns that folder."""
    evidence = folder / "evidence"
    evidence.mkdir()
    (folder / "unit.toml").write_text(STANDARD, encoding="utf-8")
    (folder / "second.toml").write_text(SECOND_EDITION, encoding="utf-8")
    for name, text in FILES.items():
        (evidence / name).write_text(text, encoding="utf-8")
    return evidence
