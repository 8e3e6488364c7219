"""What must not be given.

Forbidden things stand under a thick ring with a bar from upper left to lower
right. Each is one thing, as large as the ring takes, and what tells it apart
lies off the bar.
"""

from __future__ import annotations

from collections.abc import Callable

from cards.icons import shapes
from cards.icons.marks import TurnedPen, dot, smooth, steam
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.people import eating_child
from cards.icons.registry import icon


def forbid(pen: Pen, thing: Callable[[Pen], None], degrees: float = 0.0) -> None:
    """One large thing about the origin, and over it ring and bar, kept apart from it by white."""
    thing(TurnedPen(pen, 24, 24, degrees))
    ends = (shapes.on_ellipse(24, 24, 20.4, 20.4, 135), shapes.on_ellipse(24, 24, 20.4, 20.4, 315))
    shapes.circle(pen, 24, 24, 20.4)
    pen.paint(Ink.GAP, 6.4)
    shapes.polyline(pen, ends)
    pen.paint(Ink.GAP, 7.2)
    shapes.circle(pen, 24, 24, 20.4)
    pen.paint(Ink.LINE, 3.6)
    shapes.bar(pen, *ends[0], *ends[1], 3.6)


def _bee(pen: Pen) -> None:
    """A bee flying to the left, 16 wide about the origin."""
    for x, turn in ((-1.4, 26), (3.6, -14)):
        shapes.ellipse(TurnedPen(pen, x, 6, turn), 0, 0, 2.6, 4.4)
        pen.paint(Ink.SOLID)
    for ink in (Ink.GAP, Ink.SOLID):
        shapes.ellipse(pen, 1, 0, 8, 4.4)
        pen.paint(ink, 2.4)
    dot(pen, -7.4, -0.4, 2.8)
    for stripe in (-0.4, 3.6):
        shapes.polyline(pen, [(stripe, -5), (stripe, 5)])
        pen.paint(Ink.GAP, FINE)


def _honey(pen: Pen) -> None:
    shapes.rounded(pen, -16, -15.4, 18.4, 15, 3.4)
    pen.paint(Ink.SOLID)
    shapes.rounded(pen, -15, 1.2, 16.4, 3.6, 1.4)
    pen.paint(Ink.SOLID)
    for x, y in ((-10.8, -5.2), (-3.6, -5.2), (-7.2, -11.2)):
        cell = [shapes.on_ellipse(x, y, 3.5, 3.5, 60 * i + 30) for i in range(6)]
        shapes.polyline(pen, cell, closed=True)
        pen.paint(Ink.PAPER)
    _bee(TurnedPen(pen, 6.4, 6.8, -40, 0.96))


@icon("no-honey")
def no_honey(pen: Pen) -> None:
    """A jar with cells of the comb on it, and a bee flying to it, forbidden."""
    forbid(pen, _honey)


def _salt(pen: Pen) -> None:
    """A shaker upside down, 34 long, what it held falling out of the holes in its cap."""
    shapes.polyline(pen, [(-6.4, 17.6), (6.4, 17.6), (8.4, 15), (6.6, -2.6), (-6.6, -2.6),
                          (-8.4, 15)], closed=True)
    pen.paint(Ink.SOLID)
    # the facets of its glass
    for side in (-1, 1):
        shapes.polyline(pen, [(side * 3, 14.6), (side * 2.4, 4.6)])
        pen.paint(Ink.GAP, 2.2)
    pen.move(-7.8, -3.8)
    pen.curve(-7.6, -7.4, -4.6, -9.6, 0, -9.6)
    pen.curve(4.6, -9.6, 7.6, -7.4, 7.8, -3.8)
    pen.close()
    pen.paint(Ink.SOLID)
    for x, y in ((-3.8, -6.4), (0, -7.2), (3.8, -6.4)):
        dot(pen, x, y, 1.1, Ink.PAPER)
    for x, y, turn in ((-5.4, -12, 20), (0, -12.6, 45), (5.4, -12, 70), (-2.8, -15.8, 60),
                       (2.8, -15.8, 10)):
        shapes.rounded(TurnedPen(pen, x, y, turn), -1.4, -1.4, 2.8, 2.8, 0.4)
        pen.paint(Ink.SOLID)


@icon("no-salt")
def no_salt(pen: Pen) -> None:
    """A shaker upside down, grains falling out of it, forbidden."""
    forbid(pen, _salt, -45)


