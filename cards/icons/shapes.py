"""Shapes on the pen: what the drawings are built from. All lengths in grid units.

Each function only lays a path; the caller paints it, so one path can be
filled and then stroked.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from cards.icons.pen import STROKE, Ink, Pen

KAPPA = 4 * (math.sqrt(2) - 1) / 3
"""Control length that makes four cubic curves a circle (within 0.03 % of the radius)."""

Point = tuple[float, float]


def polyline(pen: Pen, points: Sequence[Point], *, closed: bool = False) -> None:
    """Straight lines through ``points``."""
    pen.move(*points[0])
    for point in points[1:]:
        pen.line(*point)
    if closed:
        pen.close()


def ellipse(pen: Pen, cx: float, cy: float, rx: float, ry: float) -> None:
    """A closed ellipse about (cx, cy)."""
    kx, ky = rx * KAPPA, ry * KAPPA
    pen.move(cx + rx, cy)
    pen.curve(cx + rx, cy + ky, cx + kx, cy + ry, cx, cy + ry)
    pen.curve(cx - kx, cy + ry, cx - rx, cy + ky, cx - rx, cy)
    pen.curve(cx - rx, cy - ky, cx - kx, cy - ry, cx, cy - ry)
    pen.curve(cx + kx, cy - ry, cx + rx, cy - ky, cx + rx, cy)
    pen.close()


def circle(pen: Pen, cx: float, cy: float, r: float) -> None:
    """A closed circle."""
    ellipse(pen, cx, cy, r, r)


def arc_on(
    pen: Pen, cx: float, cy: float, rx: float, ry: float, start: float, end: float
) -> None:
    """Go on along an elliptic arc; angles in degrees, counter-clockwise from three o'clock.

    The pen must stand at the arc's first point; see ``on_ellipse``.
    """
    steps = max(1, math.ceil(abs(end - start) / 45))
    delta = math.radians((end - start) / steps)
    k = 4 / 3 * math.tan(delta / 4)
    angle = math.radians(start)
    for _ in range(steps):
        nxt = angle + delta
        pen.curve(
            cx + rx * (math.cos(angle) - k * math.sin(angle)),
            cy + ry * (math.sin(angle) + k * math.cos(angle)),
            cx + rx * (math.cos(nxt) + k * math.sin(nxt)),
            cy + ry * (math.sin(nxt) - k * math.cos(nxt)),
            cx + rx * math.cos(nxt),
            cy + ry * math.sin(nxt),
        )
        angle = nxt


def on_ellipse(cx: float, cy: float, rx: float, ry: float, degrees: float) -> Point:
    """The point of an ellipse at an angle, for starting ``arc_on``."""
    a = math.radians(degrees)
    return cx + rx * math.cos(a), cy + ry * math.sin(a)


def arc(pen: Pen, cx: float, cy: float, r: float, start: float, end: float) -> None:
    """An open circular arc of its own, degrees counter-clockwise from three o'clock."""
    pen.move(*on_ellipse(cx, cy, r, r, start))
    arc_on(pen, cx, cy, r, r, start, end)


def rounded(pen: Pen, x: float, y: float, w: float, h: float, r: float) -> None:
    """A closed rectangle with rounded corners, (x, y) at the lower left."""
    k = r * (1 - KAPPA)
    pen.move(x + r, y)
    pen.line(x + w - r, y)
    pen.curve(x + w - k, y, x + w, y + k, x + w, y + r)
    pen.line(x + w, y + h - r)
    pen.curve(x + w, y + h - k, x + w - k, y + h, x + w - r, y + h)
    pen.line(x + r, y + h)
    pen.curve(x + k, y + h, x, y + h - k, x, y + h - r)
    pen.line(x, y + r)
    pen.curve(x, y + k, x + k, y, x + r, y)
    pen.close()


def bar(pen: Pen, x1: float, y1: float, x2: float, y2: float, width: float = STROKE) -> None:
    """One straight stroke, painted black at once: handles, rims, rays."""
    pen.move(x1, y1)
    pen.line(x2, y2)
    pen.paint(Ink.LINE, width)


def flame(pen: Pen, cx: float, base: float, height: float) -> None:
    """A closed flame with its foot at (cx, base), about 0.72 as wide as high."""
    w = height * 0.36
    top = base + height
    pen.move(cx + w * 0.18, top)
    pen.curve(cx + w * 0.1, top - height * 0.3, cx + w, base + height * 0.5, cx + w, base + w)
    pen.curve(cx + w, base + w * 0.35, cx + w * 0.5, base, cx, base)
    pen.curve(cx - w * 0.5, base, cx - w, base + w * 0.35, cx - w, base + w)
    pen.curve(
        cx - w, base + height * 0.45, cx - w * 0.62, base + height * 0.5,
        cx - w * 0.5, base + height * 0.68,
    )
    pen.curve(
        cx - w * 0.3, base + height * 0.58, cx - w * 0.1, base + height * 0.75, cx + w * 0.18, top
    )
    pen.close()


def drop(pen: Pen, cx: float, base: float, height: float) -> None:
    """A closed drop of liquid standing on (cx, base)."""
    r = height * 0.34
    pen.move(cx, base + height)
    pen.curve(cx + r * 0.4, base + height * 0.72, cx + r, base + height * 0.55, cx + r, base + r)
    pen.curve(cx + r, base + r * 0.4, cx + r * 0.55, base, cx, base)
    pen.curve(cx - r * 0.55, base, cx - r, base + r * 0.4, cx - r, base + r)
    pen.curve(cx - r, base + height * 0.55, cx - r * 0.4, base + height * 0.72, cx, base + height)
    pen.close()


def leaf(pen: Pen, x1: float, y1: float, x2: float, y2: float, belly: float = 0.3) -> None:
    """A closed pointed leaf from stalk (x1, y1) to tip (x2, y2); belly as a share of its length."""
    dx, dy = x2 - x1, y2 - y1
    nx, ny = -dy * belly * 1.35, dx * belly * 1.35
    pen.move(x1, y1)
    pen.curve(
        x1 + dx * 0.25 + nx, y1 + dy * 0.25 + ny, x1 + dx * 0.7 + nx, y1 + dy * 0.7 + ny, x2, y2
    )
    pen.curve(
        x1 + dx * 0.7 - nx, y1 + dy * 0.7 - ny, x1 + dx * 0.25 - nx, y1 + dy * 0.25 - ny, x1, y1
    )
    pen.close()
