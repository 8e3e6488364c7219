"""Work without fire: what hands, bowls and tools do with the food."""

from __future__ import annotations

from cards.icons import marks, shapes
from cards.icons.counted import poured_jug
from cards.icons.cut import piece
from cards.icons.inside import foods
from cards.icons.marks import TurnedPen, cupped_hand, dot, limb, mound, smooth
from cards.icons.measures import cup
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.registry import icon
from cards.icons.vessels import (
    arrow_head,
    bowl,
    bubbles,
    fork,
    grains,
    lid,
    pot,
    tub,
    water_line,
)


@icon("wash")
def wash(pen: Pen) -> None:
    """Food in a bowl under water poured from a jug."""
    bowl(pen, 20, 1.6, 15, 17.8)
    for x in (12.6, 27.4):
        dot(pen, x, 15.2, 6.2, Ink.FOOD)
    poured_jug(TurnedPen(pen, 18.6, 16.4, 0, 0.66))
    limb(pen, [(23.4, 34.4), (20.6, 31), (20, 22)], 3.8, 1.2)
    marks.drops(pen, [(11.6, 24.4)], 8)


@icon("soak")
def soak(pen: Pen) -> None:
    """Grains lying in a bowl, the water line well above them."""
    bowl(pen, 24, 4, 40, 21)
    water_line(pen, 4.4, 43.6, 33)
    grains(pen, [(18, 11.4, 10), (29, 11.6, -20), (14, 17.6, -30), (23.6, 17.4, 25),
                 (33.4, 17.8, 40), (18.6, 23.6, 20), (28.6, 23.6, -15)], 3.9, 2.5)


@icon("drain")
def drain(pen: Pen) -> None:
    """Food in a strainer, water dropping through its holes into a bowl."""
    mound(pen, 19, 37, 27, 8.6)
    pen.paint(Ink.FOOD)
    shapes.bar(pen, 33, 35, 45, 38.6, 4.4)
    pen.move(3, 36)
    shapes.arc_on(pen, 19, 36, 16, 12.6, 180, 360)
    pen.close()
    pen.paint(Ink.SOLID)
    for x, y in ((11, 32.4), (19, 32.4), (27, 32.4), (15, 27.8), (23, 27.8)):
        dot(pen, x, y, 1.5, Ink.PAPER)
    bowl(pen, 19, 1.6, 14, 16)
    marks.drops(pen, [(11, 12.6), (19, 9.6), (27, 12.6)], 8)


@icon("strain")
def strain(pen: Pen) -> None:
    """A cup pouring through a strainer, what runs through kept in a bowl."""
    cup(TurnedPen(pen, 46, 30.6, 116, 0.44), 0)
    smooth(pen, [(23, 35.6), (21.4, 38.4), (17.4, 36), (15.4, 28), (18.8, 28), (19.8, 33.4)])
    pen.paint(Ink.FOOD)
    pen.move(3.4, 26)
    shapes.arc_on(pen, 16.4, 26, 13, 10, 180, 360)
    pen.close()
    pen.paint(Ink.SOLID)
    shapes.bar(pen, 29, 25, 44, 25, 4)
    for x, y in ((8.4, 23.2), (13.8, 23.2), (19, 23.2), (24.4, 23.2), (11, 19.4), (16.4, 19.4),
                 (21.8, 19.4)):
        dot(pen, x, y, 1.4, Ink.PAPER)
    bowl(pen, 16.4, 1.6, 13, 15, 7)
    for x in (11.4, 16.4, 21.4):
        shapes.drop(pen, x, 8.6, 5.6)
        pen.paint(Ink.FOOD)


@icon("grind")
def grind(pen: Pen) -> None:
    """A mortar with thick walls, grains in it, and the pestle."""
    pen.move(3, 30)
    pen.curve(3, 14, 11, 8, 15, 7)
    pen.line(33, 7)
    pen.curve(37, 8, 45, 14, 45, 30)
    pen.close()
    pen.paint(Ink.SOLID)
    shapes.rounded(pen, 11, 2.4, 26, 6, 2.4)
    pen.paint(Ink.SOLID)
    pen.move(8, 31.6)
    pen.curve(8, 20, 15, 12, 24, 12)
    pen.curve(33, 12, 40, 20, 40, 31.6)
    pen.close()
    pen.paint(Ink.PAPER)
    grains(pen, [(13.4, 23.6, -40), (18, 18, -20), (24, 15.6, 10), (19, 25.4, 20), (33.4, 20.6, 40),
                 (35.4, 26.6, 60)], 2.9, 2)
    shapes.bar(pen, 28, 26, 38, 44, 5)
    shapes.bar(pen, 26, 22.4, 29, 27.8, 8)


