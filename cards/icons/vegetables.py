"""Vegetables an amount is counted in. Long ones lie aslant, so that they fit a row at their size.

A long piece is drawn along its own axis, the top end to the right, and then turned: so its share
is cut off straight across.
"""

from __future__ import annotations

from cards.icons import shapes
from cards.icons.cut import halved, is_half, piece
from cards.icons.marks import TurnedPen, dot, smooth
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.registry import icon
from cards.icons.shapes import Point


def _scratch(pen: Pen, *points: Point, width: float = 2.0) -> None:
    """A soft white line on a piece."""
    smooth(pen, points, closed=False)
    pen.paint(Ink.GAP, width)


def _stalk(pen: Pen, *points: Point, width: float = 3.4) -> None:
    smooth(pen, points, closed=False)
    pen.paint(Ink.LINE, width)


@icon("carrot", width=51, height=44, true_height_mm=10.5)
def carrot(pen: Pen, fill: float = 1.0) -> None:
    """A carrot with rings in its skin and a tuft of leaves."""
    laid = TurnedPen(pen, 22.9, 19.7, 40)
    outline = [(-26.6, 0), (-12, 5.4), (4, 9), (11, 9.4), (15.4, 5), (15.4, -5), (11, -9.4),
               (4, -9), (-12, -5.4)]
    if piece(laid, outline, fill):
        for x, low, high in ((-13, 0.6, 5), (-5, -6.6, -1.6), (3, 2, 8.6), (9.4, -9, -3)):
            _scratch(laid, (x, low), (x + 0.8, high))
        for dx, dy in ((13.5, -8), (15.5, 0), (11.5, 8)):
            shapes.leaf(laid, 14, dy * 0.3, 15 + dx, dy, 0.17)
            pen.paint(Ink.SOLID)


@icon("radish", width=50, height=49, true_height_mm=11)
def radish(pen: Pen, fill: float = 1.0) -> None:
    """A long radish: thick to near its thin tail, with two broad leaves."""
    laid = TurnedPen(pen, 21.1, 21.3, 42)
    outline = [(-26.4, -1.6), (-19.4, 2.2), (-14, 7), (-4, 9), (6, 9), (11, 5.4), (12, 0),
               (11, -5.4), (6, -9), (-4, -9), (-14, -6.6), (-19.4, -1.6)]
    if piece(laid, outline, fill):
        _scratch(laid, (-11, 2.6), (-3, 4.6), (4.6, 4.6))
        for dy in (-7.6, 7.6):
            shapes.leaf(laid, 11, dy * 0.2, 30.6, dy, 0.3)
            pen.paint(Ink.SOLID)
            shapes.polyline(laid, [(16, dy * 0.45), (27, dy * 0.85)])
            laid.paint(Ink.GAP, 1.8)


@icon("beetroot", width=40, height=48, true_height_mm=11)
def beetroot(pen: Pen, fill: float = 1.0) -> None:
    """A round root with its thin tail and cut stalks; halved, its rings."""
    if is_half(fill):
        rx, ry = halved(pen, 20, 18, 27, 21)
        for share, ink in ((0.74, Ink.FOOD), (0.52, Ink.PAPER), (0.3, Ink.FOOD)):
            shapes.ellipse(pen, 20, 27, rx * share, ry * share)
            pen.paint(ink)
        _stalk(pen, (20, 7), (21, 4), (24, 2.4), width=FINE)
        return
    outline = [(23, 1.8), (20.4, 4.4), (24, 7.6), (33, 12), (37.4, 21), (34, 30), (25, 34.6),
               (15, 34.6), (6, 30), (2.6, 21), (7, 12), (15.6, 7.4), (18.4, 3.6)]
    if piece(pen, outline, fill):
        _scratch(pen, (8, 22), (10, 16), (14.4, 12.4), width=2.4)
        for x, top in ((13, 44), (20, 46.4), (27, 44)):
            _stalk(pen, (20 + (x - 20) * 0.5, 34.6), (x, top), width=3.2)


