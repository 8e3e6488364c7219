"""Keeping food and water safe: cold, apart, heated again, thrown away in time."""

from __future__ import annotations

from cards.icons import shapes
from cards.icons.counted import fish_body
from cards.icons.marks import TurnedPen, dish, flames, smooth, steam
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.registry import icon
from cards.icons.vessels import arrow_head, bowl, fire, lid, pot, tub, water_line


def _snowflake(pen: Pen, cx: float, cy: float, r: float, fork: bool = True) -> None:
    """Six rays, each with a fork near its end if there is room for one."""
    for i in range(6):
        ray = TurnedPen(pen, cx, cy, 60 * i + 30)
        shapes.bar(ray, 0, 0, r, 0)
        if fork:
            shapes.polyline(ray, [(r, r * 0.3), (r * 0.72, 0), (r, -r * 0.3)])
            ray.paint(Ink.LINE, 2)


def _covered_bowl(pen: Pen, cx: float, base: float, half: float) -> None:
    """A bowl of food with its lid on, ``half`` its width to the rim."""
    rim = base + half * 0.95
    bowl(pen, cx, base, rim, half, rim - 3)
    lid(pen, rim + 1.4, half=half + 1.4, height=half * 0.4, cx=cx)


@icon("chill")
def chill(pen: Pen) -> None:
    """A covered bowl of food in a thick-walled cold box under a snowflake."""
    shapes.rounded(pen, 2.6, 2.6, 42.8, 42.8, 5)
    pen.paint(Ink.LINE, 4)
    _snowflake(pen, 24, 34.6, 7.4)
    bowl(pen, 24, 5.6, 17, 13.6, 13.4)
    # a flat lid without a knob leaves the snowflake its room
    shapes.rounded(pen, 8.6, 18.6, 30.8, 4.4, 2)
    pen.paint(Ink.SOLID)


@icon("fridge")
def fridge(pen: Pen) -> None:
    """A refrigerator, its door open, a covered bowl inside under the ice."""
    shapes.rounded(pen, 2.4, 4.4, 28, 41.2, 3)
    pen.paint(Ink.LINE, 3.4)
    for x in (7, 26):
        shapes.bar(pen, x, 3, x, 2.4, 4)
    shapes.bar(pen, 3, 30.4, 30, 30.4, 2.6)
    _snowflake(pen, 16.4, 38, 5, fork=False)
    _covered_bowl(pen, 16.4, 6.6, 10)
    shapes.polyline(pen, [(33.4, 4.4), (45.6, 1.6), (45.6, 42.4), (33.4, 45.4)], closed=True)
    pen.paint(Ink.SOLID)
    for y1, y2 in ((14, 26), (33, 38)):
        shapes.polyline(pen, [(41.8, y1), (41.8, y2)])
        pen.paint(Ink.GAP, 2.2)


def _again(pen: Pen, cx: float, cy: float, r: float) -> None:
    """White on the food: an arrow turning round to where it began."""
    pen.move(*shapes.on_ellipse(cx, cy, r, r, 60))
    shapes.arc_on(pen, cx, cy, r, r, 60, 345)
    pen.paint(Ink.GAP, 2.8)
    head = TurnedPen(pen, *shapes.on_ellipse(cx, cy, r, r, 6), 98)
    shapes.polyline(head, [(3.4, 0), (-2.6, 4), (-2.6, -4)], closed=True)
    pen.paint(Ink.PAPER)


def _thick_steam(pen: Pen, xs: tuple[float, ...], base: float, height: float) -> None:
    for x in xs:
        pen.move(x, base)
        pen.curve(x - 4, base + height * 0.4, x + 4, base + height * 0.6, x, base + height)
        pen.paint(Ink.LINE, 3.8)


@icon("warm")
def warm(pen: Pen) -> None:
    """Cooked food in a pot over the fire, on it an arrow turning back: heated once more."""
    fire(pen)
    pot(pen, rim=33, level=31.4)
    _again(pen, 24, 22.6, 5.8)
    _thick_steam(pen, (10, 19.4, 28.8, 38.2), 36, 9)


@icon("heat-again")
def heat_again(pen: Pen) -> None:
    """The pot over a big fire, steaming thickly, an arrow turning back on it."""
    pot(pen, 18.4, 35, 34)
    _again(pen, 24, 26.6, 4.8)
    _thick_steam(pen, (10, 19.4, 28.8, 38.2), 38, 7.6)
    flames(pen, [(10.4, 10.4, 13), (24, 11, 15.6), (37.6, 10.4, 13)], 1.4)


@icon("boiled-water")
def boiled_water(pen: Pen) -> None:
    """Water boiling in a pot over the fire, then, by an arrow, clear water in a glass."""
    small = TurnedPen(pen, -0.6, -0.4, 0, 0.66, 0.7)
    fire(small)
    pot(small, rim=37)
    water_line(pen, 4, 26.4, 20.4)
    for x, y, r in ((8.8, 13, 1.7), (15.2, 14.6, 2), (21.6, 13, 1.7)):
        shapes.circle(pen, x, y, r)
        pen.paint(Ink.LINE, FINE)
    steam(pen, (6.4, 13.6), 30, 13)
    smooth(pen, [(21, 33), (26, 41.6), (33.6, 42.6), (38, 37)], closed=False)
    pen.paint(Ink.LINE, 3.6)
    arrow_head(pen, 39.8, 29, -78, 9.6)
    tub(pen, 39.8, 2.4, 26.4, 6.8, 5.6)
    water_line(pen, 33.8, 45.8, 19, 2)


@icon("keep-apart")
def keep_apart(pen: Pen) -> None:
    """A raw fish on its board on one side of a thick bar, a bowl of cooked food on the other."""
    shapes.rounded(pen, 1.6, 2.4, 19.4, 35.4, 3)
    pen.paint(Ink.LINE)
    shapes.bar(pen, 11.3, 38, 11.3, 44, 5.4)
    fish_body(TurnedPen(pen, 19.3, 5, 90, 0.54, 0.58))
    shapes.bar(pen, 25.6, 3, 25.6, 45, 3.8)
    dish(pen, 38.4, 2, 18.4, 6)
    steam(pen, (34, 42.6), 22, 15)


@icon("no-leftovers")
def no_leftovers(pen: Pen) -> None:
    """A small bowl tipped over a waste bin, what the child left falling in."""
    shapes.polyline(pen, [(22, 19), (25, 2.4), (42, 2.4), (45, 19)], closed=True)
    pen.paint(Ink.SOLID)
    shapes.bar(pen, 21.4, 20, 45.6, 20, 4)
    for x in (29, 33.5, 38):
        shapes.polyline(pen, [(33.5 + (x - 33.5) * 1.16, 15), (x, 6)])
        pen.paint(Ink.GAP, 2)
    dish(TurnedPen(pen, 8, 39, -116), 0, 0, 25)
    for x, y, r in ((24.4, 38, 3.4), (31, 33.4, 3), (26.6, 30, 2.6), (34.6, 26.6, 2.6)):
        shapes.circle(pen, x, y, r)
        pen.paint(Ink.FOOD)
