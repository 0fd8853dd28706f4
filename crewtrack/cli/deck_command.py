"""``deck``: wind, current and boat, and which way an aircraft then goes."""

import click

from crewtrack.cli.terminal import emit, on_terminal, width


@click.command()
@click.option("--wind", metavar="FROM/KN", required=True, help="True wind: where from, knots.")
@click.option("--heading", metavar="DEGREES", required=True, help="The boat's heading, true.")
@click.option("--set", metavar="TOWARD/KN", default="", help="Current: where to, knots.")
@click.option("--speed", metavar="KN", default="", help="Through the water. [default: 0]")
@click.option(
    "--facing", metavar="DEGREES", default="", help="Where the launcher faces. [default: the bow]"
)
@click.option(
    "--leeway",
    metavar="FRACTION",
    default="",
    help="How much of the wind the boat drifts with, such as 0.03; or a kind of craft.",
)
@click.option("--way", metavar="WAY", default="", help="moored, anchored, drifting, under-way.")
@click.option(
    "--format", "form", type=click.Choice(("text", "json")), default="text", show_default=True
)
def deck(form: str, **given: str) -> None:
    """Work out the wind over the deck.

    And which way an aircraft goes that has lost its hold on position, or keeps it.

    \b
    Example:
      crewtrack deck --wind 240/14 --set 090/1.2 --heading 060 --speed 0

    Wind is named for where it comes from, set for where the current goes to; degrees true, knots.
    """
    import json

    from crewtrack.engine.deck import picture
    from crewtrack.screens import deck_entry, deck_words
    from crewtrack.screens.columns import wrapped

    seen = picture(deck_entry.read_deck(deck_entry.DeckOptions(**given)))
    if form == "json":
        emit(json.dumps(deck_words.as_json(seen), ensure_ascii=False, indent=2))
        return
    wide = width() if on_terminal() else None
    emit("\n".join(line for told in deck_words.lines(seen) for line in wrapped(told, wide)))
