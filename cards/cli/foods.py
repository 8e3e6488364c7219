"""Commands that look into the food table."""

from __future__ import annotations

import sys

import click
from rich.console import Console

from cards.batch.foods import found, print_food, print_list
from cards.cli.common import (
    ERRORS,
    begin,
)
from cards.cli.root import command


@command.group()
def foods() -> None:
    """Look into the food table."""


@foods.command("find")
@click.argument("word", default="")
def find_food(word: str) -> None:
    """List foods that have WORD in a name; all of them without WORD."""
    _, kit = begin(False)
    hits = found(kit.table, word)
    if not hits:
        click.echo(f'no food has "{word}" in its names', err=True)
        sys.exit(ERRORS)
    print_list(hits, Console(markup=False, emoji=False))


@foods.command("show")
@click.argument("food")
def show_food(food: str) -> None:
    """Print composition, measures and sources of FOOD."""
    _, kit = begin(False)
    hit = kit.table.find(food)
    if hit is None:
        meant = ", ".join(kit.table.nearest(food)) or "see cards foods find"
        click.echo(f'"{food}" is not in the food table; did you mean: {meant}?', err=True)
        sys.exit(ERRORS)
    print_food(hit, Console(markup=False, emoji=False))
