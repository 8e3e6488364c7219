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


def _bee_and_comb(pen: Pen) -> None:
    # turned with the bar, so that the comb lies below it and the bee above
    for x in (-8.0, 0.0, 8.0):
        cell = [shapes.on_ellipse(x, -9.4, 4.6, 4.6, 60 * i + 30) for i in range(6)]
        shapes.polyline(pen, cell, closed=True)
        pen.paint(Ink.LINE)
    for x, turn in ((-3, 34), (3.6, -16)):
        shapes.ellipse(TurnedPen(pen, x, 13, turn), 0, 0, 2.5, 4.2)
        pen.paint(Ink.SOLID)
    shapes.ellipse(pen, 1, 7.8, 10.4, 4)
    pen.paint(Ink.GAP, 1.7)
    shapes.ellipse(pen, 1, 7.8, 10.4, 4)
    pen.paint(Ink.SOLID)
    dot(pen, -10.4, 7.4, 3.2)
    shapes.bar(pen, -11.4, 9, -13.6, 12, 1.7)
    for stripe in (-0.4, 3.6, 7.4):
        shapes.polyline(pen, [(stripe, 3), (stripe, 12)])
        pen.paint(Ink.GAP, 1.7)


@icon("no-honey")
def no_honey(pen: Pen) -> None:
    """A bee and cells of its comb, forbidden."""
    forbid(pen, _bee_and_comb, -45)


def _shaker(pen: Pen) -> None:
    # the cap is below, as the whole is turned to pour
    shapes.polyline(pen, [(-7.6, 15), (7.6, 15), (9.4, -4), (-9.4, -4)], closed=True)
    pen.paint(Ink.SOLID)
    pen.move(-9.4, -5.6)
    pen.curve(-9, -11, -5, -12.4, 0, -12.4)
    pen.curve(5, -12.4, 9, -11, 9.4, -5.6)
    pen.close()
    pen.paint(Ink.SOLID)
    for x in (-4.8, 0, 4.8):
        dot(pen, x, -8.6, 1.2, Ink.PAPER)
        dot(pen, x, -15.4, 1.3)


@icon("no-salt")
def no_salt(pen: Pen) -> None:
    """A shaker letting grains of salt fall, forbidden."""
    forbid(pen, _shaker, -45)


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
    for x, y in ((-7.8, -14), (7.8, -14), (0, -1)):
        _cube(pen, x, y, 8.6)


@icon("no-sugar")
def no_sugar(pen: Pen) -> None:
    """A stack of three sugar cubes, forbidden."""
    forbid(pen, _sugar)


def _peanut(pen: Pen) -> None:
    # the waist lies beside the bar, as it makes the outline a peanut's
    smooth(pen, [(-17, 0), (-14.4, 7.4), (-7, 10.2), (0, 9), (6, 5.4), (11, 7.8), (15, 6.2),
                 (17.4, 0), (15, -6.2), (11, -7.8), (6, -5.4), (0, -9), (-7, -10.2), (-14.4, -7.4)])
    pen.paint(Ink.SOLID)
    for x, y in ((-12.4, 3.4), (-12.4, -3.4), (-6.6, 6), (-6.6, 0), (-6.6, -6), (7, 0), (12.4, 3),
                 (12.4, -3)):
        shapes.polyline(pen, [(x - 1.4, y), (x + 1.4, y)])
        pen.paint(Ink.GAP, 2)


@icon("no-whole-nuts")
def no_whole_nuts(pen: Pen) -> None:
    """A peanut in its shell, forbidden."""
    forbid(pen, _peanut, 45)


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
    shapes.polyline(pen, [(-12.4, 3), (-9, -14), (6.6, -14), (10, 3)], closed=True)
    pen.paint(Ink.SOLID)
    shapes.polyline(pen, [(3, 3), (5.4, 13), (12, 11)])
    pen.paint(Ink.LINE, 3.4)


@icon("no-juice")
def no_juice(pen: Pen) -> None:
    """A glass of sweet drink with a straw, forbidden."""
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
