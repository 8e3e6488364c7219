"""Vessels and tools of the kitchen, shared by the drawings of what is done with them.

Vessels are seen from the side and cut open, so that what goes on inside shows.
All stand on a ``base`` line and share one wall, one rim height over a fire and one fire.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from cards.icons import shapes
from cards.icons.marks import TurnedPen, dot
from cards.icons.pen import STROKE, Ink, Pen

WALL = 2.7
"""Stroke of a vessel's wall: a little over the family's line, as there is no fill to carry it."""

HEARTH = 12.6
"""Where a vessel over the fire stands."""


def fire(pen: Pen, cx: float = 24.0) -> None:
    """A stand over embers, the same under every vessel; how high the flame is, the mark tells."""
    shapes.bar(pen, cx - 13, 11.4, cx + 13, 11.4, 3)
    for x in (cx - 10.4, cx + 10.4):
        shapes.bar(pen, x, 11.4, x, 4.2, 3)
    shapes.rounded(pen, cx - 6.4, 3, 12.8, 4.4, 2)
    pen.paint(Ink.FOOD)


def water_line(pen: Pen, x1: float, x2: float, y: float, waves: int = 3) -> None:
    """A wavy surface from wall to wall."""
    step = (x2 - x1) / waves
    pen.move(x1, y)
    for i in range(waves):
        x = x1 + i * step
        pen.curve(x + step * 0.3, y + 2.2, x + step * 0.7, y - 2.2, x + step, y)
    pen.paint(Ink.LINE)


def grains(pen: Pen, places: Sequence[Sequence[float]], rx: float = 2.9, ry: float = 1.9) -> None:
    """Single grains of food, each as (x, y) or (x, y, degrees)."""
    for x, y, *turn in places:
        shapes.ellipse(TurnedPen(pen, x, y, turn[0] if turn else 0.0), 0, 0, rx, ry)
        pen.paint(Ink.FOOD)


def bubbles(pen: Pen, places: Sequence[tuple[float, float, float]]) -> None:
    """White bubbles in the food, each as (x, y, radius)."""
    for x, y, r in places:
        dot(pen, x, y, r, Ink.PAPER)


def _tub(pen: Pen, cx: float, base: float, rim: float, half: float, foot: float) -> None:
    """Path of an open vessel's wall, soft below; ``foot`` is half its width at the base."""
    r = 3.0
    lean = (half - foot) * r / (rim - base)
    pen.move(cx - half, rim)
    pen.line(cx - foot - lean, base + r)
    pen.curve(cx - foot, base + r * 0.4, cx - foot + r * 0.5, base, cx - foot + r, base)
    pen.line(cx + foot - r, base)
    pen.curve(cx + foot - r * 0.5, base, cx + foot, base + r * 0.4, cx + foot + lean, base + r)
    pen.line(cx + half, rim)


def tub(
    pen: Pen, cx: float, base: float, rim: float, half: float, foot: float, level: float = 0.0
) -> None:
    """An open vessel cut through, filled up to the height ``level``."""
    _tub(pen, cx, base, rim, half, foot)
    pen.close()
    pen.paint(Ink.PAPER)
    if level:
        _tub(pen, cx, base, level, foot + (half - foot) * (level - base) / (rim - base), foot)
        pen.close()
        pen.paint(Ink.FOOD)
    _tub(pen, cx, base, rim, half, foot)
    pen.paint(Ink.LINE, WALL)


def pot(
    pen: Pen, base: float = HEARTH, rim: float = 31.0, level: float = 0.0, half: float = 17.0
) -> None:
    """The flat wide pot with two short handles."""
    for side in (-1, 1):
        x = 24 + side * (half + 1.6)
        shapes.bar(pen, x, rim - 4.6, x + side * 2, rim - 4.6, 4.4)
    tub(pen, 24, base, rim, half, half, level)


