"""The oracle's rules: from when through when each requirement is covered, on what is known.

Slow and obvious on purpose, and sharing no idea with the engine: calendar dates instead of
ordinals, everything counted anew for every performance, nothing kept between one day and the next.
A cover is (first day, last day), both included; ``FAR`` stands for no limit.
"""

import math
from datetime import date, timedelta

from crewtrack.engine.days import Horizon
from crewtrack.engine.evidence import NOT_RECORDED, SignOff, Sorties
from crewtrack.engine.requirement import Certified, Recent, Signed
from tests.oracle_calendar import horizon_of, last_of_month, later, period_of
from tests.oracle_known import Known, Practised

Cover = tuple[date, date]
_ALONE = 2
_MOORED_OR_ANCHORED = (0, 1)


def apparent_wind(sorties: Sorties, i: int) -> float | None:
    """Section 6: the speed of the wind over the deck, to 0.1 kn; None where not recorded."""
    boat = (0.0, 0.0)
    if sorties.way[i] not in _MOORED_OR_ANCHORED:
        through_water = _going(sorties.speed[i], sorties.heading[i])
        current = _going(sorties.drift[i], sorties.set[i]) or (0.0, 0.0)
        if through_water is None:
            return None
        boat = through_water[0] + current[0], through_water[1] + current[1]
    strength = sorties.wind[i]
    if strength is None or boat == (0.0, 0.0):
        return strength
    wind = _going(strength, sorties.wind_from[i])
    if wind is None:
        return None
    return round(math.hypot(-wind[0] - boat[0], -wind[1] - boat[1]), 1)


def _going(speed: float | None, direction: float | None) -> tuple[float, float] | None:
    """East and north parts; nothing moves at speed 0, whatever the direction."""
    if speed == 0:
        return 0.0, 0.0
    if speed is None or direction is None:
        return None
    angle = math.radians(direction)
    return speed * math.sin(angle), speed * math.cos(angle)


def in_conditions(sorties: Sorties, i: int, need: Recent) -> bool:
    """Whether a sortie meets ``floor`` and ``only``; light as stated by hand, or not recorded."""
    floor = need.floor
    asked: list[tuple[float | None, float | None]] = [
        (floor.light, sorties.light[i]),
        (floor.way, sorties.way[i]),
        (floor.sea, sorties.sea[i]),
        (floor.wind, sorties.wind[i]),
        (floor.apparent, apparent_wind(sorties, i)),
    ]
    for least, had in asked:
        if least is not None and (had is None or had == NOT_RECORDED or had < least):
            return False
    if need.only.aircraft and sorties.aircraft[i] not in need.only.aircraft:
        return False
    return not need.only.vessel or sorties.vessel[i] in need.only.vessel


def amount(need: Recent, counted: list[Practised]) -> int:
    """How much there is, with no more than ``drills`` of it from drills."""
    if need.measure == "days":
        return len({p.day for p in counted})
    parts = []
    for drill in (False, True):
        some = [p for p in counted if p.drill is drill]
        parts.append(
            {
                "times": sum(p.times for p in some),
                "sorties": len({p.sortie for p in some}),
                "minutes": sum({p.sortie: p.minutes for p in some}.values()),
            }[need.measure]
        )
    live, drills = parts
    return live + (drills if need.drills is None else min(drills, need.drills))


def reached(need: Recent, eligible: list[Practised]) -> date | None:
    """Step 3: walk back from the newest until there is enough; the horizon of where that is."""
    newest = eligible[-1]
    if need.horizon.each:
        here = period_of(newest.day, need.horizon)
        eligible = [p for p in eligible if period_of(p.day, need.horizon) == here]
    for back in range(1, len(eligible) + 1):
        if amount(need, eligible[-back:]) >= need.amount:
            return horizon_of(eligible[-back].day, need.horizon)
    return None


