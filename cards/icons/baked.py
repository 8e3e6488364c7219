"""What is cooked or baked in pieces: cake, flat bread, slice of bread; filled by area."""

from __future__ import annotations

import math

from cards.icons import shapes
from cards.icons.cut import dashed, piece
from cards.icons.marks import TurnedPen, smooth
from cards.icons.measures import circle_level
from cards.icons.pen import Ink, Pen
from cards.icons.registry import icon
from cards.icons.shapes import Point


@icon("cake", width=41, height=34, true_height_mm=9)
def cake(pen: Pen, fill: float = 1.0) -> None:
    """A small flat round cake seen from above its front: top and edge.

    Of a share the left is there, up to a straight cut; one that only may be is dashed.
    """
    cx, top, rx, ry, thick = 20.5, 21.8, 18.0, 11.0, 8.4

    def arc(start: float, end: float, down: float = 0.0) -> list[Point]:
        return [shapes.on_ellipse(cx, top - down, rx, ry, start + (end - start) * i / 40)
                for i in range(41)]

    def body(path: list[Point], *inks: Ink) -> None:
        for ink in inks:
            shapes.polyline(pen, path, closed=True)
            pen.paint(ink)

    whole = [*arc(0, 180), *arc(180, 360, thick)]
    if fill >= 1:
        body(whole, Ink.FOOD, Ink.LINE)
        shapes.polyline(pen, arc(184, 356))
        pen.paint(Ink.GAP, 2.4)
        for x, y, length in ((13, 22, 6), (22, 26, 7), (25.4, 19, 6)):
            shapes.polyline(pen, [(x - length / 2, y), (x + length / 2, y)])
            pen.paint(Ink.GAP, 2)
        return
    if fill <= 0:
        dashed(pen, _dense(whole))
        return
    # of the top's area, the share on the left of the cut
    angle = math.degrees(math.acos(2 * circle_level(fill) - 1))
    body([*arc(angle, 180), *arc(180, 360 - angle, thick)], Ink.FOOD, Ink.LINE)
    shapes.polyline(pen, arc(184, 360 - angle - 6))
    pen.paint(Ink.GAP, 2.4)


def _dense(outline: list[Point]) -> list[Point]:
    """The outline with points no further apart than a small part of a dash."""
    out: list[Point] = []
    for (ax, ay), (bx, by) in zip(outline, [*outline[1:], outline[0]], strict=True):
        steps = max(1, math.ceil(math.hypot(bx - ax, by - ay)))
        out += [(ax + (bx - ax) * i / steps, ay + (by - ay) * i / steps) for i in range(steps)]
    return out


@icon("roti", width=50, height=42, true_height_mm=10.5)
def roti(pen: Pen, fill: float = 1.0) -> None:
    """A round flat bread, thin, with the spots of the griddle."""
    outline = [shapes.on_ellipse(25, 21, 22, 18.4, 30 * i) for i in range(12)]
    if piece(pen, outline, fill):
        for x, y, rx, ry, turn in ((15, 26, 4.4, 2.4, 20), (27, 30.4, 4, 2, -10),
                                   (35.4, 22, 3, 2.2, 0), (24, 18, 5, 2.6, 12),
                                   (13.4, 15, 2.6, 1.8, 0), (31, 10.6, 4, 2, 16)):
            shapes.ellipse(TurnedPen(pen, x, y, turn), 0, 0, rx, ry)
            pen.paint(Ink.PAPER)


@icon("bread-slice", width=42, height=42, true_height_mm=10)
def bread_slice(pen: Pen, fill: float = 1.0) -> None:
    """A slice of a tin loaf: square below, two round shoulders above, a pale crumb."""
    outline = [(6, 3.4), (21, 3), (36, 3.4), (36.6, 14), (36, 24), (39.6, 30), (37, 36.6), (29, 39),
               (21, 39.4), (13, 39), (5, 36.6), (2.4, 30), (6, 24), (5.4, 14)]
    if piece(pen, outline, fill):
        smooth(pen, [(21 + (x - 21) * 0.74, 21 + (y - 21) * 0.74) for x, y in outline])
        pen.paint(Ink.GAP, 2.2)
