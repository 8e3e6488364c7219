"""The command for the chart of feeding by age."""

from __future__ import annotations

import sys

import click

from cards.batch.feeding_chart import make_feeding_chart
from cards.cli.common import ERRORS, IN, begin, tell
from cards.cli.root import command
from cards.diagnostics.diagnostic import has_errors
from cards.layout.wall.feeding_chart_pages import SIZES


@command.command()
@click.option("--size", type=click.Choice(sorted(SIZES)), default="a2", show_default=True)
@click.option("--tile", type=click.Choice(["a4"]), help="Also cut it into A4 sheets.")
@IN
def chart(size: str, tile: str | None, languages: str | None) -> None:
    """Make a wall chart of feeding by age, without a recipe, into out/."""
    workspace, kit = begin(False, languages=languages)
    made = make_feeding_chart(size, workspace, kit, tile=bool(tile))
    tell(made.diagnostics, kit.sources, False)
    for path in made.value or ():
        click.echo(f"{workspace.name(path)} written")
    sys.exit(ERRORS if has_errors(made.diagnostics) else 0)
