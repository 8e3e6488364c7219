"""Fruit an amount is counted in; halved, what is inside shows on the cut face."""

from __future__ import annotations

from cards.icons import shapes
from cards.icons.cut import halved, is_half, piece, wedges
from cards.icons.marks import TurnedPen, dot, smooth
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.registry import icon
from cards.icons.shapes import Point


def _glint(pen: Pen, *points: Point) -> None:
    smooth(pen, points, closed=False)
    pen.paint(Ink.GAP, 2.4)


def _stalk(pen: Pen, *points: Point, width: float = 3.2) -> None:
    smooth(pen, points, closed=False)
    pen.paint(Ink.LINE, width)


def _leaf(pen: Pen, x: float, y: float, dx: float, dy: float) -> None:
    shapes.leaf(pen, x, y, x + dx, y + dy, 0.26)
    pen.paint(Ink.SOLID)


def _seeds(pen: Pen, cx: float, cy: float, spread: float) -> None:
    """Core and two seeds of a cut apple or pear."""
    for ink in (Ink.FOOD, Ink.PAPER):
        reach = 2.4 if ink is Ink.FOOD else 0.4
        shapes.ellipse(pen, cx, cy, spread + reach, spread * 0.5 + reach)
        pen.paint(ink)
    for side in (-1, 1):
        shapes.ellipse(pen, cx + side * spread * 0.44, cy, 2.6, 1.7)
        pen.paint(Ink.SOLID)


@icon("apple", width=42, height=46, true_height_mm=10.5)
def apple(pen: Pen, fill: float = 1.0) -> None:
    """An apple with dimple, stalk and leaf; halved, its core."""
    if is_half(fill):
        halved(pen, 21, 18.6, 27, 22)
        _seeds(pen, 21, 27, 8.4)
        return
    outline = [(21, 31.6), (12, 34.6), (4, 29), (2.6, 19), (7, 8), (14, 2.6), (21, 4.4),
               (28, 2.6), (35, 8), (39.4, 19), (38, 29), (30, 34.6)]
    if piece(pen, outline, fill):
        _glint(pen, (7.6, 20), (9.4, 13.6), (13.6, 8.4))
        smooth(pen, [(15.6, 33.4), (21, 29), (26.4, 33.4)], closed=False)
        pen.paint(Ink.GAP, 2.2)
        _stalk(pen, (21, 31), (20.4, 38), (17.6, 43.6))
        _leaf(pen, 21.4, 37.4, 14, 4.6)


@icon("pear", width=38, height=50, true_height_mm=11.5)
def pear(pen: Pen, fill: float = 1.0) -> None:
    """A pear, narrow above, with its stalk; halved, its core."""
    outline = [(19, 40), (13.4, 36.6), (11.6, 29), (7, 22.4), (2.8, 14), (6, 6), (13, 2.8),
               (25, 2.8), (32, 6), (35.2, 14), (31, 22.4), (26.4, 29), (24.6, 36.6)]
    if is_half(fill):
        for ink in (Ink.PAPER, Ink.LINE):
            smooth(pen, outline)
            pen.paint(ink)
        smooth(pen, [(19 + (x - 19) * 0.72, 18 + (y - 18) * 0.76) for x, y in outline])
        pen.paint(Ink.FOOD)
        shapes.ellipse(pen, 19, 14, 6.4, 6)
        pen.paint(Ink.PAPER)
        for side in (-1, 1):
            shapes.ellipse(TurnedPen(pen, 19 + side * 2.6, 14, side * 14), 0, 0, 1.5, 3)
            pen.paint(Ink.SOLID)
        _stalk(pen, (19, 40), (19.6, 44), (22, 47.6))
        return
    if piece(pen, outline, fill):
        _glint(pen, (8, 14), (10.6, 20), (15.4, 26))
        for x, y in ((24, 8), (28, 13), (22, 15)):
            dot(pen, x, y, 1.2, Ink.PAPER)
        _stalk(pen, (19, 39.4), (19.6, 44), (22.4, 47.6))


@icon("guava", width=42, height=48, true_height_mm=10.5)
def guava(pen: Pen, fill: float = 1.0) -> None:
    """A knobbly round fruit with its dry crown below and two leaves above; halved, its seeds."""
    if is_half(fill):
        rx, ry = halved(pen, 21, 18.6, 27, 22)
        shapes.ellipse(pen, 21, 27, rx * 0.62, ry * 0.6)
        pen.paint(Ink.FOOD)
        for dx, dy in ((-7, 0), (0, 3), (7, 0), (-3, -2.6), (3.6, -2.6), (0, 0.2)):
            dot(pen, 21 + dx, 27 + dy, 1.2, Ink.PAPER)
        return
    outline = [(21, 36.4), (14, 34), (6, 27.6), (2.8, 19), (7, 10), (14.6, 6.2), (27.4, 6.2),
               (35, 10), (39.2, 19), (36, 27.6), (28, 34)]
    if piece(pen, outline, fill):
        _glint(pen, (8, 19), (10.4, 25.4), (15.4, 29.4))
        for x in (16.6, 21, 25.4):
            for ink, width in ((Ink.GAP, 5.4), (Ink.LINE, 3)):
                shapes.polyline(pen, [(x, 7), (21 + (x - 21) * 1.5, 2.4)])
                pen.paint(ink, width)
        _stalk(pen, (21, 36), (21, 41))
        _leaf(pen, 21, 39, -14.6, 5.6)
        _leaf(pen, 21, 39, 14.6, 5.6)


