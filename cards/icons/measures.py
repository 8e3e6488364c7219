"""Household measures, true to one another in size and filled to the amount by area.

Printed heights: a cup 11.5 mm, a bowl 10 mm, a big spoon 12.5 mm, a small
spoon 9.5 mm, so that big and small spoon are told apart side by side.
``fill`` is a share 0..1 of the vessel's area, as an eye reads a picture; ``of`` is what is in it;
``may`` of a cup is the larger number of a range.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from cards.icons import shapes
from cards.icons.held import Filled, hold
from cards.icons.marks import TurnedPen, dot, mound, pinching_hand
from cards.icons.pen import STROKE, Ink, Pen, ShiftedPen
from cards.icons.registry import icon


def circle_level(share: float) -> float:
    """Height share (0..1) at which a circle filled from below is full by ``share`` of its area."""
    low, high = 0.0, 1.0
    for _ in range(50):
        mid = (low + high) / 2
        angle = 2 * math.acos(1 - 2 * mid)
        if (angle - math.sin(angle)) / (2 * math.pi) < share:
            low = mid
        else:
            high = mid
    return (low + high) / 2


def trapezoid_level(share: float, bottom: float, top: float) -> float:
    """The same for an upright trapezoid with the given bottom and top widths."""
    if math.isclose(bottom, top):
        return share
    area = share * (bottom + top) / 2
    slope = top - bottom
    return (-bottom + math.sqrt(bottom * bottom + 2 * slope * area)) / slope


def _vessel(pen: Pen, cx: float, base: float, bottom: float, top: float, h: float) -> None:
    """Path of an upright trapezoid with soft lower corners."""
    r = 3.0
    b, t = bottom / 2, top / 2
    lean = (t - b) * r / h
    pen.move(cx - t, base + h)
    pen.line(cx - b - lean, base + r)
    pen.curve(cx - b, base + r * 0.3, cx - b + r * 0.4, base, cx - b + r, base)
    pen.line(cx + b - r, base)
    pen.curve(cx + b - r * 0.4, base, cx + b, base + r * 0.3, cx + b + lean, base + r)
    pen.line(cx + t, base + h)
    pen.close()


@icon("cup", width=50, height=46, true_height_mm=11.5)
def cup(pen: Pen, fill: float = 1.0, of: str = "plain", may: float = 0.0) -> None:
    """A handled cup seen from the side. From ``fill`` up to ``may`` it is barred: perhaps."""
    bottom, top, base, height = 26.0, 36.0, 3.0, 39.0

    def half(y: float) -> float:
        return (bottom + (top - bottom) * (y - base) / height) / 2

    shapes.arc(pen, 37, 25, 8.5, -78, 78)
    pen.paint(Ink.LINE, STROKE * 1.35)
    _vessel(pen, 20, base, bottom, top, height)
    pen.paint(Ink.PAPER)
    if fill > 0:
        level = trapezoid_level(min(fill, 1.0), bottom, top)
        width = bottom + (top - bottom) * level

        def filled() -> None:
            _vessel(pen, 20, base, bottom, width, height * level)

        hold(pen, Filled(filled, 20, base, base + height * level, half), of)
    if may > fill:
        low, high = (base + height * trapezoid_level(s, bottom, top) for s in (fill, may))
        _bars(pen, 20, max(low, base + 2), high, half)
    _vessel(pen, 20, base, bottom, top, height)
    pen.paint(Ink.LINE)


def _bars(pen: Pen, cx: float, low: float, high: float, half: Callable[[float], float]) -> None:
    """Upright bars with gaps as wide, between two heights of a vessel."""
    wide = 2 * half(low) / (2 * _BARS + 1)
    for number in range(_BARS):
        left = cx + (2 * number - _BARS + 0.5) * wide
        corners = ((left, low), (left, high), (left + wide, high), (left + wide, low))
        shapes.polyline(pen, corners, closed=True)
        pen.paint(Ink.FOOD)


_BARS = 5


@icon("tablespoon", width=27, height=48, true_height_mm=12.5)
def tablespoon(pen: Pen, fill: float = 1.0, of: str = "plain") -> None:
    """A big spoon from above, bowl down, handle up."""
    _spoon(pen, 27, 48, fill, of)


@icon("teaspoon", width=20, height=48, true_height_mm=9.5)
def teaspoon(pen: Pen, fill: float = 1.0, of: str = "plain") -> None:
    """A small spoon: the big one's sister, slimmer, and printed smaller."""
    _spoon(pen, 20, 48, fill, of)


@icon("heaped-tablespoon", width=31, height=48, true_height_mm=12.5)
def heaped_tablespoon(pen: Pen, fill: float = 1.0, of: str = "plain") -> None:
    """A big spoon with more food on it than it holds: the heap stands out over the rim."""
    _heap(pen, 31, 27, fill, of)


@icon("heaped-teaspoon", width=24, height=48, true_height_mm=9.5)
def heaped_teaspoon(pen: Pen, fill: float = 1.0, of: str = "plain") -> None:
    """A small spoon, heaped."""
    _heap(pen, 24, 20, fill, of)


def _heap(pen: Pen, width: float, spoon: float, fill: float, of: str) -> None:
    _spoon(ShiftedPen(pen, (width - spoon) / 2, 0), spoon, 48, fill, of)
    if fill >= 1:
        cx, cy, rx, ry = width / 2, 16.0, width / 2 - 1.4, 12.0
        shapes.ellipse(pen, cx, cy, rx, ry)
        pen.paint(Ink.GAP, STROKE * 2)
        hold(pen, part_of_ellipse(pen, cx, cy, rx, ry), of)
        shapes.ellipse(pen, cx, cy, rx, ry)
        pen.paint(Ink.LINE)


