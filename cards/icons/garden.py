"""Further pieces an amount is counted in: heads, stone fruit, and a leg of fowl."""

from __future__ import annotations

from cards.icons import shapes
from cards.icons.cut import piece
from cards.icons.marks import TurnedPen, dot, smooth
from cards.icons.pen import Ink, Pen
from cards.icons.registry import icon
from cards.icons.shapes import Point


def _white(pen: Pen, *points: Point, width: float = 2.2) -> None:
    smooth(pen, points, closed=False)
    pen.paint(Ink.GAP, width)


@icon("cauliflower", width=52, height=46, true_height_mm=11.5)
def cauliflower(pen: Pen, fill: float = 1.0) -> None:
    """A head of many round heads above two broad leaves."""
    outline = [(26, 43.4), (17, 42.6), (12, 38), (6, 36), (2.6, 27), (5, 16), (12, 6), (20, 2.6),
               (32, 2.6), (40, 6), (47, 16), (49.4, 27), (46, 36), (40, 38), (35, 42.6)]
    if piece(pen, outline, fill):
        for x, y, r in ((15, 31.4, 5.2), (26, 35.4, 5.4), (37, 31.4, 5.2), (21.4, 24.4, 4.8),
                        (31, 24.4, 4.8)):
            pen.move(*shapes.on_ellipse(x, y, r, r, 10))
            shapes.arc_on(pen, x, y, r, r, 10, 170)
            pen.paint(Ink.GAP, 2)
        _white(pen, (5.4, 26), (14, 20), (22, 12), (25, 4.6), width=2.6)
        _white(pen, (46.6, 26), (38, 20), (30, 12), (27, 4.6), width=2.6)


@icon("cabbage", width=46, height=44, true_height_mm=11)
def cabbage(pen: Pen, fill: float = 1.0) -> None:
    """A round head of leaves laid over one another, with thick ribs."""
    outline = [(23, 41.4), (12, 39.6), (4.6, 32), (2.6, 21), (6, 10.6), (14, 4), (23, 2.6),
               (32, 4), (40, 10.6), (43.4, 21), (41.4, 32), (34, 39.6)]
    if piece(pen, outline, fill):
        _white(pen, (23, 3.4), (22, 14), (24, 25), (23, 35), width=2.8)
        for side in (-1, 1):
            _white(pen, (23, 14), (23 + side * 6, 20), (23 + side * 9, 28))
            _white(pen, (23 + side * 17.4, 14), (23 + side * 15, 27), (23 + side * 7, 38.6))


@icon("plum", width=38, height=42, true_height_mm=9)
def plum(pen: Pen, fill: float = 1.0) -> None:
    """A fruit with one stone: round, a seam down its side, a stalk and a leaf."""
    outline = [(17, 31.6), (9, 31), (3.4, 25), (2.6, 16), (7, 7), (17, 2.6), (27, 5), (34, 12),
               (35.4, 20), (32, 28), (25, 32)]
    if piece(pen, outline, fill):
        _white(pen, (18, 31), (11.6, 22), (12, 11), (17, 4))
        shapes.bar(pen, 18, 31, 17, 38.6, 3)
        shapes.leaf(pen, 18, 36, 33, 39.4, 0.27)
        pen.paint(Ink.SOLID)


@icon("pomegranate", width=44, height=48, true_height_mm=11.5)
def pomegranate(pen: Pen, fill: float = 1.0) -> None:
    """A round fruit with its crown of points, a window cut into it full of seeds."""
    outline = [(22, 34), (12, 35), (4.6, 29), (2.6, 19), (6.6, 8.6), (15, 3), (22, 2.6), (29, 3),
               (37.4, 8.6), (41.4, 19), (39.4, 29), (32, 35)]
    if piece(pen, outline, fill):
        shapes.polyline(pen, [(16, 34), (14, 45.6), (19, 41), (22, 46), (25, 41), (30, 45.6),
                              (28, 34)], closed=True)
        pen.paint(Ink.SOLID)
        smooth(pen, [(14, 24), (27, 27), (33, 20), (29, 10), (17, 9), (11, 16)])
        pen.paint(Ink.PAPER)
        for x, y in ((16.4, 19.4), (22.4, 21.4), (28, 19.6), (18.6, 13.4), (24.6, 14.4)):
            dot(pen, x, y, 2.4, Ink.FOOD)


@icon("mushroom", width=42, height=42, true_height_mm=9)
def mushroom(pen: Pen, fill: float = 1.0) -> None:
    """A mushroom: a broad round cap on a short stem."""
    outline = [(21, 39.4), (10, 36), (3.6, 27), (3, 20.4), (8, 17.4), (14.6, 16.4), (15, 9),
               (16, 3.4), (21, 2.6), (26, 3.4), (27, 9), (27.4, 16.4), (34, 17.4), (39, 20.4),
               (38.4, 27), (32, 36)]
    if piece(pen, outline, fill):
        _white(pen, (6, 21.4), (14, 19), (21, 18.6), (28, 19), (36, 21.4), width=2.4)
        _white(pen, (9.6, 27), (13, 32), (17.6, 34.4), width=2.4)


@icon("leg-of-fowl", width=54, height=42, true_height_mm=11)
def leg_of_fowl(pen: Pen, fill: float = 1.0) -> None:
    """A leg of fowl, thick at the left, its bone at the right."""
    turned = TurnedPen(pen, 23.6, 21.4, -22)
    outline = [(-22, 2), (-18, 12), (-8, 15), (4, 11), (13, 4), (24, 3), (28, 5.4), (29.6, 1.6),
               (28, -2.6), (24, -1), (13, -3), (3, -9), (-8, -12), (-18, -9)]
    if piece(turned, outline, fill):
        _white(turned, (15, 5.4), (13, 0.6), (14, -4), width=2.4)
        _white(turned, (-16, 2), (-13, 8), (-7, 10.4), width=2.4)
