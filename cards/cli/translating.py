"""Commands for words in other languages: out to a translator, back, how they stand, signed."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click
from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table

from cards.batch.exchange import export, note_missing, take_back
from cards.batch.signing import sign
from cards.batch.standing import Standing, standings
from cards.cli.common import ERRORS, begin, chosen_files, tell, write
from cards.cli.root import command
from cards.diagnostics.diagnostic import Diagnostic, has_errors


@command.group()
def words() -> None:
    """Send words to translators, take them back, sign for them."""


@words.command("export")
@click.option("--to", "code", required=True, metavar="CODE", help="The language, such as bn.")
@click.option(
    "--recipes",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Only this recipe, without the phrases of all cards; may be given several times.",
)
@click.option("-o", "target", type=click.Path(path_type=Path), help="The file to write.")
def export_words(code: str, recipes: tuple[Path, ...], target: Path | None) -> None:
    """Write a PO file of all that is to be said in the language CODE."""
    workspace, kit = begin(False, words=False)
    made = export(code, chosen_files(recipes, workspace), not recipes, workspace, kit)
    tell(made.diagnostics, kit.sources, False)
    if made.value is None:
        sys.exit(ERRORS)
    target = target or workspace.out / f"words-{code}.po"
    write(target, made.value.text, workspace.name(target))
    told = f"{made.value.missing} to translate, {made.value.stale} to translate anew"
    click.echo(f"{workspace.name(target)} written: {made.value.texts} texts, {told}")


@words.command("import")
@click.argument("file", type=click.Path(path_type=Path))
def import_words(file: Path) -> None:
    """Check the PO FILE and write its texts where they belong: all, or none."""
    workspace, kit = begin(False, words=False)
    taken = take_back(file, workspace, kit)
    found = taken.value
    name = workspace.name(file)
    tell(taken.diagnostics, {**kit.sources, name: found.text if found else ""}, False)
    if found is None or not found.language:
        click.echo(f"{name}: nothing was changed", err=True)
        sys.exit(ERRORS)
    click.echo(f"{name}: {found.changed} texts new or changed in {found.language}")
    for path in found.files:
        click.echo(f"{workspace.name(path)} written")
    missing = note_missing(found, name)
    tell((missing,) if missing else (), {}, False)


@words.command("status")
def status() -> None:
    """Show how the words of every file stand in every language."""
    workspace, kit = begin(False, words=False)
    table = Table(box=SIMPLE_HEAD, pad_edge=False)
    table.add_column("file", overflow="fold")
    for heading in ("in", "texts", "translated", "read over"):
        table.add_column(heading, no_wrap=True)
    faults: list[Diagnostic] = []
    for row in standings(workspace, kit):
        if isinstance(row, Standing):
            table.add_row(row.file, row.language, str(row.texts), row.told, row.state)
        else:
            faults.append(row)
    Console(markup=False, emoji=False).print(table)
    tell(faults, kit.sources, False)
    sys.exit(ERRORS if has_errors(faults) else 0)


@words.command("sign")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--in", "code", required=True, metavar="CODE", help="The language, such as hi.")
@click.option(
    "--role", required=True, help='Who has read the words over: "first-language teacher".'
)
@click.option("--date", "day", default="", help="The day, as 2026-11-25; today if left out.")
def sign_words(file: Path, code: str, role: str, day: str) -> None:
    """Write down that somebody has read over the words of FILE in the language CODE."""
    workspace, kit = begin(False, words=False)
    signed = sign(file, code, role, day or date.today().isoformat(), workspace, kit)
    tell(signed.diagnostics, kit.sources, False)
    for path in signed.value or ():
        click.echo(f"{workspace.name(path)} written")
    sys.exit(ERRORS if signed.value is None else 0)
