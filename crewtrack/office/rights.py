"""Whether whoever acts may do what the act amounts to, and the signature that it asks for.

On a record in which nobody has a key, nobody is identified and everybody may do everything, as on
paper. From the first key on every act is somebody's who signed in.
"""

from collections.abc import Iterable, Sequence
from typing import Final

from crewtrack.errors import Fault, Refused
from crewtrack.facts import OCCURRENCES
from crewtrack.office.able import current_key, duties_of, identified, lacking, nobody_signed_in
from crewtrack.office.duties import DEEDS, IMPORT, Written, deeds_of
from crewtrack.office.office import Office
from crewtrack.office.own_name import own_faults, signed_already
from crewtrack.phrases import joined, phrase
from crewtrack.records.acting import Act
from crewtrack.records.finding import find
from crewtrack.records.reading import Reading

REPORT: Final = "occurrence"
"""The kind of act in which an occurrence is reported."""
ANONYMOUS: Final = "anonymous"
"""The author of an occurrence that is reported without a name."""
FROM_PAPER: Final = frozenset({"grant", "duties"})
"""What a file asks for beside the import itself."""


class Unsigned(Refused):
    """Nothing is wrong but that whoever acts has to sign, with the passphrase; ``what`` says what
    is to be signed."""

    def __init__(self, what: str) -> None:
        problem = phrase("this is signed with your own key: {deeds}", deeds=what)
        super().__init__(Fault("", "passphrase", problem, phrase("give your passphrase")))
        self.what = what


def demand(office: Office, act: Act, author: str, deeds: Iterable[str], place: str = "") -> None:
    """Refused, with whoever could do it, unless the author may do all of the deeds; where one of
    them is to be signed, the act will be."""
    if identified(act):
        _demand(office, act, author, [(deed, place) for deed in deeds])


def demand_for(
    office: Office, act: Act, author: str, written: Sequence[Written], from_files: bool = False
) -> None:
    """The same for what an act writes."""
    if not identified(act):
        return
    found = list(deeds_of(author, written))
    if from_files:
        deeds = [(IMPORT, "")] + [(deed, one.place) for deed, one in found if deed in FROM_PAPER]
        faults = [fault for deed, one in found if deed in ("correct", "withdraw", "withdraw-own")
                  for fault in signed_already(act, one)]  # fmt: skip
    else:
        deeds = [(deed, one.place) for deed, one in found]
        faults = [fault for deed, one in found for fault in own_faults(act, author, deed, one)]
    if faults:
        raise Refused(*faults)
    if from_files or not _nameless(act, author, written):
        _demand(office, act, author, deeds)


def _nameless(act: Act, author: str, written: Sequence[Written]) -> bool:
    """Whether an act reports one occurrence without a name, and does nothing else: that is for
    everybody, signed in or not, since to sign in would be to say who it is."""
    if (act.kind, author) != (REPORT, ANONYMOUS) or len(written) != 1:
        return False
    (one,) = written
    if one.kind is not OCCURRENCES or one.before is not None or one.after is None:
        return False
    new = find(act, OCCURRENCES, (one.after[0],)) is None
    return new and one.after[OCCURRENCES.index("reported_by")] is None


def may(office: Office, reading: Reading, deed: str) -> None:
    """Refused, with whoever could do it, unless whoever is signed in may do what leaves no act:
    write files, put a backup back."""
    if identified(reading):
        person = "" if office.session is None else office.session.person
        _check(office, reading, person, [(deed, "")])


def _demand(office: Office, act: Act, author: str, deeds: Sequence[tuple[str, str]]) -> None:
    _check(office, act, author, deeds)
    signed = [deed for deed, _ in dict.fromkeys(deeds) if DEEDS[deed].signed]
    if signed:
        sign(office, act, signed)


def _check(office: Office, reading: Reading, author: str, deeds: Sequence[tuple[str, str]]) -> None:
    if office.session is None:
        raise Refused(nobody_signed_in())
    if author != office.session.person:
        problem = phrase(
            "{person} is signed in, not {author}", person=office.session.person, author=author
        )
        raise Refused(Fault("", "author", problem, phrase("act in your own name")))
    if current_key(reading, author) is None:
        problem = phrase("{person} can't sign in here any more", person=author)
        raise Refused(Fault("", "author", problem, phrase("ask a chief for access")))
    held = duties_of(reading, author)
    faults = [
        _lacking(reading, deed, place)
        for deed, place in dict.fromkeys(deeds)
        if held is None or (DEEDS[deed].duties and not held.intersection(DEEDS[deed].duties))
    ]
    if faults:
        raise Refused(*dict.fromkeys(faults))


def sign(office: Office, act: Act, deeds: Iterable[str]) -> None:
    """Have an act signed by whoever is signed in; one that is only tried is not. Without a key at
    hand, Unsigned says which deeds are to be signed, at no place and in the field
    ``passphrase``."""
    if act.cancelled:
        return
    if office.hand is None:
        raise Unsigned(joined("; ", [phrase(DEEDS[deed].told) for deed in deeds]))
    if current_key(act, office.hand.by) != office.hand.key:
        problem = phrase("your key has been replaced meanwhile")
        raise Refused(Fault("", "passphrase", problem, phrase("sign in again")))
    act.sign(office.edition(act), office.hand)


def _lacking(reading: Reading, deed: str, place: str) -> Fault:
    told = DEEDS[deed]
    return lacking(reading, told.told, told.duties, place)
