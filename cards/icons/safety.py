"""How food is made safe for a child, and what is given with care."""

from __future__ import annotations

from cards.icons import shapes
from cards.icons.counted import EGG
from cards.icons.cut import piece
from cards.icons.daytime import little_sun
from cards.icons.forbidden import forbid
from cards.icons.groups import cut_egg, drumstick
from cards.icons.marks import (
    TurnedPen,
    dish,
    dot,
    smooth,
    steam,
)
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.registry import icon
from cards.icons.vessels import arrow_head, bowl, fire, pot


@icon("cook-through")
def cook_through(pen: Pen) -> None:
    """Meat in a pot over the fire, and beside it the same cut open, ticked: done to its middle."""
    small = TurnedPen(pen, -0.6, 0.6, 0, 0.62, 0.8)
    fire(small)
    pot(small, rim=34, level=29)
    drumstick(TurnedPen(pen, 13.6, 20, 0, 0.4, 0.4))
    steam(pen, (9, 18), 30, 12)
    for ink in (Ink.FOOD, Ink.LINE):
        smooth(pen, [(28.4, 10), (29.4, 3.8), (37, 2.6), (43.6, 4), (45, 11), (41, 17), (32, 17)])
        pen.paint(ink)
    shapes.polyline(pen, [(31.6, 9.6), (35.2, 6.2), (41.6, 13.4)])
    pen.paint(Ink.GAP, 3.2)
    smooth(pen, [(29, 37), (36, 36), (38, 29)], closed=False)
    pen.paint(Ink.LINE, 3.4)
    arrow_head(pen, 37.6, 21, -90, 8)


@icon("egg-firm")
def egg_firm(pen: Pen) -> None:
    """A hard-boiled egg cut in two, its yolk firm."""
    cut_egg(TurnedPen(pen, 2.4, 9.4, 8, 0.74))
    cut_egg(TurnedPen(pen, 20.6, 4.2, -8, 0.74))


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
    """A child with spots all over its face and a crooked mouth, and the egg it ate."""
    shapes.circle(pen, 29, 23.4, 17)
    pen.paint(Ink.PAPER)
    shapes.circle(pen, 29, 23.4, 17)
    pen.paint(Ink.LINE, 3.2)
    smooth(pen, [(27, 40), (28.6, 44.6), (33.4, 44)], closed=False)
    pen.paint(Ink.LINE, 2.4)
    for x in (23.0, 35.0):
        dot(pen, x, 26.4, 2)
    smooth(pen, [(22, 13), (25.4, 16), (29, 14), (32.6, 16), (36, 13)], closed=False)
    pen.paint(Ink.LINE, 2.6)
    for x, y in ((17.6, 21.0), (21, 33), (29, 34), (37, 33), (40.6, 21), (29, 21), (23.4, 19.6),
                 (35, 20)):
        dot(pen, x, y, 1.9, Ink.FOOD)
    egg = TurnedPen(pen, 1.6, 1.4, 0, 0.42)
    smooth(egg, EGG)
    egg.paint(Ink.GAP, 8)
    piece(egg, EGG, 1)


@icon("take-out", points=True)
def take_out(pen: Pen) -> None:
    """A bowl of food, an arrow out of it and down, and a whole leaf lying beside it."""
    dish(pen, 14.4, 2, 25.6, 8)
    for ink, width in ((Ink.GAP, 7.2), (Ink.LINE, 3.6)):
        smooth(pen, [(14, 20), (17, 34), (27, 41), (35.4, 37.4)], closed=False)
        pen.paint(ink, width)
    arrow_head(pen, 39.8, 30, -64, 9)
    leaf = TurnedPen(pen, 31, 3.4, 58)
    shapes.leaf(leaf, 0, 0, 24, 0, 0.3)
    pen.paint(Ink.SOLID)
    shapes.polyline(leaf, [(3, 0), (20, 0)])
    pen.paint(Ink.GAP, FINE)
    for x in (8, 13):
        for side in (-1, 1):
            shapes.polyline(leaf, [(x, 0), (x + 3, side * 3)])
            pen.paint(Ink.GAP, FINE)


@icon("new-food", points=True)
def new_food(pen: Pen) -> None:
    """Three days, each with its sun: a bowl with a little food, with more, full; a line rises."""
    for x, level in ((8.6, 8.0), (24.4, 11.6), (40.2, 15.4)):
        little_sun(pen, x, 40.4, 5.8)
        bowl(pen, x, 2.4, 19, 6.4, level)
    shapes.bar(pen, 4, 24, 33, 29, 2.4)
    arrow_head(pen, 40.4, 30.6, 12, 7.4)


@icon("stones-out", points=True)
def stones_out(pen: Pen) -> None:
    """Half a fruit with an empty hollow, an arrow, and the stone that was in it."""
    shapes.bar(pen, 15, 31, 15, 35, 3)
    shapes.leaf(pen, 15, 34, 3.6, 42, 0.3)
    pen.paint(Ink.SOLID)
    for ink in (Ink.FOOD, Ink.LINE):
        smooth(pen, [(15, 31), (24, 31.4), (28.4, 22), (26, 10), (16, 2.4), (6, 7.6), (2.4, 19),
                     (6, 29.4)])
        pen.paint(ink)
    smooth(pen, [(15, 25), (20, 20), (19.6, 12), (15, 8.6), (10.4, 12), (10, 20)])
    pen.paint(Ink.PAPER)
    for ink, width in ((Ink.GAP, 6.8), (Ink.LINE, 3.6)):
        smooth(pen, [(16, 17), (20, 27), (28.6, 33)], closed=False)
        pen.paint(ink, width)
    arrow_head(pen, 34, 36, 26, 8.6)
    stone = TurnedPen(pen, 40, 38.4, -24, 0.9)
    smooth(stone, [(0, 8.4), (5.4, 3), (5, -5), (0, -8), (-5, -5), (-5.4, 3)])
    pen.paint(Ink.SOLID)
    for x in (-2, 2):
        shapes.polyline(stone, [(x, -3), (x, 3)])
        pen.paint(Ink.GAP, FINE)


def _side_spoon(pen: Pen) -> None:
    """A spoon from the side, its bowl 22 wide about the origin, its handle to the right."""
    smooth(pen, [(8, -1), (15, 0), (27, 2.4)], closed=False)
    pen.paint(Ink.LINE, 3.6)
    pen.move(-11, 0)
    shapes.arc_on(pen, 0, 0, 11, 6.4, 180, 360)
    pen.close()
    pen.paint(Ink.SOLID)


def _lump(pen: Pen) -> None:
    smooth(pen, [(-11.6, -5), (-11.4, 3), (-7, 10), (1, 13.4), (8.4, 10), (11.4, 3), (11.6, -5)])
    pen.paint(Ink.SOLID)


@icon("thin-paste")
def thin_paste(pen: Pen) -> None:
    """A spoon with a thin layer of paste running off it; above it the same with a lump, struck."""
    _side_spoon(TurnedPen(pen, 17, 24.6, 8, 1.06))
    forbid(TurnedPen(pen, 1.4, 14, 0, 0.66), _lump)
    spoon = TurnedPen(pen, 17, 7.4, 8, 1.06)
    _side_spoon(spoon)
    shapes.rounded(spoon, -12.4, 1.4, 22, 3, 1.4)
    pen.paint(Ink.FOOD)
    shapes.drop(pen, 3.6, 0.6, 7)
    pen.paint(Ink.FOOD)
