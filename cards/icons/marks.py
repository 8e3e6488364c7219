"""Marks beside a step or a row: time, heat, counting marks, cover and hands; shared helpers first.

The helpers serve the sister modules too, so that one spoon, bowl, pot, flame,
hand and clock runs through the whole family.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from cards.icons import shapes
from cards.icons.pen import FINE, STROKE, Ink, Pen
from cards.icons.registry import icon
from cards.icons.shapes import Point


class TurnedPen:
    """Turns, scales and shifts (a negative ``sx`` mirrors); strokes shrink along, down to FINE."""

    def __init__(
        self, pen: Pen, dx: float, dy: float, degrees: float = 0.0, sx: float = 1.0,
        sy: float | None = None,
    ) -> None:
        self._pen, self._dx, self._dy = pen, dx, dy
        self._sx, self._sy = sx, abs(sx) if sy is None else sy
        self._cos, self._sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))

    def _at(self, x: float, y: float) -> Point:
        x, y = x * self._sx, y * self._sy
        return (
            self._dx + x * self._cos - y * self._sin,
            self._dy + x * self._sin + y * self._cos,
        )

    def move(self, x: float, y: float) -> None:
        """Move, turned."""
        self._pen.move(*self._at(x, y))

    def line(self, x: float, y: float) -> None:
        """Line, turned."""
        self._pen.line(*self._at(x, y))

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        """Curve, turned."""
        self._pen.curve(*self._at(x1, y1), *self._at(x2, y2), *self._at(x, y))

    def close(self) -> None:
        """Close."""
        self._pen.close()

    def paint(self, ink: Ink, width: float = STROKE) -> None:
        """Paint; a stroke never gets thinner than a photocopy keeps."""
        self._pen.paint(ink, max(width * math.sqrt(abs(self._sx * self._sy)), FINE))


def smooth(pen: Pen, points: Sequence[Point], *, closed: bool = True) -> None:
    """A soft curve through ``points``."""
    n = len(points)

    def at(i: int) -> Point:
        return points[i % n] if closed else points[min(max(i, 0), n - 1)]

    pen.move(*points[0])
    for i in range(n if closed else n - 1):
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = at(i - 1), at(i), at(i + 1), at(i + 2)
        pen.curve(
            bx + (cx - ax) / 6, by + (cy - ay) / 6, cx - (dx - bx) / 6, cy - (dy - by) / 6, cx, cy
        )
    if closed:
        pen.close()


def limb(pen: Pen, points: Sequence[Point], width: float, gap: float = 0.0) -> None:
    """A soft thick black stroke, painted at once, with a white edge of ``gap`` around it."""
    if gap:
        smooth(pen, points, closed=False)
        pen.paint(Ink.GAP, width + 2 * gap)
    smooth(pen, points, closed=False)
    pen.paint(Ink.LINE, width)


def dot(pen: Pen, x: float, y: float, r: float, ink: Ink = Ink.SOLID) -> None:
    """A disc, painted at once."""
    shapes.circle(pen, x, y, r)
    pen.paint(ink)


def mound(pen: Pen, cx: float, base: float, width: float, height: float) -> None:
    """Path of a heap of food with a flat foot."""
    w = width / 2
    pen.move(cx - w, base)
    pen.curve(cx - w * 0.8, base + height * 0.8, cx - w * 0.45, base + height, cx, base + height)
    pen.curve(cx + w * 0.45, base + height, cx + w * 0.8, base + height * 0.8, cx + w, base)
    pen.close()


def dish(pen: Pen, cx: float, base: float, width: float, heap: float = 0.0) -> None:
    """A solid bowl from the side, on its foot, with a heap of food ``heap`` high over the rim."""
    rx, rim = width / 2, base + width * 0.46
    pen.move(cx - rx, rim)
    shapes.arc_on(pen, cx, rim, rx, rim - base - 1.5, 180, 360)
    pen.close()
    pen.paint(Ink.SOLID)
    shapes.bar(pen, cx - rx * 0.34, base + 1.4, cx + rx * 0.34, base + 1.4, 2.8)
    if heap:
        mound(pen, cx, rim + 2, width - 3, heap)
        pen.paint(Ink.FOOD)


def spoon(pen: Pen, x: float, y: float, length: float, degrees: float = 45.0) -> None:
    """A solid spoon from the side, bowl at (x, y), handle leaning by ``degrees``."""
    turned = TurnedPen(pen, x, y, degrees - 90)
    shapes.ellipse(turned, 0, 0, length * 0.17, length * 0.24)
    turned.paint(Ink.SOLID)
    shapes.bar(turned, 0, 0, 0, length * 0.8, 3.6)


def flames(pen: Pen, feet: Sequence[tuple[float, float, float]], base: float) -> None:
    """Flames of heat, each as (middle, width, height), on one line."""
    for cx, width, height in feet:
        shapes.flame(TurnedPen(pen, cx, base, 0, width / 0.72, height), 0, 0, 1)
        pen.paint(Ink.FOOD)


def drops(pen: Pen, feet: Sequence[Point], height: float) -> None:
    """Drops of water standing on ``feet``."""
    for x, y in feet:
        shapes.drop(pen, x, y, height)
        pen.paint(Ink.SOLID)


def steam(pen: Pen, xs: Sequence[float], base: float, height: float) -> None:
    """Wavy lines of steam."""
    for x in xs:
        pen.move(x, base)
        pen.curve(x - 4, base + height * 0.4, x + 4, base + height * 0.6, x, base + height)
        pen.paint(Ink.LINE)


_CENTRE, _INNER, _OUTER = (24.0, 22.6), 14.6, 20.2


@icon("clock")
def clock(pen: Pen, minutes: float = 10.0) -> None:
    """A clock ring filled from twelve o'clock by the minutes; its centre is left for a number."""
    cx, cy = _CENTRE
    share = min(max(minutes / 60, 0.0), 1.0)
    dot(pen, cx, cy, _OUTER, Ink.PAPER)
    if share >= 1:
        shapes.circle(pen, cx, cy, _OUTER)
        shapes.circle(pen, cx, cy, _INNER)
        pen.paint(Ink.FOOD)
    elif share > 0:
        end = 90 - 360 * share
        pen.move(cx, cy + _OUTER)
        shapes.arc_on(pen, cx, cy, _OUTER, _OUTER, 90, end)
        pen.line(*shapes.on_ellipse(cx, cy, _INNER, _INNER, end))
        shapes.arc_on(pen, cx, cy, _INNER, _INNER, end, 90)
        pen.close()
        pen.paint(Ink.FOOD)
        pen.move(*shapes.on_ellipse(cx, cy, _INNER, _INNER, end))
        pen.line(*shapes.on_ellipse(cx, cy, _OUTER, _OUTER, end))
        pen.paint(Ink.LINE, FINE)
    shapes.circle(pen, cx, cy, _OUTER)
    pen.paint(Ink.LINE)
    shapes.circle(pen, cx, cy, _INNER)
    pen.paint(Ink.LINE, FINE)
    shapes.bar(pen, cx, cy + _INNER + 0.6, cx, 45.8, 2.8)


