"""Things an amount is counted in, true to one another in size: pieces, hand, glass, scale."""

from __future__ import annotations

import math

from cards.icons import shapes
from cards.icons.cut import dashed, halved, is_half, piece, wedges
from cards.icons.held import Filled, hold
from cards.icons.marks import TurnedPen, cupped_hand, dot, drops, limb, smooth
from cards.icons.measures import part_of_ellipse
from cards.icons.pen import FINE, STROKE, Ink, Pen
from cards.icons.registry import icon
from cards.icons.shapes import Point

EGG: tuple[Point, ...] = (
    (17, 42), (10.5, 38), (5.2, 29), (3, 19), (6, 8.5), (17, 2.2),
    (28, 8.5), (31, 19), (28.8, 29), (23.5, 38),
)
"""Outline of an egg standing, 34 wide and 44 high."""


@icon("egg", width=34, height=44, true_height_mm=10.5)
def egg(pen: Pen, fill: float = 1.0) -> None:
    """A whole egg with a glint."""
    if piece(pen, EGG, fill):
        smooth(pen, [(9, 17), (10.5, 27), (14.5, 34)], closed=False)
        pen.paint(Ink.GAP, 2.6)


@icon("leaf", width=26, height=44, true_height_mm=10)
def leaf(pen: Pen) -> None:
    """One narrow leaf with stalk, midrib and a few side ribs."""
    piece(pen, [(13, 42.6), (6.4, 35), (2.4, 25.6), (3.4, 16.6), (8.6, 11.2), (13, 10.4),
                (17.4, 11.2), (22.6, 16.6), (23.6, 25.6), (19.6, 35)], 1)
    for points in ([(13, 35), (13, 9)], [(18.6, 20.6), (13, 15), (7.4, 20.6)],
                   [(18, 29), (13, 24), (8, 29)]):
        shapes.polyline(pen, points)
        pen.paint(Ink.GAP, 2.2)
    shapes.bar(pen, 13, 10, 13, 2.4, 3.6)


@icon("lemon", width=46, height=40, true_height_mm=9.5)
def lemon(pen: Pen, fill: float = 1.0) -> None:
    """A lemon with its nipple end; halved, its cut face with the segments."""
    if is_half(fill):
        rx, ry = halved(pen, 23, 20, 25, 22)
        wedges(pen, 23, 25, rx - 4, ry - 3, 6)
        return
    outline = [(43.5, 20), (39.5, 23.5), (34, 31.5), (23, 36), (11, 32.5), (4, 23.5),
               (2.4, 20), (4, 16.5), (11, 7.5), (23, 4), (34, 8.5), (39.5, 16.5)]
    if piece(pen, outline, fill):
        smooth(pen, [(10, 19), (13.5, 26.5), (20, 30.2)], closed=False)
        pen.paint(Ink.GAP, 2.4)
        for x, y in ((27, 14), (32, 20), (21, 11)):
            dot(pen, x, y, 1.3, Ink.PAPER)


@icon("onion", width=42, height=46, true_height_mm=10.5)
def onion(pen: Pen, fill: float = 1.0) -> None:
    """An onion with root hairs and a dry neck; halved, its rings."""
    if is_half(fill):
        rx, ry = halved(pen, 21, 18.6, 27, 20)
        for share, ink in ((0.72, Ink.FOOD), (0.5, Ink.PAPER), (0.26, Ink.FOOD)):
            shapes.ellipse(pen, 21, 27, rx * share, ry * share)
            pen.paint(ink)
        for x in (17, 21, 25):
            shapes.bar(pen, x, 7, x + (x - 21) * 0.3, 3, FINE)
        return
    outline = [(19, 43.5), (18, 37), (12, 32.5), (5, 26.5), (2.6, 19), (6, 11), (13, 6.6),
               (21, 6), (29, 6.6), (36, 11), (39.4, 19), (37, 26.5), (30, 32.5), (24, 37),
               (23, 43.5)]
    if piece(pen, outline, fill):
        for side in (-1, 1):
            smooth(pen, [(21 + side * 1.4, 34), (21 + side * 7.5, 24), (21 + side * 6, 11)],
                   closed=False)
            pen.paint(Ink.GAP, 2)
        for x in (17, 21, 25):
            shapes.bar(pen, x, 6, x + (x - 21) * 0.4, 2, FINE)


