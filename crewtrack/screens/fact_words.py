"""One fact in lines of words: what each field says, with the names of what it refers to."""

from crewtrack.facts import Choice, Choices, Column, Kind, Row
from crewtrack.screens import fields
from crewtrack.screens.fact_form import FactDraft, Known, draft_of
from crewtrack.screens.language import say


def fact_lines(kind: Kind, row: Row, known: Known) -> tuple[str, ...]:
    """A line for each field that is filled: its label and what it says."""
    draft = draft_of(kind, row)
    return tuple(
        say(
            "{label}: {text}",
            label=fields.label(kind, column.name),
            text=_told(column, draft, known),
        )
        for column in kind.columns
        if draft.text(column.name)
    )


def _told(column: Column, draft: FactDraft, known: Known) -> str:
    text = draft.text(column.name)
    if isinstance(column.type, Choice):
        return fields.choice_told(text)
    if isinstance(column.type, Choices):
        return ", ".join(map(fields.choice_told, text.split(";")))
    name = known.choices(column, draft).get(text, text)
    told = text if name == text else f"{name} ({text})"
    measure = fields.unit(column.name)
    return f"{told} {measure}" if measure else told
