"""What the form for sorties needs of the record: drafts, keys, seats."""

from datetime import date

from crewtrack.office import flying
from crewtrack.office.office import Office
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens.sortie_book import SortieBook
from crewtrack.screens.sortie_form import read_draft

DAY = date(2026, 11, 25)
FLYING = date(2026, 11, 21)
LAST = "261121-8"


def test_every_recorded_sortie_reads_back_from_its_draft(
    demo_office: Office, demo_taken: Snapshot
) -> None:
    book = SortieBook(demo_taken)
    for key in demo_taken.reckoning.evidence.sorties.key[-60:]:
        flown = flying.flown(demo_office, key)
        assert flown is not None
        draft = book.recorded(flown)
        read = read_draft(draft, book.known(date.fromisoformat(draft.text("date")), key))
        assert not read.faults
        assert read.sortie == flown.sortie.row
        assert set(read.performances) == {held.row for held in flown.performances}


def test_the_next_key_bears_the_day(demo_taken: Snapshot) -> None:
    book = SortieBook(demo_taken)
    assert book.key(FLYING) == "261121-9"
    assert book.key(DAY) == "261125-1"


def test_the_last_sortie_is_that_of_the_day_or_before(demo_taken: Snapshot) -> None:
    book = SortieBook(demo_taken)
    assert book.last_key(DAY) == LAST
    assert book.last_key(date(2026, 11, 20)) == "261118-8"
    assert book.last_key(date(2020, 1, 1)) is None


def test_a_fresh_draft_has_the_seats_of_the_standard(demo_taken: Snapshot) -> None:
    crew = SortieBook(demo_taken).fresh(DAY).crew
    assert [line.seat for line in crew] == ["pilot", "handler", "observer", "helm"]


def test_the_next_sortie_is_the_last_one_anew(demo_office: Office, demo_taken: Snapshot) -> None:
    flown = flying.flown(demo_office, LAST)
    assert flown is not None
    draft = SortieBook(demo_taken).again(flown, FLYING)
    assert (draft.text("sortie"), draft.text("time")) == ("261121-9", "12:26")
    assert len(draft.tasks) == len(flown.performances)


def test_the_log_can_be_narrowed_to_all_that_was_ever_defined(demo_taken: Snapshot) -> None:
    choices = SortieBook(demo_taken).choices()
    assert choices["vessel"]["B-2"] == "Merganser"
    assert choices["person"]["K-01"] == "Aino Lehtovaara"
    assert choices["task"]["hand-recovery"] == "Hand recovery (pilot)"


def test_who_is_not_on_the_books_that_day_comes_last_and_is_told_of(demo_taken: Snapshot) -> None:
    told = list(SortieBook(demo_taken).known(DAY).people.items())
    assert told[0] == ("K-01", "Aino Lehtovaara")
    assert told[-1][1].endswith(" (not on the books)")
    away = [name.endswith(" (not on the books)") for _, name in told]
    assert away == sorted(away)
