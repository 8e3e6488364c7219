"""Commands that look at recipes and make nothing, or set them in order."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from cards.batch.explain import explanation, known_kinds, list_of_kinds
from cards.batch.memory import Said, check_all, keep, recall
from cards.batch.tidy import tidy_file
from cards.cli.common import (
    ERRORS,
    FILES,
    HOW,
    IN,
    STRICT,
    WRONG_USE,
    begin,
    chosen_files,
    progress_of,
    tell,
)
from cards.cli.root import command
from cards.diagnostics.diagnostic import Severity, has_errors
from cards.diagnostics.nearest import did_you_mean
from cards.diagnostics.render import tally, visible
from cards.source.workspace import (
    open_workspace,
)


@command.command()
@FILES
@STRICT
@click.option("--changed", is_flag=True, help="Check again only what has changed since.")
@IN
@HOW
def check(
    files: tuple[Path, ...],
    strict: bool,
    changed: bool,
    languages: str | None,
    json_lines: bool,
) -> None:
    """Check FILES, or every recipe in the folder, without making cards."""
    workspace, kit = begin(json_lines, languages=languages)
    chosen = chosen_files(files, workspace)
    memory = recall(workspace, kit) if changed else None
    limit = Severity.WARNING if strict else Severity.ERROR
    failed = False
    remembered = 0
    said: dict[str, Said] = {}
    with progress_of(len(chosen), "checking") as step:
        for checked in check_all(chosen, workspace, kit, memory):
            step()
            failed = failed or any(d.severity <= limit for d in checked.diagnostics)
            remembered += checked.remembered
            if checked.said is not None:
                said[checked.name] = checked.said
            if not json_lines:
                click.echo(visible(f"{checked.name}: {tally(checked.diagnostics)}"))
            tell(checked.diagnostics, {**kit.sources, **checked.texts}, json_lines)
    if memory is not None:
        kept = keep(memory, said, workspace)
        # the recipes were checked all the same: this is told, and does not fail the command
        tell(kept.diagnostics, {}, False, err=True)
        click.echo(f"{len(chosen) - remembered} checked, {remembered} remembered", err=json_lines)
    sys.exit(ERRORS if failed else 0)


@command.command()
@FILES
@click.option(
    "--check", "only_check", is_flag=True, help="Write nothing; fail if a file is untidy."
)
def tidy(files: tuple[Path, ...], only_check: bool) -> None:
    """Set FILES, or every recipe in the folder, in one order, with all their comments."""
    workspace = open_workspace(Path.cwd())
    untidy = faulty = False
    for path in chosen_files(files, workspace):
        done = tidy_file(path, workspace, write=not only_check)
        failed = has_errors(done.diagnostics)
        if done.changes or failed:
            what = "left as it is" if failed else "would change" if only_check else "tidied"
            click.echo(f"{done.name}: {what}")
        tell(done.diagnostics, {done.name: done.text}, False)
        untidy, faulty = untidy or done.changes, faulty or failed
    if not untidy and not faulty:
        click.echo("nothing to tidy")
    sys.exit(ERRORS if faulty or (only_check and untidy) else 0)


@command.command()
@click.argument("kind", required=False)
def explain(kind: str | None) -> None:
    """Say what a message of KIND means and how to mend it; without KIND, list all."""
    if kind is None:
        click.echo(list_of_kinds())
        return
    told = explanation(kind)
    if not told:
        near = did_you_mean(kind, known_kinds(), "see the word after error: or warning:")
        click.echo(f'there is no message of the kind "{kind}"; {near}', err=True)
        sys.exit(WRONG_USE)
    click.echo(told)
