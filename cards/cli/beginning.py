"""Commands that begin files: a recipe, a schema."""

from __future__ import annotations

import sys

import click

from cards.batch.new import file_name, new_recipe
from cards.cli.common import (
    ERRORS,
    WRONG_USE,
    begin,
    write,
)
from cards.cli.root import command
from cards.source.schema import recipe_schema, session_schema
from cards.source.workspace import (
    read_text,
)


@command.command()
@click.argument("title")
def new(title: str) -> None:
    """Begin a recipe file for TITLE, with remarks on what to write where."""
    workspace, kit = begin(False)
    title = title.encode("utf-8", errors="replace").decode("utf-8")
    stem = file_name(title)
    template = workspace.template("new-recipe.yaml")
    if not stem or template is None:
        click.echo("a title needs letters", err=True)
        sys.exit(WRONG_USE)
    target = workspace.recipes / f"{stem}.yaml"
    name = workspace.name(target)
    if target.exists():
        click.echo(f"{name} is there already; nothing was changed", err=True)
        sys.exit(ERRORS)
    text = read_text(template, workspace.name(template)).value or ""
    write(target, new_recipe(text, title, kit.programme.languages), name)
    click.echo(f"{name} begun; write it on, then: cards check {name}")


@command.command()
@click.option("--session", is_flag=True, help="The schema of session files instead.")
def schema(session: bool) -> None:
    """Write recipe.schema.json, by which editors complete and check recipe files."""
    workspace, _ = begin(False)
    target = workspace.recipes / "recipe.schema.json"
    if session:
        target = workspace.recipes / "sessions" / "session.schema.json"
    name = workspace.name(target)
    write(target, session_schema() if session else recipe_schema(), name)
    click.echo(f"{name} written")
