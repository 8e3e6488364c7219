"""A large page on many sheets: a finished PDF becomes one whose pages are glued together."""

from __future__ import annotations

from collections.abc import Sequence

from cards.layout.office.affine import Matrix, moved, then
from cards.layout.office.tile_marks import Box
from cards.layout.office.tile_plan import Tiling
from cards.pdf.assemble import About, Laid, Patch, Sheet, assemble


def tile(
    chart: bytes,
    maps: Sequence[tuple[int, Tiling, Box]],
    white: Sequence[Sequence[Box]],
    marks: bytes,
    about: About,
) -> bytes:
    """For each page of the chart that is cut a map, then its sheets row by row.

    ``maps`` gives the pages with their tilings and where each comes on its map,
    ``white`` what is left white on each sheet made, boxes with y downwards;
    ``marks`` is a file with a page for each sheet made, laid over it.
    """
    made: list[Sheet] = []

    def add(sheet: tuple[float, float], laid: Laid) -> None:
        patches = [Patch(_up(box, sheet[1])) for box in white[len(made)]]
        made.append(Sheet(*sheet, (laid, *patches, Laid(1, len(made)))))

    for page, tiling, picture in maps:
        left, bottom, right, _ = _up(picture, tiling.map_sheet[1])
        scale = (right - left) / tiling.page[0]
        small: Matrix = (scale, 0, 0, scale, left, bottom)
        add(tiling.map_sheet, Laid(0, page, small))
        left, bottom = tiling.corner
        width, height = tiling.window
        window = (left, bottom, left + width, bottom + height)
        for part in tiling.tiles:
            to = then(moved(-part.box[0], -part.box[1]), moved(left, bottom))
            add(tiling.sheet, Laid(0, page, to, window))
    return assemble([chart, marks], made, about)


def _up(box: Box, height: float) -> Box:
    """A box with y downwards as left, bottom, right, top with y upwards."""
    left, top, right, bottom = box
    return left, height - bottom, right, height - top
