"""Cards side by side on sheets of office paper, front and back in register; points, y upwards.

A card turns like a page of a book: what is at the left of its front is at the
right of its back. A sheet turns about its long or its short edge. The back of
a card is therefore mirrored on the card, placed like the front, and mirrored
with the sheet: two mirrors make a turn, so nothing is printed in mirror
writing, and whatever the grid, back lies behind front.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeVar

from cards.layout.office.affine import Matrix, across, moved, quarter, then, upended
from cards.layout.pages import MM

T = TypeVar("T")

Flip = Literal["long", "short"]
"""The edge of the sheet about which the printer turns it, as printer dialogs name it."""

A4 = (210 * MM, 297 * MM)
"""ISO 216, in points."""

EDGE = 4 * MM
"""What an office printer may leave white along the edge (common practice)."""

BLEED = 3 * MM
"""What a print shop wants round the trim (common practice)."""

MARK_ROOM = 3 * MM
"""Least length of a cut mark, where marks have to have room."""

STRIP_HIGH = 4.2 * MM
"""Height of the strip with the line that is measured."""

TOLERANCE = 0.1 * MM
"""Sizes that differ by less are the same: files round their points."""


@dataclass(frozen=True, slots=True)
class Grid:
    """Places for cards on a sheet, the whole block in the middle. Lengths in points.

    ``turned`` cards lie on their side. ``gap`` is the space between two cards.
    """

    sheet: tuple[float, float]
    card: tuple[float, float]
    turned: bool
    columns: int
    rows: int
    gap: float = 0.0

    @property
    def places(self) -> int:
        """Cards a sheet takes."""
        return self.columns * self.rows

    @property
    def cell(self) -> tuple[float, float]:
        """Width and height of a card as it lies."""
        width, height = self.card
        return (height, width) if self.turned else (width, height)

    @property
    def corner(self) -> tuple[float, float]:
        """Lower left corner of the block."""
        cell, count = self.cell, (self.columns, self.rows)
        block = [n * size + (n - 1) * self.gap for n, size in zip(count, cell, strict=True)]
        return (self.sheet[0] - block[0]) / 2, (self.sheet[1] - block[1]) / 2

    def front(self, place: int) -> Matrix:
        """Where the front of the card at a place lies; places count as one reads."""
        row, column = divmod(place, self.columns)
        left, bottom = self.corner
        width, height = self.cell
        from_foot = self.rows - 1 - row
        to = moved(left + column * (width + self.gap), bottom + from_foot * (height + self.gap))
        return then(quarter(self.card[1]), to) if self.turned else to

    def back(self, place: int, flip: Flip) -> Matrix:
        """Where the back of the card at a place lies on the sheet's other side."""
        return then(across(self.card[0]), self.front(place), self.behind(flip))

    def behind(self, flip: Flip) -> Matrix:
        """From a point of the sheet's front to the point behind it, on the back as it is read."""
        width, height = self.sheet
        upright = height >= width
        return across(width) if (flip == "long") == upright else upended(height)

    def cuts(self, axis: int) -> tuple[float, ...]:
        """Where to cut, along x (0) or y (1); one cut between cards that touch."""
        start, size = self.corner[axis], self.cell[axis]
        count = (self.columns, self.rows)[axis]
        edges = [start + n * (size + self.gap) + side for n in range(count) for side in (0, size)]
        # cards that touch share a cut
        return tuple(
            edge for n, edge in enumerate(edges) if not n or edge - edges[n - 1] > TOLERANCE
        )


def plan_sheet(
    width: float, height: float, bleed: bool = False, sheet: tuple[float, float] = A4
) -> Grid | None:
    """The grid that takes most cards of a size; None if not even one goes on the sheet.

    Of equal grids the one on which the cards stand upright. With ``bleed`` each
    card keeps its own 3 mm on every side, and the cut marks their room beside them.
    """
    gap = 2 * BLEED if bleed else 0.0
    rim = BLEED + MARK_ROOM + EDGE if bleed else 0.0
    rims = (rim, rim + STRIP_HIGH if bleed else 0.0)
    found: list[Grid] = []
    for turned in (False, True):
        cell = (height, width) if turned else (width, height)
        for paper in (sheet, sheet[::-1]):
            columns, rows = (
                int((paper[n] - 2 * rims[n] + gap + TOLERANCE) // (cell[n] + gap)) for n in (0, 1)
            )
            if columns > 0 and rows > 0:
                found.append(Grid(paper, (width, height), turned, columns, rows, gap))
    return max(found, key=lambda grid: grid.places, default=None)


def deal(
    cards: Sequence[T], places: int, copies: int = 1, fill: bool = False
) -> tuple[tuple[T | None, ...], ...]:
    """Which card lies at which place, sheet by sheet; None for a place that stays empty.

    ``fill`` rounds the copies up until a card fills its sheets alone.
    """
    each = -(-copies // places) * places if fill else copies
    row: list[T | None] = [card for card in cards for _ in range(each)]
    row += [None] * (-len(row) % places)
    return tuple(tuple(row[n : n + places]) for n in range(0, len(row), places))
