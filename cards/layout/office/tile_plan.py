"""A large page cut into sheets of office paper that are glued together; points, y upwards."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cards.layout.office.sheet_plan import A4, EDGE, TOLERANCE
from cards.layout.pages import MM

OVERLAP = 10 * MM
"""Of two neighbours, the strip that both show and that takes the glue."""

RIM = EDGE + 4.5 * MM
"""Round what a sheet shows of the page: what no printer reaches, and room for marks."""


@dataclass(frozen=True, slots=True)
class Tile:
    """A sheet's part of the page. ``box`` is left, bottom, right, top on the page."""

    row: int
    column: int
    box: tuple[float, float, float, float]

    @property
    def label(self) -> str:
        """Row letter and column number, as on a street map."""
        return f"{letters(self.row)}{self.column + 1}"


@dataclass(frozen=True, slots=True)
class Tiling:
    """A page of size ``page`` on columns x rows sheets, which all show equally much of it."""

    page: tuple[float, float]
    sheet: tuple[float, float]
    columns: int
    rows: int

    @property
    def window(self) -> tuple[float, float]:
        """Width and height of what each sheet shows."""
        counts = (self.columns, self.rows)
        width, height = (
            (size + (n - 1) * OVERLAP) / n for n, size in zip(counts, self.page, strict=True)
        )
        return width, height

    @property
    def corner(self) -> tuple[float, float]:
        """Lower left corner of the window, in the middle of each sheet."""
        width, height = self.window
        return (self.sheet[0] - width) / 2, (self.sheet[1] - height) / 2

    @property
    def map_sheet(self) -> tuple[float, float]:
        """Width and height of the sheet with the map: upright for an upright page."""
        short, long = sorted(self.sheet)
        return (short, long) if self.page[1] >= self.page[0] else (long, short)

    @property
    def tiles(self) -> tuple[Tile, ...]:
        """All parts as one reads: row A from the left, then row B."""
        width, height = self.window
        top = self.page[1]
        return tuple(
            Tile(row, column, (left, top - down - height, left + width, top - down))
            for row in range(self.rows)
            for column in range(self.columns)
            for left, down in [(column * (width - OVERLAP), row * (height - OVERLAP))]
        )


def plan_tiles(width: float, height: float, paper: tuple[float, float] = A4) -> Tiling | None:
    """The tiling with fewest sheets, upright or across; None if the page goes on one as it is."""
    for sheet in (paper, paper[::-1]):
        if width <= sheet[0] + TOLERANCE and height <= sheet[1] + TOLERANCE:
            return None
    found = []
    for sheet in (paper, paper[::-1]):
        columns, rows = (
            max(1, math.ceil((size - OVERLAP - TOLERANCE) / (room - 2 * RIM - OVERLAP)))
            for size, room in zip((width, height), sheet, strict=True)
        )
        found.append(Tiling((width, height), sheet, columns, rows))
    return min(found, key=lambda tiling: tiling.columns * tiling.rows)


def letters(row: int) -> str:
    """A to Z, then AA as in a spreadsheet."""
    return (letters(row // 26 - 1) if row >= 26 else "") + chr(ord("A") + row % 26)
