"""The command for a day's or a week's meals."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import click
from rich.console import Console

from cards.batch.day import plan_day
from cards.batch.day_pages import make_day_chart
from cards.batch.day_text import day_json, day_text
from cards.cli.common import ERRORS, STRICT, begin, tell
from cards.cli.root import command
from cards.diagnostics.diagnostic import Severity
from cards.source.workspace import read_text


@contextmanager
def looking_for() -> Iterator[Callable[[str], None]]:
    """Says on a terminal what is searched for, in one line that goes when the search ends."""
    screen = Console(stderr=True)
    if not screen.is_terminal:
        yield lambda _: None
        return
    with screen.status("") as line:
        yield lambda what: line.update(f"looking for a plan: {what}")


@command.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--json", "as_document", is_flag=True, help="One JSON document, messages in it.")
@click.option("--tile", type=click.Choice(["a4"]), help="Also cut the chart into A4 sheets.")
@STRICT
def day(file: Path, as_document: bool, tile: str | None, strict: bool) -> None:
    """Sum, or find, the meals of the day or week in FILE, and make its wall chart in out/."""
    workspace, kit = begin(as_document)
    with looking_for() as told_now:
        planned = plan_day(file, workspace, kit, told_now)
    plan, told = planned.value, tuple(dict.fromkeys(planned.diagnostics))
    charts: tuple[Path, ...] = ()
    if plan is not None:
        made = make_day_chart(plan, workspace, kit, tile=bool(tile))
        charts, told = made.value or (), (*told, *made.diagnostics)
    if plan is not None and as_document:
        click.echo(day_json(plan, told), nl=False)
    else:
        if plan is not None:
            click.echo(day_text(plan, kit.programme.languages[0]))
        name = workspace.name(file)
        text = read_text(file, name).value
        tell(told, {**kit.sources, name: text or ""}, as_document)
        for chart in charts:
            click.echo(f"{workspace.name(chart)} written", err=as_document)
    limit = Severity.WARNING if strict else Severity.ERROR
    sys.exit(ERRORS if plan is None or any(d.severity <= limit for d in told) else 0)