@icon("sweet-potato", width=54, height=30, true_height_mm=7.6)
def sweet_potato(pen: Pen, fill: float = 1.0) -> None:
    """A root pointed at both ends, with rootlets."""
    outline = [(2.2, 9.6), (10, 18), (21, 25.4), (33, 26.6), (43, 20.4), (51.6, 20.4),
               (46, 11), (36, 4.4), (22, 3), (10, 6.4)]
    if piece(pen, outline, fill):
        for x, y in ((14, 13), (25, 19), (35, 12), (24, 9), (39, 18)):
            _scratch(pen, (x - 2.6, y - 0.8), (x + 2.6, y + 0.8))


@icon("cucumber", width=50, height=42, true_height_mm=10)
def cucumber(pen: Pen, fill: float = 1.0) -> None:
    """A long even fruit, round at its ends, with broken light stripes."""
    laid = TurnedPen(pen, 24.9, 21.2, 37)
    outline = [(-26, 0), (-23.4, 5.8), (-12, 8.4), (4, 8.2), (18, 7), (24.4, 0), (18, -7),
               (4, -8.2), (-12, -8.4), (-23.4, -5.8)]
    if piece(laid, outline, fill):
        for y, spans in ((3.6, ((-20, -10), (-5, 4), (9, 16))), (-2, ((-16, -6), (-1, 10))),
                         (-5.4, ((-18, -11), (2, 9)))):
            for start, end in spans:
                _scratch(laid, (start, y), (end, y))
        shapes.bar(laid, 23, 0, 28.4, 1.2, 3.4)


@icon("bottle-gourd", width=54, height=45, true_height_mm=11)
def bottle_gourd(pen: Pen, fill: float = 1.0) -> None:
    """A club-shaped gourd: a thick end, a long neck, a bent stalk."""
    laid = TurnedPen(pen, 25.2, 23.9, 41)
    outline = [(-25.6, 0), (-21.4, 10), (-11, 12.6), (-1, 9.4), (9, 6), (20, 5), (23.6, 0),
               (20, -5), (9, -6), (-1, -9.4), (-11, -12.6), (-21.4, -10)]
    if piece(laid, outline, fill):
        _scratch(laid, (-18.6, 5), (-11, 7.6), (-2, 4.8), (8, 1.8), width=2.4)
        _stalk(laid, (23, 0), (28, 0.4), (31, -4))


@icon("ridge-gourd", width=50, height=47, true_height_mm=12)
def ridge_gourd(pen: Pen, fill: float = 1.0) -> None:
    """A long gourd with ridges from end to end, thicker to its tip."""
    laid = TurnedPen(pen, 23.9, 21.1, 38)
    outline = [(-25.4, 0), (-20, 8), (-8, 9.6), (6, 7.6), (20, 4.6), (25, 0), (20, -4.6),
               (6, -7.6), (-8, -9.6), (-20, -8)]
    if piece(laid, outline, fill):
        for side in (-1, 0, 1):
            _scratch(laid, (-22, side * 1.5), (-8, side * 5), (6, side * 4), (21, side * 0.8))
        _stalk(laid, (24, 0), (30, 1), (32.6, 4))


@icon("brinjal", width=45, height=48, true_height_mm=11.5)
def brinjal(pen: Pen, fill: float = 1.0) -> None:
    """An egg-shaped brinjal under its pointed cap, with a thick stalk."""
    laid = TurnedPen(pen, 23.1, 22.9, 44)
    outline = [(-22.4, 0), (-18.6, 10.6), (-8, 14.6), (4, 11.6), (15, 7), (18, 0), (15, -7),
               (4, -11.6), (-8, -14.6), (-18.6, -10.6)]
    if piece(laid, outline, fill):
        _scratch(laid, (-17, 5), (-10, 9.4), (-2, 8.4), width=2.6)
        cap = [(20, 5), (13, 9.6), (5, 10.6), (10.4, 4.4), (2.6, 0), (10.4, -4.4), (5, -10.6),
               (13, -9.6), (20, -5)]
        for ink, width in ((Ink.GAP, 4.4), (Ink.SOLID, 0)):
            shapes.polyline(laid, cap, closed=True)
            laid.paint(ink, width)
        _stalk(laid, (19, 0), (25, 0.6), (28.4, 3), width=4.6)


