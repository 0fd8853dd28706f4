from dataclasses import replace

from crewtrack.engine.standings import Explained
from crewtrack.prints.roster_lists import cures, lapse_list, relief_list, stood_down_list
from tests.prints import samples


def explained(met: bool, *missing: str, needs: tuple[Explained, ...] = ()) -> Explained:
    return Explained("r", "3 within P90D", met, None, (), (), missing, needs)


def test_only_what_is_not_met_says_what_brings_it_back() -> None:
    assert cures([explained(True, "a"), explained(False, "b", "c")]) == ("b", "c")


def test_a_requirement_without_words_of_its_own_gives_those_of_what_is_nested_in_it() -> None:
    nested = (explained(False, "a"), explained(True, "b"), explained(False, "a", "c"))
    assert cures([explained(False, needs=nested)]) == ("a", "c")


def test_a_requirement_without_any_words_gives_its_rule() -> None:
    assert cures([explained(False)]) == ("Not met: 3 within P90D",)


def test_every_lapse_is_listed_with_who_what_since_when_and_what_brings_it_back() -> None:
    roster = samples.of(14, 10)
    found = lapse_list(roster, 700)
    assert len(found.entries) == len(roster.lapses)
    texts = [[text for text, _ in cell] for cell in found.entries[0]]
    since = roster.lapses[0].standing.since
    assert since is not None
    assert texts == [
        [samples.NAMES[0]],
        ["K-01"],
        ["Night deck handler"],
        [since.isoformat()],
        list(samples.MISSING),
    ]


def test_what_rests_on_a_waiver_is_listed_with_its_kind_span_reason_and_who_granted_it() -> None:
    found = relief_list(samples.of(14, 10), 700)
    told = [[text for cell in entry for text, _ in cell] for entry in found.entries]
    assert [
        "waiver",
        "W-2026-03",
        "recency-recovery",
        "2026-11-05 – 2027-01-04",
        "The boat is in the yard until the end of the year.",
        "A. Moss, chief",
    ] in [row[3:] for row in told]
    assert "extension" in {row[3] for row in told}


def test_a_waiver_that_the_roster_does_not_hold_is_listed_by_its_key() -> None:
    found = relief_list(replace(samples.of(14, 10), reliefs=()), 700)
    told = [[text for cell in entry for text, _ in cell] for entry in found.entries]
    assert ["", "W-2026-03", "", "", "", ""] in [row[3:] for row in told]


def test_who_is_stood_down_is_listed_with_which_since_when_until_when_and_why() -> None:
    found = stood_down_list(samples.of(4, 3), 700)
    assert [[text for cell in entry for text, _ in cell] for entry in found.entries] == [
        [samples.NAMES[2], "K-03", "Deck pilot", "D-7", "2026-11-16", "2026-12-04",
         "A broken wrist.", "A. Moss"],
        [samples.NAMES[3], "K-04", "all", "D-8", "2026-11-25", "until lifted",
         "On leave abroad.", "A. Moss"],
    ]  # fmt: skip


def test_a_stand_down_from_what_the_edition_lacks_is_listed_by_its_key() -> None:
    found = stood_down_list(samples.of(3, 1), 700)
    assert found.entries[0][2][0][0] == "q-01"
