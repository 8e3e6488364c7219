"""Make cards: every recipe to its PDF, the others even when one fails."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cards.batch.about import about
from cards.batch.kit import Kit
from cards.batch.manifest import Entry, Manifest, OutFile, out_file
from cards.batch.signing import refused_drafts
from cards.batch.stages import Run, run_file, sheet_of
from cards.batch.write import write_whole
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error
from cards.pdf.paint import paint
from cards.pdf.picture import small_picture
from cards.source.workspace import Workspace, digest, read_text, side_files

SHEET_SUFFIX = "-sheet.pdf"
"""The trainer's sheet of out/x.pdf is out/x-sheet.pdf."""

PICTURES = "pictures"
"""Small pictures of the cards, below the out folder, for the page to browse them."""

PICTURE_WIDTH = 240
"""In pixels; a telephone shows it at half of that."""


@dataclass(frozen=True, slots=True)
class Due:
    """A recipe to be made: its files, and what the card's file is called without its ending."""

    path: Path
    beside: tuple[Path, ...]
    """Files beside it that bear its name."""
    target: str
    clash: str = ""
    """The name of an earlier recipe that makes the same files."""
    only_checked: bool = False
    """Refuse it where nobody has read its words over."""


@dataclass(frozen=True, slots=True)
class Made:
    """One recipe's outcome. ``pdf`` is None where an error stopped the card."""

    run: Run
    pdf: Path | None
    sheet: Path | None
    diagnostics: tuple[Diagnostic, ...]
    card: bytes = b""
    """The PDF itself, for those who print it on."""
    entry: Entry | None = None
    """What the manifest is to keep of it; None where nothing can be kept."""
    before: bool = False
    """True where it was made before and nothing has changed since."""


def all_due(
    files: Sequence[Path], workspace: Workspace, kit: Kit, only_checked: bool = False
) -> tuple[Due, ...]:
    """What is to be made of ``files``, in their order.

    ``only_checked`` refuses recipes with words that nobody has read over.
    """
    beside = side_files(files)
    taken: dict[str, str] = {}
    found: list[Due] = []
    for path in files:
        target = f"{path.stem}{_end(kit)}"
        # on some disks large and small letters are the same name
        makes = [f"{target}{end}".casefold() for end in (".pdf", SHEET_SUFFIX)]
        clash = next((taken[one] for one in makes if one in taken), "")
        if not clash:
            taken.update(dict.fromkeys(makes, workspace.name(path)))
        found.append(Due(path, beside[path], target, clash, only_checked))
    return tuple(found)


def made_before(due: Due, manifest: Manifest, rests_on: str, workspace: Workspace) -> Made | None:
    """What was made of a recipe the last time, if that still holds; without the card's bytes."""
    inputs = digest((due.path, *due.beside))
    entry = manifest.still_holds(due.target, inputs, _basis(due, rests_on), workspace.out)
    if entry is None or due.clash:
        return None
    texts = {}
    if entry.diagnostics:
        named = [(workspace.name(path), path) for path in (due.path, *due.beside)]
        texts = {name: read_text(path, name).value or "" for name, path in named}
    name = workspace.name(due.path)
    run = Run(name, texts.get(name, ""), None, None, None, None, None, entry.diagnostics, texts)
    return _made(run, entry.diagnostics, entry.files, due, workspace, entry, before=True)


def make_one(due: Due, workspace: Workspace, kit: Kit, rests_on: str) -> Made:
    """Make a recipe's card and trainer's sheet, and write them."""
    # taken before anything is read: a file that changes meanwhile is made again the next time
    inputs = digest((due.path, *due.beside))
    run = run_file(due.path, workspace, kit)
    if due.only_checked and run.recipe is not None:
        drafts = refused_drafts(run.recipe, kit.programme.printed)
        run = replace(run, diagnostics=(*run.diagnostics, *drafts))
    if due.clash:
        card_name = workspace.name(workspace.out / f"{due.target}.pdf")
        fault = error(
            Place(run.name),
            "out-twice",
            f"{card_name} or its sheet is made from {due.clash}",
            "give the two recipe files different names",
        )
        return Made(run, None, None, (*run.diagnostics, fault))
    faults = list(run.diagnostics)
    outputs, card = _outputs(run, due, kit)
    written: list[OutFile] = []
    for name, data in outputs:
        file = _written(name, data, workspace)
        faults += file.diagnostics
        if file.value is None:
            break
        written.append(file.value)
    entry = None
    # some systems allow names that are no text; they cannot be kept
    if len(written) == len(outputs) and inputs is not None and "\ufffd" not in run.name:
        told = about(run, kit)
        basis = _basis(due, rests_on)
        entry = Entry(due.target, run.name, inputs, basis, tuple(written), tuple(faults), told)
    return replace(_made(run, tuple(faults), written, due, workspace, entry), card=card)


def _outputs(run: Run, due: Due, kit: Kit) -> tuple[list[tuple[str, bytes]], bytes]:
    """What is to be written, by name below the out folder, and the card; nothing after an error."""
    if run.pages is None or run.stopped:
        return [], b""
    card = paint(run.pages, run.sources)
    outputs = [(f"{due.target}.pdf", card)]
    pages = sheet_of(run, kit) if not _end(kit) else None
    if pages is not None:  # the sheet is of the dish, and stands beside its card
        outputs.append((f"{due.target}{SHEET_SUFFIX}", paint(pages)))
    outputs.append((f"{PICTURES}/{due.target}.png", small_picture(card, PICTURE_WIDTH)))
    return outputs, card


def _made(
    run: Run,
    diagnostics: tuple[Diagnostic, ...],
    files: Sequence[OutFile],
    due: Due,
    workspace: Workspace,
    entry: Entry | None,
    before: bool = False,
) -> Made:
    names = {file.name for file in files}

    def path(end: str) -> Path | None:
        name = f"{due.target}{end}"
        return workspace.out / name if name in names else None

    return Made(run, path(".pdf"), path(SHEET_SUFFIX), diagnostics, b"", entry, before)


def make_all(due: Sequence[Due], workspace: Workspace, kit: Kit, rests_on: str) -> Iterator[Made]:
    """Make the cards one by one, so that a caller can show how far it is."""
    for one in due:
        yield make_one(one, workspace, kit, rests_on)


def _basis(due: Due, rests_on: str) -> str:
    return f"{rests_on} checked" if due.only_checked else rests_on


def _end(kit: Kit) -> str:
    """What follows the recipe's name: layout and languages, where they are not the programme's."""
    usual = kit.layout.layout == kit.programme.layout
    return f"{'' if usual else f'-{kit.layout.layout}'}{kit.programme.suffix}"


def _written(name: str, data: bytes, workspace: Workspace) -> Result[OutFile]:
    path = workspace.out / name
    done = write_whole(path, data, workspace.name(path))
    try:
        file = None if done.value is None else out_file(name, workspace.out, data)
        return Result(file, done.diagnostics)
    except OSError:
        return Result(None, done.diagnostics)
