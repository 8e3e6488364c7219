"""The commands, their options and their exit codes."""

from __future__ import annotations

import io
import sys
import traceback
from collections.abc import Sequence
from pathlib import Path

import click
from rich.console import Console
from rich.progress import (
    BarColumn,
    MofNCompleteColumn,
    Progress,
    ProgressColumn,
    Task,
    TextColumn,
    TimeRemainingColumn,
)
from rich.text import Text

import cards
from cards.batch.analysis_text import analysis_csv, analysis_json, why_text
from cards.batch.explain import explanation, known_kinds, list_of_kinds
from cards.batch.feeding_chart import make_feeding_chart
from cards.batch.foods import found, print_food, print_list
from cards.batch.icon_pages import make_icon_pages, used_icons
from cards.batch.kit import Kit, open_kit
from cards.batch.make import Made, make_all
from cards.batch.memory import Said, check_all, keep, recall
from cards.batch.new import file_name, new_recipe
from cards.batch.printing import Up, print_up
from cards.batch.show import STAGES, ink_text, stage_text
from cards.batch.stages import run_file
from cards.batch.tidy import tidy_file
from cards.batch.tiling import print_tiles
from cards.batch.write import write_whole
from cards.diagnostics.diagnostic import Diagnostic, Severity, has_errors
from cards.diagnostics.nearest import did_you_mean
from cards.diagnostics.render import as_json, as_text, tally, visible
from cards.foods.components import components
from cards.layout.feeding_chart_pages import SIZES
from cards.layout.sheet_plan import Flip
from cards.source.schema import recipe_schema
from cards.source.workspace import (
    NEEDS,
    PROGRAMME,
    Workspace,
    is_folder,
    open_workspace,
    read_text,
)

ERRORS, WRONG_USE, BUG = 1, 2, 3
"""Exit codes; 0 is clean or warnings only."""

SHOW_PROGRESS_FROM = 4
"""More files than this and the command shows how far it is."""

_FILES = click.argument("files", nargs=-1, type=click.Path(path_type=Path))
_STRICT = click.option("--strict", is_flag=True, help="Let a warning fail the command too.")
_HOW = click.option("--json", "json_lines", is_flag=True, help="Messages as JSON lines.")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(cards.__version__, prog_name="cards")
def command() -> None:
    """Turn recipe files into checked, printed cards."""


@command.command()
@_FILES
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
@click.option("--ink", is_flag=True, help="Say how much of each side is black.")
@_HOW
@click.option("--layout", metavar="NAME", default="", help="Another layout than the programme's.")
def make(
    files: tuple[Path, ...],
    up: bool,
    copies: int,
    fill: bool,
    flip: Flip,
    bleed: bool,
    tile: str | None,
    ink: bool,
    json_lines: bool,
    layout: str,
) -> None:
    """Make the cards of FILES, or of every recipe in the folder, into out/."""
    wish = Up(copies, fill, flip, bleed)
    if not up and wish != Up():
        raise click.UsageError("--copies, --fill, --flip and --bleed go with --up")
    workspace, kit = _begin(json_lines, layout)
    chosen = _chosen(files, workspace)
    errors: list[Diagnostic] = []
    cards_made: list[Made] = []
    with _progress(len(chosen)) as progress:
        task = progress.add_task("making cards", total=len(chosen))
        for made in make_all(chosen, workspace, kit):
            progress.advance(task)
            errors += made.diagnostics
            if up or tile:
                cards_made.append(made)
            if not json_lines:
                done = workspace.name(made.pdf) if made.pdf else "no card"
                done += f", {made.sheet.name}" if made.sheet else ""
                click.echo(visible(f"{made.run.name} -> {done}: {tally(made.diagnostics)}"))
                if ink and made.run.pages:
                    click.echo(f"  {ink_text(made.run.pages)}")
            _tell(made.diagnostics, {**kit.sources, **made.run.sources}, json_lines)
    printed = [print_tiles(made, cards_made, workspace, kit) for made in cards_made if tile]
    printed += [print_up(cards_made, wish, workspace, kit)] if up else []
    for file in printed:
        errors += file.diagnostics
        if file.value is not None and not json_lines:
            click.echo(f"to print: {workspace.name(file.value)}")
        _tell(file.diagnostics, {}, json_lines)
    sys.exit(ERRORS if has_errors(errors) else 0)


