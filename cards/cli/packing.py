"""The command that packs a training day."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from cards.batch import lock
from cards.batch.pack import pack as make_pack
from cards.cli.common import ERRORS, HOW, begin, tell
from cards.cli.root import command


@command.command()
@click.argument("file", type=click.Path(path_type=Path))
@HOW
def pack(file: Path, json_lines: bool) -> None:
    """Make all papers of the training day FILE into one folder out/NAME/."""
    workspace, kit = begin(json_lines)
    with lock.held(workspace) as busy:
        if busy:
            tell([busy], {}, json_lines)
            sys.exit(ERRORS)
        made = make_pack(file, workspace, kit)
    tell(made.diagnostics, {**kit.sources, **made.texts}, json_lines)
    if made.folder is None:
        if not json_lines:
            click.echo(f"{workspace.name(file)}: nothing made")
        sys.exit(ERRORS)
    if not json_lines:
        for one in made.printed:
            sides = "both sides" if one.both else "one side"
            sheets = "sheet" if one.sheets == 1 else "sheets"
            click.echo(f"  {one.name}: {one.sheets} {sheets} of {one.paper}, {sides}")
        click.echo(f"{workspace.name(made.folder)} written")
