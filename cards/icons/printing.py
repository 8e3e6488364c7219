"""What is done with printed sheets: cut, and glue."""

from __future__ import annotations

from cards.icons import shapes
from cards.icons.marks import TurnedPen
from cards.icons.pen import Ink, Pen
from cards.icons.registry import icon


@icon("scissors")
def scissors(pen: Pen) -> None:
    """Open scissors that point to the right."""
    for side in (1, -1):
        half = TurnedPen(pen, 21, 24, side * 17, 1, side)
        half.move(-6, -2.2)
        half.line(18, -2.6)
        half.curve(21, -2.4, 23.6, -0.6, 25, 2.4)
        half.line(-6, 1.8)
        half.close()
        half.paint(Ink.SOLID)
        shapes.ellipse(half, -11.6, -3.8, 6.2, 5)
        half.paint(Ink.LINE, 3)
    shapes.circle(pen, 21, 24, 1.3)
    pen.paint(Ink.PAPER)


@icon("glue")
def glue(pen: Pen) -> None:
    """A glue bottle held head down, a drop at its mouth, a thick line of glue on the paper."""
    turned = TurnedPen(pen, 29, 26.4, -34)
    shapes.rounded(turned, -8, 0, 16, 21, 3)
    turned.paint(Ink.SOLID)
    shapes.polyline(turned, [(-8, 3), (-3.4, -6), (-1.8, -14), (1.8, -14), (3.4, -6), (8, 3)],
                    closed=True)
    turned.paint(Ink.SOLID)
    shapes.rounded(turned, -8, 7, 16, 8, 0.6)
    turned.paint(Ink.PAPER)
    shapes.polyline(turned, [(-6, -6), (6, -6)])
    turned.paint(Ink.GAP, 2)
    shapes.bar(pen, 6, 8.4, 21, 8.4, 5.4)
    shapes.bar(pen, 2, 2, 46, 2, 2.4)
