"""What must not be given, and how food is made safe.

Forbidden things stand under a thick ring with a bar from upper left to lower
right; what tells them apart lies off that diagonal.
"""

from __future__ import annotations

from collections.abc import Callable

from cards.icons import shapes
from cards.icons.counted import EGG, fish_body, piece, pinching_hand
from cards.icons.groups import cut_egg, peanut
from cards.icons.marks import TurnedPen, dish, dot, flames, mound, smooth, spoon, tick_clock
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.registry import icon
from cards.icons.vessels import pot


def _forbid(pen: Pen, thing: Callable[[Pen], None]) -> None:
    """The thing, and over it the ring and bar, kept apart from it by white."""
    thing(pen)
    ends = (shapes.on_ellipse(24, 24, 20, 20, 135), shapes.on_ellipse(24, 24, 20, 20, 315))
    shapes.circle(pen, 24, 24, 20)
    pen.paint(Ink.GAP, 7)
    shapes.polyline(pen, ends)
    pen.paint(Ink.GAP, 7.4)
    shapes.circle(pen, 24, 24, 20)
    pen.paint(Ink.LINE, 4)
    shapes.bar(pen, *ends[0], *ends[1], 4)


def _comb_and_bee(pen: Pen) -> None:
    for x, y in ((12.4, 23.2), (20, 18.8), (12.4, 14.4), (20, 10)):
        hexagon = [shapes.on_ellipse(x, y, 4.2, 4.2, 60 * i) for i in range(6)]
        shapes.polyline(pen, hexagon, closed=True)
        pen.paint(Ink.SOLID)
    bee = TurnedPen(pen, 24, 24, -45)
    for side in (-1, 1):
        shapes.ellipse(TurnedPen(bee, side * 7.6, 9, side * 24), 0, 0, 4.2, 2.6)
        pen.paint(Ink.SOLID)
    shapes.ellipse(bee, 0, 9.6, 3.9, 6)
    pen.paint(Ink.GAP, 2.6)
    shapes.ellipse(bee, 0, 9.6, 3.9, 6)
    pen.paint(Ink.SOLID)
    for y in (7.4, 11.2):
        shapes.polyline(bee, [(-5, y), (5, y)])
        pen.paint(Ink.GAP, FINE)


@icon("no-honey")
def no_honey(pen: Pen) -> None:
    """A honeycomb and a bee, forbidden."""
    _forbid(pen, _comb_and_bee)


def _shaker(pen: Pen) -> None:
    turned = TurnedPen(pen, 24, 24, 135)
    shapes.polyline(turned, [(-8.4, -13.4), (8.4, -13.4), (6.6, 3), (-6.6, 3)], closed=True)
    pen.paint(Ink.SOLID)
    turned.move(-8, 4)
    turned.curve(-7, 9.4, -4, 10.6, 0, 10.6)
    turned.curve(4, 10.6, 7, 9.4, 8, 4)
    turned.close()
    pen.paint(Ink.SOLID)
    for x, y in ((-8, 10.6), (-4, 13.6), (0.4, 14.2), (4.6, 13.2), (8.2, 10.4)):
        dot(turned, x, y, 1.5)


@icon("no-salt")
def no_salt(pen: Pen) -> None:
    """A shaker letting grains of salt fall, forbidden."""
    _forbid(pen, _shaker)


def _cube(pen: Pen, x: float, y: float, a: float) -> None:
    """A sugar cube seen from an edge, its foot at (x, y)."""
    w, h = a * 0.87, a * 0.5
    for points in (
        [(x, y), (x, y + a), (x - w, y + a + h), (x - w, y + h)],
        [(x, y), (x, y + a), (x + w, y + a + h), (x + w, y + h)],
    ):
        shapes.polyline(pen, points, closed=True)
        pen.paint(Ink.SOLID)
    top = [(x, y + a), (x + w, y + a + h), (x, y + a + 2 * h), (x - w, y + a + h)]
    shapes.polyline(pen, top, closed=True)
    pen.paint(Ink.PAPER)
    shapes.polyline(pen, top, closed=True)
    pen.paint(Ink.LINE, FINE)
    shapes.polyline(pen, [(x, y), (x, y + a)])
    pen.paint(Ink.GAP, FINE)


