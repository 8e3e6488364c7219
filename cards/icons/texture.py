"""How fine the food is: mashed, chopped, or as the family eats it."""

from __future__ import annotations

from cards.icons import shapes
from cards.icons.marks import TurnedPen, smooth
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.registry import icon


@icon("texture-mashed")
def texture_mashed(pen: Pen) -> None:
    """Smooth thick porridge that holds its shape on a tilted spoon."""
    turned = TurnedPen(pen, 20.4, 16.4, 32)
    smooth(turned, [(13, -1.4), (20, 1), (32, 7)], closed=False)
    pen.paint(Ink.LINE, 4.4)
    turned.move(-16.6, 2)
    turned.curve(-15, -7.6, -8, -11, 0, -11)
    turned.curve(8, -11, 14, -7, 16.6, 2)
    turned.close()
    pen.paint(Ink.SOLID)
    # a gap keeps food and spoon apart where both print black
    smooth(turned, [(-15.4, 5), (-14.4, 11), (-8.4, 17), (0, 19.4), (8.4, 17), (14.4, 11),
                    (15.4, 5)])
    pen.paint(Ink.FOOD)
    smooth(turned, [(-9, 11), (-5, 14), (0.6, 15)], closed=False)
    pen.paint(Ink.GAP, 2.2)


@icon("texture-chopped")
def texture_chopped(pen: Pen) -> None:
    """Small soft pieces in a heap on a plate."""
    pen.move(2.4, 10.4)
    pen.curve(6, 3.4, 12, 2.4, 24, 2.4)
    pen.curve(36, 2.4, 42, 3.4, 45.6, 10.4)
    pen.close()
    pen.paint(Ink.SOLID)
    rows = (
        (17.4, ((10, 8), (19.4, -12), (28.6, 14), (38, -6))),
        (27, ((14.4, -16), (24, 6), (33.6, -14))),
        (36.6, ((19.2, 12), (29, -8))),
    )
    for y, pieces in rows:
        for x, turn in pieces:
            shapes.rounded(TurnedPen(pen, x, y, turn), -3.8, -3.8, 7.6, 7.6, 2)
            pen.paint(Ink.FOOD)


@icon("texture-family")
def texture_family(pen: Pen) -> None:
    """A plate of family food: a soft heap, pieces beside it, a leaf of greens behind."""
    pen.move(1.6, 10.4)
    pen.curve(6, 3.4, 12, 2.4, 24, 2.4)
    pen.curve(36, 2.4, 42, 3.4, 46.4, 10.4)
    pen.close()
    pen.paint(Ink.SOLID)
    shapes.bar(pen, 27, 22, 29, 27, 2.8)
    shapes.leaf(pen, 27.6, 25, 34.4, 45.4, 0.31)
    pen.paint(Ink.FOOD)
    for points in ([(28.2, 27), (32.2, 38.8)], [(28.2, 35.4), (30, 32.4), (33.8, 33.4)]):
        shapes.polyline(pen, points)
        pen.paint(Ink.GAP, FINE)
    heap = [(3.4, 13), (3.6, 18), (7, 24), (10, 30.4), (16, 33.4), (22, 30), (25.6, 23), (28, 18),
            (27.6, 13)]
    for ink in (Ink.GAP, Ink.FOOD):
        smooth(pen, heap)
        pen.paint(ink, 4)
    smooth(pen, [(9, 20), (11.4, 25), (15.4, 28)], closed=False)
    pen.paint(Ink.GAP, 2.2)
    for x, y, turn in ((34, 17.2, 8), (43, 16.8, -10), (40.8, 24.9, 14)):
        shapes.rounded(TurnedPen(pen, x, y, turn), -3.6, -3.6, 7.2, 7.2, 2)
        pen.paint(Ink.FOOD)
