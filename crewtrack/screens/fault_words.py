"""A fault as one sentence, in the language in use."""

from crewtrack.errors import Fault
from crewtrack.screens.language import told


def fault_told(fault: Fault) -> str:
    """Where it is, what is wrong and what would be right."""
    return str(Fault(fault.place, fault.field, told(fault.problem), told(fault.cure)))
