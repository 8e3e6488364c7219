"""Cards made ready for an office printer: several on a sheet, or one cut into sheets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from cards.batch.due import Made
from cards.batch.kit import Kit
from cards.batch.write import write_whole
from cards.card.model import CardMeta
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error
from cards.layout.office.sheet_marks import mark_pages, strip_centre, strip_pages
from cards.layout.office.sheet_plan import TOLERANCE, Flip, Grid, deal, plan_sheet
from cards.layout.pages import MM
from cards.pdf.assemble import About, page_sizes
from cards.pdf.impose import Leaf, has_backs, impose, leaves
from cards.pdf.paint import paint
from cards.source.workspace import Workspace

UP_NAME = "print-a4"
"""All chosen cards on sheets."""


@dataclass(frozen=True, slots=True)
class Up:
    """How cards are to lie on sheets."""

    copies: int = 1
    fill: bool = False
    flip: Flip = "long"
    bleed: bool = False


def print_up(made: Sequence[Made], wish: Up, workspace: Workspace, kit: Kit) -> Result[Path]:
    """Write the sheets of all cards made, or nothing where one could not be made."""
    target = workspace.out / f"{UP_NAME}{kit.programme.suffix}.pdf"
    name = workspace.name(target)
    missing = [one.run.name for one in made if one.pdf is None]
    if missing:
        return Result(None, (incomplete(name, missing, len(made)),))
    clash = taken(target, made, workspace)
    if clash is not None:
        return Result(None, (clash,))
    sheets = sheets_of({one.run.name: one.card for one in made}, wish, name, kit)
    if sheets.value is None:
        return Result(None, sheets.diagnostics)
    return write_whole(target, sheets.value, name)


def sheets_of(cards: Mapping[str, bytes], wish: Up, name: str, kit: Kit) -> Result[bytes]:
    """The PDF to print of cards' PDFs by name. One diagnostic if they do not go on sheets."""
    sizes = {card: page_sizes(data) for card, data in cards.items()}
    first, (size, *_) = next(iter(sizes.items()))
    for card, found in sizes.items():
        other = next((one for one in found if not _same(one, size)), None)
        if other is not None:
            fault = error(
                Place(name),
                "print-sizes",
                f"cards of two sizes: {first} of {size_mm(size)}, {card} of {size_mm(other)}",
                "print the cards of one size at a time: name their recipe files",
            )
            return Result(None, (fault,))
    grid = plan_sheet(*size, bleed=wish.bleed)
    if grid is None:
        fault = error(
            Place(name),
            "print-too-large",
            f"a card of {size_mm(size)} does not go on A4{' with bleed' if wish.bleed else ''}",
            "leave out --bleed" if wish.bleed else "cut it into sheets with --tile a4",
        )
        return Result(None, (fault,))
    return Result(_impose(tuple(cards.values()), [len(s) for s in sizes.values()], grid, wish, kit))


def _impose(cards: Sequence[bytes], counts: Sequence[int], grid: Grid, wish: Up, kit: Kit) -> bytes:
    dealt = deal(leaves(counts), grid.places, wish.copies, wish.fill)
    return impose_dealt(cards, dealt, grid, wish.flip, kit)


def impose_dealt(
    cards: Sequence[bytes],
    dealt: Sequence[Sequence[Leaf | None]],
    grid: Grid,
    flip: Flip,
    kit: Kit,
) -> bytes:
    """The PDF to print of cards dealt onto sheets, with cut marks and the line to measure."""
    language = kit.languages[0]
    programme = kit.programme.said(kit.programme.name)
    title = programme or "cards"
    sides = ("front", "back") if has_backs(dealt) else ("",)
    notes = [
        language.phrase("print-sheet", sheet=number, sheets=len(dealt), side=side, edge=flip)
        for number in range(1, len(dealt) + 1)
        for side in sides
    ]
    meta = CardMeta(title, programme, language.code, "", "", "")
    upright = strip_centre(grid)[2]
    return impose(
        cards,
        grid,
        dealt,
        flip,
        paint(mark_pages(grid, meta)),
        paint(strip_pages(notes, upright, language, kit.book, meta)),
        About(title, programme, language.code, flip if len(sides) == 2 else ""),
    )


def incomplete(name: str, missing: Sequence[str], count: int) -> Diagnostic:
    """One error for a file of ``count`` cards of which some could not be made."""
    few = ", ".join(missing[:3]) + (" ..." if len(missing) > 3 else "")
    return error(
        Place(name),
        "print-incomplete",
        f"not made: {len(missing)} of {count} cards are missing ({few})",
        "mend them, or name the recipe files that you want printed",
    )


def taken(target: Path, made: Sequence[Made], workspace: Workspace) -> Diagnostic | None:
    """One error if a file to print would be written over a card just made."""
    for one in made:
        paths = [path.name for path in (one.pdf, one.sheet) if path is not None]
        if target.name.casefold() in (path.casefold() for path in paths):
            return error(
                Place(one.run.name),
                "out-twice",
                f"{workspace.name(target)} was just made from this file",
                "give the recipe file another name",
            )
    return None


def _same(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return all(abs(a - b) <= TOLERANCE for a, b in zip(one, other, strict=True))


def size_mm(size: tuple[float, float]) -> str:
    """A size in points as people write it."""
    return " x ".join(f"{length / MM:.0f}" for length in size) + " mm"