def _cube(pen: Pen, x: float, y: float, a: float) -> None:
    """A sugar cube seen from an edge, its foot at (x, y)."""
    w, h = a * 0.87, a * 0.5
    hexagon = [(x, y), (x + w, y + h), (x + w, y + a + h), (x, y + a + 2 * h), (x - w, y + a + h),
               (x - w, y + h)]
    for ink in (Ink.GAP, Ink.SOLID):
        shapes.polyline(pen, hexagon, closed=True)
        pen.paint(ink, 3)
    edge, top = FINE, y + a
    shapes.polyline(pen, [(x, top + edge), (x + w - edge * 1.6, top + h), (x, top + 2 * h - edge),
                          (x - w + edge * 1.6, top + h)], closed=True)
    pen.paint(Ink.PAPER)
    shapes.polyline(pen, [(x, y), (x, y + a)])
    pen.paint(Ink.GAP, FINE)


def _sugar(pen: Pen) -> None:
    _cube(pen, -6.2, -15.6, 9)
    sweet = TurnedPen(pen, 7.4, 7.4, -45)
    for side in (-1, 1):
        shapes.polyline(sweet, [(side * 4, 0), (side * 10.6, 4.6), (side * 10.6, -4.6)],
                        closed=True)
        pen.paint(Ink.SOLID)
    for ink, r in ((Ink.PAPER, 6.6), (Ink.SOLID, 5.4)):
        dot(sweet, 0, 0, r, ink)
    smooth(sweet, [(-2.6, -4.6), (0, 0), (2.6, 4.6)], closed=False)
    pen.paint(Ink.GAP, 2)


@icon("no-sugar")
def no_sugar(pen: Pen) -> None:
    """A cube of sugar and a sweet in its wrapper, forbidden."""
    forbid(pen, _sugar)


def _nuts(pen: Pen) -> None:
    peanut = TurnedPen(pen, -6.8, -6.8, -45)
    smooth(peanut, [(-13.6, 0), (-11.6, 5.2), (-5.4, 6.4), (0, 3.8), (5.4, 6), (10.8, 5),
                    (13.4, 0), (10.8, -5), (5.4, -6), (0, -3.8), (-5.4, -6.4), (-11.6, -5.2)])
    pen.paint(Ink.SOLID)
    for x, y in ((-9, 2), (-9, -2), (-5, 3.4), (-5, 0), (-5, -3.4), (5, 3.2), (5, 0), (5, -3.2),
                 (9, 2), (9, -2)):
        dot(peanut, x, y, 0.95, Ink.PAPER)
    almond = TurnedPen(pen, 3.4, 11.6, 100, 0.92)
    smooth(almond, [(-6.4, 0), (-3, 4), (2, 3.6), (7, 0), (2, -3.6), (-3, -4)])
    pen.paint(Ink.SOLID)
    for y in (-1.4, 1.4):
        shapes.polyline(almond, [(-3.4, y), (2.6, y * 0.8)])
        pen.paint(Ink.GAP, 1)
    dot(pen, 11.4, 4, 5)
    pen.move(*shapes.on_ellipse(11.4, 4, 3, 3, 150))
    shapes.arc_on(pen, 11.4, 4, 3, 3, 150, 80)
    pen.paint(Ink.GAP, FINE)


@icon("no-whole-nuts")
def no_whole_nuts(pen: Pen) -> None:
    """A peanut in its shell, an almond and a round nut, forbidden."""
    forbid(pen, _nuts)


def _skeleton(pen: Pen) -> None:
    shapes.bar(pen, -10, 0, 13, 0, 3.2)
    for x, h in ((5.6, 8.4), (10.2, 6)):
        shapes.bar(pen, x, -h, x, h, 2.6)
    shapes.polyline(pen, [(12.4, 0), (18, 6.4), (16, 0), (18, -6.4)], closed=True)
    pen.paint(Ink.SOLID)
    smooth(pen, [(-18, 0), (-15, 5.4), (-8.6, 9.4), (-8.6, -9.4), (-15, -5.4)])
    pen.paint(Ink.SOLID)
    dot(pen, -12.6, 3, 1.7, Ink.PAPER)


@icon("no-bones")
def no_bones(pen: Pen) -> None:
    """The bones of a fish, head and tail left on, forbidden."""
    forbid(pen, _skeleton, 45)


