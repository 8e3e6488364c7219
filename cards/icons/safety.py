"""What must not be given, and how food is made safe.

Forbidden things stand under a thick ring with a bar from upper left to lower
right. Each is one thing, as large as the ring takes, and what tells it apart
lies off the bar.
"""

from __future__ import annotations

from collections.abc import Callable

from cards.icons import shapes
from cards.icons.counted import EGG, fish_body, piece
from cards.icons.groups import cut_egg
from cards.icons.marks import (
    TurnedPen,
    dish,
    dot,
    flames,
    mound,
    pinching_hand,
    smooth,
    tick_clock,
)
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.registry import icon
from cards.icons.vessels import pot


def _forbid(pen: Pen, thing: Callable[[Pen], None], degrees: float = 0.0) -> None:
    """One large thing about the origin, and over it ring and bar, kept apart from it by white."""
    thing(TurnedPen(pen, 24, 24, degrees))
    ends = (shapes.on_ellipse(24, 24, 20.4, 20.4, 135), shapes.on_ellipse(24, 24, 20.4, 20.4, 315))
    shapes.circle(pen, 24, 24, 20.4)
    pen.paint(Ink.GAP, 6.4)
    shapes.polyline(pen, ends)
    pen.paint(Ink.GAP, 7.2)
    shapes.circle(pen, 24, 24, 20.4)
    pen.paint(Ink.LINE, 3.6)
    shapes.bar(pen, *ends[0], *ends[1], 3.6)


def _honey_jar(pen: Pen) -> None:
    shapes.rounded(pen, -9.6, 9.8, 19.2, 5.4, 1.6)
    pen.paint(Ink.SOLID)
    shapes.rounded(pen, -14, -14.6, 28, 22.4, 7)
    pen.paint(Ink.SOLID)
    # the cell lies beside the bar, whole
    cell = [shapes.on_ellipse(-7, -7.4, 4.8, 4.8, 60 * i + 30) for i in range(6)]
    shapes.polyline(pen, cell, closed=True)
    pen.paint(Ink.PAPER)


@icon("no-honey")
def no_honey(pen: Pen) -> None:
    """A squat jar of honey with a cell of the comb on its belly, forbidden."""
    _forbid(pen, _honey_jar)


def _shaker(pen: Pen) -> None:
    # the cap is below, as the whole is turned to pour
    shapes.polyline(pen, [(-7.6, 15), (7.6, 15), (9.4, -4), (-9.4, -4)], closed=True)
    pen.paint(Ink.SOLID)
    pen.move(-9.4, -5.6)
    pen.curve(-9, -11, -5, -12.4, 0, -12.4)
    pen.curve(5, -12.4, 9, -11, 9.4, -5.6)
    pen.close()
    pen.paint(Ink.SOLID)
    for x in (-4.8, 0, 4.8):
        dot(pen, x, -8.6, 1.2, Ink.PAPER)
        dot(pen, x, -15.4, 1.3)


@icon("no-salt")
def no_salt(pen: Pen) -> None:
    """A shaker letting grains of salt fall, forbidden."""
    _forbid(pen, _shaker, -45)


def _cube(pen: Pen, x: float, y: float, a: float) -> None:
    """A sugar cube seen from an edge, its foot at (x, y)."""
    w, h = a * 0.87, a * 0.5
    hexagon = [(x, y), (x + w, y + h), (x + w, y + a + h), (x, y + a + 2 * h), (x - w, y + a + h),
               (x - w, y + h)]
    for ink in (Ink.GAP, Ink.SOLID):
        shapes.polyline(pen, hexagon, closed=True)
        pen.paint(ink, 3)
    edge, top = FINE, y + a
    shapes.polyline(pen, [(x, top + edge), (x + w - edge * 1.6, top + h), (x, top + 2 * h - edge),
                          (x - w + edge * 1.6, top + h)], closed=True)
    pen.paint(Ink.PAPER)
    shapes.polyline(pen, [(x, y), (x, y + a)])
    pen.paint(Ink.GAP, FINE)


def _sugar(pen: Pen) -> None:
    for x, y in ((-7.8, -14), (7.8, -14), (0, -1)):
        _cube(pen, x, y, 8.6)


@icon("no-sugar")
def no_sugar(pen: Pen) -> None:
    """A stack of three sugar cubes, forbidden."""
    _forbid(pen, _sugar)


def _peanut(pen: Pen) -> None:
    # the waist lies beside the bar, as it makes the outline a peanut's
    smooth(pen, [(-17, 0), (-14.4, 7.4), (-7, 10.2), (0, 9), (6, 5.4), (11, 7.8), (15, 6.2),
                 (17.4, 0), (15, -6.2), (11, -7.8), (6, -5.4), (0, -9), (-7, -10.2), (-14.4, -7.4)])
    pen.paint(Ink.SOLID)
    for x, y in ((-12.4, 3.4), (-12.4, -3.4), (-6.6, 6), (-6.6, 0), (-6.6, -6), (7, 0), (12.4, 3),
                 (12.4, -3)):
        shapes.polyline(pen, [(x - 1.4, y), (x + 1.4, y)])
        pen.paint(Ink.GAP, 2)


