"""What several commands ask for, and how each is read."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import wraps
from os import PathLike
from pathlib import PurePath
from typing import Any, TypeVar

import click

Decorated = TypeVar("Decorated", bound=Callable[..., Any])


class NamedPath(click.Path):
    """A path that is not empty: an empty one is a slip, such as a variable that was never set."""

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> str | bytes | PathLike[str]:
        """The path, as ``click.Path`` takes it."""
        if not value:
            self.fail("the name is empty; write one, or leave it out where it may be", param, ctx)
        return super().convert(value, param, ctx)


EXISTING_FILE = NamedPath(exists=True, dir_okay=False, readable=True)


class Day(click.ParamType[date]):
    """A calendar date in the unit's zone, ISO 8601."""

    name = "day"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """The date; a usage error says what would be right."""
        from crewtrack.bad_cell import BadCell
        from crewtrack.moments import read_day

        if isinstance(value, date):
            return value
        try:
            return read_day(str(value))
        except BadCell as bad:
            self.fail("; ".join(part for part in (bad.problem, bad.cure) if part), param, ctx)


def named_record(
    context: click.Context, parameter: click.Parameter, value: str | None
) -> str | None:
    """What ``--db`` names (None where it is not given); a usage error where that is empty."""
    if value is not None and not value.strip():
        cure = "the name is empty; write --db FILE, or leave it out for the default record"
        raise click.BadParameter(cure, context, parameter)
    return value


def _record_or_before(
    context: click.Context, parameter: click.Parameter, value: str | None
) -> str | None:
    """``--db`` counts after the command's name, and before it, or before that of its group."""
    found = named_record(context, parameter, value)
    above = context.parent
    while not found and above is not None:
        found, above = above.params.get("record"), above.parent
    return found


def record_option(command: Decorated) -> Decorated:
    """``--db``, which arrives as ``record`` (None: the default record)."""
    return click.option(
        "--db",
        "record",
        metavar="FILE-OR-URL",
        callback=_record_or_before,
        help="The record. [default: $CREWTRACK_DB, else one in your data folder]",
    )(command)


def author_option(command: Decorated) -> Decorated:
    """``--by``, which arrives as ``author``: whoever answers for the act, never empty."""
    return click.option(
        "--by",
        "author",
        metavar="NAME",
        callback=_author,
        help="Who does this. [default: $CREWTRACK_BY, else your login name]",
    )(command)


def no_backup_option(command: Decorated) -> Decorated:
    """``--no-backup``, which arrives as ``no_backup``: go on where there can be none."""
    return click.option(
        "--no-backup", is_flag=True, help="Take no backup of the record before this."
    )(command)


def _author(context: click.Context, parameter: click.Parameter, value: str | None) -> str:
    if value is not None and value.strip():
        return value.strip()
    from crewtrack.office.unnamed import default_author

    return default_author()


def on_option(help_text: str) -> Callable[[Decorated], Decorated]:
    """``--on``, which arrives as ``on`` (None: today in the unit's zone)."""
    return click.option("--on", type=Day(), metavar="DAY", help=help_text)


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked of a record: on which day (None: today in the unit's zone), as known at which
    instant (text still, since its zone is the record's), and of which record."""

    on: date | None
    known_at: str | None
    record: str | None


@dataclass(frozen=True, slots=True)
class Delivery:
    """In which format an answer is wanted, and in which file (None: standard output)."""

    form: str
    out: str | None


def question_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """``--known-at`` and ``--db``, and ``--on`` where ``on_option`` stands below this; they arrive
    as one ``Question``."""

    @wraps(command)
    def bundled(*, known_at: str | None, record: str | None, **rest: Any) -> Any:
        question = Question(rest.pop("on", None), known_at, record)
        return command(question=question, **rest)

    option = click.option(
        "--known-at",
        metavar="INSTANT",
        help="As the record stood then: 2026-11-25T06:40-05:00; without an offset in the unit's"
        " zone; a date alone means through the end of that day.",
    )
    return option(record_option(bundled))


def delivery_options(*formats: str) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """``--format`` and ``--out``, which arrive as one ``Delivery``; without ``--format`` the ending
    of the file decides, and else it is text."""

    def decorated(command: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(command)
        def bundled(*, form: str | None, out: str | None, **rest: Any) -> Any:
            chosen = form or _format_by_ending(out or "", formats)
            return command(delivery=Delivery(chosen, out), **rest)

        return format_option(*formats)(out_option(bundled))

    return decorated


def _format_by_ending(out: str, formats: Sequence[str]) -> str:
    """The format that a file's name asks for; text where it has no ending."""
    ending = PurePath(out).suffix.lower().removeprefix(".")
    if not ending:
        return "text"
    known = {"txt" if form == "text" else form: form for form in formats}
    if ending not in known:
        endings = ", ".join(f".{each}" for each in known)
        raise click.UsageError(
            f"--out: no format has the ending .{ending}; the endings here are {endings}; name"
            " another file, or say the format with --format."
        )
    return known[ending]


def format_option(*formats: str) -> Callable[[Decorated], Decorated]:
    """``--format``, which arrives as ``form`` (None where it is not given)."""
    return click.option(
        "--format",
        "form",
        type=click.Choice(formats),
        help="[default: by the ending of --out where there is one, else text]",
    )


def out_option(command: Decorated) -> Decorated:
    """``--out``: a file to write instead of standard output."""
    return click.option(
        "--out",
        type=NamedPath(dir_okay=False),
        metavar="FILE",
        help="Write to this file, replacing it, instead of standard output.",
    )(command)


def paper_option(command: Decorated) -> Decorated:
    """``--paper``: the paper of a PDF."""
    return click.option(
        "--paper",
        type=click.Choice(("A4", "letter"), case_sensitive=False),
        default="A4",
        show_default=True,
        help="The paper of a PDF.",
    )(command)
