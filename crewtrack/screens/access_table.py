"""Who signs in, and who does not, as a table."""

from crewtrack.office.who_signs_in import Access
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import choice_told
from crewtrack.screens.language import say
from crewtrack.screens.tables import Table, TableColumn, day_order


def access_table(people: tuple[Access, ...]) -> Table:
    """Everybody in the record."""
    columns = (
        TableColumn(say("Person"), lambda one: safe(one.person), spoken=sentence),
        TableColumn(say("Name"), lambda one: safe(one.name), spoken=sentence),
        TableColumn(say("Duties"), duties_told),
        TableColumn(say("Signs in"), signs_in, order=lambda one: one.key is None),
        TableColumn(
            say("Since"),
            lambda one: str(one.since) if one.since else "",
            order=lambda one: day_order(one.since),
        ),
        TableColumn(say("Signing key"), lambda one: safe(one.key or "")),
    )
    return Table(columns, people, lambda one: one.person)


def duties_told(one: Access) -> str:
    """The duties in words."""
    return ", ".join(map(choice_told, one.duties))


def signs_in(one: Access) -> str:
    """Whether somebody has a key."""
    return say("yes") if one.key is not None else say("no")


def sentence(one: Access) -> str:
    """Somebody in one sentence."""
    values = {"name": safe(one.name), "person": safe(one.person), "duties": duties_told(one) or "–"}
    if one.key is None:
        return say("{name}, {person}, {duties}: does not sign in", **values)
    return say("{name}, {person}, {duties}: signs in since {day}", day=one.since, **values)
