"""Why recent practice is met or not: the evidence counted, and in words what is missing."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from crewtrack.engine.amounts import counted
from crewtrack.engine.case import Case
from crewtrack.engine.days import FOREVER, Horizon, period_first
from crewtrack.engine.practice import Practice, checks
from crewtrack.engine.recent import Track
from crewtrack.engine.requirement import Recent
from crewtrack.engine.signature_reasons import CERTIFICATION, signoff_counted, waits
from crewtrack.engine.spans import as_date, last_run_before, run_at
from crewtrack.engine.standings import Counted
from crewtrack.engine.wording import at_least, at_level, needed, only_on, titles
from crewtrack.phrases import Phrase, count_of, joined, phrase

ALONE = 2
Part = tuple[int, int]
"""A position in the practice, and how much of it counts."""


@dataclass(frozen=True, slots=True)
class _Followed:
    """One requirement followed through one person's practice, and the day that is asked about;
    ``run`` holds that day where practice and sign-offs meet the requirement on it."""

    case: Case
    requirement: Recent
    done: Practice
    track: Track
    day: int
    run: tuple[int, int] | None

    def counting(self, on: int) -> Sequence[Part]:
        """What counts on a day, newest first."""
        return counted(self.requirement, self.done, self.case.flown, self.track.eligible, on)

    def drilled(self, parts: Sequence[Part]) -> int:
        """How much of it is from drills."""
        drill = self.case.sorties.drill
        return sum(amount for position, amount in parts if drill[self.done.sortie[position]])


def counted_and_missing(
    case: Case, requirement: Recent, day: int
) -> tuple[tuple[Counted, ...], tuple[str, ...]]:
    """The sign-offs and performances that count on a day, and what brings or keeps the
    requirement; nothing is missing where it is met without limit."""
    done, signoffs = case.practice(requirement), case.standing_signoffs(day)
    track = case.track(requirement, done, signoffs)
    followed = _Followed(case, requirement, done, track, day, run_at(track.days, day))
    horizon = requirement.horizon.of
    checked = tuple(
        signoff_counted(case, signoff, horizon(signoff.day))
        for signoff in checks(requirement, signoffs, case.sorties, case.conditions)
        if signoff.day <= day <= horizon(signoff.day)
    )
    evidence = checked + _performed(followed)
    if followed.run is not None and followed.run[1] >= FOREVER:
        return evidence, ()
    return evidence, (_waiting(followed) or _missing(followed),)


def _waiting(followed: _Followed) -> str:
    """That a sign-off which would count as the whole requirement waits to be certified, where
    that brings it back or keeps it for longer; else empty."""
    case, requirement, day = followed.case, followed.requirement, followed.day
    standing, unwithdrawn = case.standing_signoffs(day), case.unwithdrawn_signoffs(day)
    if requirement.recheck is None or len(standing) == len(unwithdrawn):
        return ""
    counting, promised = (
        checks(requirement, signoffs, case.sorties, case.conditions)
        for signoffs in (standing, unwithdrawn)
    )
    then = run_at(case.track(requirement, followed.done, unwithdrawn).days, day)
    why = waits(case, counting, promised, (followed.run, then))
    if not why:
        return ""
    run, things = followed.run, phrase(CERTIFICATION)
    effect = _brings(followed, 1, things) if run is None else _keeps(1, things, run[1])
    return joined(": ", (titles(requirement.tasks, case.standard), joined("; ", (why, effect))))


def _performed(followed: _Followed) -> tuple[Counted, ...]:
    """The performances that carry the requirement through the end of its run, or that count so
    far where it is not met."""
    each, run = followed.requirement.horizon.each, followed.run
    on = followed.day
    if each is not None and run is not None:
        on = period_first(run[1], each) - 1  # it rests on the period before its last one
    return tuple(_counted(followed, part) for part in followed.counting(on))


def _counted(followed: _Followed, part: Part) -> Counted:
    case, done, (position, amount) = followed.case, followed.done, part
    task, sortie, day = done.task[position], done.sortie[position], done.day[position]
    return Counted(
        "performance",
        case.sorties.key[sortie],
        date.fromordinal(day),
        amount,
        task=titles((task,), case.standard),
        through=as_date(followed.requirement.horizon.of(day)),
        conditions=case.conditions.told(sortie, case.conditions.moment(task)),
    )


def _missing(followed: _Followed) -> str:
    """What brings the requirement back, or keeps it."""
    requirement = followed.requirement
    what = titles(requirement.tasks, followed.case.standard)
    limit = _practice_limit(followed)
    if followed.run is None and limit is not None and followed.day > limit:
        return joined(": ", (what, _brings(followed, 1, _signoff(requirement))))
    told = joined(": ", (what, _more(followed)))
    if followed.run is None and limit is not None and limit < FOREVER:
        day = date.fromordinal(limit)
        return phrase("{told} (after {day} only a sign-off does)", told=told, day=day)
    return told


def _more(followed: _Followed) -> str:
    """How much there is, and how much more brings the requirement back, or keeps it."""
    requirement, run = followed.requirement, followed.run
    each = requirement.horizon.each
    on = followed.day
    if run is not None:  # the first day on which it would not be met; in periods, the last one
        on = run[1] if each else run[1] + 1
    parts = followed.counting(on)
    have = min(sum(amount for _, amount in parts), requirement.amount)
    more = max(requirement.amount - have, 1)
    terms = _terms(followed, more, followed.drilled(parts))
    since = period_first(on, each) if each else requirement.horizon.earliest(on)
    if run is not None and since is not None and since > followed.day:
        things = _on_terms(needed(requirement), terms)
        return _keeps_ahead(more, things, (since, run[1]))
    things = _on_terms(phrase("{count} more", count=more), terms)
    effect = _brings(followed, more, things) if run is None else _keeps(more, things, run[1])
    return joined("; ", (_have(have, needed(requirement), since), effect))


def _have(have: int, needed: str, since: int | None) -> str:
    if since is None:
        return phrase("{done} of {needed}", done=have, needed=needed)
    day = date.fromordinal(since)
    return phrase("{done} of {needed} since {day}", done=have, needed=needed, day=day)


def _on_terms(things: str, terms: str) -> str:
    """So many, on the terms that are asked of them: between commas."""
    return phrase("{things}, {terms},", things=things, terms=terms) if terms else things


def _brings(followed: _Followed, count: int, things: str) -> Phrase:
    """What so many would do where the requirement is not met."""
    if last_run_before(followed.track.days, followed.day) is None:
        return count_of(count, "{things} meets this", "{things} meet this", things=things)
    return count_of(count, "{things} brings this back", "{things} bring this back", things=things)


def _keeps(count: int, things: str, last: int) -> Phrase:
    """What so many would do where it is met through a last day."""
    return count_of(
        count,
        "{things} by {day} keeps this",
        "{things} by {day} keep this",
        things=things,
        day=date.fromordinal(last),
    )


def _keeps_ahead(count: int, things: str, days: tuple[int, int]) -> Phrase:
    """The same where only what is done from a day to come counts."""
    first, last = map(date.fromordinal, days)
    return count_of(
        count,
        "{things} from {first} through {last} keeps this",
        "{things} from {first} through {last} keep this",
        things=things,
        first=first,
        last=last,
    )


def _terms(followed: _Followed, more: int, drilled: int) -> str:
    """The conditions, the setting and the supervision that are asked of what is still to come."""
    requirement = followed.requirement
    terms: list[str] = [_asked(requirement)]
    if requirement.drills is not None:
        live = more - max(requirement.drills - drilled, 0)
        if live > 0:
            some = phrase("at least {count} of them live", count=live)
            terms.append(phrase("live") if live == more else some)
    if requirement.supervised_regain and followed.run is None:
        terms.append(phrase("supervised"))
    return joined(", ", terms)


def _asked(requirement: Recent) -> str:
    return joined(", ", (at_least(requirement.floor), only_on(requirement.only)))


def _signoff(requirement: Recent) -> str:
    """The sign-off that counts as the whole requirement."""
    asked, live = _asked(requirement), requirement.drills == 0
    told = phrase("a sign-off passed {level}", level=at_level(ALONE))
    if not asked:
        return phrase("{signoff} on a live sortie", signoff=told) if live else told
    if live:
        return phrase("{signoff} on a live sortie ({terms})", signoff=told, terms=asked)
    return phrase("{signoff} on a sortie ({terms})", signoff=told, terms=asked)


def _practice_limit(followed: _Followed) -> int | None:
    """The last day on which practice alone still brings the requirement back; None where it
    always does."""
    requirement, last = followed.requirement, followed.track.last
    if requirement.recheck is None:
        return None
    return (
        0 if last is None else Horizon(requirement.recheck, requirement.horizon.month_end).of(last)
    )
