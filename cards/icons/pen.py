"""The pen: five verbs by which every drawing speaks, and a pen that writes them down.

A drawing knows no PDF. It moves a pen on a grid of ``GRID`` units with the
origin at the lower left and y upwards, builds one path at a time and then
paints it. Whoever implements the five verbs can show the drawing.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Protocol

GRID = 48.0
"""Side of the square most icons are drawn in, in grid units."""

STROKE = 2.4
"""The family's line, in grid units: 1.3 pt on the smallest icon a card shows (9 mm)."""

FINE = 1.7
"""Inner detail, in grid units: 0.9 pt at 9 mm, above the 0.8 pt a photocopy keeps."""


class Ink(StrEnum):
    """What a finished path is painted with."""

    SOLID = "solid"
    """Filled black."""
    FOOD = "food"
    """Filled with the accent colour: the food itself, or heat. Black in one-colour print."""
    PAPER = "paper"
    """Filled white, to cover what lies below."""
    LINE = "line"
    """Stroked black, round ends and joins."""
    GAP = "gap"
    """Stroked white, to set a solid shape apart from another."""


class Pen(Protocol):
    """Five verbs; coordinates in grid units."""

    def move(self, x: float, y: float) -> None:
        """Start a new contour at (x, y)."""

    def line(self, x: float, y: float) -> None:
        """Straight on to (x, y)."""

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        """Cubic Bezier to (x, y) by two control points."""

    def close(self) -> None:
        """Close the contour; a further ``move`` adds a second one to the same path."""

    def paint(self, ink: Ink, width: float = STROKE) -> None:
        """Paint the path and forget it. Overlapping contours cut holes (even-odd)."""


class RecordingPen:
    """Writes the verbs down as text lines, one a verb, so that drawings can be compared."""

    def __init__(self) -> None:
        self.lines: list[str] = []

    def _note(self, verb: str, *numbers: float) -> None:
        self.lines.append(" ".join([verb, *(f"{round(n, 2) + 0.0:g}" for n in numbers)]))

    def move(self, x: float, y: float) -> None:
        """Note a move."""
        self._note("move", x, y)

    def line(self, x: float, y: float) -> None:
        """Note a line."""
        self._note("line", x, y)

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        """Note a curve."""
        self._note("curve", x1, y1, x2, y2, x, y)

    def close(self) -> None:
        """Note a close."""
        self._note("close")

    def paint(self, ink: Ink, width: float = STROKE) -> None:
        """Note the ink, and the width where the ink is a stroke."""
        if ink in (Ink.LINE, Ink.GAP):
            self._note(f"paint {ink}", width)
        else:
            self._note(f"paint {ink}")


class ShiftedPen:
    """Passes everything on to another pen, moved and scaled: for a shape used inside a shape."""

    def __init__(self, pen: Pen, dx: float, dy: float, scale: float = 1.0) -> None:
        self._pen, self._dx, self._dy, self._scale = pen, dx, dy, scale

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return self._dx + x * self._scale, self._dy + y * self._scale

    def move(self, x: float, y: float) -> None:
        """Move, shifted."""
        self._pen.move(*self._at(x, y))

    def line(self, x: float, y: float) -> None:
        """Line, shifted."""
        self._pen.line(*self._at(x, y))

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        """Curve, shifted."""
        self._pen.curve(*self._at(x1, y1), *self._at(x2, y2), *self._at(x, y))

    def close(self) -> None:
        """Close."""
        self._pen.close()

    def paint(self, ink: Ink, width: float = STROKE) -> None:
        """Paint; stroke width is not scaled, so that the family keeps one line."""
        self._pen.paint(ink, width)
