"""Work on one food, which is drawn as it looks: peeled, chopped, grated, mashed.

Where the food has no picture of its own something plain stands in its place.
"""

from __future__ import annotations

from cards.icons import shapes
from cards.icons.marks import TurnedPen, dot, limb, smooth
from cards.icons.pen import Ink, Pen
from cards.icons.registry import find, icon
from cards.icons.vessels import WALL, bowl, knife


def _put(pen: Pen, of: str, x: float, y: float, width: float, height: float) -> float:
    """The picture of a food, lying, as large as a box takes from its lower left; its right edge."""
    drawing = find(of)
    stands = drawing.height > drawing.width * 1.2
    across = drawing.height if stands else drawing.width
    high = drawing.width if stands else drawing.height
    scale = min(width / across, height / high)
    if stands:
        drawing.draw(TurnedPen(pen, x + across * scale, y, 90, scale))
    else:
        drawing.draw(TurnedPen(pen, x, y, 0, scale))
    return x + across * scale


@icon("chop")
def chop(pen: Pen, of: str = "") -> None:
    """A knife over food cut into slices on a board; ``of`` names the food's picture."""
    shapes.rounded(pen, 2.4, 2.4, 43.2, 5.6, 2.4)
    pen.paint(Ink.SOLID)
    if of:
        _put(pen, of, 2.4, 9.6, 25, 19)
        for x, y in ((30, 9.4), (37.4, 9.4), (33.7, 16.6), (41, 16.6)):
            shapes.rounded(pen, x, y, 5.8, 5.8, 1.2)
            pen.paint(Ink.FOOD)
        knife(pen, 5.4, 31.4, 11, 0.94)
        return
    for x in (3.6, 10.4, 17.2):
        shapes.rounded(pen, x, 10.2, 4.6, 12.6, 1.8)
        pen.paint(Ink.FOOD)
    pen.move(24.2, 10.2)
    pen.line(34, 10.4)
    pen.curve(41, 11, 44.6, 14, 45.6, 16.4)
    pen.curve(43, 20, 40, 22.4, 34, 22.8)
    pen.line(24.2, 22.8)
    pen.close()
    pen.paint(Ink.FOOD)
    knife(pen, 3, 27, 15)


@icon("grate")
def grate(pen: Pen, of: str = "") -> None:
    """Food rubbed on a grater, shreds falling; ``of`` names the food's picture."""
    for ink in (Ink.SOLID, Ink.LINE):
        shapes.polyline(pen, [(12, 36), (4, 4), (26, 4), (18, 36)], closed=True)
        pen.paint(ink, 3)
    shapes.arc(pen, 15, 37.6, 5, 0, 180)
    pen.paint(Ink.LINE, 3.4)
    for x, y in ((15, 32), (12.4, 25), (17.6, 25), (9.4, 18), (15, 18), (20.6, 18),
                 (8, 10.6), (15, 10.6), (22, 10.6)):
        shapes.ellipse(pen, x, y, 1.5, 2.1)
        pen.paint(Ink.PAPER)
    if of:
        _put(pen, of, 25, 15.4, 21.6, 20)
    else:
        turned = TurnedPen(pen, 24, 25, 32)
        smooth(turned, [(0, -5.8), (0, 5.8), (12, 6.4), (20, 4), (21, 0), (20, -4), (12, -6.4)])
        turned.paint(Ink.FOOD)
    for x, y in ((31, 12), (36.6, 7), (31.6, 3.6), (41, 3)):
        shapes.ellipse(TurnedPen(pen, x, y, 30), 0, 0, 3.2, 1.5)
        pen.paint(Ink.FOOD)


@icon("peel")
def peel(pen: Pen, of: str = "") -> None:
    """A knife taking the skin off a food in one curling strip; ``of`` names its picture."""
    if of:
        _put(pen, of, 6, 2.4, 38, 24)
    else:
        for ink in (Ink.FOOD, Ink.LINE):
            shapes.ellipse(pen, 24, 13.6, 19, 11)
            pen.paint(ink, WALL)
    # where the skin is off, the food is white
    smooth(pen, [(9, 19), (16, 24), (25, 24.6), (24, 18), (17, 15.4), (10, 15)])
    pen.paint(Ink.PAPER)
    smooth(pen, [(25, 24.6), (24, 18), (17, 15.4), (10, 15)], closed=False)
    pen.paint(Ink.LINE)
    limb(pen, [(24, 25.4), (13, 27), (7, 32.6), (8.4, 40.4), (16, 42.4), (20, 37), (15, 33)], 4, 1)
    knife(pen, 24.4, 28, 22, 0.54)


@icon("mash")
def mash(pen: Pen, of: str = "") -> None:
    """A masher pressing soft food flat in a bowl; ``of`` names the food's picture."""
    bowl(pen, 24, 1.6, 27, 21.4, 13)
    if of:
        _put(pen, of, 3.6, 14.4, 16, 16)
        dot(pen, 36.6, 16.6, 5.8, Ink.FOOD)
    else:
        for x in (11.4, 36.6):
            dot(pen, x, 16.6, 5.8, Ink.FOOD)
    pen.move(17, 15)
    pen.line(31, 15)
    pen.paint(Ink.GAP, 9)
    shapes.bar(pen, 17, 15, 31, 15, 5.4)
    shapes.bar(pen, 24, 17, 24, 42, 4.2)
    shapes.bar(pen, 16.4, 43, 31.6, 43, 5.2)
