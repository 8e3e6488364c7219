"""A pen that draws on a ReportLab canvas."""

from __future__ import annotations

from typing import Any

from cards.icons.pen import STROKE, Ink


class CanvasPen:
    """Draws grid units at (x, y) points, ``scale`` points to a unit."""

    def __init__(
        self, canvas: Any, x: float, y: float, scale: float, colours: dict[Ink, Any]
    ) -> None:
        self._canvas, self._x, self._y, self._scale = canvas, x, y, scale
        self._colours = colours
        self._path = canvas.beginPath()

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return self._x + x * self._scale, self._y + y * self._scale

    def move(self, x: float, y: float) -> None:
        """Start a contour."""
        self._path.moveTo(*self._at(x, y))

    def line(self, x: float, y: float) -> None:
        """Add a line."""
        self._path.lineTo(*self._at(x, y))

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        """Add a curve."""
        self._path.curveTo(*self._at(x1, y1), *self._at(x2, y2), *self._at(x, y))

    def close(self) -> None:
        """Close the contour."""
        self._path.close()

    def paint(self, ink: Ink, width: float = STROKE) -> None:
        """Paint the path on the canvas and begin a new one."""
        canvas = self._canvas
        colour = self._colours[ink]
        if ink in (Ink.LINE, Ink.GAP):
            canvas.setStrokeColor(colour)
            canvas.setLineWidth(width * self._scale)
            canvas.setLineCap(1)
            canvas.setLineJoin(1)
            canvas.drawPath(self._path, stroke=1, fill=0)
        else:
            canvas.setFillColor(colour)
            canvas.drawPath(self._path, stroke=0, fill=1, fillMode=0)
        self._path = canvas.beginPath()