def _sugar(pen: Pen) -> None:
    _cube(pen, 15.2, 10.4, 7.4)
    _cube(pen, 25.8, 8.8, 4.4)
    sweet = TurnedPen(pen, 30.2, 30.2, -45)
    shapes.ellipse(sweet, 0, 0, 6.6, 5.6)
    pen.paint(Ink.SOLID)
    for side in (-1, 1):
        shapes.polyline(sweet, [(side * 6.8, 0), (side * 13, 4.6), (side * 11.4, 0),
                                (side * 13, -4.6)], closed=True)
        pen.paint(Ink.SOLID)
    for x in (-2.2, 2.2):
        smooth(sweet, [(x - 1.6, 3.2), (x, 0), (x + 1.6, -3.2)], closed=False)
        pen.paint(Ink.GAP, FINE)


@icon("no-sugar")
def no_sugar(pen: Pen) -> None:
    """Cubes of sugar and a sweet, forbidden."""
    _forbid(pen, _sugar)


def _nuts(pen: Pen) -> None:
    peanut(TurnedPen(pen, 30, 30, -45, 0.84, 0.72))
    almond = TurnedPen(pen, 17.6, 17.6, -45)
    smooth(almond, [(-12, 0), (-7, 5), (0, 5.6), (7, 3.4), (13, 0), (7, -3.4), (0, -5.6),
                    (-7, -5)])
    pen.paint(Ink.SOLID)
    for y in (-1.8, 1.8):
        smooth(almond, [(-7.4, y), (0, y * 1.2), (6, y * 0.6)], closed=False)
        pen.paint(Ink.GAP, FINE)


@icon("no-whole-nuts")
def no_whole_nuts(pen: Pen) -> None:
    """A peanut in its shell and an almond, forbidden."""
    _forbid(pen, _nuts)


def _skeleton(pen: Pen) -> None:
    turned = TurnedPen(pen, 24, 24, 45)
    shapes.bar(turned, -9, 0, 13, 0, 2.8)
    for x, h in ((-5, 7.4), (7, 6.6)):
        shapes.polyline(turned, [(x - 2, -h), (x + 1, 0), (x - 2, h)])
        pen.paint(Ink.LINE, 2.4)
    shapes.polyline(turned, [(10.6, 0), (17, 6), (15, 0), (17, -6)], closed=True)
    pen.paint(Ink.SOLID)
    smooth(turned, [(-17, 0), (-13, 5), (-9.6, 6), (-9.6, -6), (-13, -5)])
    pen.paint(Ink.SOLID)
    dot(turned, -12.6, 1.6, 1.4, Ink.PAPER)


@icon("no-bones")
def no_bones(pen: Pen) -> None:
    """The bones of a fish, forbidden."""
    _forbid(pen, _skeleton)


def _broken_egg(pen: Pen) -> None:
    half = TurnedPen(pen, 24, 24, -45)
    half.move(-11, 5)
    for x, y in ((-7.3, 7.6), (-3.7, 5), (0, 7.6), (3.7, 5), (7.3, 7.6), (11, 5)):
        half.line(x, y)
    half.curve(11, 12, 5.6, 16, 0, 16)
    half.curve(-5.6, 16, -11, 12, -11, 5)
    half.close()
    pen.paint(Ink.SOLID)
    smooth(pen, [(22, 24), (16.6, 23), (10, 24.6), (8.6, 20), (10.6, 16), (9.8, 12), (14, 10.4),
                 (18, 7.6), (24, 9.6), (29.4, 10), (29, 14.6), (25, 18)])
    pen.paint(Ink.SOLID)
    dot(pen, 17, 16.4, 5.6, Ink.PAPER)
    dot(pen, 17, 16.4, 3.8)


@icon("no-raw-egg")
def no_raw_egg(pen: Pen) -> None:
    """A broken egg running out, forbidden."""
    _forbid(pen, _broken_egg)


def _bottle(pen: Pen) -> None:
    turned = TurnedPen(pen, 24, 24, -45)
    shapes.rounded(turned, -7, -17, 14, 20, 3)
    turned.paint(Ink.SOLID)
    shapes.rounded(turned, -7, 5, 14, 4.4, 1.5)
    turned.paint(Ink.SOLID)
    smooth(turned, [(-5, 10.6), (-2.6, 13.4), (-1.9, 17), (0, 18.2), (1.9, 17), (2.6, 13.4),
                    (5, 10.6)])
    turned.paint(Ink.SOLID)
    for y in (-12.6, -8.6):
        shapes.polyline(turned, [(-4.6, y), (1, y)])
        turned.paint(Ink.GAP, 2)


@icon("no-bottle")
def no_bottle(pen: Pen) -> None:
    """A feeding bottle with its teat, forbidden."""
    _forbid(pen, _bottle)


