"""People: the child as it grows, the mother, who watches, who helps, who is kept from danger."""

from __future__ import annotations

from cards.icons import shapes, vessels
from cards.icons.marks import TurnedPen, dish, dot, flames, limb, smooth, steam
from cards.icons.pen import Ink, Pen
from cards.icons.registry import icon


def child_head(pen: Pen, x: float, y: float, r: float = 8.0) -> None:
    """A child's round head with one curl of hair."""
    dot(pen, x, y, r)
    smooth(pen, [(x - 1, y + r - 1), (x + 0.4, y + r + 1.8), (x + 3, y + r + 1.4)], closed=False)
    pen.paint(Ink.LINE, 1.9)


def eating_child(pen: Pen, x: float, y: float, r: float) -> None:
    """A child's face towards us, its mouth wide open, and under it the shoulders."""
    smooth(pen, [(x - r * 1.06, 2.4), (x - r * 0.9, y - r - 3), (x, y - r + 1.4),
                 (x + r * 0.9, y - r - 3), (x + r * 1.06, 2.4)])
    pen.paint(Ink.SOLID)
    shapes.circle(pen, x, y, r)
    pen.paint(Ink.GAP, 3.6)
    for side in (-1, 1):
        dot(pen, x + side * r, y - 0.6, r * 0.22)
    child_head(pen, x, y, r)
    for side in (-1, 1):
        dot(pen, x + side * r * 0.42, y + r * 0.28, r * 0.15, Ink.PAPER)
    shapes.ellipse(pen, x, y - r * 0.44, r * 0.44, r * 0.38)
    pen.paint(Ink.PAPER)


@icon("child-sits")
def child_sits(pen: Pen) -> None:
    """A baby sitting on the ground by itself, legs stretched out."""
    child_head(pen, 20, 34.4, 9.4)
    limb(pen, [(18.5, 19), (17.5, 10.5)], 14)
    limb(pen, [(17, 7), (29, 7), (39, 6.4)], 8.4)
    limb(pen, [(40, 7), (42, 12)], 5.6)
    limb(pen, [(19.6, 20), (28, 17.4), (35, 20.6)], 5.6, 1.8)


@icon("child-stands")
def child_stands(pen: Pen) -> None:
    """A child standing, holding on to a stool."""
    child_head(pen, 16, 36, 8.2)
    limb(pen, [(15, 23), (14.6, 17)], 11.4)
    limb(pen, [(12.2, 14), (10, 5)], 6)
    limb(pen, [(10, 4.8), (12, 4.8)], 5)
    limb(pen, [(17.6, 14), (21, 5)], 6)
    limb(pen, [(21, 4.8), (24, 4.8)], 5)
    shapes.rounded(pen, 28, 16.6, 18, 4.4, 2)
    pen.paint(Ink.SOLID)
    for x in (31, 43):
        shapes.bar(pen, x, 17, x, 4.2, 3.6)
    limb(pen, [(16, 24.6), (24, 25.4), (32, 23.4)], 5, 1.5)


def walking_child(pen: Pen) -> None:
    """A child in mid step to the right, arms out for balance."""
    child_head(pen, 24.6, 36, 8.2)
    limb(pen, [(24, 23), (23.4, 16.6)], 12)
    limb(pen, [(21.4, 14), (18.4, 9), (12, 5.4)], 6.4)
    limb(pen, [(12, 5.4), (10.4, 7.6)], 5)
    limb(pen, [(26, 14), (29.6, 9), (31, 5)], 6.4)
    limb(pen, [(31, 4.8), (35.6, 4.8)], 5)
    limb(pen, [(22, 24.4), (13, 22), (6, 25)], 5)
    limb(pen, [(26, 24.4), (35, 22.6), (42, 26.6)], 5)


@icon("child-walks")
def child_walks(pen: Pen) -> None:
    """A child walking, one foot forward, arms out."""
    walking_child(pen)