@icon("no-whole-nuts")
def no_whole_nuts(pen: Pen) -> None:
    """A peanut in its shell, forbidden."""
    _forbid(pen, _peanut, 45)


def _skeleton(pen: Pen) -> None:
    shapes.bar(pen, -10, 0, 13, 0, 3.2)
    for x, h in ((5.6, 8.4), (10.2, 6)):
        shapes.bar(pen, x, -h, x, h, 2.6)
    shapes.polyline(pen, [(12.4, 0), (18, 6.4), (16, 0), (18, -6.4)], closed=True)
    pen.paint(Ink.SOLID)
    smooth(pen, [(-18, 0), (-15, 5.4), (-8.6, 9.4), (-8.6, -9.4), (-15, -5.4)])
    pen.paint(Ink.SOLID)
    dot(pen, -12.6, 3, 1.7, Ink.PAPER)


@icon("no-bones")
def no_bones(pen: Pen) -> None:
    """The bones of a fish, head and tail left on, forbidden."""
    _forbid(pen, _skeleton, 45)


def _broken_egg(pen: Pen) -> None:
    pen.move(-14, 6.2)
    for x, y in ((-9.4, 11), (-4.8, 6.2), (0, 11), (4.8, 6.2), (9.4, 11), (14, 6.2)):
        pen.line(x, y)
    pen.curve(13.4, 13, 7.6, 18, 0, 18)
    pen.curve(-7.6, 18, -13.4, 13, -14, 6.2)
    pen.close()
    pen.paint(Ink.SOLID)
    smooth(pen, [(-3, 4), (3, 4), (6, -1), (12, -4.6), (12.6, -9), (8, -12.6), (4, -16.4),
                 (-3, -16.2), (-8, -14.4), (-13, -9.6), (-12, -4.4), (-6, -1)])
    pen.paint(Ink.SOLID)
    dot(pen, 0, -8.2, 6, Ink.PAPER)
    dot(pen, 0, -8.2, 3.8)


@icon("no-raw-egg")
def no_raw_egg(pen: Pen) -> None:
    """A broken shell and the raw egg running out of it, forbidden."""
    _forbid(pen, _broken_egg, -45)


def _bottle(pen: Pen) -> None:
    shapes.rounded(pen, -8.6, -15.4, 17.2, 20, 3.4)
    pen.paint(Ink.SOLID)
    shapes.rounded(pen, -8.6, 5.8, 17.2, 4, 1.4)
    pen.paint(Ink.SOLID)
    smooth(pen, [(-6, 10.8), (-3.2, 13), (-2.4, 16.6), (0, 18), (2.4, 16.6), (3.2, 13), (6, 10.8)])
    pen.paint(Ink.SOLID)
    for y in (-11.4, -7.4):
        shapes.polyline(pen, [(-5.4, y), (0.6, y)])
        pen.paint(Ink.GAP, 2)


@icon("no-bottle")
def no_bottle(pen: Pen) -> None:
    """A feeding bottle with its teat, forbidden."""
    _forbid(pen, _bottle, -45)


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


def _heaped_spoon(pen: Pen, heap: float) -> None:
    """A spoon from the side, bowl 22 wide about the origin, handle right, a heap ``heap`` wide."""
    smooth(pen, [(8, -1), (17, 0.6), (33, 4)], closed=False)
    pen.paint(Ink.LINE, 3.6)
    pen.move(-11, 1.4)
    pen.curve(-9.4, -8.6, 9, -8.6, 11, 1.4)
    pen.close()
    pen.paint(Ink.SOLID)
    mound(pen, 0, 3.6, heap, heap * 0.5)
    pen.paint(Ink.FOOD)


@icon("once-a-week")
def once_a_week(pen: Pen) -> None:
    """The seven days of a week in a row, one of them filled, and over it a spoon of food."""
    _heaped_spoon(TurnedPen(pen, 14.4, 22.6, 26, 1.1), 20)
    for i in range(7):
        x = 1.6 + 6.88 * i
        day = [(x, 2.4), (x + 3.5, 2.4), (x + 3.5, 7.2), (x, 7.2)]
        for ink in (Ink.FOOD if i == 0 else Ink.PAPER, Ink.LINE):
            shapes.polyline(pen, day, closed=True)
            pen.paint(ink, FINE)


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
    """A spoon with one small bit of food over a bowl with hardly any in it."""
    cx, rim, rx, depth = 22.0, 20.6, 19.0, 16.0
    pen.move(*shapes.on_ellipse(cx, rim, rx, depth, 225))
    shapes.arc_on(pen, cx, rim, rx, depth, 225, 315)
    pen.close()
    pen.paint(Ink.FOOD)
    pen.move(cx - rx, rim)
    shapes.arc_on(pen, cx, rim, rx, depth, 180, 360)
    pen.close()
    pen.paint(Ink.LINE)
    shapes.bar(pen, cx - 6.6, 3.4, cx + 6.6, 3.4, 2.8)
    turned = TurnedPen(pen, 15, 31.6, 20)
    _heaped_spoon(turned, 10)
