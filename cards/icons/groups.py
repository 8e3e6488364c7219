"""The seven food groups beside breast milk, each by its plainest foods."""

from __future__ import annotations

from cards.icons import shapes
from cards.icons.counted import BANANA, EGG, fish_body, tomato
from cards.icons.cut import piece
from cards.icons.marks import TurnedPen, dot, smooth
from cards.icons.pen import Ink, Pen
from cards.icons.registry import icon


@icon("group-grains-roots")
def group_grains_roots(pen: Pen) -> None:
    """An ear of grain and a root with a pointed end."""
    smooth(pen, [(11, 2.4), (12, 14), (12.8, 33)], closed=False)
    pen.paint(Ink.LINE)
    for i in range(4):
        y = 13 + i * 7.4
        for side in (-1, 1):
            shapes.leaf(pen, 12.6 + side * 2.4, y, 12.8 + side * 9.6, y + 8.8, 0.26)
            pen.paint(Ink.FOOD)
    shapes.leaf(pen, 13, 37.6, 13, 46.6, 0.26)
    pen.paint(Ink.FOOD)
    piece(pen, [(42, 40), (37, 38), (31, 30), (25.6, 20), (23, 9), (20, 3), (27.6, 4.4), (37, 9),
                (44, 19), (46, 30)], 1)
    for x, y in ((38, 31), (33, 22), (39, 20), (31, 12)):
        smooth(pen, [(x - 2.4, y + 1), (x, y), (x + 2, y - 1.6)], closed=False)
        pen.paint(Ink.GAP, 2)


def peanut(pen: Pen) -> None:
    """A peanut in its netted shell, lying, 30 by 16 about the origin."""
    smooth(pen, [(-15, 0), (-12, 6.6), (-6, 7.8), (0, 5), (6, 7.4), (12, 6.2), (15, 0),
                 (12, -6.2), (6, -7.4), (0, -5), (-6, -7.8), (-12, -6.6)])
    pen.paint(Ink.SOLID)
    for x in (-9, -3, 3, 9):
        for side in (-1, 1):
            shapes.polyline(pen, [(x - 1.6, side * 3.2 - 1.2), (x + 1.6, side * 3.2 + 1.2)])
            pen.paint(Ink.GAP, 2)


@icon("group-pulses-nuts-seeds")
def group_pulses_nuts_seeds(pen: Pen) -> None:
    """A pod split open, its seeds in a row, and a peanut in its shell."""
    turned = TurnedPen(pen, 22.4, 28.4, 36, 0.94)
    shapes.bar(turned, 22, 0, 26.4, 2.4, 3.4)
    shapes.leaf(turned, -26, 0, 26, 0, 0.27)
    pen.paint(Ink.SOLID)
    shapes.leaf(turned, -21, 0, 21, 0, 0.19)
    pen.paint(Ink.PAPER)
    for x, r in ((-10.4, 3.2), (-2.2, 3.9), (6.4, 3.6), (13, 2.2)):
        dot(turned, x, 0, r, Ink.FOOD)
    peanut(TurnedPen(pen, 33.6, 8, -4, 0.82))


@icon("group-dairy")
def group_dairy(pen: Pen) -> None:
    """A milk can and a glass of milk."""
    shapes.arc(pen, 15.4, 36, 8.6, 0, 180)
    pen.paint(Ink.LINE, 3)
    shapes.bar(pen, 8, 36, 22.8, 36, 4.4)
    smooth(pen, [(10, 32.4), (20.8, 32.4), (22, 28), (27.4, 22), (28, 14), (27.6, 4), (25, 2.4),
                 (5.8, 2.4), (3.2, 4), (2.8, 14), (3.4, 22), (8.8, 28)])
    pen.paint(Ink.SOLID)
    shapes.drop(pen, 13, 8, 12)
    pen.paint(Ink.PAPER)
    for ink in (Ink.GAP, Ink.PAPER, Ink.LINE):
        shapes.polyline(pen, [(25.6, 25), (27.6, 2.6), (42.4, 2.6), (44.4, 25)], closed=True)
        pen.paint(ink, 6.4 if ink is Ink.GAP else 2.4)
    shapes.polyline(pen, [(26.8, 18), (28, 3), (42, 3), (43.2, 18)], closed=True)
    pen.paint(Ink.FOOD)