@icon("moon")
def moon(pen: Pen) -> None:
    """A crescent moon and three stars."""
    pen.move(*shapes.on_ellipse(20.5, 22.5, 19.5, 19.5, 82))
    shapes.arc_on(pen, 20.5, 22.5, 19.5, 19.5, 82, 338)
    pen.curve(29, 7, 17, 14, 17, 25.5)
    pen.curve(17, 32, 19, 38, 23.2, 41.8)
    pen.close()
    pen.paint(Ink.SOLID)
    for x, y, r in ((39, 38, 7), (30.5, 25, 4.8), (42, 20.5, 4)):
        star = [
            shapes.on_ellipse(x, y, r if i % 2 == 0 else r * 0.45, r if i % 2 == 0 else r * 0.45,
                              90 + 36 * i)
            for i in range(10)
        ]
        shapes.polyline(pen, star, closed=True)
        pen.paint(Ink.SOLID)


@icon("sun")
def sun(pen: Pen) -> None:
    """The sun with its rays."""
    dot(pen, 24, 24, 10.5)
    for i in range(8):
        pen.move(*shapes.on_ellipse(24, 24, 15.5, 15.5, 45 * i))
        pen.line(*shapes.on_ellipse(24, 24, 20.4, 20.4, 45 * i))
        pen.paint(Ink.LINE, 3.8)