@icon("capsicum", width=42, height=46, true_height_mm=10.5)
def capsicum(pen: Pen, fill: float = 1.0) -> None:
    """A blocky fruit of three lobes with a thick stalk."""
    outline = [(21, 34), (12, 37.6), (4, 33), (2.6, 23), (5, 11), (9.4, 3.4), (15, 2.4), (21, 4.6),
               (27, 2.4), (32.6, 3.4), (37, 11), (39.4, 23), (38, 33), (30, 37.6)]
    if piece(pen, outline, fill):
        for side in (-1, 1):
            _scratch(pen, (21 + side * 3.6, 32), (21 + side * 8.4, 20), (21 + side * 5, 7.4))
        _stalk(pen, (21, 33), (21.6, 40), (25, 44), width=4.4)


@icon("okra", width=43, height=38, true_height_mm=8.5)
def okra(pen: Pen, fill: float = 1.0) -> None:
    """A pointed pod with edges along it and a broad cap."""
    laid = TurnedPen(pen, 20.7, 18.2, 38)
    outline = [(-24, -1), (-10, 4.6), (4, 7.6), (13, 7.6), (15, 0), (13, -7.6), (4, -7.2),
               (-10, -5)]
    if piece(laid, outline, fill):
        for side in (-1, 1):
            _scratch(laid, (-15, side * 0.6 - 0.4), (-2, side * 2.4), (11, side * 3))
        for ink, width in ((Ink.GAP, 4.0), (Ink.SOLID, 0)):
            shapes.polyline(laid, [(13.4, 8.4), (19, 5.4), (20.4, 0), (19, -5.4), (13.4, -8.4)],
                            closed=True)
            laid.paint(ink, width)
        _stalk(laid, (19, 0), (25.4, 1.4), width=4)


@icon("bean", width=51, height=39, true_height_mm=9)
def bean(pen: Pen, fill: float = 1.0) -> None:
    """A long thin pod, swelling over each seed."""
    laid = TurnedPen(pen, 27.3, 14.3, 31)
    outline = [(-27, 3.4), (-21, 4.4), (-16, 3.4), (-10.6, 4.8), (-5, 3.2), (0.4, 4.8), (6, 3.4),
               (11, 5), (17, 4.4), (22.4, 5), (19, -2), (11, -4.4), (6, -4.2), (0.4, -6),
               (-5, -4.8), (-10.6, -5.4), (-16, -3.2), (-21, -1.4)]
    if piece(laid, outline, fill):
        for x in (-17.6, -10.6, -3, 4.4, 11.4):
            dot(laid, x, -0.2 if x > -15 else 1, 1.5, Ink.PAPER)
        _stalk(laid, (21, 3.6), (25.4, 4.4), (29, 8), width=3)


@icon("maize", width=46, height=44, true_height_mm=10.5)
def maize(pen: Pen, fill: float = 1.0) -> None:
    """A cob in rows of grains, its husk turned back."""
    laid = TurnedPen(pen, 20.9, 20, 43)
    outline = [(-23.6, 0), (-19, 6), (-8, 9.4), (6, 10.2), (15, 7), (17, 0), (15, -7),
               (6, -10.2), (-8, -9.4), (-19, -6)]
    if piece(laid, outline, fill):
        for x, reach in ((-17, 5), (-11, 8), (-5, 8.6), (1, 9.2), (7, 9.2)):
            shapes.polyline(laid, [(x, -reach), (x, reach)])
            laid.paint(Ink.GAP, 1.8)
        for y in (-3.4, 3.4):
            shapes.polyline(laid, [(-21, y * 0.7), (-8, y), (12, y)])
            laid.paint(Ink.GAP, 1.8)
        for side in (-1, 1):
            for ink, width in ((Ink.GAP, 3.4), (Ink.SOLID, 0)):
                smooth(laid, [(24, side * 1), (17, side * 2), (7, side * 8.6), (1, side * 15),
                              (12, side * 12.4), (21, side * 6)])
                laid.paint(ink, width)
        _stalk(laid, (20, 0), (29, 0), width=5)


