"""What a requirement asks for, in the language in use."""

from crewtrack.engine.requirement import AllOf, AnyOf, Requirement
from crewtrack.engine.standard import Standard
from crewtrack.engine.wording import rule
from crewtrack.screens.language import told


def rule_told(need: Requirement, standard: Standard) -> str:
    """In one sentence without its full stop; of one that holds others, what it asks of them."""
    return told(rule(need, standard))


def whole(need: Requirement, standard: Standard) -> str:
    """The same with all that is nested in it, in one line."""
    if isinstance(need, AnyOf | AllOf):
        inside = "; ".join(whole(one, standard) for one in need.needs)
        return f"{rule_told(need, standard)}: ({inside})"
    return rule_told(need, standard)