def _burner(pen: Pen) -> None:
    shapes.rounded(pen, 3, 2.4, 42, 5.6, 2.5)
    pen.paint(Ink.SOLID)


@icon("flame-low")
def flame_low(pen: Pen) -> None:
    """One small flame on the burner."""
    _burner(pen)
    flames(pen, [(24, 12.5, 15)], 10)


@icon("flame-medium")
def flame_medium(pen: Pen) -> None:
    """Two middling flames on the burner."""
    _burner(pen)
    flames(pen, [(15.5, 15, 24), (32.5, 15, 24)], 10)


@icon("flame-high")
def flame_high(pen: Pen) -> None:
    """Three tall flames on the burner."""
    _burner(pen)
    flames(pen, [(9.2, 13, 30), (24, 13.5, 36), (38.8, 13, 30)], 10)


@icon("whistle", width=24, height=40)
def whistle(pen: Pen) -> None:
    """The weight on a pressure cooker's lid, lifted, steam rising over it."""
    pen.move(2, 2)
    pen.curve(3, 6.4, 7, 8, 12, 8)
    pen.curve(17, 8, 21, 6.4, 22, 2)
    pen.close()
    pen.paint(Ink.SOLID)
    shapes.bar(pen, 12, 7, 12, 13, 4)
    shapes.rounded(pen, 4.4, 11, 15.2, 9, 2)
    pen.paint(Ink.SOLID)
    shapes.rounded(pen, 6, 21.4, 12, 4, 1.6)
    pen.paint(Ink.SOLID)
    shapes.bar(pen, 12, 19, 12, 23, 5)
    for x in (5, 12, 19):
        smooth(pen, [(x, 27), (x - 1.8, 30.4), (x + 1.8, 34.6), (x, 38)], closed=False)
        pen.paint(Ink.LINE, 2.8)


@icon("arrow", width=30, height=24, points=True)
def arrow(pen: Pen) -> None:
    """A bold arrow to the right."""
    shapes.polyline(
        pen, [(2, 8), (14, 8), (14, 2.4), (28, 12), (14, 21.6), (14, 16), (2, 16)], closed=True
    )
    pen.paint(Ink.SOLID)


@icon("meal", width=26, height=20)
def meal(pen: Pen, fill: float = 1.0, other: float = 0.0) -> None:
    """A small bowl of food, to be counted; dashed where the meal may be left out.

    ``other`` leaves the food white: a meal of some other dish.
    """
    if fill > 0:
        dish(pen, 13, 1.6, 22, 0 if other else 5.5 * min(fill, 1.0))
        if other:
            mound(pen, 13, 14, 17.4, 4.4)
            pen.paint(Ink.LINE, FINE)
        return
    rim = 11.72 - STROKE / 2
    shapes.bar(pen, 2 + STROKE / 2, rim, 24 - STROKE / 2, rim)
    for start in (183, 233, 283, 333):
        pen.move(*shapes.on_ellipse(13, rim, 11 - STROKE / 2, rim - 2, start))
        shapes.arc_on(pen, 13, rim, 11 - STROKE / 2, rim - 2, start, start + 24)
        pen.paint(Ink.LINE)
    for start in (32, 78, 124):
        shapes.arc(pen, 13, rim - 3.4, 9.4, start, start + 24)
        pen.paint(Ink.LINE, FINE)