@icon("tomato", width=44, height=42, true_height_mm=9.5)
def tomato(pen: Pen, fill: float = 1.0) -> None:
    """A tomato with its star of green; halved, its chambers."""
    if is_half(fill):
        rx, ry = halved(pen, 22, 19.4, 26, 22)
        wedges(pen, 22, 26, rx - 5, ry - 3.2, 3)
        return
    outline = [(22, 33), (13, 35), (4.5, 28.5), (2.6, 18), (8, 7), (22, 2.6), (36, 7),
               (41.4, 18), (39.5, 28.5), (31, 35)]
    if piece(pen, outline, fill):
        smooth(pen, [(8, 16), (9, 23), (12, 27)], closed=False)
        pen.paint(Ink.GAP, 2.4)
        for x, y in ((10, 29.5), (15, 24.5), (29, 24.5), (34, 29.5)):
            for ink, width in ((Ink.GAP, 6.4), (Ink.LINE, 3)):
                shapes.polyline(pen, [(22, 32.5), (x, y)])
                pen.paint(ink, width)
        shapes.bar(pen, 22, 32, 24, 39.4, 3.4)


@icon("potato", width=48, height=36, true_height_mm=8.5)
def potato(pen: Pen, fill: float = 1.0) -> None:
    """A lumpy potato with eyes."""
    outline = [(45.4, 18), (42, 28), (32, 32.6), (21, 31), (10, 32), (3, 24), (3, 13),
               (10, 5), (22, 3), (34, 4.4), (42, 9)]
    if piece(pen, outline, fill):
        for x, y in ((11, 21), (22, 12), (33, 23), (36, 12), (22, 25)):
            shapes.polyline(pen, [(x - 1.2, y - 0.6), (x + 1.2, y + 0.6)])
            pen.paint(Ink.GAP, 2.2)


@icon("chunk", width=40, height=36, true_height_mm=9.5)
def chunk(pen: Pen, fill: float = 1.0) -> None:
    """A thick piece cut off something solid, round at the left, its cut face to the right."""
    left, right, base, top, back, r = 9.4, 28.0, 2.6, 23.0, 10.0, 7.0
    arcs = ((left + back, top + back - r, 90), (left, top - r, 135), (left, base + r, 180),
            (left, base + r, 225))
    round_end = [shapes.on_ellipse(cx, cy, r, r, start + 9 * i)
                 for cx, cy, start in arcs for i in range(6)]

    def face(x: float) -> list[Point]:
        return [(x, base), (x + back, base + back), (x + back, top + back), (x, top)]

    if fill < 1:
        rest = [*face(right)[:3], *round_end]
        edges = zip(rest, [*rest[1:], rest[0]], strict=True)
        dashed(pen, [(ax + (bx - ax) * i / 16, ay + (by - ay) * i / 16)
                      for (ax, ay), (bx, by) in edges for i in range(16)])
    if fill <= 0:
        return
    cut = face(left - r + (right - left + r) * min(fill, 1.0))
    body, crease = [*cut[:3], *round_end], [(left + 1, top), cut[3]]
    for path, ink in ((body, Ink.FOOD), (body, Ink.LINE), (crease, Ink.GAP), (cut, Ink.PAPER),
                      (cut, Ink.LINE)):
        shapes.polyline(pen, path, closed=True)
        pen.paint(ink)


BANANA: tuple[Point, ...] = (
    (3, 33), (7.4, 31.6), (10, 23.5), (17, 17.4), (27, 15.4), (37, 18), (44, 22.4), (46.8, 20),
    (44.5, 13.5), (36, 6.4), (25, 3.2), (13, 6.6), (5.4, 15), (2.4, 25),
)


@icon("banana", width=50, height=36, true_height_mm=9)
def banana(pen: Pen, fill: float = 1.0) -> None:
    """A bent banana with its stalk."""
    if piece(pen, BANANA, fill):
        smooth(pen, [(7, 24), (13.5, 14), (25, 9.4), (36, 12.4)], closed=False)
        pen.paint(Ink.GAP, 2)
        shapes.bar(pen, 43.6, 17.6, 46, 20, 4)


