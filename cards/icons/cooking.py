"""Cooking over the fire: what the vessel looks like while it is done.

``of`` and ``also`` name the one or two foods it is done to; see ``inside``.
"""

from __future__ import annotations

from cards.icons import marks, shapes
from cards.icons.inside import foods
from cards.icons.marks import TurnedPen, dot, smooth
from cards.icons.pen import Ink, Pen
from cards.icons.registry import icon
from cards.icons.vessels import (
    HEARTH,
    PAN_CX,
    WALL,
    arrow_head,
    bubbles,
    fire,
    grains,
    lid,
    pan,
    pot,
    tub,
    water_line,
)


@icon("roast")
def roast(pen: Pen, of: str = "", also: str = "") -> None:
    """Dry grains in an open pan over the fire, some tossed up; or the foods, and heat over them."""
    fire(pen, PAN_CX)
    pan(pen)
    if of:
        foods(pen, (6.6, 14.4, 23.6, 16), of, also)
        for x in (10, 18.4, 26.8):
            marks.steam(pen, (x,), 34, 10)
        return
    grains(pen, [(8.6, 17.4, 20), (15, 17, -15), (21.6, 17.2, 10), (28, 17.4, -20),
                 (11, 23, -30), (18, 22.6, 15), (25, 23, 35),
                 (7, 31, 40), (17, 32, -35), (27.4, 30.6, 25), (12, 38.4, -20), (23, 39, 50)],
           3.1, 2.1)


@icon("griddle")
def griddle(pen: Pen) -> None:
    """A flat griddle with one flat cake on it, a turner lifting its edge."""
    fire(pen, PAN_CX)
    shapes.bar(pen, 30, 16.6, 44.4, 21.6, 4.6)
    shapes.polyline(pen, [(3.4, 18.4), (6, 15.2), (30, 15.2), (32.6, 18.4)])
    pen.paint(Ink.LINE, WALL)
    shapes.rounded(pen, 6.6, 20.4, 21, 5.4, 2.6)
    pen.paint(Ink.FOOD)
    shapes.bar(pen, 23, 28.4, 33.4, 31.6, 3)
    shapes.bar(pen, 32.4, 31.4, 44, 43, 3.4)


@icon("saute")
def saute(pen: Pen, of: str = "", also: str = "") -> None:
    """Food in a pan over the fire, turned with a spatula."""
    fire(pen, PAN_CX)
    pan(pen)
    if of:
        foods(pen, (5.4, 14.4, 20.4, 20), of, also)
        _spatula(TurnedPen(pen, 28, 17.4, -24))
        return
    for x, y, turn in ((8.4, 18.4, 8), (15.4, 18.2, -12), (8, 26, -14), (15.4, 26.4, 14)):
        shapes.rounded(TurnedPen(pen, x, y, turn), -2.9, -2.9, 5.8, 5.8, 1.4)
        pen.paint(Ink.FOOD)
    _spatula(TurnedPen(pen, 23, 17, -26))


def _spatula(pen: Pen) -> None:
    blade = [(-3.6, -0.4), (4.2, -0.4), (3.4, 9), (-2.6, 9)]
    for ink in (Ink.GAP, Ink.SOLID):
        shapes.polyline(pen, blade, closed=True)
        pen.paint(ink)
    shapes.bar(pen, 0.4, 8, 0.4, 30, 3.6)


@icon("fry")
def fry(pen: Pen, of: str = "", also: str = "") -> None:
    """Pieces swimming in hot oil in a pan over the fire, oil spitting out."""
    fire(pen, PAN_CX)
    pan(pen, level=20)
    if of:
        shapes.rounded(pen, 7.4, 15.4, 22, 12, 3)
        pen.paint(Ink.PAPER)
        foods(pen, (8.4, 16.4, 20, 10.6), of, also)
    else:
        for x in (10.4, 18.4, 26.4):
            dot(pen, x, 21.4, 4.6, Ink.PAPER)
            dot(pen, x, 21.4, 3.4, Ink.FOOD)
    for x, y, turn in ((8.6, 28.4, 30), (18.4, 33, 0), (28.2, 28.4, -30)):
        # the round end flies ahead
        shapes.drop(TurnedPen(pen, x, y, 180 + turn), 0, -9, 9)
        pen.paint(Ink.SOLID)


@icon("boil")
def boil(pen: Pen, of: str = "", also: str = "") -> None:
    """An open pot over the fire, big bubbles rising, steam above."""
    fire(pen)
    pot(pen, level=0 if of else 27)
    if of:
        _in_the_pot(pen, of, also)
    else:
        bubbles(pen, [(13.4, 18, 2.6), (21, 22, 3), (28.6, 18, 2.6), (35, 22.6, 2.6)])
    marks.steam(pen, (13, 24, 35), 34, 11.4)


