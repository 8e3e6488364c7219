"""Make cards: every recipe to its PDF, the others even when one fails."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from cards.batch.kit import Kit
from cards.batch.stages import Run, run_file, sheet_of
from cards.batch.write import write_whole
from cards.diagnostics.diagnostic import Diagnostic, Place, error
from cards.pdf.paint import paint
from cards.source.workspace import Workspace

SHEET_SUFFIX = "-sheet.pdf"
"""The trainer's sheet of out/x.pdf is out/x-sheet.pdf."""


@dataclass(frozen=True, slots=True)
class Made:
    """One recipe's outcome. ``pdf`` is None where an error stopped the card."""

    run: Run
    pdf: Path | None
    sheet: Path | None
    diagnostics: tuple[Diagnostic, ...]
    card: bytes = b""
    """The PDF itself, for those who print it on."""


def make_all(files: Sequence[Path], workspace: Workspace, kit: Kit) -> Iterator[Made]:
    """Make the cards one by one, so that a caller can show how far it is."""
    taken: dict[str, str] = {}
    for path in files:
        run = run_file(path, workspace, kit)
        if run.stopped or run.pages is None:
            yield Made(run, None, None, run.diagnostics)
            continue
        end = "" if kit.layout.layout == kit.programme.layout else f"-{kit.layout.layout}"
        end += kit.programme.suffix
        target = workspace.out / f"{path.stem}{end}.pdf"
        name = workspace.name(target)
        # on some disks large and small letters are the same name
        makes = tuple(f"{path.stem}{end}".casefold() for end in (".pdf", SHEET_SUFFIX))
        earlier = next((taken[one] for one in makes if one in taken), None)
        if earlier is not None:
            clash = error(
                Place(run.name),
                "out-twice",
                f"{name} or its sheet was just made from {earlier}",
                "give the two recipe files different names",
            )
            yield Made(run, None, None, (*run.diagnostics, clash))
            continue
        card = paint(run.pages, run.sources)
        written = write_whole(target, card, name)
        faults = [*run.diagnostics, *written.diagnostics]
        sheet = None
        if written.value is not None:
            taken.update(dict.fromkeys(makes, run.name))
            if not end:  # the sheet is of the dish, and stands beside its card
                sheet = _sheet(run, kit, workspace, target, faults)
        yield Made(run, written.value, sheet, tuple(faults), card)


def _sheet(
    run: Run, kit: Kit, workspace: Workspace, card: Path, faults: list[Diagnostic]
) -> Path | None:
    """Write the trainer's sheet beside the card."""
    pages = sheet_of(run, kit)
    if pages is None:
        return None
    target = card.with_name(f"{card.stem}{SHEET_SUFFIX}")
    written = write_whole(target, paint(pages), workspace.name(target))
    faults += written.diagnostics
    return written.value
