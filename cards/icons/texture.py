"""How fine the food is: mashed, chopped, or as the family eats it."""

from __future__ import annotations

from cards.icons import shapes
from cards.icons.counted import fish_body
from cards.icons.marks import TurnedPen, dot, smooth
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
    """A plate of family food from above: rice, a piece of fish, a leaf."""
    dot(pen, 24, 24, 21.4, Ink.PAPER)
    shapes.circle(pen, 24, 24, 21.4)
    pen.paint(Ink.LINE, 3)
    # rice grains close together, so that the heap reads before the grain
    for x, y, turn in ((12, 30, 40), (17, 36, 10), (23, 38, -30), (12.4, 22.6, 80), (18, 29, -40),
                       (24, 31.6, 30), (17, 23, 20)):
        shapes.ellipse(TurnedPen(pen, x, y, turn), 0, 0, 3.2, 1.8)
        pen.paint(Ink.FOOD)
    fish_body(TurnedPen(pen, 11, 5.8, 6, 0.5))
    shapes.leaf(pen, 27, 20.6, 37, 36, 0.3)
    pen.paint(Ink.FOOD)
    shapes.polyline(pen, [(27.4, 21), (34, 31.4)])
    pen.paint(Ink.GAP, FINE)