def _broken_egg(pen: Pen) -> None:
    pen.move(-14, 6.2)
    for x, y in ((-9.4, 11), (-4.8, 6.2), (0, 11), (4.8, 6.2), (9.4, 11), (14, 6.2)):
        pen.line(x, y)
    pen.curve(13.4, 13, 7.6, 18, 0, 18)
    pen.curve(-7.6, 18, -13.4, 13, -14, 6.2)
    pen.close()
    pen.paint(Ink.SOLID)
    smooth(pen, [(-3, 4), (3, 4), (6, -1), (12, -4.6), (12.6, -9), (8, -12.6), (4, -16.4),
                 (-3, -16.2), (-8, -14.4), (-13, -9.6), (-12, -4.4), (-6, -1)])
    pen.paint(Ink.SOLID)
    dot(pen, 0, -8.2, 6, Ink.PAPER)
    dot(pen, 0, -8.2, 3.8)


@icon("no-raw-egg")
def no_raw_egg(pen: Pen) -> None:
    """A broken shell and the raw egg running out of it, forbidden."""
    forbid(pen, _broken_egg, -45)


def _bottle(pen: Pen) -> None:
    shapes.rounded(pen, -8.6, -15.4, 17.2, 20, 3.4)
    pen.paint(Ink.SOLID)
    shapes.rounded(pen, -8.6, 5.8, 17.2, 4, 1.4)
    pen.paint(Ink.SOLID)
    smooth(pen, [(-6, 10.8), (-3.2, 13), (-2.4, 16.6), (0, 18), (2.4, 16.6), (3.2, 13), (6, 10.8)])
    pen.paint(Ink.SOLID)
    for y in (-11.4, -7.4):
        shapes.polyline(pen, [(-5.4, y), (0.6, y)])
        pen.paint(Ink.GAP, 2)


@icon("no-bottle")
def no_bottle(pen: Pen) -> None:
    """A feeding bottle with its teat, forbidden."""
    forbid(pen, _bottle, -45)


def _tea(pen: Pen) -> None:
    shapes.arc(pen, 7.6, -4.6, 5.6, -110, 110)
    pen.paint(Ink.LINE, 3.2)
    pen.move(-14.4, 3.6)
    pen.curve(-14.4, -6, -11, -12, -7, -12.4)
    pen.line(2, -12.4)
    pen.curve(6, -12, 9, -6, 9, 3.6)
    pen.close()
    pen.paint(Ink.SOLID)
    steam(pen, (2.4, 9.4), 5.6, 10.4)


@icon("no-tea")
def no_tea(pen: Pen) -> None:
    """A cup of tea, steaming, forbidden."""
    forbid(pen, _tea)


def _sweet_drink(pen: Pen) -> None:
    glass = TurnedPen(pen, -7, -7, 45)
    shapes.polyline(glass, [(-6.4, 5), (-5, -11), (5, -11), (6.4, 5)], closed=True)
    pen.paint(Ink.SOLID)
    for x, y in ((-2.4, -7), (2.4, -4), (-2.6, -0.6)):
        dot(glass, x, y, 1.3, Ink.PAPER)
    shapes.polyline(glass, [(0, 5), (1.6, 9.4), (6, 10.4)])
    pen.paint(Ink.LINE, 2.8)
    # a slice of orange over the rim
    dot(pen, 10, 7.6, 6.6)
    dot(pen, 10, 7.6, 4.8, Ink.PAPER)
    for i in range(6):
        shapes.bar(pen, 10, 7.6, *shapes.on_ellipse(10, 7.6, 4.8, 4.8, 60 * i + 15), FINE)


@icon("no-juice")
def no_juice(pen: Pen) -> None:
    """A glass of sweet drink with a straw and a slice of orange, forbidden."""
    forbid(pen, _sweet_drink)


def _bits(pen: Pen) -> None:
    for x, y in ((-11.6, -0.6), (-1, -11.8), (8.4, 8.4)):
        dot(pen, x, y, 5.6)
        dot(pen, x - 1.8, y + 1.8, 1.5, Ink.PAPER)


@icon("no-choking")
def no_choking(pen: Pen) -> None:
    """A child with its mouth open, and before it shining round hard bits, forbidden."""
    eating_child(pen, 33.4, 30, 11.4)
    ring = TurnedPen(pen, -0.8, -0.8, 0, 0.64)
    dot(ring, 24, 24, 20.4, Ink.PAPER)
    forbid(ring, _bits)