def drumstick(pen: Pen) -> None:
    """A leg of fowl, meat at the upper left, bone to the lower right, about the origin."""
    shapes.bar(pen, 0, 0, 12.4, -9, 4.4)
    for x, y in ((13.4, -7.2), (11.2, -10.4)):
        dot(pen, x, y, 2.8)
    smooth(pen, [(-16, 6), (-12, 12), (-3, 11), (3.6, 4), (6.4, -2.6), (4, -5.4), (-3, -7),
                 (-12, -6)])
    pen.paint(Ink.FOOD)
    smooth(pen, [(-11, 4), (-7.6, 7), (-3, 6.4)], closed=False)
    pen.paint(Ink.GAP, 2.2)


@icon("group-flesh")
def group_flesh(pen: Pen) -> None:
    """A fish, and a leg of fowl below it."""
    fish_body(TurnedPen(pen, 2, 23.6, 0, 0.82))
    drumstick(TurnedPen(pen, 23, 11.4, 4, 1.14, 0.86))


@icon("group-meat")
def group_meat(pen: Pen) -> None:
    """A leg of fowl alone."""
    drumstick(TurnedPen(pen, 23, 25, 8, 1.25, 1.3))


def cut_egg(pen: Pen) -> None:
    """Half a hard-boiled egg, standing, its yolk firm; in the egg's own 34 by 44."""
    for ink in (Ink.GAP, Ink.PAPER, Ink.LINE):
        smooth(pen, EGG)
        pen.paint(ink, 6.4 if ink is Ink.GAP else 2.4)
    dot(pen, 17, 17.4, 8.6, Ink.FOOD)


@icon("group-eggs")
def group_eggs(pen: Pen) -> None:
    """An egg, and half a boiled one in front."""
    whole = TurnedPen(pen, 1, 3, 0, 0.96)
    piece(whole, EGG, 1)
    smooth(whole, [(9, 17), (10.5, 27), (14.5, 34)], closed=False)
    pen.paint(Ink.GAP, 2.6)
    cut_egg(TurnedPen(pen, 21, 0.6, -6, 0.78))


@icon("group-vitamin-a-plants")
def group_vitamin_a_plants(pen: Pen) -> None:
    """A carrot with its green, and a big dark leaf."""
    turned = TurnedPen(pen, 17, 20, -32)
    for x, y in ((-5.0, 24.0), (0.0, 26.0), (5.0, 24.0)):
        shapes.bar(turned, 0, 12, x, y, 3.4)
    smooth(turned, [(0, 14), (-7, 12.4), (-8, 6), (-4.6, -8), (0, -20), (4.6, -8), (8, 6),
                    (7, 12.4)])
    pen.paint(Ink.FOOD)
    for x, y in ((-4.0, 6.0), (2.4, 0.0), (-2.6, -6.0)):
        shapes.polyline(turned, [(x - 2.4, y), (x + 2.4, y)])
        pen.paint(Ink.GAP, 2)
    for ink in (Ink.GAP, Ink.SOLID):
        shapes.leaf(pen, 24, 4, 46, 30, 0.34)
        pen.paint(ink, 4)
    shapes.polyline(pen, [(26, 6.4), (41, 24)])
    pen.paint(Ink.GAP, 2.2)
    for x, y in ((31, 12.2), (35.8, 18)):
        shapes.polyline(pen, [(x, y + 5.6), (x, y), (x + 5.6, y)])
        pen.paint(Ink.GAP, 2)
    shapes.bar(pen, 25, 6, 21.6, 2.6, 3.2)


@icon("group-other-plants")
def group_other_plants(pen: Pen) -> None:
    """A tomato and a banana."""
    banana = TurnedPen(pen, 3.6, 17, 6, 0.82)
    piece(banana, BANANA, 1)
    smooth(banana, [(7, 24), (13.5, 14), (25, 9.4), (36, 12.4)], closed=False)
    pen.paint(Ink.GAP, 2)
    tomato(TurnedPen(pen, 20, 1, 0, 0.6))
