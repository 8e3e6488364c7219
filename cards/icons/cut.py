"""Pieces of which only a share is used: the used part filled, with a flat cut face, the rest
as a dashed outline. Shares go by area, as an eye reads a picture.

The commonest share, a half, of a round piece shows the cut face from above with what is inside.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from cards.icons import shapes
from cards.icons.marks import smooth
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.shapes import Point


def _dense(points: Sequence[Point]) -> list[Point]:
    """Many points along the closed soft curve through ``points``."""
    n, steps, out = len(points), 12, []
    for i in range(n):
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = (points[(i + k - 1) % n] for k in range(4))
        for s in range(steps):
            t = s / steps
            a, b = -t + 2 * t * t - t**3, 2 - 5 * t * t + 3 * t**3
            c, d = t + 4 * t * t - 3 * t**3, -t * t + t**3
            out.append(
                ((a * ax + b * bx + c * cx + d * dx) / 2, (a * ay + b * by + c * cy + d * dy) / 2)
            )
    return out


def _left_of(outline: Sequence[Point], x: float) -> list[Point]:
    """The part of a closed outline left of an upright line."""
    kept: list[Point] = []
    for (ax, ay), (bx, by) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if ax <= x:
            kept.append((ax, ay))
        if (ax <= x) != (bx <= x):
            kept.append((x, ay + (by - ay) * (x - ax) / (bx - ax)))
    return kept


def _area(outline: Sequence[Point]) -> float:
    ends = zip(outline, [*outline[1:], *outline[:1]], strict=True)
    return abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in ends)) / 2


def dashed(pen: Pen, outline: Sequence[Point], beyond: float = -math.inf) -> None:
    """Dashes along a closed outline of many points, right of ``beyond``."""
    run = 0.0
    for (ax, ay), (bx, by) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if run % 5.4 < 2.6 and ax > beyond:
            shapes.bar(pen, ax, ay, bx, by, FINE)
        run += math.hypot(bx - ax, by - ay)


def piece(pen: Pen, points: Sequence[Point], fill: float) -> bool:
    """A soft piece filled by a share from the left, cut upright; True if it is whole."""
    if fill >= 1:
        for ink in (Ink.FOOD, Ink.LINE):
            smooth(pen, points)
            pen.paint(ink)
        return True
    outline = _dense(points)
    low, high = min(x for x, _ in outline), max(x for x, _ in outline)
    for _ in range(40):
        x = (low + high) / 2
        if _area(_left_of(outline, x)) < fill * _area(outline):
            low = x
        else:
            high = x
    dashed(pen, outline, x + 2 if fill > 0 else -math.inf)
    if fill <= 0:
        return False
    used = _left_of(outline, x)
    for ink in (Ink.FOOD, Ink.LINE):
        shapes.polyline(pen, used, closed=True)
        pen.paint(ink)
    ends = [py for px, py in used if abs(px - x) < 0.01]
    middle, half = (min(ends) + max(ends)) / 2, (max(ends) - min(ends)) / 2
    for ink in (Ink.PAPER, Ink.LINE):
        shapes.ellipse(pen, x, middle, min(4.2, half * 0.4), half)
        pen.paint(ink)
    return False


def halved(pen: Pen, cx: float, rx: float, rim: float, depth: float) -> tuple[float, float]:
    """Half a round piece lying on its back, cut face up; gives the face's half axes."""
    ry = rx * 0.5
    pen.move(cx - rx, rim)
    shapes.arc_on(pen, cx, rim, rx, depth, 180, 360)
    shapes.arc_on(pen, cx, rim, rx, ry, 0, 180)
    pen.close()
    pen.paint(Ink.FOOD)
    pen.move(cx - rx, rim)
    shapes.arc_on(pen, cx, rim, rx, depth, 180, 360)
    pen.paint(Ink.LINE)
    for ink in (Ink.PAPER, Ink.LINE):
        shapes.ellipse(pen, cx, rim, rx, ry)
        pen.paint(ink)
    return rx, ry


def is_half(fill: float) -> bool:
    """True for a share that is shown as a half with its cut face up."""
    return 0.4 <= fill <= 0.6


def wedges(pen: Pen, cx: float, cy: float, rx: float, ry: float, count: int) -> None:
    """Segments of a cut fruit, set apart by white."""
    for i in range(count):
        angle = 360 / count
        start = angle * i + 9
        pen.move(*shapes.on_ellipse(cx, cy, rx * 0.2, ry * 0.2, start + angle / 2 - 9))
        pen.line(*shapes.on_ellipse(cx, cy, rx, ry, start))
        shapes.arc_on(pen, cx, cy, rx, ry, start, start + angle - 18)
        pen.close()
        pen.paint(Ink.FOOD)
