"""Make cards: every recipe to its PDF, the others even when one fails."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from cards.batch.kit import Kit
from cards.batch.stages import Run, run_file
from cards.batch.write import write_whole
from cards.diagnostics.diagnostic import Diagnostic, Place, error
from cards.pdf.paint import paint
from cards.source.workspace import Workspace


@dataclass(frozen=True, slots=True)
class Made:
    """One recipe's outcome. ``pdf`` is None where an error stopped the card."""

    run: Run
    pdf: Path | None
    diagnostics: tuple[Diagnostic, ...]


def make_all(files: Sequence[Path], workspace: Workspace, kit: Kit) -> Iterator[Made]:
    """Make the cards one by one, so that a caller can show how far it is."""
    taken: dict[str, str] = {}
    for path in files:
        run = run_file(path, workspace, kit)
        if run.stopped or run.pages is None:
            yield Made(run, None, run.diagnostics)
            continue
        target = workspace.out / f"{path.stem}.pdf"
        name = workspace.name(target)
        if target.name in taken:
            clash = error(
                Place(run.name),
                "out-twice",
                f"{name} was just made from {taken[target.name]}",
                "give the two recipe files different names",
            )
            yield Made(run, None, (*run.diagnostics, clash))
            continue
        written = write_whole(target, paint(run.pages), name)
        if written.value is not None:
            taken[target.name] = run.name
        yield Made(run, written.value, (*run.diagnostics, *written.diagnostics))
