"""One fact as it is typed in."""

from datetime import date
from zoneinfo import ZoneInfo

from crewtrack.errors import Fault
from crewtrack.facts import ASSIGNMENTS, CERTIFICATES, PEOPLE, SIGNOFFS, WAIVERS, Kind
from crewtrack.screens import fact_form
from crewtrack.screens.fact_form import FactDraft, Known

ZONE = ZoneInfo("America/Detroit")
KNOWN = Known(
    names={"people": {"K-1": "Aino", "K-2": "Jiří"}, "sorties": {"S-1": "S-1"}},
    tasks={"hand-recovery": "Hand recovery"},
    qualifications={"deck-pilot": "Deck pilot", "helm": "Helm"},
    requirements={"deck-pilot": ("recency-recovery",), "helm": ()},
)
CERTIFICATE = {"certificate": "C-1", "person": "K-1", "kind": "first-aid", "issued": "2026-01-02"}


def faults(kind: Kind, /, **texts: str) -> dict[str, str]:
    named = {name.removesuffix("_"): text for name, text in texts.items()}
    return dict(fact_form.faults(FactDraft(kind, named), KNOWN, ZONE))


def test_a_whole_draft_has_no_fault_and_is_a_row() -> None:
    draft = FactDraft(CERTIFICATES, CERTIFICATE)
    assert fact_form.faults(draft, KNOWN, ZONE) == {}
    assert fact_form.row(draft, ZONE) == (
        "C-1", "K-1", "first-aid", date(2026, 1, 2), None, None, None,
    )  # fmt: skip


def test_an_empty_field_that_is_needed_is_told() -> None:
    assert faults(PEOPLE, person="K-3") == {"name": "this is needed"}


def test_a_text_that_can_t_be_read_is_told_with_its_cure() -> None:
    found = faults(PEOPLE, person="K-3", name="Ada", joined="25.11.2026")
    assert list(found) == ["joined"]
    assert "25.11.2026" in found["joined"]


def test_a_reference_that_leads_nowhere_is_told_with_the_nearest() -> None:
    found = faults(CERTIFICATES, **{**CERTIFICATE, "person": "K1"})
    assert found == {"person": "'K1' is not known; did you mean 'K-1'?"}


def test_what_does_not_go_together_is_told_at_its_second_field() -> None:
    found = faults(CERTIFICATES, **CERTIFICATE, expires="2025-01-01")
    assert list(found) == ["expires"]


def test_a_waiver_names_a_requirement_that_can_be_waived() -> None:
    waiver = {
        "waiver": "W-1", "person": "K-1", "from_": "2026-01-01", "through": "2026-02-01",
        "reason": "x", "by": "K-2",
    }  # fmt: skip
    assert not faults(WAIVERS, **waiver, qualification="deck-pilot", requirement="recency-recovery")
    lacking = faults(WAIVERS, **waiver, qualification="helm", requirement="recency-recovery")
    assert lacking == {
        "requirement": "none of its requirements has an id of its own, so none can be waived"
    }


def test_a_recorded_row_reads_back_as_it_is() -> None:
    row = ("K-1", "deck-pilot", date(2026, 1, 2), None)
    assert fact_form.row(fact_form.draft_of(ASSIGNMENTS, row), ZONE) == row


def test_another_text_makes_another_draft() -> None:
    draft = FactDraft(PEOPLE, {"name": "Ada"})
    assert draft.with_text("name", "Aino").text("name") == "Aino"
    assert draft.text("name") == "Ada"
    assert draft.text("email") == ""


def test_the_office_s_faults_are_told_by_field_the_first_of_each() -> None:
    found = (Fault("people 1", "person", "is taken", "use another"), Fault("", "reason", "none"))
    again = Fault("people 1", "person", "is odd")
    assert fact_form.by_field((*found, again)) == {
        "person": "is taken; use another",
        "reason": "none",
    }


def test_what_the_standard_names_is_offered_with_titles() -> None:
    columns = {column.name: column for column in SIGNOFFS.columns + WAIVERS.columns}
    draft = FactDraft(WAIVERS, {"qualification": "deck-pilot"})
    assert KNOWN.choices(columns["task"], draft) == KNOWN.tasks
    assert KNOWN.choices(columns["qualification"], draft) == KNOWN.qualifications
    assert KNOWN.choices(columns["requirement"], draft) == {"recency-recovery": "recency-recovery"}
    assert KNOWN.choices(columns["reason"], draft) == {}
