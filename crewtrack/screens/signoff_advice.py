"""What the sign-off form proposes and tells while it is filled in; what takes long to work out is
kept for as long as it holds."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from crewtrack.office.changes import Change
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens import signoff_effect, signoff_form, signoff_marks, signoff_people
from crewtrack.screens.fact_form import FactDraft, Known
from crewtrack.screens.signoff_marks import Mark
from crewtrack.screens.signoff_people import Evaluator


@dataclass(frozen=True, slots=True)
class Advice:
    """Sentences about a form: the evaluator's standing, a warning about it, what the sign-off
    would change and whether that ends anything, and what else to mind."""

    standing: str = ""
    warning: str = ""
    effect: str = ""
    ends: bool = False
    notices: tuple[str, ...] = ()


class SignOffAdvice:
    """Advice on forms that are filled in on ``on``, by one state of the record."""

    def __init__(self, snapshot: Snapshot, on: date) -> None:
        self._snapshot = snapshot
        self._on = on
        self._people: dict[tuple[str, date, str], tuple[Evaluator, ...]] = {}
        self._effects: dict[tuple[object, ...], tuple[Change, ...]] = {}

    def choices(self, draft: FactDraft, known: Known) -> Mapping[str, Mapping[str, str]]:
        """What may be chosen, by field: keys and what each is called."""
        evidence, zone = self._snapshot.reckoning.evidence, self._snapshot.editions.zone
        signers = self._evaluators(draft)
        return {
            "person": known.names["people"],
            "task": self._tasks(draft),
            "sortie": signoff_form.sortie_choices(evidence, zone, draft),
            "evaluator": {one.key: signoff_people.choice_line(one) for one in signers},
        }

    def sortie(self, draft: FactDraft) -> str:
        """The sortie to propose; empty for none."""
        return signoff_form.proposed_sortie(self._snapshot.reckoning.evidence, draft)

    def day_of(self, sortie: str) -> date | None:
        """The day of a sortie; None where there is no such sortie."""
        return signoff_form.sortie_day(self._snapshot.reckoning.evidence, sortie)

    def told(self, draft: FactDraft, marks: tuple[Mark, ...]) -> Advice:
        """All that is to be said of a form."""
        chosen = self._chosen(draft)
        day = signoff_form.day_of(draft)
        notices = signoff_form.notices(draft, self._snapshot.reckoning, self._snapshot.today)
        amiss = signoff_marks.contradiction(marks, draft.text("result"))
        found = self._effect(draft)
        return Advice(
            signoff_people.standing_told(chosen, day) if chosen and day else "",
            signoff_people.warning(chosen) if chosen else "",
            "" if found is None else signoff_effect.told(found),
            bool(found) and signoff_effect.ends_something(found or ()),
            (*notices, amiss) if amiss else notices,
        )

    def _tasks(self, draft: FactDraft) -> Mapping[str, str]:
        """The tasks of the edition in effect on the form's day."""
        day = signoff_form.day_of(draft) or self._on
        return {key: task.title for key, task in self._snapshot.standard(day).tasks.items()}

    def _evaluators(self, draft: FactDraft) -> tuple[Evaluator, ...]:
        day = signoff_form.day_of(draft)
        if day is None:
            return ()
        asked = (draft.text("task").strip(), day, draft.text("person").strip())
        if asked not in self._people:
            self._people[asked] = signoff_people.evaluators(self._snapshot.reckoning, *asked)
        return self._people[asked]

    def _chosen(self, draft: FactDraft) -> Evaluator | None:
        key = draft.text("evaluator").strip()
        found = next((one for one in self._evaluators(draft) if one.key == key), None)
        day, books = signoff_form.day_of(draft), self._snapshot.reckoning.evidence.books
        if found is not None or day is None or key not in books or key == draft.text("person"):
            return found
        return signoff_people.evaluator(
            self._snapshot.reckoning, draft.text("task").strip(), key, day
        )

    def _effect(self, draft: FactDraft) -> tuple[Change, ...] | None:
        """None where the form does not say enough yet."""
        person, evidence = draft.text("person").strip(), self._snapshot.reckoning.evidence
        planned = signoff_form.planned(draft, evidence)
        if planned is None or person not in evidence.books or not planned.task:
            return None
        asked = (person, planned.task, planned.day, planned.level, planned.result, planned.sortie)
        if asked not in self._effects:
            self._effects[asked] = signoff_effect.effects(
                self._snapshot.reckoning, person, planned, self._on
            )
        return self._effects[asked]
