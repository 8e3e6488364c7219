"""Make cards: every recipe to its PDF, the others even when one fails."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from cards.batch.about import about
from cards.batch.basis import foods_used
from cards.batch.due import (
    PICTURE_WIDTH,
    PICTURES,
    SHEET_SUFFIX,
    Due,
    Made,
    inputs_of,
    made_of,
    shared_of,
)
from cards.batch.entry import Entry, OutFile
from cards.batch.kit import Kit
from cards.batch.manifest import out_file
from cards.batch.opened import Basis
from cards.batch.run import Run
from cards.batch.signing import refused_drafts
from cards.batch.stages import run_file, sheet_of
from cards.batch.write import write_whole
from cards.diagnostics.diagnostic import Place, Result, error
from cards.pdf.paint import paint
from cards.pdf.picture import small_picture
from cards.source.workspace import Workspace


def make_one(due: Due, workspace: Workspace, kit: Kit, basis: Basis) -> Made:
    """Make a recipe's card and trainer's sheet, and write them."""
    # taken before anything is read: a file that changes meanwhile is made again the next time
    inputs = due.inputs or inputs_of(due)
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
    outputs, card = _outputs(run, due, kit, basis.end)
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
        entry = Entry(
            due.target,
            run.name,
            inputs,
            shared_of(due, basis),
            basis.of(foods_used(run.recipe, kit.table)),
            tuple(written),
            tuple(faults),
            told,
        )
    return replace(made_of(run, tuple(faults), written, due, workspace, entry), card=card)


def _outputs(run: Run, due: Due, kit: Kit, end: str) -> tuple[list[tuple[str, bytes]], bytes]:
    """What is to be written, by name below the out folder, and the card; nothing after an error."""
    if run.pages is None or run.stopped:
        return [], b""
    card = paint(run.pages, run.sources)
    outputs = [(f"{due.target}.pdf", card)]
    pages = sheet_of(run, kit) if not end else None
    if pages is not None:  # the sheet is of the dish, and stands beside its card
        outputs.append((f"{due.target}{SHEET_SUFFIX}", paint(pages)))
    outputs.append((f"{PICTURES}/{due.target}.png", small_picture(card, PICTURE_WIDTH)))
    return outputs, card


def make_all(due: Sequence[Due], workspace: Workspace, kit: Kit, basis: Basis) -> Iterator[Made]:
    """Make the cards one by one, so that a caller can show how far it is."""
    for one in due:
        yield make_one(one, workspace, kit, basis)


def _written(name: str, data: bytes, workspace: Workspace) -> Result[OutFile]:
    path = workspace.out / name
    done = write_whole(path, data, workspace.name(path))
    try:
        file = None if done.value is None else out_file(name, workspace.out, data)
        return Result(file, done.diagnostics)
    except OSError:
        return Result(None, done.diagnostics)