@icon("cook-through")
def cook_through(pen: Pen) -> None:
    """A pot over a big fire, a bold tick on it: cooked until done."""
    pot(pen, 23, 42, 41)
    shapes.polyline(pen, [(16.6, 32.4), (22, 27.4), (31.4, 37.8)])
    pen.paint(Ink.GAP, 4.4)
    flames(pen, [(10.4, 11.6, 16), (24, 12.4, 19), (37.6, 11.6, 16)], 1.6)


@icon("egg-firm")
def egg_firm(pen: Pen) -> None:
    """A hard-boiled egg cut in two, its yolk firm."""
    cut_egg(TurnedPen(pen, 2.4, 9.4, 8, 0.74))
    cut_egg(TurnedPen(pen, 20.6, 4.2, -8, 0.74))


@icon("eat-soon")
def eat_soon(pen: Pen) -> None:
    """A bowl of food beside a clock."""
    dish(pen, 17.6, 2, 31.4, 8)
    dot(pen, 34, 34, 15, Ink.PAPER)
    tick_clock(pen, 34, 34, 12, 0.17)


@icon("once-a-week")
def once_a_week(pen: Pen) -> None:
    """Seven days in a row, one of them filled, and a spoon above."""
    spoon(pen, 18.6, 24, 27, 48)
    for i in range(7):
        x, y = shapes.on_ellipse(24, 24.6, 19.2, 19.2, 189 + 27 * i)
        r = 3.6 if i == 3 else 2.4
        dot(pen, x, y, r, Ink.FOOD if i == 3 else Ink.PAPER)
        shapes.circle(pen, x, y, r)
        pen.paint(Ink.LINE, FINE)


@icon("small-pieces")
def small_pieces(pen: Pen) -> None:
    """A big piece crossed by cuts, and the small cubes it becomes."""
    shapes.rounded(pen, 2.4, 20, 25, 25, 3)
    pen.paint(Ink.FOOD)
    for at in (10.7, 19.1):
        for points in ([(at, 46), (at, 19)], [(1, at + 17.6), (29, at + 17.6)]):
            shapes.polyline(pen, points)
            pen.paint(Ink.GAP, 2)
    # the arrow turns from the whole down to the pieces
    smooth(pen, [(32, 38), (37.6, 36), (39.6, 30)], closed=False)
    pen.paint(Ink.LINE, 3.4)
    shapes.polyline(pen, [(34.2, 30.4), (45, 30.4), (39.6, 23)], closed=True)
    pen.paint(Ink.SOLID)
    for x, y in ((23.6, 2.6), (31.8, 2.6), (40, 2.6), (27.7, 11), (36, 11)):
        shapes.rounded(pen, x, y, 6, 6, 1.4)
        pen.paint(Ink.FOOD)


@icon("allergy")
def allergy(pen: Pen) -> None:
    """A warning triangle over an egg and a fish."""
    shapes.polyline(pen, [(24, 44), (6, 19.6), (42, 19.6)], closed=True)
    pen.paint(Ink.LINE, 3.6)
    shapes.bar(pen, 24, 29, 24, 36, 4)
    dot(pen, 24, 24.2, 2.2)
    piece(TurnedPen(pen, 4, 1.4, 0, 0.32), EGG, 1)
    fish_body(TurnedPen(pen, 19, 1.4, 0, 0.48))


@icon("take-out")
def take_out(pen: Pen) -> None:
    """A hand lifting a leaf out of a bowl of food."""
    dish(pen, 18.6, 2, 33, 7)
    leaf = TurnedPen(pen, 27, 29.6, 230)
    for ink in (Ink.GAP, Ink.SOLID):
        shapes.leaf(leaf, 0, 0, 15, 0, 0.3)
        pen.paint(ink, 4)
    pinching_hand(TurnedPen(pen, 20, 19.6, 0, 0.56))


@icon("new-food")
def new_food(pen: Pen) -> None:
    """A small spoon with a little food over a bowl with one mark."""
    dish(pen, 22, 2, 39)
    shapes.polyline(pen, [(22, 8), (22, 14.4)])
    pen.paint(Ink.GAP, 3.6)
    turned = TurnedPen(pen, 18, 27, 32)
    smooth(turned, [(6, 0), (13, 1.4), (24, 5)], closed=False)
    pen.paint(Ink.LINE, 3.4)
    turned.move(-8.6, 2)
    turned.curve(-7, -6, 6, -6, 8, 2)
    turned.close()
    pen.paint(Ink.SOLID)
    mound(turned, -0.2, 4, 11, 6.4)
    pen.paint(Ink.FOOD)
