"""Foods in a vessel over the fire or in the hand's work: by their pictures, or as a measure shows
them. At most two are told apart in so small a room.
"""

from __future__ import annotations

import math

from cards.icons import shapes
from cards.icons.held import HELD, Filled, hold, loose
from cards.icons.marks import TurnedPen
from cards.icons.pen import FINE, STROKE, Ink, Pen
from cards.icons.registry import find

Box = tuple[float, float, float, float]
"""Left, bottom, width, height."""


def foods(pen: Pen, box: Box, of: str, also: str = "") -> None:
    """One food in a box or two side by side, each a picture's name or one of ``HELD``.

    Raises KeyError for an unknown one, ValueError for one without marks (``plain``, ``water``).
   """
    if not also:
        _lay(pen, box, of)
        return
    x, y, width, height = box
    half = (width - STROKE / 2) / 2
    _lay(pen, (x, y, half, height), of)
    _lay(pen, (x + width - half, y, half, height), also)


def _lay(pen: Pen, box: Box, of: str) -> None:
    if of == "powder":
        _powder(pen, box)
    elif of in HELD:
        loose(pen, *box, of)
    else:
        _picture(pen, box, of)


def _picture(pen: Pen, box: Box, of: str) -> None:
    """A food's picture as large as the box takes it, standing or lying, on the box's floor."""
    x, y, width, height = box
    drawing = find(of)
    upright = min(width / drawing.width, height / drawing.height)
    lying = min(width / drawing.height, height / drawing.width)
    if lying > upright * 1.15:
        left = x + (width - drawing.height * lying) / 2
        drawing.draw(TurnedPen(pen, left + drawing.height * lying, y, 90, lying))
        return
    drawing.draw(TurnedPen(pen, x + (width - drawing.width * upright) / 2, y, 0, upright))


def _powder(pen: Pen, box: Box) -> None:
    """A heap of powder with its specks."""
    x, y, width, height = box
    cx, rx, high = x + width / 2, width / 2, min(height, 14.0)

    def half(at: float) -> float:
        return rx * math.sqrt(max(0.0, 1 - ((at - y) / high) ** 2))

    def path() -> None:
        pen.move(x + width, y)
        shapes.arc_on(pen, cx, y, rx, high, 0, 180)
        pen.close()

    hold(pen, Filled(path, cx, y, y + high, half), "powder")
    path()
    pen.paint(Ink.LINE, FINE)
