"""How much ink a drawing takes: a pen that lays it onto a grid of samples and counts them.

Outline areas added up would count twice where a line lies on its own filling, and would
not see the white that covers what lies below; samples see what is left to see.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache

from cards.icons import catalogue
from cards.icons.pen import STROKE, Ink
from cards.icons.shapes import Point

SAMPLES = 2
"""Samples along a grid unit: five across a stroke. Twice as many change no page by 0.1 %."""

CURVE_PARTS = 6
"""Straight lines a curve is flattened into; icons have four curves to a circle."""

ROUND = tuple((math.cos(k * math.pi / 6), math.sin(k * math.pi / 6)) for k in range(12))
"""The round end of a stroke, as a polygon of radius 1."""


class CoverPen:
    """Keeps which samples are inked. Accent counts as ink: on a copy it is black."""

    def __init__(self) -> None:
        self._rows: dict[int, int] = {}
        self._path: list[list[Point]] = []

    @property
    def area(self) -> float:
        """What is inked so far, in square grid units."""
        return sum(row.bit_count() for row in self._rows.values()) / SAMPLES**2

    def move(self, x: float, y: float) -> None:
        """Start a contour."""
        self._path.append([(x, y)])

    def line(self, x: float, y: float) -> None:
        """Straight on."""
        self._path[-1].append((x, y))

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        """A curve, flattened."""
        x0, y0 = self._path[-1][-1]
        for part in range(1, CURVE_PARTS + 1):
            t = part / CURVE_PARTS
            a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
            self.line(a * x0 + b * x1 + c * x2 + d * x, a * y0 + b * y1 + c * y2 + d * y)

    def close(self) -> None:
        """Back to where the contour began."""
        self._path[-1].append(self._path[-1][0])

    def paint(self, ink: Ink, width: float = STROKE) -> None:
        """Ink or clear the samples of the path."""
        if ink in (Ink.LINE, Ink.GAP):
            for shape in _strokes(self._path, width / 2):
                self._lay(_inside((shape,)), ink)
        else:
            self._lay(_inside(self._path), ink)
        self._path = []

    def _lay(self, rows: dict[int, int], ink: Ink) -> None:
        white = ink in (Ink.PAPER, Ink.GAP)
        for number, row in rows.items():
            below = self._rows.get(number, 0)
            self._rows[number] = below & ~row if white else below | row


def _inside(contours: Iterable[Sequence[Point]]) -> dict[int, int]:
    """Samples inside the contours by the even-odd rule: a number a row, a bit a sample."""
    rows: dict[int, int] = {}
    for points in contours:
        x1, y1 = points[-1]
        for x2, y2 in points:
            if y1 != y2:
                slope = (x2 - x1) / (y2 - y1)
                low, high = (y1, y2) if y1 < y2 else (y2, y1)
                for row in range(_first(low), _first(high)):
                    x = x1 + ((row + 0.5) / SAMPLES - y1) * slope
                    # all samples left of an edge change sides; what lies within changes once
                    rows[row] = rows.get(row, 0) ^ ((1 << _first(x)) - 1)
            x1, y1 = x2, y2
    return rows


def _first(at: float) -> int:
    """The first sample at or after a place; what lies off the grid is not counted."""
    return max(0, math.ceil(at * SAMPLES - 0.5))


def _strokes(path: Iterable[Sequence[Point]], half: float) -> Iterable[Sequence[Point]]:
    """A stroke as convex shapes: a bar for each line, a round at each of its ends."""
    for points in path:
        for number, (x2, y2) in enumerate(points):
            yield [(x2 + half * c, y2 + half * s) for c, s in ROUND]
            x1, y1 = points[number - 1]
            length = math.hypot(x2 - x1, y2 - y1)
            if number and length:
                dx, dy = (y1 - y2) / length * half, (x2 - x1) / length * half
                yield (x1 + dx, y1 + dy), (x2 + dx, y2 + dy), (x2 - dx, y2 - dy), (x1 - dx, y1 - dy)


@lru_cache(maxsize=2_000)
def inked(name: str, params: tuple[tuple[str, float | str], ...] = ()) -> float:
    """The inked area of the icon called ``name`` in square grid units. Raises KeyError."""
    pen = CoverPen()
    catalogue.find(name).draw(pen, **dict(params))
    return pen.area