def lid(pen: Pen, y: float, half: float = 18.4, height: float = 6.6, cx: float = 24.0) -> None:
    """A domed lid with its knob, its edge at ``y``."""
    pen.move(cx - half, y)
    pen.curve(
        cx - half * 0.9, y + height * 0.8, cx - half * 0.45, y + height, cx, y + height
    )
    pen.curve(cx + half * 0.45, y + height, cx + half * 0.9, y + height * 0.8, cx + half, y)
    pen.close()
    pen.paint(Ink.SOLID)
    shapes.bar(pen, cx - half, y, cx + half, y, WALL)
    shapes.bar(pen, cx - 1.8, y + height + 2, cx + 1.8, y + height + 2, 4.2)


PAN_CX, PAN_RIM = 18.4, 24.6


def pan(pen: Pen, level: float = 0.0) -> None:
    """The open pan over the fire, its handle to the right."""
    shapes.bar(pen, 33, 21.6, 44.4, 26.6, 4.6)
    tub(pen, PAN_CX, HEARTH, PAN_RIM, 16.4, 13.6, level)


def bowl(
    pen: Pen, cx: float, base: float, rim: float, rx: float, level: float = 0.0
) -> None:
    """A round bowl on its short foot, filled up to the height ``level``."""
    bottom = base + 1.6
    depth = rim - bottom

    def hollow(y: float) -> None:
        angle = math.degrees(math.asin(max(0.0, (rim - y) / depth)))
        pen.move(*shapes.on_ellipse(cx, rim, rx, depth, 180 + angle))
        shapes.arc_on(pen, cx, rim, rx, depth, 180 + angle, 360 - angle)
        pen.close()

    hollow(rim)
    pen.paint(Ink.PAPER)
    if level:
        hollow(level)
        pen.paint(Ink.FOOD)
    pen.move(cx - rx, rim)
    shapes.arc_on(pen, cx, rim, rx, depth, 180, 360)
    pen.paint(Ink.LINE, WALL)
    shapes.bar(pen, cx - rx * 0.34, bottom, cx + rx * 0.34, bottom, STROKE * 1.4)


def fork(pen: Pen, x: float, y: float, length: float, degrees: float) -> None:
    """A fork, the middle of its tines' ends at (x, y), handle leaning by ``degrees``."""
    turned = TurnedPen(pen, x, y, degrees - 90)
    for dx in (-4.6, 0.0, 4.6):
        shapes.polyline(turned, [(dx, 0), (dx, 8)])
        turned.paint(Ink.LINE)
    turned.move(-5.8, 7)
    turned.curve(-5.8, 12, -3, 14, 0, 15)
    turned.curve(3, 14, 5.8, 12, 5.8, 7)
    turned.close()
    turned.paint(Ink.SOLID)
    shapes.bar(turned, 0, 13, 0, length, 3.6)


def knife(pen: Pen, x: float, y: float, degrees: float, scale: float = 1.0) -> None:
    """A kitchen knife, point at (x, y), edge down, handle leaning by ``degrees``."""
    turned = TurnedPen(pen, x, y, degrees, scale)
    turned.move(0, 0)
    turned.curve(8, -1.6, 20, -1.6, 28, -0.6)
    turned.line(28, 9.6)
    turned.line(10, 9)
    turned.curve(6, 8.6, 2, 5, 0, 0)
    turned.close()
    turned.paint(Ink.SOLID)
    shapes.bar(turned, 31.6, 7, 42, 7, 5.2)
    shapes.bar(turned, 26, 7, 34, 7, 3)


def arrow_head(pen: Pen, x: float, y: float, degrees: float, size: float = 7.0) -> None:
    """A solid arrow head, its point at (x, y)."""
    turned = TurnedPen(pen, x, y, degrees)
    shapes.polyline(turned, [(0, 0), (-size, size * 0.6), (-size, -size * 0.6)], closed=True)
    turned.paint(Ink.SOLID)
