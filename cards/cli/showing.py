"""The command that prints the stages of a recipe."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from cards.batch.analysis_text import analysis_csv, analysis_json, why_text
from cards.batch.show import STAGES, stage_text
from cards.batch.stages import run_file
from cards.cli.common import (
    ERRORS,
    IN,
    begin,
    tell,
)
from cards.cli.root import command
from cards.diagnostics.diagnostic import Severity
from cards.foods.components import components


@command.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--stage",
    type=click.Choice(STAGES),
    default="analysis",
    show_default=True,
    help="Which stage to print.",
)
@click.option("--why", metavar="TAG", help="How one component of the analysis comes about, as FE.")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "csv"]),
    default="text",
    show_default=True,
    help="How to print the analysis.",
)
@IN
def show(file: Path, stage: str, why: str | None, form: str, languages: str | None) -> None:
    """Print a stage of FILE."""
    if stage != "analysis" and (why or form != "text"):
        raise click.UsageError("--why and --format go with the stage analysis")
    if why is not None and why.upper() not in components():
        raise click.UsageError(f'"{why}" is no component; choose from {", ".join(components())}')
    workspace, kit = begin(False, languages=languages)
    run = run_file(file, workspace, kit)
    tell(
        run.diagnostics,
        {**kit.sources, **run.sources},
        False,
        least=Severity.ERROR,
        err=True,
    )
    if run.recipe is None or run.analysis is None or (why is None and form == "text"):
        click.echo(stage_text(run, stage), nl=False)
    elif why is not None:
        click.echo(why_text(run.analysis, why.upper()), nl=False)
    elif form == "csv":
        click.echo(analysis_csv(run.recipe, run.analysis), nl=False)
    else:
        click.echo(analysis_json(run.recipe, run.analysis), nl=False)
    sys.exit(ERRORS if getattr(run, stage) is None else 0)
