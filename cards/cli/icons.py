"""The command for pages about the icons."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from cards.batch.icon_pages import make_icon_pages, used_icons
from cards.cli.common import (
    ERRORS,
    FILES,
    IN,
    begin,
    chosen_files,
    tell,
)
from cards.cli.root import command
from cards.diagnostics.diagnostic import Diagnostic, Severity, has_errors
from cards.source.grounds import Part


@command.command()
@FILES
@click.option("--test", "what", flag_value="test", help="A test of what people understand.")
@click.option("--lesson", "what", flag_value="lesson", help="A first lesson, on one sheet.")
@click.option("--all", "every", is_flag=True, help="Test every icon, not only those in use.")
@IN
def icons(files: tuple[Path, ...], what: str | None, every: bool, languages: str | None) -> None:
    """Set all icons with their words, a test of them, or a first lesson, into out/.

    The test holds the icons on the cards of FILES, or of every recipe in the folder.
    """
    if what != "test" and (files or every):
        raise click.UsageError("files and --all go with --test")
    workspace, kit = begin(False, languages=languages)
    names: tuple[str, ...] = ()
    faults: tuple[Diagnostic, ...] = ()
    recipes: tuple[Part, ...] = ()
    if what == "test" and not every:
        used = used_icons(chosen_files(files, workspace), workspace, kit)
        names, faults, recipes = used.names, used.diagnostics, used.recipes
        tell(faults, {**kit.sources, **used.texts}, False, least=Severity.ERROR)
    made = make_icon_pages(what or "sheet", names, workspace, kit, recipes)
    tell(made.diagnostics, kit.sources, False)
    if made.value is not None:
        click.echo(f"{workspace.name(made.value)} written")
    sys.exit(ERRORS if has_errors((*faults, *made.diagnostics)) else 0)
