"""How black a page is: the share of it that a one-colour print or a copy lays toner on.

Worked out from the placed items, so that a page can be judged before it is painted;
``tests/test_cover.py`` holds it against rasters of the painted page.
"""

from __future__ import annotations

import math
from functools import cache

from fontTools.pens.areaPen import AreaPen

from cards.icons import catalogue
from cards.icons.cover import inked
from cards.layout.pages import (
    BarItem,
    IconItem,
    Page,
    Pages,
    PanelItem,
    Placed,
    QrItem,
    RuleItem,
    TextItem,
)
from cards.text.faces import Face
from cards.text.shape import Shaped

_Glyphs = tuple[tuple[int, int, int], ...]
"""Glyphs of a cluster as shaping gives them."""

QR_DARK = 0.5
"""Share of a QR code's modules that are dark: ISO/IEC 18004 chooses the mask nearest to half."""


def ink_covers(pages: Pages) -> tuple[float, ...]:
    """The inked share of each page, 0 to 1."""
    return tuple(_cover(page, pages.width * pages.height) for page in pages.pages)


def _cover(page: Page, paper: float) -> float:
    return sum(_area(item) for item in page.items) / paper


def _area(item: Placed) -> float:
    """Inked square points of an item. Where two items lie on one another both count."""
    if isinstance(item, TextItem):
        words = item.line.words
        return item.size**2 * sum(_inked(piece) for word in words for piece in word.pieces)
    if isinstance(item, IconItem):
        unit = item.height / catalogue.find(item.icon.name).height
        return unit**2 * inked(item.icon.name, item.icon.params)
    if isinstance(item, QrItem):
        return QR_DARK * (item.side * item.modules / (item.modules + 8)) ** 2
    if isinstance(item, BarItem):
        return item.width * item.height
    if isinstance(item, RuleItem):
        return item.stroke * math.hypot(item.x2 - item.x1, item.y2 - item.y1)
    if isinstance(item, PanelItem):
        straight = 2 * (item.width + item.height) - 8 * item.radius
        return item.stroke * (straight + 2 * math.pi * item.radius)
    raise TypeError(item)


def _inked(piece: Shaped) -> float:
    areas = _areas(piece.face)
    return sum([areas[cluster.glyphs] for cluster in piece.clusters])


class _Areas(dict[_Glyphs, float]):
    """Inked areas of a face's clusters in square ems, found as they are asked for.

    A dict by glyphs alone: every line of every card is looked up here when it is checked.
    """

    def __init__(self, face: Face) -> None:
        super().__init__()
        self._face = face

    def __missing__(self, glyphs: _Glyphs) -> float:
        pen = AreaPen()
        area = 0.0
        for glyph, _, _ in glyphs:
            pen.value = 0
            self._face.shaper.draw_glyph_with_pen(glyph, pen)
            area += abs(pen.value)
        self[glyphs] = area / self._face.units_per_em**2
        return self[glyphs]


@cache
def _areas(face: Face) -> _Areas:
    return _Areas(face)
