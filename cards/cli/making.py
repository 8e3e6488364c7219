"""The command that makes cards."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from cards.batch.make import Made, make_all
from cards.batch.printing import Up, print_up
from cards.batch.show import ink_text
from cards.batch.tiling import print_tiles
from cards.batch.together import Together
from cards.cli.common import (
    ERRORS,
    FILES,
    HOW,
    IN,
    begin,
    chosen_files,
    progress_of,
    tell,
)
from cards.cli.root import command
from cards.diagnostics.diagnostic import Diagnostic, has_errors
from cards.diagnostics.render import tally, visible
from cards.layout.sheet_plan import Flip


@command.command()
@FILES
@click.option("--up", is_flag=True, help="Also lay the cards on A4 sheets: out/print-a4.pdf.")
@click.option("--copies", type=click.IntRange(1, 1000), default=1, help="So many of each card.")
@click.option("--fill", is_flag=True, help="More copies, until each card fills its sheets alone.")
@click.option(
    "--flip",
    type=click.Choice(["long", "short"]),
    default="long",
    show_default=True,
    help="The edge about which the printer turns the sheet.",
)
@click.option("--bleed", is_flag=True, help="3 mm round each card, cut marks outside them.")
@click.option("--tile", type=click.Choice(["a4"]), help="Also cut large pages into A4 sheets.")
@click.option("--together", is_flag=True, help="Also bind all cards into one file: out/cards.pdf.")
@click.option("--ink", is_flag=True, help="Say how much of each side is black.")
@IN
@HOW
@click.option("--layout", metavar="NAME", default="", help="Another layout than the programme's.")
def make(
    files: tuple[Path, ...],
    up: bool,
    copies: int,
    fill: bool,
    flip: Flip,
    bleed: bool,
    tile: str | None,
    together: bool,
    ink: bool,
    languages: str | None,
    json_lines: bool,
    layout: str,
) -> None:
    """Make the cards of FILES, or of every recipe in the folder, into out/."""
    wish = Up(copies, fill, flip, bleed)
    if not up and wish != Up():
        raise click.UsageError("--copies, --fill, --flip and --bleed go with --up")
    workspace, kit = begin(json_lines, layout, languages)
    chosen = chosen_files(files, workspace)
    errors: list[Diagnostic] = []
    cards_made: list[Made] = []
    bound = Together(workspace, kit) if together else None
    with progress_of(len(chosen)) as progress:
        task = progress.add_task("making cards", total=len(chosen))
        for made in make_all(chosen, workspace, kit):
            progress.advance(task)
            errors += made.diagnostics
            if up or tile:
                cards_made.append(made)
            if bound:
                bound.add(made)
            if not json_lines:
                done = workspace.name(made.pdf) if made.pdf else "no card"
                done += f", {made.sheet.name}" if made.sheet else ""
                click.echo(visible(f"{made.run.name} -> {done}: {tally(made.diagnostics)}"))
                if ink and made.run.pages:
                    click.echo(f"  {ink_text(made.run.pages)}")
            tell(made.diagnostics, {**kit.sources, **made.run.sources}, json_lines)
    printed = [print_tiles(made, cards_made, workspace, kit) for made in cards_made if tile]
    printed += [print_up(cards_made, wish, workspace, kit)] if up else []
    printed += [bound.write()] if bound else []
    for file in printed:
        errors += file.diagnostics
        if file.value is not None and not json_lines:
            click.echo(f"to print: {workspace.name(file.value)}")
        tell(file.diagnostics, {}, json_lines)
    sys.exit(ERRORS if has_errors(errors) else 0)