@icon("mix")
def mix(pen: Pen, of: str = "", also: str = "") -> None:
    """A spoon stirring round in a bowl of food; ``of`` and ``also`` name what is stirred in."""
    bowl(pen, 23, 1.6, 21.6, 20.4, 0 if of else 17)
    if of:
        foods(pen, (6.6, 5.6, 20.4, 18), of, also)
    marks.spoon(pen, 33.4 if of else 29, 14.6, 38, 70 if of else 66)
    pen.move(*shapes.on_ellipse(19, 36, 15.6, 7.6, 40))
    shapes.arc_on(pen, 19, 36, 15.6, 7.6, 40, 275)
    pen.paint(Ink.LINE, 3.4)
    arrow_head(pen, 30.4, 30.4, 14, 10)


@icon("beat")
def beat(pen: Pen) -> None:
    """An egg yolk in a bowl, a fork beating it, the broken shell above."""
    bowl(pen, 23, 1.6, 25, 20.4)
    dot(pen, 15.6, 12.6, 6, Ink.FOOD)
    fork(pen, 25, 10.6, 37, 60)
    turned = TurnedPen(pen, 12.4, 40, 24)
    turned.move(-9, 2)
    shapes.arc_on(turned, 0, 0, 9, 10.6, 170, 370)
    for x, y in ((5.4, -1.4), (1.8, 4), (-1.8, -1.4), (-5.4, 4)):
        turned.line(x, y)
    turned.close()
    turned.paint(Ink.LINE)


@icon("knead")
def knead(pen: Pen) -> None:
    """Two fists pressing down on a lump of dough."""
    shapes.bar(pen, 3.6, 3.6, 44.4, 3.6, 3.6)
    smooth(pen, [(3, 8), (2.6, 16), (7, 22), (13, 20), (24, 17), (35, 20), (41, 22), (45.4, 16),
                 (45, 8), (36, 7), (12, 7)])
    pen.paint(Ink.FOOD)
    for side in (-1.0, 1.0):
        arm = TurnedPen(pen, 24, 0, 0, side, 1)
        fist = [(1.4, 26), (1.4, 19), (4, 16), (14, 16.4), (16.4, 20), (16.4, 27), (13, 31.6),
                (5, 31)]
        smooth(arm, fist)
        arm.paint(Ink.GAP, 3.6)
        limb(arm, [(18.6, 42.6), (14.8, 36), (10, 28)], 8)
        smooth(arm, fist)
        arm.paint(Ink.SOLID)
        for x in (5.2, 9, 12.8):
            shapes.polyline(arm, [(x, 15.4), (x, 20.4)])
            arm.paint(Ink.GAP, FINE)


@icon("ferment", points=True)
def ferment(pen: Pen) -> None:
    """Batter in a vessel, an arrow, and the same batter risen over a mark at its old level."""
    level, risen = 12.4, 27.6
    for cx, top in ((11.4, level), (36.6, risen)):
        tub(pen, cx, 2.4, 31, 9.4, 8.4, top)
    for start in (24.4, 29.4, 34.4, 39.4, 44.4):
        for ink, width in ((Ink.GAP, 4.8), (Ink.LINE, 2.2)):
            shapes.polyline(pen, [(start, level), (start + 1.6, level)])
            pen.paint(ink, width)
    bubbles(pen, [(31.6, 18, 1.7), (41.4, 18.4, 1.7), (32, 24, 1.7), (41.4, 24.4, 1.7),
                  (33, 6.6, 1.5), (40, 6.6, 1.5)])
    shapes.polyline(pen, [(36.6, 15.6), (36.6, 20)])
    pen.paint(Ink.GAP, 2.6)
    shapes.polyline(pen, [(32.6, 20), (40.6, 20), (36.6, 25.6)], closed=True)
    pen.paint(Ink.PAPER)
    smooth(pen, [(11.4, 36), (18, 41), (28, 41)], closed=False)
    pen.paint(Ink.LINE, 3.4)
    arrow_head(pen, 37, 40, -8, 9)


@icon("sprout")
def sprout(pen: Pen) -> None:
    """Three seeds, each with a shoot curling out of its end, one with two leaves."""
    for x, y in ((10.0, 9.0), (32.6, 9.0), (15.0, 28.6)):
        smooth(pen, [(x + 5, y - 1), (x + 10, y - 0.4), (x + 13, y + 4), (x + 11, y + 9)],
               closed=False)
        pen.paint(Ink.LINE, 3.4)
        seed = TurnedPen(pen, x, y, -14)
        shapes.ellipse(seed, 0, 0, 7.8, 5.8)
        seed.paint(Ink.FOOD)
        smooth(seed, [(-3.4, 1.6), (0, 2.6), (3.4, 1.6)], closed=False)
        seed.paint(Ink.GAP, 2)
    for x, y in ((19.6, 45), (36, 44)):
        shapes.leaf(pen, 26, 36.4, x, y, 0.36)
        pen.paint(Ink.SOLID)