@icon("orange", width=42, height=44, true_height_mm=10)
def orange(pen: Pen, fill: float = 1.0) -> None:
    """A round fruit with pores and a leaf; halved, its segments."""
    if is_half(fill):
        rx, ry = halved(pen, 21, 18.6, 25, 22)
        wedges(pen, 21, 25, rx - 4, ry - 2.6, 8)
        return
    outline = [shapes.on_ellipse(21, 19.4, 18.4, 17.4, 30 * i) for i in range(12)]
    if piece(pen, outline, fill):
        for x, y in ((9, 19), (13, 11), (21, 7.4), (29.4, 11), (17, 18), (25.4, 18.4), (33, 19)):
            dot(pen, x, y, 1.3, Ink.PAPER)
        smooth(pen, [(16.4, 33.6), (21, 30.6), (25.6, 33.6)], closed=False)
        pen.paint(Ink.GAP, 2.2)
        _stalk(pen, (21, 31.4), (21, 39), width=3.6)
        _leaf(pen, 21, 36.4, 15, 4.4)


@icon("mango", width=48, height=44, true_height_mm=11)
def mango(pen: Pen, fill: float = 1.0) -> None:
    """A bent heavy fruit with its beak, stalk and narrow leaf."""
    outline = [(2.8, 17.4), (6, 24.6), (14, 30.6), (24, 36.4), (34, 36.6), (42.4, 30.4),
               (45.2, 20), (41, 9), (31, 3), (20, 4), (12, 9.4), (5.4, 12)]
    if piece(pen, outline, fill):
        _glint(pen, (12, 24.6), (20.4, 29.8), (29, 32))
        _stalk(pen, (34, 36), (35, 41.6))
        shapes.leaf(pen, 34.4, 39.4, 14.4, 42.2, 0.13)
        pen.paint(Ink.SOLID)


PAPAYA: tuple[Point, ...] = (
    (-24.4, 0), (-20.6, 9.4), (-10, 13.6), (2, 12.4), (14, 8), (21.4, 4.6), (24, 0),
    (21.4, -4.6), (14, -8), (2, -12.4), (-10, -13.6), (-20.6, -9.4),
)
"""Outline of a papaya lying along the axis, its stalk end to the right."""


@icon("papaya", width=48, height=47, true_height_mm=12.5)
def papaya(pen: Pen, fill: float = 1.0) -> None:
    """A long fruit, narrow at its stalk; halved lengthwise, its hollow full of seeds."""
    laid = TurnedPen(pen, 24, 23.3, 43)
    if is_half(fill):
        for ink in (Ink.FOOD, Ink.LINE):
            smooth(laid, PAPAYA)
            laid.paint(ink)
        smooth(laid, [(-17.6, 0), (-13, 6), (-4, 6.4), (6, 3.4), (12, 0), (6, -3.4), (-4, -6.4),
                      (-13, -6)])
        laid.paint(Ink.PAPER)
        for x, y in ((-13, 0), (-9, 3.4), (-9, -3.4), (-4.6, 0), (-2.6, 4), (-2.6, -4), (1.4, 0),
                     (6.6, 0)):
            dot(laid, x, y, 1.7)
        return
    if piece(laid, PAPAYA, fill):
        _glint(laid, (-16, 6.6), (-8, 9.2), (1, 8.2))
        shapes.polyline(laid, [(19.6, -3.4), (19.6, 3.4)])
        laid.paint(Ink.GAP, 2)
        _stalk(laid, (22, 0), (28.6, 1), width=5)


@icon("date", width=42, height=26, true_height_mm=6)
def date(pen: Pen, fill: float = 1.0) -> None:
    """A wrinkled oblong date with its little cap."""
    outline = [(2.6, 13), (6, 19.4), (15, 23), (26, 22.6), (34, 19), (36.6, 13), (34, 7), (26, 3.4),
               (15, 3), (6, 6.6)]
    if piece(pen, outline, fill):
        for points in ([(8, 15.4), (16, 18), (24, 16.6)], [(11, 10), (20, 8), (30, 10)],
                       [(18, 13), (25, 12.6), (31, 14.4)]):
            smooth(pen, points, closed=False)
            pen.paint(Ink.GAP, 2)
        for ink, width in ((Ink.GAP, 6.6), (Ink.LINE, 4)):
            shapes.polyline(pen, [(36.6, 9.6), (36.6, 16.4)])
            pen.paint(ink, width)
        shapes.bar(pen, 37, 13, 40.4, 13, FINE * 1.4)
