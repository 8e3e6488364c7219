"""What the commands share: where they run, which files, how messages are told."""

from __future__ import annotations

import gc
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cards.batch.write import write_whole
from cards.cli.codes import BUG, ERRORS, STOPPED, WRONG_USE
from cards.diagnostics.diagnostic import Diagnostic, Result, Severity
from cards.diagnostics.nearest import nearest
from cards.diagnostics.render import as_json, as_text
from cards.source.workspace import (
    NEEDS,
    PROGRAMME,
    Workspace,
    is_folder,
    open_workspace,
)

if TYPE_CHECKING:
    from cards.batch.kit import Kit

__all__ = ["BUG", "ERRORS", "STOPPED", "WRONG_USE"]

MOST_LANGUAGES = 2
"""Languages a card holds."""

SHOW_PROGRESS_FROM = 4
"""More files than this and the command shows how far it is."""

FILES = click.argument("files", nargs=-1, type=click.Path(path_type=Path))
STRICT = click.option("--strict", is_flag=True, help="Let a warning fail the command too.")
IN = click.option(
    "--in",
    "languages",
    metavar="CODES",
    help="Other languages than the programme's: one or two, as en,hi.",
)
HOW = click.option("--json", "json_lines", is_flag=True, help="Messages as JSON lines.")


SELDOM = 50_000
"""New objects before a search for garbage. A card makes thousands and next to no rings of them."""


def settle() -> None:
    """Leave foods, words and fonts out of every search for garbage, and search seldom."""
    gc.freeze()
    gc.set_threshold(SELDOM)


def begin(
    json_lines: bool, layout: str = "", languages: str | None = None, words: bool = True
) -> tuple[Workspace, Kit]:
    """The folder the command runs in and all that is needed; ends the command on an error.

    Without ``words`` no words file is read, and none can keep the command from running.
    """
    # late: with all that cards are made with; a build with nothing to make opens no kit
    from cards.batch.kit import open_kit

    workspace = open_workspace(Path.cwd())
    kit = open_kit(workspace, layout, codes_of(languages, workspace), words)
    return workspace, kit_of(kit, json_lines)


def kit_of(opened: Result[Kit], json_lines: bool) -> Kit:
    """The kit that was opened, its messages told; ends the command where there is none."""
    if opened.value is None:
        tell(opened.diagnostics, {}, json_lines)
        sys.exit(ERRORS)
    tell(opened.diagnostics, opened.value.sources, json_lines)
    settle()
    return opened.value


def codes_of(asked: str | None, workspace: Workspace) -> tuple[str, ...]:
    """The language codes of "en,ta"; none where nothing was asked."""
    if asked is None:
        return ()
    codes = tuple(dict.fromkeys(code.strip().lower() for code in asked.split(",")))
    known = workspace.languages()
    for code in codes:
        if code not in known:
            near = nearest(code, known, 0.5)
            hint = f'Did you mean "{near}"? ' if near else ""
            raise click.BadParameter(
                f'there are no words for the language "{code[:20]}". '
                f"{hint}Choose from {', '.join(known)}, as --in {known[0]},{known[-1]}",
                param_hint="--in",
            )
    if len(codes) > MOST_LANGUAGES:
        raise click.BadParameter(
            f"a card holds one language or two, not {len(codes)}; make it twice",
            param_hint="--in",
        )
    return codes


def write(target: Path, text: str, name: str) -> None:
    """Write a text file whole; ends the command where that fails."""
    made = write_whole(target, text.encode("utf-8"), name)
    tell(made.diagnostics, {}, False)
    if made.value is None:
        sys.exit(ERRORS)


def chosen_files(files: Sequence[Path], workspace: Workspace) -> tuple[Path, ...]:
    """The recipe files that are meant; ends the command where there are none."""
    named: list[Path] = []
    for file in files:
        if is_folder(file):
            named += [p for p in sorted(file.glob("*.yaml")) if not workspace.is_side(p)]
        else:
            named.append(workspace.recipe_of(file))
    named = [file for file in dict.fromkeys(named) if file.name not in (PROGRAMME, NEEDS)]
    chosen = tuple(named) if files else workspace.recipe_files()
    if not chosen:
        click.echo(
            "there are no recipe files here: write one into recipes/, or name a file", err=True
        )
        sys.exit(WRONG_USE)
    return chosen


@contextmanager
def progress_of(count: int, what: str) -> Iterator[Callable[[], object]]:
    """A bar with count, pace and time left; what it gives is called once a file.

    Silent for a few files and off a terminal.
    """
    if count <= SHOW_PROGRESS_FROM or not sys.stderr.isatty():
        yield lambda: None
        return
    from cards.cli.progress import bar  # late: rich is needed by those alone who see it

    with bar(count, what) as step:
        yield step


def tell(
    diagnostics: Sequence[Diagnostic],
    sources: dict[str, str],
    json_lines: bool,
    least: Severity = Severity.NOTE,
    err: bool = False,
) -> None:
    """Print messages, down to the ``least`` severe."""
    for diagnostic in diagnostics:
        if diagnostic.severity > least:
            continue
        if json_lines:
            click.echo(as_json(diagnostic), err=err)
        else:
            text = as_text(diagnostic, sources)
            click.echo("\n".join("  " + line for line in text.splitlines()), err=err)