@icon("shape")
def shape(pen: Pen) -> None:
    """A hand rolling a ball of food on a board, two finished balls beside it."""
    shapes.bar(pen, 3.6, 3, 44.4, 3, 3.4)
    dot(pen, 17.6, 15.4, 9, Ink.FOOD)
    for x in (32.4, 41.6):
        dot(pen, x, 10.4, 4, Ink.FOOD)
    cupped_hand(TurnedPen(pen, 1, 44.4, 2, 0.9, -0.9))
    limb(pen, [(36, 35), (33.4, 29), (30.6, 23)], 6)
    smooth(pen, [(7.4, 28), (13.6, 35.6), (24, 37.4)], closed=False)
    pen.paint(Ink.GAP, 2)


@icon("squeeze")
def squeeze(pen: Pen) -> None:
    """Half a lemon held in the fingers, its cut face to us, its juice dropping."""
    cx, cy = 20.0, 28.6
    dot(pen, cx, cy, 17.4, Ink.FOOD)
    dot(pen, cx, cy, 14.4, Ink.PAPER)
    for i in range(6):
        start = 60 * i + 8
        pen.move(*shapes.on_ellipse(cx, cy, 3.2, 3.2, start + 22))
        pen.line(*shapes.on_ellipse(cx, cy, 12.4, 12.4, start))
        shapes.arc_on(pen, cx, cy, 12.4, 12.4, start, start + 44)
        pen.close()
        pen.paint(Ink.FOOD)
    limb(pen, [(41, 34), (41.6, 29), (41, 24)], 7)
    for y, reach in ((36.4, 29), (29.6, 27), (22.8, 29)):
        limb(pen, [(41, y - 1), (36, y), (reach, y - 1)], 5.2, 1)
    marks.drops(pen, [(11, 2), (20, 0.6), (29, 2)], 8.6)


@icon("debone")
def debone(pen: Pen) -> None:
    """A fish slit open, and its backbone with the ribs lifted out by two fingers."""
    piece(pen, [(3, 10), (10, 15.4), (19, 17.4), (29, 15.4), (35.4, 11.6), (44, 18), (42.8, 10),
                (44, 2.4), (35.4, 8.6), (29, 4.8), (19, 3), (10, 4.8)], 1)
    dot(pen, 9.4, 11.6, 1.5, Ink.PAPER)
    smooth(pen, [(15, 9.8), (22, 10.8), (31, 10)], closed=False)
    pen.paint(Ink.GAP, 3.6)
    shapes.bar(pen, 4, 24.4, 34, 35.4, 3.4)
    for i in range(5):
        x, y, h = 7.4 + i * 5.4, 25.6 + i * 2.0, 4.4 + i * 0.6
        shapes.polyline(pen, [(x - 3.4, y + h), (x, y), (x + 1.4, y - h)])
        pen.paint(Ink.LINE, 2.1)
    limb(pen, [(43, 42), (41, 40.4)], 8.6)
    limb(pen, [(41, 44), (34, 43), (32, 38.6)], 4.4)
    limb(pen, [(44, 39), (40, 33.4), (35, 33)], 4.4)


@icon("add")
def add(pen: Pen) -> None:
    """A cup tipping food into a pot."""
    pot(pen, base=2.6, rim=18, level=9)
    cup(TurnedPen(pen, 46.4, 27, 118, 0.56), 0)
    grains(pen, [(17.6, 31, 60), (12.6, 27, 70), (17.4, 24.4, 80), (13, 18.4, 80), (20, 17, 60)])


@icon("rest")
def rest(pen: Pen) -> None:
    """A bowl of food left standing, covered."""
    bowl(pen, 24, 2, 27, 20.6, 22)
    lid(pen, 29.6, half=21.4, height=10)


@icon("cool")
def cool(pen: Pen) -> None:
    """A bowl of food, its steam getting less and less, an arrow pointing down."""
    bowl(pen, 24, 1.6, 19, 21.4, 16)
    for x, height in ((8, 21.0), (17, 14.0), (26, 7.0)):
        marks.steam(pen, (x,), 23.4, height)
    shapes.bar(pen, 38, 43, 38, 32, 5.6)
    arrow_head(pen, 38, 22.4, -90, 11.6)


@icon("serve")
def serve(pen: Pen) -> None:
    """A small spoon of food lifted out of a small bowl."""
    bowl(pen, 21, 1.6, 21, 18.6, 17)
    mound(pen, 17, 33, 18, 9)
    pen.paint(Ink.FOOD)
    shapes.bar(pen, 26, 32, 45, 42, 3.8)
    pen.move(6, 32.4)
    shapes.arc_on(pen, 17, 32.4, 11, 7, 180, 360)
    pen.close()
    pen.paint(Ink.SOLID)