@icon("spring-onion", width=53, height=53, true_height_mm=13)
def spring_onion(pen: Pen, fill: float = 1.0) -> None:
    """A small bulb with root hairs on a long stem that opens into leaves."""
    laid = TurnedPen(pen, 22.8, 22.8, 45)
    outline = [(-22, 0), (-19.4, 5.2), (-13.4, 6), (-8, 3.4), (4, 3), (22, 3.6), (22, -3.6),
               (4, -3), (-8, -3.4), (-13.4, -6), (-19.4, -5.2)]
    for y in (-3, 0, 3):
        shapes.bar(laid, -21, y * 0.5, -26.4, y, FINE)
    if piece(laid, outline, fill):
        _scratch(laid, (-17.4, 2), (-12, 2.4), (-6, 0.4))
        for dx, dy in ((11, -11), (14, 0), (11, 11)):
            shapes.leaf(laid, 8, dy * 0.08, 19 + dx, dy, 0.13)
            for ink, width in ((Ink.GAP, 2.4), (Ink.SOLID, 0)):
                shapes.leaf(laid, 8, dy * 0.08, 19 + dx, dy, 0.13)
                laid.paint(ink, width)


@icon("chilli", width=46, height=34, true_height_mm=7.5)
def chilli(pen: Pen, fill: float = 1.0) -> None:
    """A thin bent chilli with its cap and stalk."""
    outline = [(2, 4.6), (12, 8.4), (22, 14), (29, 20.4), (33, 26), (38.6, 22.4), (35.4, 14),
               (27, 6.6), (15, 2.6)]
    if piece(pen, outline, fill):
        _scratch(pen, (14, 5.8), (23, 9.4), (30, 15))
        for ink, width in ((Ink.GAP, 3.6), (Ink.SOLID, 0)):
            smooth(pen, [(32, 26.6), (35, 28.6), (39, 26.6), (40, 22), (35.6, 23.4)])
            pen.paint(ink, width)
        _stalk(pen, (37.6, 26), (41, 29.4), (40.6, 32.4), width=3)


@icon("wedge", width=54, height=36, true_height_mm=9)
def wedge(pen: Pen, fill: float = 1.0) -> None:
    """A wedge cut out of a pumpkin or a melon: thick rind below, flesh with seeds at its edge."""
    outline = [(2.6, 32.6), (6.4, 18), (15, 7), (27, 3), (39, 7), (47.6, 18), (51.4, 32.6),
               (44, 29.6), (36, 27.4), (27, 26.6), (18, 27.4), (10, 29.6)]
    if piece(pen, outline, fill):
        smooth(pen, [(7, 25), (11, 16.4), (18, 10), (27, 7.8), (36, 10), (43, 16.4), (47, 25)],
               closed=False)
        pen.paint(Ink.GAP, 2.2)
        for x, y, turn in ((16.4, 21.4, -24), (23.6, 19.4, -8), (30.4, 19.4, 8), (37.6, 21.4, 24)):
            shapes.ellipse(TurnedPen(pen, x, y, turn), 0, 0, 1.5, 3.2)
            pen.paint(Ink.PAPER)


@icon("ginger", width=52, height=38, true_height_mm=8.5)
def ginger(pen: Pen, fill: float = 1.0) -> None:
    """A knobbly root with stumps to both sides and rings in its skin."""
    outline = [(2.8, 11), (4, 18), (10, 20.6), (14, 24.6), (13.6, 31.6), (18.6, 35.4), (24, 31.4),
               (24.4, 24), (32, 23), (36, 27), (42.4, 29.4), (48.6, 27), (49, 20), (43.4, 16),
               (39, 11.6), (37.4, 4.6), (31.6, 2.8), (28, 7.4), (27, 12), (19, 10.4), (10, 6.6)]
    if piece(pen, outline, fill):
        for points in ([(9.6, 10.4), (8, 16.6)], [(16.4, 28.6), (21.6, 29.4)],
                       [(43.8, 20), (41.4, 25.4)], [(30, 8.4), (35.4, 7.6)],
                       [(18.4, 15), (18, 20)], [(33, 14.6), (32, 19.4)]):
            _scratch(pen, *points)
