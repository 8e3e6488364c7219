"""Hours and days as the sky shows them: the sun's way from rise to set, the days of a week."""

from __future__ import annotations

import math

from cards.icons import shapes
from cards.icons.marks import dish, dot
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.registry import icon

DAY_HOURS = 12.0
"""Hours of the sun's way from rise to set (common practice: a day and a night are as long)."""

LOWEST = 14.0
"""Degrees over the ground at which the sun is still drawn whole."""


def little_sun(pen: Pen, x: float, y: float, r: float) -> None:
    """The sun with its rays, ``r`` the whole reach."""
    dot(pen, x, y, r * 0.56, Ink.FOOD)
    for i in range(8):
        pen.move(*shapes.on_ellipse(x, y, r * 0.8, r * 0.8, 45 * i))
        pen.line(*shapes.on_ellipse(x, y, r, r, 45 * i))
        pen.paint(Ink.LINE, FINE)


def _way(cx: float, ground: float, rx: float, ry: float, degrees: float) -> shapes.Point:
    """A point of the sun's way: an arch with steep sides, so that a number has room below it."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return cx + math.copysign(abs(cos) ** STEEP, cos) * rx, ground + abs(sin) ** STEEP * ry


STEEP = 2 / 3
"""Two thirds make the arch a superellipse of the third degree, one would make it an ellipse."""


def sun_way(pen: Pen, cx: float, ground: float, rx: float, ry: float, hours: float) -> None:
    """The sun's way over the ground, thick as far as it has come in so many hours.

    The sun stands at its end; more hours than a day has leave it at its setting.
    """
    end = min(max(180 - 180 * hours / DAY_HOURS, LOWEST), 180 - LOWEST)
    for start, stop, width in ((end, 0.0, FINE), (180.0, end, 4.4)):
        way = [_way(cx, ground, rx, ry, start + (stop - start) * i / 24) for i in range(25)]
        shapes.polyline(pen, way)
        pen.paint(Ink.LINE, width)
    x, y = _way(cx, ground, rx, ry, end)
    dot(pen, x, y, 7.4, Ink.PAPER)
    little_sun(pen, x, y, 6.6)
    shapes.bar(pen, cx - rx - 4, ground - 1.4, cx + rx + 4, ground - 1.4, 3.4)


@icon("hours", width=54)
def hours(pen: Pen, hours: float = 8.0) -> None:
    """The sun over the ground on its way, as far as it goes in these hours; a number below it."""
    sun_way(pen, 27, 4, 20.4, 35.4, hours)


@icon("eat-soon", points=True)
def eat_soon(pen: Pen, hours: float = 2.0) -> None:
    """A bowl of food under the sun's way of these hours, the number between."""
    sun_way(pen, 24, 14.4, 18.6, 26, hours)
    for ink, width in ((Ink.GAP, 4.0), (Ink.PAPER, 0.0)):
        shapes.rounded(pen, 11.4, 1.4, 25.2, 12.6, 2)
        pen.paint(ink, width)
    dish(pen, 24, 1.4, 21, 3)


@icon("once-a-week", width=92, points=True)
def once_a_week(pen: Pen) -> None:
    """A week of seven boxes: in one a sun and a full bowl, in six the bowl struck out."""
    _day(pen, 1.4, 1.4, 28, 45.2)
    little_sun(pen, 15.4, 37, 7.4)
    dish(pen, 15.4, 5, 22.4, 8)
    for day in range(6):
        x, y = 31.6 + 20 * (day % 3), 25.2 - 23.8 * (day // 3)
        dish(pen, x + 9.5, y + 3, 15.4, 5.4)
        for ink, width in ((Ink.GAP, 5.4), (Ink.LINE, 2.8)):
            shapes.polyline(pen, [(x + 2.6, y + 18.8), (x + 16.4, y + 2.6)])
            pen.paint(ink, width)
        _day(pen, x, y, 19, 21.4)


def _day(pen: Pen, x: float, y: float, width: float, height: float) -> None:
    shapes.rounded(pen, x, y, width, height, 1.4)
    pen.paint(Ink.LINE, FINE)