@command.command()
@_FILES
@_STRICT
@click.option("--changed", is_flag=True, help="Check again only what has changed since.")
@_HOW
def check(files: tuple[Path, ...], strict: bool, changed: bool, json_lines: bool) -> None:
    """Check FILES, or every recipe in the folder, without making cards."""
    workspace, kit = _begin(json_lines)
    chosen = _chosen(files, workspace)
    memory = recall(workspace, kit) if changed else None
    limit = Severity.WARNING if strict else Severity.ERROR
    failed = False
    remembered = 0
    said: dict[str, Said] = {}
    with _progress(len(chosen)) as progress:
        task = progress.add_task("checking", total=len(chosen))
        for checked in check_all(chosen, workspace, kit, memory):
            progress.advance(task)
            failed = failed or any(d.severity <= limit for d in checked.diagnostics)
            remembered += checked.remembered
            if checked.said is not None:
                said[checked.name] = checked.said
            if not json_lines:
                click.echo(visible(f"{checked.name}: {tally(checked.diagnostics)}"))
            _tell(checked.diagnostics, {**kit.sources, **checked.texts}, json_lines)
    if memory is not None:
        kept = keep(memory, said, workspace)
        # the recipes were checked all the same: this is told, and does not fail the command
        _tell(kept.diagnostics, {}, False, err=True)
        click.echo(f"{len(chosen) - remembered} checked, {remembered} remembered", err=json_lines)
    sys.exit(ERRORS if failed else 0)


@command.command()
@_FILES
@click.option("--test", "what", flag_value="test", help="A test of what people understand.")
@click.option("--lesson", "what", flag_value="lesson", help="A first lesson, on one sheet.")
@click.option("--all", "every", is_flag=True, help="Test every icon, not only those in use.")
def icons(files: tuple[Path, ...], what: str | None, every: bool) -> None:
    """Set all icons with their words, a test of them, or a first lesson, into out/.

    The test holds the icons on the cards of FILES, or of every recipe in the folder.
    """
    if what != "test" and (files or every):
        raise click.UsageError("files and --all go with --test")
    workspace, kit = _begin(False)
    names: tuple[str, ...] = ()
    faults: tuple[Diagnostic, ...] = ()
    if what == "test" and not every:
        used = used_icons(_chosen(files, workspace), workspace, kit)
        names, faults = used.names, used.diagnostics
        _tell(faults, {**kit.sources, **used.texts}, False, least=Severity.ERROR)
    made = make_icon_pages(what or "sheet", names, workspace, kit)
    _tell(made.diagnostics, kit.sources, False)
    if made.value is not None:
        click.echo(f"{workspace.name(made.value)} written")
    sys.exit(ERRORS if has_errors((*faults, *made.diagnostics)) else 0)


@command.command()
@click.option("--size", type=click.Choice(sorted(SIZES)), default="a2", show_default=True)
@click.option("--tile", type=click.Choice(["a4"]), help="Also cut it into A4 sheets.")
def chart(size: str, tile: str | None) -> None:
    """Make a wall chart of feeding by age, without a recipe, into out/."""
    workspace, kit = _begin(False)
    made = make_feeding_chart(size, workspace, kit, tile=bool(tile))
    _tell(made.diagnostics, kit.sources, False)
    for path in made.value or ():
        click.echo(f"{workspace.name(path)} written")
    sys.exit(ERRORS if has_errors(made.diagnostics) else 0)