_DOTS = {
    1: ((0, 0),), 2: ((-1, 0), (1, 0)), 3: ((-1.5, 0), (0, 0), (1.5, 0)),
    4: ((-1, -0.75), (1, -0.75), (-1, 0.75), (1, 0.75)),
    5: ((-1.2, -0.75), (1.2, -0.75), (-1.2, 0.75), (1.2, 0.75), (0, 0)),
    6: ((-1.4, -0.75), (0, -0.75), (1.4, -0.75), (-1.4, 0.75), (0, 0.75), (1.4, 0.75)),
}


@icon("part", width=42, height=30)
def part(pen: Pen, number: float = 1.0) -> None:
    """A black stone with as many white dots as the part of the dish has for its number."""
    shapes.rounded(pen, 2, 2, 38, 26, 5)
    pen.paint(Ink.SOLID)
    for x, y in _DOTS[int(number)]:
        dot(pen, 21 + x * 8, 15 + y * 8, 4.6 if number <= 2 else 3.4, Ink.PAPER)


@icon("cover")
def cover(pen: Pen) -> None:
    """A lid coming down on a pot."""
    shapes.bar(pen, 24, 40, 24, 43, 6.4)
    pen.move(4.5, 28.5)
    pen.curve(8, 36.5, 15, 39.5, 24, 39.5)
    pen.curve(33, 39.5, 40, 36.5, 43.5, 28.5)
    pen.close()
    pen.paint(Ink.SOLID)
    shapes.bar(pen, 4.2, 27.6, 43.8, 27.6, 3.4)
    shapes.rounded(pen, 7.2, 3.2, 33.6, 19, 3)
    pen.paint(Ink.LINE)
    for x in (5.2, 42.8):
        shapes.bar(pen, x - 1.6, 17, x + 1.6, 17, 3.6)


def cupped_hand(pen: Pen) -> None:
    """A hand from the side, palm up, wrist at the right (50, 13), finger tips at the left."""
    smooth(
        pen,
        [(50, 21), (42, 18.5), (34, 15.5), (26, 15), (17, 16.6), (9, 24), (5.2, 25.4), (2.6, 22),
         (4.6, 15.5), (11, 7.5), (20, 3.4), (31, 3), (41, 7), (50, 8.5)],
    )
    pen.paint(Ink.SOLID)


def pinching_hand(pen: Pen) -> None:
    """A hand from the upper right, thumb and forefinger meeting at (13, 17)."""
    limb(pen, [(39.6, 39.2), (37, 36), (34, 33)], 14.4)
    limb(pen, [(37, 39.5), (24, 42.4), (14, 40.4)], 6.2, 1.1)
    limb(pen, [(36, 36), (22, 37), (8.4, 31)], 6.2, 1.1)
    limb(pen, [(36, 32.4), (21, 31), (13.6, 25.5), (12.4, 18)], 6.4, 1.1)
    limb(pen, [(38, 27.5), (27, 21), (15.6, 17.4)], 6.4)


@icon("hand-wash")
def hand_wash(pen: Pen) -> None:
    """Two open hands held together under falling water."""
    for mirror, dx in ((-1.12, 1.0), (1.12, 47.0)):
        hand = TurnedPen(pen, dx, 0, 0, mirror)
        limb(hand, [(-4.6, 6.4), (-9, 9), (-13, 12)], 9)
        for dy in (0.0, 4.4):
            limb(hand, [(-8, 11 + dy), (-15, 11.4 + dy), (-19.4, 13.4 + dy)], 5.4, 0.9)
        limb(hand, [(-8, 12), (-8.4, 18), (-12, 23)], 5.4, 0.9)
    drops(pen, [(13, 34), (24, 27), (35, 34)], 12)