@icon("breast-milk")
def breast_milk(pen: Pen) -> None:
    """A mother holding her baby to her breast."""
    # hair knot, bent head, then the body with the lap it sits on
    dot(pen, 13, 42, 3.6)
    dot(pen, 20, 38, 7.6)
    smooth(pen, [(17, 29), (24, 28), (28, 23), (30, 14), (42, 8), (43, 3), (36, 2), (10, 2),
                 (5, 5), (6, 18), (10, 26)])
    pen.paint(Ink.SOLID)
    # the baby lies across, its head at the breast
    bundle = [(34, 22), (27, 16), (14, 14)]
    for ink, width in ((Ink.GAP, 19.0), (Ink.LINE, 15.0), (Ink.GAP, 10.2)):
        smooth(pen, bundle, closed=False)
        pen.paint(ink, width)
    dot(pen, 33, 26, 8.4, Ink.PAPER)
    dot(pen, 33, 26, 6.6)
    limb(pen, [(7.4, 23), (6.6, 10), (15, 5), (31, 7)], 5.6, 1.4)
    shapes.drop(pen, 41, 35, 10.5)
    pen.paint(Ink.FOOD)


@icon("watch")
def watch(pen: Pen) -> None:
    """A grown-up sitting beside a child that eats from a bowl."""
    dot(pen, 12.4, 38, 7)
    limb(pen, [(9.8, 25), (9.2, 11)], 12.6)
    limb(pen, [(8.6, 6.2), (16, 6.2)], 8)
    limb(pen, [(11, 25.4), (15.4, 18), (20.6, 16)], 4.6, 1.5)
    child_head(pen, 37.4, 27, 6.8)
    limb(pen, [(40, 14.6), (40.6, 9)], 10)
    limb(pen, [(41, 5), (35.6, 5)], 5.6)
    dish(pen, 26, 1.6, 13, 5)
    limb(pen, [(39.4, 16.4), (32.6, 16), (28.6, 21.4)], 4.2, 1.4)


@icon("health-worker")
def health_worker(pen: Pen) -> None:
    """A health worker with a stethoscope round the neck and a plus on the coat."""
    dot(pen, 24, 37, 8.6)
    pen.move(4, 2.6)
    pen.line(4, 13)
    pen.curve(4, 22, 10, 25.4, 18, 25.4)
    pen.line(30, 25.4)
    pen.curve(38, 25.4, 44, 22, 44, 13)
    pen.line(44, 2.6)
    pen.close()
    pen.paint(Ink.SOLID)
    smooth(pen, [(16, 27), (17, 19), (22, 16), (27, 19), (28, 27)], closed=False)
    pen.paint(Ink.GAP, 2.4)
    shapes.polyline(pen, [(22, 16), (22, 9.6)])
    pen.paint(Ink.GAP, 2.4)
    dot(pen, 22, 8.6, 3.4, Ink.PAPER)
    for points in ([(30.6, 13), (39, 13)], [(34.8, 8.8), (34.8, 17.2)]):
        shapes.polyline(pen, points)
        pen.paint(Ink.GAP, 3.2)


@icon("hot-pot-away")
def hot_pot_away(pen: Pen) -> None:
    """A steaming pot on the fire, and a child reaching for it, kept away by a thick bar."""
    flames(pen, [(5.4, 7, 8), (12, 7.6, 10), (18.6, 7, 8)], 1.4)
    small = TurnedPen(pen, 0.4, 5, 0, 0.48, 0.62)
    vessels.pot(small, level=29)
    vessels.lid(small, 33)
    steam(pen, (7, 17), 34, 11)
    shapes.bar(pen, 25, 3, 25, 45, 3.8)
    child_head(pen, 38.6, 34.4, 7.4)
    limb(pen, [(40.4, 22), (40.6, 16)], 9.4)
    limb(pen, [(38.4, 13), (36.4, 5)], 5.4)
    limb(pen, [(36.4, 4.6), (34, 4.6)], 4.6)
    limb(pen, [(43, 13), (44, 5)], 5.4)
    limb(pen, [(44, 4.6), (41.8, 4.6)], 4.6)
    limb(pen, [(40, 22.6), (35, 21.4), (30.4, 25.4)], 4.4)
