"""The revisions of one fact in words: who wrote what, when and why."""

from collections.abc import Sequence
from zoneinfo import ZoneInfo

from crewtrack.cells import cell_text
from crewtrack.facts import Kind, Row, Value
from crewtrack.office.snapshot import Revision
from crewtrack.screens import fields
from crewtrack.screens.language import say


def revision_lines(kind: Kind, revisions: Sequence[Revision], zone: ZoneInfo) -> tuple[str, ...]:
    """The newest first; each later revision with what it changed."""
    before: list[Row | None] = [None, *(one.row for one in revisions)]
    told = [_told(kind, one, was, zone) for one, was in zip(revisions, before, strict=False)]
    return tuple(reversed(told))


def _told(kind: Kind, revision: Revision, before: Row | None, zone: ZoneInfo) -> str:
    head = say(
        "{number}. {who}, {when}",
        number=revision.number,
        who=revision.act.author,
        when=revision.act.at.astimezone(zone).strftime("%Y-%m-%d %H:%M"),
    )
    if revision.act.reason:
        head = say("{head}: {why}", head=head, why=revision.act.reason)
    if revision.struck:
        return say("{head} — struck out", head=head)
    if before is None:
        return head
    changes = "; ".join(
        say("{field}: {now} (was {was})", field=fields.label(kind, name), now=_shown(new),
            was=_shown(old))
        for name, new, old in zip(kind.names, revision.row, before, strict=True)
        if new != old
    )  # fmt: skip
    return say("{head} — {changes}", head=head, changes=changes) if changes else head


def _shown(value: Value) -> str:
    return cell_text(value) or "–"
