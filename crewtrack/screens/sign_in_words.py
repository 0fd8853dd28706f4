"""What is said where people sign in, and where they get and lose access."""

from crewtrack.screens.columns import safe
from crewtrack.screens.language import count_of, say


def opening(unit: str) -> str:
    """Above the fields, before a record is shown."""
    return say("The record of {unit} asks who you are.", unit=safe(unit))


def locked(name: str) -> str:
    """Above the fields, while a window is locked."""
    return say(
        "Locked. What {name} was typing is kept, and is there again when {name} signs in. Whoever"
        " else signs in begins afresh: a sortie or sign-off that was being typed waits for {name},"
        " what stands in other open panels is lost.",
        name=safe(name),
    )


def asked_again() -> str:
    """Above the fields, where the record no longer knows whoever was at the window."""
    return say("Who may sign in to this record has changed. Say who you are to go on.")


def told_of(able: int) -> str:
    """On the page of the record: how many people sign in."""
    if not able:
        return say("nobody is identified")
    return count_of(able, "{count} person has a key", "{count} people have keys")


def what_changes() -> str:
    """Before the first chief gets a key."""
    return say(
        "From then on everybody signs in to this record with a passphrase of their own, and can"
        " record only what their duties allow. Sign-offs, waivers, editions of the standard and"
        " other weighty acts are signed with a key that only the passphrase opens. The first one"
        " is a chief and gives the others access. This can't be undone; what was recorded before"
        " stays as it is, and counts as not signed. A passphrase that is forgotten opens nothing:"
        " give a second chief a key soon."
    )


def passphrase_advice() -> str:
    """Beside the fields for a new passphrase."""
    return say(
        "15 letters or more, blanks included; four or five words that belong to nobody are easy to"
        " remember and hard to guess."
    )
