"""Requirements and standards in few words, for tests."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from crewtrack.engine.days import Duration, Horizon, Period
from crewtrack.engine.requirement import Requirement, inside
from crewtrack.engine.standard import Editions, Qualification, Standard, Task


def within(duration: str, through: str = "") -> Horizon:
    """The horizon of ``within = "P90D"``; ``through="month-end"`` as in the standard."""
    return Horizon(Duration.parse(duration), month_end=through == "month-end")


def each(period: Period) -> Horizon:
    """The horizon of ``each = "month"``."""
    return Horizon(each=period)


@dataclass(frozen=True)
class Rules:
    """One edition in few words: the needs of each qualification, and what is not the default."""

    needs: Mapping[str, Sequence[Requirement]]
    effective: str = "2020-01-01"
    notice: str = "P30D"
    zone: str = "UTC"
    tasks: Mapping[str, Task] = field(default_factory=dict)


def standard(rules: Rules) -> Standard:
    """The edition; tasks that its requirements name are defined without further ado."""
    leaves = [r for needs in rules.needs.values() for need in needs for r in inside(need)]
    named = [t for r in leaves for t in (*getattr(r, "tasks", ()), getattr(r, "task", "")) if t]
    return Standard(
        title="Rules under test",
        unit="Test unit",
        edition=f"from {rules.effective}",
        effective=date.fromisoformat(rules.effective),
        zone=rules.zone,
        position=None,
        notice=Duration.parse(rules.notice),
        dark="civil",
        waiver_limit=Duration(days=180),
        tasks={key: Task(key, key) for key in named} | dict(rules.tasks),
        qualifications={
            key: Qualification(key, key, None, 0, tuple(needs))
            for key, needs in rules.needs.items()
        },
        crews={},
    )


def editions(*rules: Rules) -> Editions:
    """All editions of a record."""
    return Editions(tuple(standard(each_one) for each_one in rules))