@command.command()
@_FILES
@click.option(
    "--check", "only_check", is_flag=True, help="Write nothing; fail if a file is untidy."
)
def tidy(files: tuple[Path, ...], only_check: bool) -> None:
    """Set FILES, or every recipe in the folder, in one order, with all their comments."""
    workspace = open_workspace(Path.cwd())
    untidy = faulty = False
    for path in _chosen(files, workspace):
        done = tidy_file(path, workspace, write=not only_check)
        failed = has_errors(done.diagnostics)
        if done.changes or failed:
            what = "left as it is" if failed else "would change" if only_check else "tidied"
            click.echo(f"{done.name}: {what}")
        _tell(done.diagnostics, {done.name: done.text}, False)
        untidy, faulty = untidy or done.changes, faulty or failed
    if not untidy and not faulty:
        click.echo("nothing to tidy")
    sys.exit(ERRORS if faulty or (only_check and untidy) else 0)


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
def show(file: Path, stage: str, why: str | None, form: str) -> None:
    """Print a stage of FILE."""
    if stage != "analysis" and (why or form != "text"):
        raise click.UsageError("--why and --format go with the stage analysis")
    if why is not None and why.upper() not in components():
        raise click.UsageError(f'"{why}" is no component; choose from {", ".join(components())}')
    workspace, kit = _begin(False)
    run = run_file(file, workspace, kit)
    _tell(
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


@command.command()
@click.argument("title")
def new(title: str) -> None:
    """Begin a recipe file for TITLE, with remarks on what to write where."""
    workspace, kit = _begin(False)
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
    _write(target, new_recipe(text, title, kit.programme.languages), name)
    click.echo(f"{name} begun; write it on, then: cards check {name}")


@command.command()
def schema() -> None:
    """Write recipe.schema.json, by which editors complete and check recipe files."""
    workspace, _ = _begin(False)
    target = workspace.recipes / "recipe.schema.json"
    name = workspace.name(target)
    _write(target, recipe_schema(), name)
    click.echo(f"{name} written")


@command.group()
def foods() -> None:
    """Look into the food table."""


@foods.command("find")
@click.argument("word", default="")
def find_food(word: str) -> None:
    """List foods that have WORD in a name; all of them without WORD."""
    _, kit = _begin(False)
    hits = found(kit.table, word)
    if not hits:
        click.echo(f'no food has "{word}" in its names', err=True)
        sys.exit(ERRORS)
    print_list(hits, Console(markup=False, emoji=False))


@foods.command("show")
@click.argument("food")
def show_food(food: str) -> None:
    """Print composition, measures and sources of FOOD."""
    _, kit = _begin(False)
    hit = kit.table.find(food)
    if hit is None:
        meant = ", ".join(kit.table.nearest(food)) or "see cards foods find"
        click.echo(f'"{food}" is not in the food table; did you mean: {meant}?', err=True)
        sys.exit(ERRORS)
    print_food(hit, Console(markup=False, emoji=False))


def _begin(json_lines: bool, layout: str = "") -> tuple[Workspace, Kit]:
    workspace = open_workspace(Path.cwd())
    kit = open_kit(workspace, layout)
    if kit.value is None:
        _tell(kit.diagnostics, {}, json_lines)
        sys.exit(ERRORS)
    _tell(kit.diagnostics, kit.value.sources, json_lines)
    return workspace, kit.value


def _write(target: Path, text: str, name: str) -> None:
    made = write_whole(target, text.encode("utf-8"), name)
    _tell(made.diagnostics, {}, False)
    if made.value is None:
        sys.exit(ERRORS)


def _chosen(files: Sequence[Path], workspace: Workspace) -> tuple[Path, ...]:
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


def _progress(count: int) -> Progress:
    console = Console(stderr=True)
    quiet = count <= SHOW_PROGRESS_FROM or not console.is_terminal
    return Progress(
        TextColumn("{task.description}"),
        BarColumn(),
        MofNCompleteColumn(),
        _Pace(),
        TimeRemainingColumn(),
        console=console,
        transient=True,
        disable=quiet,
    )


class _Pace(ProgressColumn):
    """Files a second."""

    def render(self, task: Task) -> Text:
        return Text(f"{task.speed:.0f} a second" if task.speed else "")


def _tell(
    diagnostics: Sequence[Diagnostic],
    sources: dict[str, str],
    json_lines: bool,
    least: Severity = Severity.NOTE,
    err: bool = False,
) -> None:
    for diagnostic in diagnostics:
        if diagnostic.severity > least:
            continue
        if json_lines:
            click.echo(as_json(diagnostic), err=err)
        else:
            text = as_text(diagnostic, sources)
            click.echo("\n".join("  " + line for line in text.splitlines()), err=err)


def main() -> None:
    """Run the command; a fault of our own is told as one, with what to send us."""
    for stream in (sys.stdout, sys.stderr):
        # a terminal that cannot show a letter shows a question mark, and nothing breaks
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    try:
        command(standalone_mode=True)
    except OSError as trouble:
        click.echo(f"this cannot go on: {trouble.strerror or trouble}", err=True)
        sys.exit(ERRORS)
    except Exception:
        traceback.print_exc()
        click.echo(
            "this is a fault of the program; please report it with the lines above", err=True
        )
        sys.exit(BUG)
