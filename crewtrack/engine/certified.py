"""Certificates: covered from issue through expiry, window or revocation, whichever is first."""

from collections.abc import Iterable
from datetime import date

from crewtrack.engine.cover import Cover, stepped
from crewtrack.engine.days import FOREVER, Horizon
from crewtrack.engine.evidence import Certificate
from crewtrack.engine.requirement import Certified


def age(born: date, on: date) -> int:
    """Completed years; somebody born on 29 February is a year older on 1 March."""
    return on.year - born.year - ((on.month, on.day) < (born.month, born.day))


def horizon_for(requirement: Certified, issued: int, born: date | None) -> Horizon:
    """The window that holds for a certificate: by age on the issue date where the requirement
    has bands; the last band where the birth date is not known."""
    for band in requirement.ages:
        if band.under is None:
            return band.horizon
        if born is not None and age(born, date.fromordinal(issued)) < band.under:
            return band.horizon
    return requirement.horizon


def covered(
    requirement: Certified, certificate: Certificate, born: date | None, until: int
) -> tuple[int, int]:
    """First and last day that one certificate covers, as known up to ``until``; last before
    first where it covers none."""
    last = horizon_for(requirement, certificate.issued, born).of(certificate.issued)
    if certificate.expires is not None:
        last = min(last, certificate.expires)
    if certificate.revoked is not None and certificate.revoked <= until:
        last = min(last, certificate.revoked - 1)
    return certificate.issued, min(last, FOREVER)


def cover(requirement: Certified, certificates: Iterable[Certificate], born: date | None) -> Cover:
    """What the certificates of the kind leave covered; it changes as one is issued or revoked."""
    held = [c for c in certificates if c.kind == requirement.kind]
    changes = {c.issued for c in held} | {c.revoked for c in held if c.revoked is not None}
    return stepped(
        (
            day,
            max(
                (covered(requirement, c, born, day)[1] for c in held if c.issued <= day), default=0
            ),
        )
        for day in sorted(changes)
    )