@icon("clove", width=30, height=40, true_height_mm=8)
def clove(pen: Pen) -> None:
    """A clove of garlic: a bent drop with a dry tip and a flat foot."""
    piece(pen, [(20, 38), (13, 30), (5.4, 21), (3, 11.5), (8, 4), (16, 3), (22, 4.4),
                (26.6, 13), (25, 22), (21.4, 30)], 1)
    smooth(pen, [(18.5, 31), (13.4, 20), (13.4, 8)], closed=False)
    pen.paint(Ink.GAP, 2.2)


def fish_body(pen: Pen, fill: float = 1.0) -> None:
    """The family's fish, 54 by 30, head to the left."""
    outline = [(2.4, 15), (9, 22), (20, 26), (31, 23), (40, 17.4), (50, 26.6), (49, 15),
               (50, 3.4), (40, 12.6), (31, 7), (20, 4), (9, 8)]
    if not piece(pen, outline, fill):
        return
    dot(pen, 10, 17, 2, Ink.PAPER)
    smooth(pen, [(16, 22), (18.4, 15), (16, 8)], closed=False)
    pen.paint(Ink.GAP, 2.2)
    for x in (25, 32):
        smooth(pen, [(x, 18.4), (x + 2, 15), (x, 11.6)], closed=False)
        pen.paint(Ink.GAP, 2)


@icon("fish", width=54, height=30, true_height_mm=9)
def fish(pen: Pen, fill: float = 1.0) -> None:
    """A whole small fish."""
    fish_body(pen, fill)


@icon("fish-piece", width=44, height=34, true_height_mm=9.5)
def fish_piece(pen: Pen, fill: float = 1.0) -> None:
    """The middle piece of a fish, its backbone in its cut face, between its head and its tail."""
    # a short thick fish: three in a row have to stand on a chart
    pen = TurnedPen(pen, 0, 0, 0, 44 / 60, 1)
    smooth(pen, [(15.4, 27), (9, 25), (4, 20), (2.2, 16), (4, 12), (9, 7), (15.4, 5)], closed=False)
    pen.line(15.4, 27)
    pen.paint(Ink.LINE)
    dot(pen, 8.4, 18.4, 2)
    shapes.polyline(pen, [(45.4, 19.4), (49, 17.6), (57, 26), (55, 16), (57, 6), (49, 14.4),
                          (45.4, 12.6)], closed=True)
    pen.paint(Ink.LINE)
    if fill > 0:
        shapes.polyline(pen, [(26, 28), (35.4, 33), (37, 26)], closed=True)
        pen.paint(Ink.SOLID)
    outline = [(24.4, 29), (30, 28.6), (36, 26.6), (40.6, 23.6), (41.6, 16), (40.6, 8.4),
               (36, 5.4), (30, 3.4), (24.4, 3)]
    piece(pen, outline, fill)
    for ink in (Ink.PAPER, Ink.LINE):
        shapes.ellipse(pen, 24.4, 16, 5, 13)
        pen.paint(ink)
    dot(pen, 24.4, 16, 2)
    for y in (8, 24):
        shapes.bar(pen, 24.4, 16, 24.4, y, FINE)


@icon("handful", width=52, height=44, true_height_mm=11)
def handful(pen: Pen) -> None:
    """A cupped hand from the side, holding a heap of food."""
    # single grains, so that heap and hand stay two things where both print black
    for y, xs in ((20.6, (12.6, 20, 27.4, 34.8)), (26, (13.4, 20.8, 28.2)),
                  (31.4, (17, 24.4, 31.8)), (36.8, (20.6, 28))):
        for i, x in enumerate(xs):
            shapes.ellipse(TurnedPen(pen, x, y, 18 if i % 2 else -14), 0, 0, 3.2, 2)
            pen.paint(Ink.FOOD)
    cupped_hand(pen)
    limb(pen, [(44, 16.6), (38.6, 20.6), (34, 26)], 6.2, 1.8)


@icon("handful-leaves", width=52, height=44, true_height_mm=11)
def handful_leaves(pen: Pen) -> None:
    """A cupped hand from the side, holding leaves."""
    for x, y, turn in ((14, 27, 125), (24.6, 30.6, 90), (35, 28, 55)):
        leaf = TurnedPen(pen, x, y, turn)
        leaf.move(-10.5, 0)
        leaf.curve(-4, -8, 4, -8, 10.5, 0)
        leaf.curve(4, 8, -4, 8, -10.5, 0)
        leaf.close()
        pen.paint(Ink.FOOD)
        leaf.move(-8, 0)
        leaf.line(6, 0)
        pen.paint(Ink.GAP, 1.7)
    cupped_hand(pen)
    limb(pen, [(44, 16.6), (38.6, 20.6), (34, 26)], 6.2, 1.8)