def _in_the_pot(pen: Pen, of: str, also: str) -> None:
    """The foods under what they boil in."""
    foods(pen, (11, 14.6, 26, 13.2), of, also)
    water_line(pen, 8.4, 39.6, 28.4)


@icon("simmer")
def simmer(pen: Pen, of: str = "", also: str = "") -> None:
    """A pot with its lid on over the fire, a little steam at the edges."""
    fire(pen)
    pot(pen, level=0 if of else 25)
    if of:
        _in_the_pot(pen, of, also)
    else:
        bubbles(pen, [(15, 18.6, 1.7), (24, 18.6, 1.7), (33, 18.6, 1.7)])
    lid(pen, 32.6)
    marks.steam(pen, (6, 42), 36, 8)


@icon("steam")
def steam(pen: Pen) -> None:
    """A steamer of two tiers: boiling water below, food on a tray with holes above."""
    fire(pen)
    pot(pen, rim=24, level=20)
    bubbles(pen, [(14, 16.6, 1.6), (20.8, 16.6, 1.6), (27.4, 16.6, 1.6), (34, 16.6, 1.6)])
    for x in (7.0, 41.0):
        shapes.bar(pen, x, 24, x, 36, WALL)
    for x in (11.6, 18, 24.4, 30.8, 36.4):
        shapes.bar(pen, x - 1, 25, x + 1, 25, 2.2)
    for x in (14, 24, 34):
        shapes.ellipse(pen, x, 30.2, 4, 3.2)
        pen.paint(Ink.FOOD)
    lid(pen, 37, height=4)
    marks.steam(pen, (6, 42), 40.4, 6)


def cooker(pen: Pen) -> None:
    """A pressure cooker: two long handles, lid clamped down, the weight on top."""
    shapes.bar(pen, 32, 20.6, 44.2, 20.6, 5)
    shapes.bar(pen, 4, 20.6, 2.8, 20.6, 5)
    tub(pen, 18, HEARTH, 25, 13.6, 13.6, 18)
    pen.move(3.4, 26)
    pen.curve(4, 31, 9, 34, 18, 34)
    pen.curve(26, 34, 29, 32.6, 31, 31)
    pen.line(44.2, 31)
    pen.line(44.2, 28)
    pen.line(32.6, 28)
    pen.line(32.6, 26)
    pen.close()
    pen.paint(Ink.SOLID)
    for points in ([(3.4, 26.4), (32.6, 26.4)], [(32, 29.4), (44.2, 29.4)]):
        shapes.polyline(pen, points)
        pen.paint(Ink.LINE, 5 if points[0][0] > 30 else WALL)
    # lugs of the lid gripping the pot's rim
    for x in (4.2, 31.8):
        shapes.bar(pen, x, 26, x, 22.8, 4)
    shapes.bar(pen, 18, 33, 18, 37.4, 3)
    shapes.polyline(pen, [(13.6, 37), (22.4, 37), (21.4, 43), (14.6, 43)], closed=True)
    pen.paint(Ink.SOLID)
    shapes.bar(pen, 16, 44.4, 20, 44.4, 3)


@icon("pressure-cook")
def pressure_cook(pen: Pen) -> None:
    """The cooker on the stove, its weight blowing steam."""
    fire(pen, 18)
    cooker(pen)
    for side in (-1.0, 1.0):
        turned = TurnedPen(pen, 18, 0, 0, side, 1)
        smooth(turned, [(9, 37.6), (12.6, 39.4), (10, 42), (13.4, 45)], closed=False)
        pen.paint(Ink.LINE)


@icon("steam-out", points=True)
def steam_out(pen: Pen) -> None:
    """First the cooker off the fire, shut and steaming; then, without steam, its lid lifted off.

    An arrow below leads from the one to the other.
    """
    shapes.bar(pen, 4, 5, 40, 5, 3)
    arrow_head(pen, 46, 5, 0, 9)
    cooker(TurnedPen(pen, 0.4, 1.4, 0, 0.54, 0.72))
    for x in (4, 16.4):
        marks.steam(pen, (x,), 30, 15)
    tub(pen, 37.4, 10.6, 21.4, 7.6, 7.6, 16)
    lid(TurnedPen(pen, 37.4, 29), 0, half=8.4, height=4.4, cx=0)
    shapes.bar(pen, 37.4, 39.4, 37.4, 41, 3)
    arrow_head(pen, 37.4, 47, 90, 6.4)
