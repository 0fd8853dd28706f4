"""Certificates: covered from issue through expiry, window or revocation, whichever is first."""

from collections.abc import Iterable
from datetime import date

from crewtrack.engine.days import FOREVER, Horizon
from crewtrack.engine.evidence import Certificate
from crewtrack.engine.requirement import Certified
from crewtrack.engine.spans import Days, join


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


def days_met(
    requirement: Certified, certificates: Iterable[Certificate], born: date | None, until: int
) -> Days:
    """The days on which any certificate of the kind covers; issued up to ``until``."""
    return join(
        covered(requirement, certificate, born, until)
        for certificate in certificates
        if certificate.kind == requirement.kind and certificate.issued <= until
    )
