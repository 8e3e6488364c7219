"""The command that makes cards."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from cards.batch import lock
from cards.batch.build import Build, Wish, part_of
from cards.batch.due import Due, Made, all_due
from cards.batch.ground import Ground
from cards.cli.common import (
    ERRORS,
    FILES,
    HOW,
    IN,
    STOPPED,
    chosen_files,
    codes_of,
    kit_of,
    progress_of,
    tell,
)
from cards.cli.root import command
from cards.diagnostics.diagnostic import Diagnostic, has_errors
from cards.diagnostics.render import tally, visible
from cards.source.workspace import Workspace, open_workspace

if TYPE_CHECKING:
    from cards.batch.prints import Prints


class Part(click.ParamType[tuple[int, int]]):
    """K/N: the K-th of N parts."""

    name = "K/N"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[int, int]:
        """The two numbers; wrong use where they are none or do not fit together."""
        found = re.fullmatch(r"(\d{1,4})/(\d{1,4})", str(value))
        if not found or not 1 <= int(found[1]) <= int(found[2]):
            self.fail(f"{value!r} should be like 3/8, the third of eight parts", param, ctx)
        return int(found[1]), int(found[2])


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
@click.option("--anew", is_flag=True, help="Make everything, also what has not changed.")
@click.option("--part", type=Part(), help="Make every N-th recipe only, from the K-th on.")
@click.option(
    "--processes", type=click.IntRange(1, 256), help="So many at work side by side; else as fits."
)
@click.option("--clear", is_flag=True, help="Take away cards whose recipe is gone.")
@click.option("--only-checked", is_flag=True, help="Refuse words that nobody has read over.")
@IN
@HOW
@click.option("--layout", metavar="NAME", default="", help="Another layout than the programme's.")
def make(
    files: tuple[Path, ...],
    up: bool,
    copies: int,
    fill: bool,
    flip: Literal["long", "short"],
    bleed: bool,
    tile: str | None,
    together: bool,
    ink: bool,
    anew: bool,
    part: tuple[int, int] | None,
    processes: int | None,
    clear: bool,
    only_checked: bool,
    languages: str | None,
    json_lines: bool,
    layout: str,
) -> None:
    """Make the cards of FILES, or of every recipe in the folder, into out/."""
    if not up and (copies, fill, flip, bleed) != (1, False, "long", False):
        raise click.UsageError("--copies, --fill, --flip and --bleed go with --up")
    workspace = open_workspace(Path.cwd())
    chosen = codes_of(languages, workspace)
    ground = Ground(workspace, layout, chosen, partial(kit_of, json_lines=json_lines))
    due = all_due(chosen_files(files, workspace), workspace, ground.basis, only_checked)
    due = part_of(due, part) if part else due
    how = Wish(anew, bool(ink or tile or together), processes or 0)
    errors: list[Diagnostic] = []
    if only_checked:
        from cards.batch.signing import refused_files  # late: with all that cards are made with

        drafts = refused_files(ground.kit.languages)
        tell(drafts, ground.kit.sources, json_lines)
        if drafts:  # every card has words of these
            sys.exit(ERRORS)
    prints: Prints | None = None
    if up or tile or together:
        # late, for the same reason
        from cards.batch.printing import Up
        from cards.batch.prints import Prints

        wish = Up(copies, fill, flip, bleed) if up else None
        prints = Prints(workspace, ground.kit, wish, bool(tile), together)
    with lock.held(workspace) as busy:
        if busy:
            tell([busy], {}, json_lines)
            sys.exit(ERRORS)
        build = Build(workspace, ground, how)
        for made in _shown(build, due, workspace, json_lines):
            errors += made.diagnostics
            if prints:
                prints.add(made)
            if ink and made.run.pages and not json_lines:
                from cards.batch.show import ink_text  # late, for the same reason

                click.echo(f"  {ink_text(made.run.pages)}")
            tell(made.diagnostics, _texts(made, ground), json_lines)
        printed = prints.write() if prints else []
        gone = build.clear() if clear else build.left_over()
        build.write_page()
    for file in printed:
        errors += file.diagnostics
        if file.value is not None and not json_lines:
            click.echo(f"to print: {workspace.name(file.value)}")
        tell(file.diagnostics, {}, json_lines)
    if gone and not json_lines:
        names = ", ".join(workspace.name(path) for path in gone)
        click.echo(f"taken away: {names}" if clear else f"the recipe is gone of: {names} (--clear)")
    errors += build.faults
    tell(build.faults, {}, json_lines)
    sys.exit(ERRORS if has_errors(errors) else 0)


def _shown(
    build: Build, due: Sequence[Due], workspace: Workspace, json_lines: bool
) -> Iterator[Made]:
    """Every outcome, told as it comes; what is as before only where there is something to tell."""
    kept = done = 0
    try:
        with progress_of(len(due), "making cards") as step:
            for made in build.run(due):
                step()
                done += 1
                kept += made.before
                if not json_lines and not (made.before and not made.diagnostics):
                    click.echo(visible(_outcome(made, workspace)))
                yield made
    except KeyboardInterrupt:
        click.echo(f"stopped: {done} of {len(due)} cards are done; go on with the same command")
        sys.exit(STOPPED)
    if kept and not json_lines:
        click.echo(f"{kept} of {len(due)} are as before (--anew makes them again)")


def _texts(made: Made, ground: Ground) -> dict[str, str]:
    """Texts that a recipe's messages point into; those of the kit too where one points there."""
    own = made.run.sources
    beyond = any(d.place.line and d.place.file not in own for d in made.diagnostics)
    return {**ground.kit.sources, **own} if beyond else own


def _outcome(made: Made, workspace: Workspace) -> str:
    files = workspace.name(made.pdf) if made.pdf else "no card"
    files += f", {made.sheet.name}" if made.sheet else ""
    files += " as before" if made.before else ""
    return f"{made.run.name} -> {files}: {tally(made.diagnostics)}"
