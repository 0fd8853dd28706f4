"""The help sheet's table: what can be done where, by which key."""

from dataclasses import dataclass

from crewtrack.screens.language import say
from crewtrack.screens.tables import Table, TableColumn


@dataclass(frozen=True, slots=True)
class HelpLine:
    """One action: the page or menu it belongs to, its name, its key, and what it does."""

    where: str
    name: str
    key: str
    does: str


def help_table(lines: tuple[HelpLine, ...], sought: str = "") -> Table:
    """The actions in which some text is found, in their order."""
    wanted = sought.casefold()
    rows = tuple(
        (number, line)
        for number, line in enumerate(lines)
        if wanted in f"{line.where} {line.name} {line.key} {line.does}".casefold()
    )
    columns = (
        TableColumn(say("Where"), lambda row: str(row[1].where)),
        TableColumn(say("Action"), lambda row: str(row[1].name)),
        TableColumn(say("Keys"), lambda row: str(row[1].key)),
        TableColumn(say("What it does"), lambda row: str(row[1].does)),
    )
    return Table(columns, rows, lambda row: int(row[0]))