@icon("glass", width=32, height=48, true_height_mm=12)
def glass(pen: Pen, fill: float = 1.0, of: str = "plain") -> None:
    """A straight tall glass, filled to the amount."""
    shapes.rounded(pen, 4, 2.4, 24, 43, 3)
    pen.paint(Ink.PAPER)
    level = 3 + 39 * min(max(fill, 0.0), 1.0)
    if fill > 0:
        def filled() -> None:
            shapes.polyline(pen, [(4, level), (4, 5), (7, 2.4), (25, 2.4), (28, 5), (28, level)],
                            closed=True)

        hold(pen, Filled(filled, 16, 2.4, level, lambda _y: 12.0), of)
    if level > 20 and of == "plain":
        shapes.polyline(pen, [(9.4, 9), (9.4, level - 6)])
        pen.paint(Ink.GAP, 2.2)
    pen.move(3.4, 45.6)
    pen.line(4, 5.4)
    pen.curve(4, 3.6, 5.2, 2.4, 7, 2.4)
    pen.line(25, 2.4)
    pen.curve(26.8, 2.4, 28, 3.6, 28, 5.4)
    pen.line(28.6, 45.6)
    pen.paint(Ink.LINE)


@icon("ladle", width=44, height=52, true_height_mm=13)
def ladle(pen: Pen, fill: float = 1.0, of: str = "plain") -> None:
    """A deep round ladle with a long handle, hooked at its end."""
    cx, rim, rx, depth = 17.0, 20.0, 14.6, 17.4
    smooth(pen, [(31, 20), (34, 34), (35, 44), (37.6, 48.6), (41, 46), (40.6, 42)], closed=False)
    pen.paint(Ink.LINE, 3.6)

    def hollow(level: float) -> None:
        angle = math.degrees(math.asin(1 - level))
        pen.move(*shapes.on_ellipse(cx, rim, rx, depth, 180 + angle))
        shapes.arc_on(pen, cx, rim, rx, depth, 180 + angle, 360 - angle)
        pen.close()

    hollow(1)
    pen.paint(Ink.PAPER)
    if fill > 0:
        hold(pen, part_of_ellipse(pen, cx, rim, rx, depth, min(fill, 1.0) / 2), of)
    hollow(1)
    pen.paint(Ink.LINE, STROKE * 1.2)


@icon("weight", true_height_mm=10)
def weight(pen: Pen) -> None:
    """Kitchen scales: a plate on a body with a dial and its hand."""
    pen.move(4, 44.5)
    pen.curve(7, 38, 15, 36.5, 24, 36.5)
    pen.curve(33, 36.5, 41, 38, 44, 44.5)
    pen.close()
    pen.paint(Ink.SOLID)
    shapes.bar(pen, 24, 37, 24, 32, 5)
    smooth(pen, [(17, 33), (31, 33), (36, 28), (41, 8), (38, 2.6), (10, 2.6), (7, 8), (12, 28)])
    pen.paint(Ink.SOLID)
    dot(pen, 24, 17, 10.4, Ink.PAPER)
    shapes.bar(pen, 24, 17, 28.6, 22.6, 3)
    dot(pen, 24, 17, 2.4)


@icon("jug", true_height_mm=11)
def jug(pen: Pen) -> None:
    """A jug tilted to pour water."""
    poured_jug(pen)
    drops(pen, [(5.4, 13), (5.4, 2)], 8.8)


def poured_jug(pen: Pen) -> None:
    """The family's jug, tilted, its spout at (5, 26)."""
    turned = TurnedPen(pen, 36, 14, 48, 0.92)
    smooth(turned, [(9, 26), (19, 27), (20, 14), (10.5, 8)], closed=False)
    turned.paint(Ink.LINE, 4)
    smooth(turned, [(-8, 0), (8, 0), (13, 4), (12.4, 14), (9, 22), (9.6, 32), (-8, 32), (-13, 33),
                    (-9.4, 24), (-12.4, 14), (-13, 4)])
    turned.paint(Ink.SOLID)