def part_of_ellipse(
    pen: Pen, cx: float, cy: float, rx: float, ry: float, share: float = 1.0
) -> Filled:
    """An ellipse filled from below by a share of its area."""
    sine = 1.0 if share >= 1 else 2 * circle_level(share) - 1
    angle = math.degrees(math.asin(sine))

    def filled() -> None:
        pen.move(*shapes.on_ellipse(cx, cy, rx, ry, 180 - angle))
        shapes.arc_on(pen, cx, cy, rx, ry, 180 - angle, 360 + angle)
        pen.close()

    def half(y: float) -> float:
        return rx * math.sqrt(max(0.0, 1 - ((y - cy) / ry) ** 2))

    return Filled(filled, cx, cy - ry, cy + ry * sine, half)


def _spoon(pen: Pen, width: float, height: float, fill: float, of: str) -> None:
    cx, rx, ry = width / 2, width / 2 - 2, height * 0.3
    cy = ry + 1.6
    shapes.bar(pen, cx, cy + ry, cx, height - 2.4, STROKE * 1.9)
    shapes.ellipse(pen, cx, cy, rx, ry)
    pen.paint(Ink.PAPER)
    if fill > 0:
        hold(pen, part_of_ellipse(pen, cx, cy, rx, ry, min(fill, 1.0)), of)
    shapes.ellipse(pen, cx, cy, rx, ry)
    pen.paint(Ink.LINE)


@icon("bowl", width=54, height=40, true_height_mm=10)
def bowl(pen: Pen, fill: float = 1.0, of: str = "plain") -> None:
    """A round bowl without handles, wider than high."""
    cx, rim, radius, foot = 27.0, 35.0, 24.0, 30.0

    def hollow(level: float) -> None:
        depth = foot * (1 - level)
        angle = math.degrees(math.asin(min(depth / foot, 1.0)))
        pen.move(*shapes.on_ellipse(cx, rim, radius, foot, 180 + angle))
        shapes.arc_on(pen, cx, rim, radius, foot, 180 + angle, 360 - angle)
        pen.close()

    hollow(1)
    pen.paint(Ink.PAPER)
    if fill > 0:
        # a half ellipse filled from below is the lower half of a whole one
        hold(pen, part_of_ellipse(pen, cx, rim, radius, foot, min(fill, 1.0) / 2), of)
    hollow(1)
    pen.paint(Ink.LINE)
    shapes.bar(pen, cx - 8, 3.6, cx + 8, 3.6, STROKE * 1.3)


@icon("pinch", true_height_mm=10.5)
def pinch(pen: Pen) -> None:
    """Thumb and forefinger together, dropping three grains."""
    pinching_hand(pen)
    for x, y in ((14, 10.5), (8.5, 5), (17.5, 4)):
        dot(pen, x, y, 2.3, Ink.FOOD)


@icon("whole", width=40, height=40, true_height_mm=9.5)
def whole(pen: Pen, fill: float = 1.0) -> None:
    """One counted piece of anything: a disc, filled by the share of it that is used."""
    shapes.circle(pen, 20, 20, 17)
    pen.paint(Ink.PAPER)
    if fill >= 1:
        shapes.circle(pen, 20, 20, 17)
        pen.paint(Ink.FOOD)
    elif fill > 0:
        angle = math.degrees(math.asin(2 * circle_level(fill) - 1))
        pen.move(*shapes.on_ellipse(20, 20, 17, 17, 180 - angle))
        shapes.arc_on(pen, 20, 20, 17, 17, 180 - angle, 360 + angle)
        pen.close()
        pen.paint(Ink.FOOD)
    shapes.circle(pen, 20, 20, 17)
    pen.paint(Ink.LINE)


def _made(pen: Pen, half: float) -> None:
    """A heap over a vessel whose body is left white for a number, ``half`` as wide at its rim."""
    mound(pen, 21, 38.6, half * 2 - 4, 8.4)
    pen.paint(Ink.FOOD)
    shapes.bar(pen, 21 - half, 36, 21 + half, 36, 3.2)


@icon("makes-cups", width=54)
def makes_cups(pen: Pen) -> None:
    """A heaped cup, white inside: the number of cups stands on it."""
    shapes.arc(pen, 46, 19, 5.6, -84, 84)
    pen.paint(Ink.LINE, 3.2)
    _vessel(pen, 27, 2.2, 32, 37, 33.8)
    pen.paint(Ink.LINE, 3.2)
    _made(TurnedPen(pen, 6, 0), 18.5)


@icon("makes")
def makes(pen: Pen, of: str = "") -> None:
    """A heaped bowl, white inside: how much of it there is stands on it.

    ``of`` "pieces" is a flat cake with a white top for the number of cakes.
    """
    if of == "pieces":
        _made_cake(pen)
        return
    pen.move(3, 36)
    pen.curve(3, 17, 12, 3.4, 24, 3.4)
    pen.curve(36, 3.4, 45, 17, 45, 36)
    pen.close()
    pen.paint(Ink.LINE, 3.2)
    _made(TurnedPen(pen, 3, 0), 21)
    shapes.bar(pen, 17, 2.6, 31, 2.6, 3.4)


def _made_cake(pen: Pen) -> None:
    cx, top, rx, ry, thick = 24.0, 27.4, 21.6, 16.4, 8.6
    for ink in (Ink.FOOD, Ink.LINE):
        pen.move(cx - rx, top)
        pen.line(cx - rx, top - thick)
        shapes.arc_on(pen, cx, top - thick, rx, ry, 180, 360)
        pen.line(cx + rx, top)
        pen.paint(ink, 3.2)
    for ink in (Ink.PAPER, Ink.LINE):
        shapes.ellipse(pen, cx, top, rx, ry)
        pen.paint(ink, 3.2)
