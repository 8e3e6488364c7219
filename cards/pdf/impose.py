"""Cards on sheets: finished PDFs of cards become one PDF to print, fronts and backs in register."""

from __future__ import annotations

from collections.abc import Sequence

from cards.layout.office.sheet_marks import strip_place
from cards.layout.office.sheet_plan import Flip, Grid
from cards.pdf.assemble import About, Laid, Sheet, assemble

Leaf = tuple[int, int, int | None]
"""A card's file, the page that is its front, the page that is its back."""


def leaves(pages: Sequence[int]) -> tuple[Leaf, ...]:
    """Two pages of a file make a leaf; an odd last page has nothing on its back.

    ``pages`` are the numbers of pages of the files.
    """
    return tuple(
        (file, page, page + 1 if page + 1 < count else None)
        for file, count in enumerate(pages)
        for page in range(0, count, 2)
    )


def impose(
    cards: Sequence[bytes],
    grid: Grid,
    sheets: Sequence[Sequence[Leaf | None]],
    flip: Flip,
    marks: bytes,
    strips: bytes,
    about: About,
) -> bytes:
    """One page for the fronts of each sheet, and one for the backs if any leaf has one.

    ``marks`` is a file of one page, laid over each; ``strips`` has a page for
    each page that is made, in order.
    """
    two_sided = has_backs(sheets)
    made: list[Sheet] = []
    for dealt in sheets:
        placed = [(place, leaf) for place, leaf in enumerate(dealt) if leaf is not None]
        fronts = [Laid(file, front, grid.front(place)) for place, (file, front, _) in placed]
        backs = [
            Laid(file, back, grid.back(place, flip))
            for place, (file, _, back) in placed
            if back is not None
        ]
        sides = ((fronts, None), (backs, flip)) if two_sided else ((fronts, None),)
        for laid, turned in sides:
            strip = Laid(len(cards) + 1, len(made), strip_place(grid, turned))
            made.append(Sheet(*grid.sheet, (*laid, Laid(len(cards), 0), strip)))
    return assemble([*cards, marks, strips], made, about)


def has_backs(sheets: Sequence[Sequence[Leaf | None]]) -> bool:
    """True when something is to be printed on a back."""
    return any(leaf is not None and leaf[2] is not None for dealt in sheets for leaf in dealt)
