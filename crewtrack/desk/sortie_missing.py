"""A boat, an aircraft or a person that the record lacks, added from within the form."""

from collections.abc import Mapping

from crewtrack.desk.fact_dialog import FactDialog
from crewtrack.desk.fields import AnyEditor
from crewtrack.desk.sortie_layout import SortieLayout
from crewtrack.desk.state import State
from crewtrack.facts import AIRCRAFT, PEOPLE, VESSELS, Kind
from crewtrack.screens.language import say


def add_missing(form: SortieLayout, state: State) -> None:
    """Add what the field with the focus asks for, and choose it there."""
    found = _asked(form)
    if found is None:
        state.told.emit(say("Go to the boat, the aircraft or a seat first."))
        return
    place, kind = found
    editor = _editors(form)[place]
    dialog = FactDialog(state, kind, None, {"name": editor.text()}, form)
    if dialog.exec():
        editor.set_text(dialog.fields.draft().text(kind.key[0]))
    dialog.deleteLater()


def _asked(form: SortieLayout) -> tuple[str, Kind] | None:
    """What has the focus; where none has it, the first in which something unknown stands."""
    editors = _editors(form)
    focused = [place for place, editor in editors.items() if editor.hasFocus()]
    unknown = [place for place, editor in editors.items() if editor.property("faulty")]
    place = next(iter((*focused, *unknown)), None)
    if place is None:
        return None
    return place, {"vessel": VESSELS, "aircraft": AIRCRAFT}.get(place, PEOPLE)


def _editors(form: SortieLayout) -> Mapping[str, AnyEditor]:
    craft = {name: form.first.fields[name].editor for name in ("vessel", "aircraft")}
    return craft | {seat: field.editor for seat, field in form.crew.fields.items()}
