"""The months' names, short enough for the day line."""

from datetime import date

from crewtrack.screens.language import say


def month_told(first: date) -> str:
    """``Mar``; January with its year."""
    names = (
        say("Jan"),
        say("Feb"),
        say("Mar"),
        say("Apr"),
        say("May"),
        say("Jun"),
        say("Jul"),
        say("Aug"),
        say("Sep"),
        say("Oct"),
        say("Nov"),
        say("Dec"),
    )
    name = names[first.month - 1]
    return say("{month} {year}", month=name, year=first.year) if first.month == 1 else name