def recent_covers(need: Recent, known: Known) -> list[Cover]:
    """Section 4.1, steps 1 to 5."""
    covers: list[Cover] = []
    eligible: list[Practised] = []
    for day, event in _in_order(need, known):
        last = max((end for _, end in covers), default=None)
        if isinstance(event, SignOff):
            covers.append((day, horizon_of(day, need.horizon)))
            continue
        current = last is not None and day <= last
        if need.supervised_regain and not event.supervised and not current:
            continue
        eligible.append(event)
        if need.recheck and not (last and day <= later(last, need.recheck, need.horizon.month_end)):
            continue
        end = reached(need, eligible)
        if end is not None and end >= day:
            covers.append((day, end))
    return covers


def _in_order(need: Recent, known: Known) -> list[tuple[date, Practised | SignOff]]:
    """What can count, as it happened; on one date, sign-offs come after performances."""
    events: list[tuple[date, int, Practised | SignOff]] = [
        (p.day, 0, p)
        for p in known.practised
        if p.task in need.tasks and in_conditions(known.sorties, p.sortie, need)
    ]
    if need.recheck:
        events += [
            (date.fromordinal(s.day), 1, s)
            for s in known.signoffs
            if s.task in need.tasks and s.result == "passed" and s.level >= _ALONE
            if _sortie_will_do(s, need, known)
        ]
    return [(day, event) for day, _, event in sorted(events, key=lambda e: e[:2])]


def _sortie_will_do(signoff: SignOff, need: Recent, known: Known) -> bool:
    """A sign-off needs a sortie that meets ``floor``, ``only`` and ``drills = 0``, if written."""
    floor, only = need.floor, need.only
    if need.drills != 0 and not only.aircraft and not only.vessel:
        asked = (floor.light, floor.way, floor.sea, floor.wind, floor.apparent)
        if all(value is None for value in asked):
            return True
    if signoff.sortie is None or not in_conditions(known.sorties, signoff.sortie, need):
        return False
    return need.drills != 0 or not known.sorties.drill[signoff.sortie]


def signed_covers(need: Signed, known: Known) -> list[Cover]:
    """Section 4.2; results of one date in the order in which they were recorded."""
    covers: list[Cover] = []
    due: int | None = None
    done_for: range = range(0)
    for result in sorted(known.signoffs, key=lambda s: s.day):
        day = date.fromordinal(result.day)
        if result.task != need.task:
            continue
        if result.result == "failed" and need.level >= result.level:
            covers = [(first, min(end, day - timedelta(days=1))) for first, end in covers]
            due, done_for = None, range(0)
        if result.result != "passed" or result.level < need.level:
            continue
        if not (need.early or need.late):
            covers.append((day, horizon_of(day, need.horizon)))
            continue
        due, done_for = _next_due(need, day.year * 12 + day.month, due, done_for)
        year, month = divmod(due + need.late - 1, 12)
        covers.append((day, last_of_month(year, month + 1)))
    return covers


def _next_due(need: Signed, month: int, due: int | None, done_for: range) -> tuple[int, range]:
    """The month due after a pass, and the months whose passes count as the same one."""
    assert need.horizon.within is not None
    window = need.horizon.within.months
    if due is None:
        return month + window, range(month, month + 1)
    if due - need.early <= month <= due + need.late:
        return due + window, range(due - need.early, due + need.late + 1)
    if month in done_for or month + window <= due:
        return due, done_for
    return month + window, range(month, month + 1)


def certified_covers(need: Certified, known: Known) -> list[Cover]:
    """Section 4.3."""
    covers = []
    for certificate in known.certificates:
        if certificate.kind != need.kind:
            continue
        issued = date.fromordinal(certificate.issued)
        ends = [horizon_of(issued, _band(need, issued, known.born))]
        if certificate.expires is not None:
            ends.append(date.fromordinal(certificate.expires))
        if certificate.revoked is not None:
            ends.append(date.fromordinal(certificate.revoked - 1))
        covers.append((issued, min(ends)))
    return covers


def _band(need: Certified, issued: date, born: date | None) -> Horizon:
    """The first window by age that fits; the last where no birth date is known."""
    if not need.ages:
        return need.horizon
    if born is None:
        return need.ages[-1].horizon
    had_birthday = (issued.month, issued.day) >= (born.month, born.day)
    age = issued.year - born.year - (0 if had_birthday else 1)
    return next(b.horizon for b in need.ages if b.under is None or age < b.under)
