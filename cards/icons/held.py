"""What a measure holds: water, milk, oil, grain, pulses, powder, leaves, pieces, meat or fish.

Each has a pattern of its own that one-bit black keeps. Patterns lie inside the filled part and
never change its level. The same marks lie loose where a step shows its food.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from cards.icons import shapes
from cards.icons.marks import TurnedPen, dot, smooth
from cards.icons.pen import STROKE, Ink, Pen

HELD = ("plain", "water", "milk", "oil", "grain", "pulses", "powder", "leaves", "pieces",
        "meat", "fish")
"""The closed list of what a measure can show."""

_EDGE = 2.2
"""Free of marks along walls and surface, in grid units: a wall's line takes half of it."""


@dataclass(frozen=True, slots=True)
class Filled:
    """The filled part of a vessel: its path, its lowest and highest point, its shape about ``cx``.

    ``half`` gives half its width at a height.
    """

    path: Callable[[], None]
    cx: float
    bottom: float
    top: float
    half: Callable[[float], float]


def hold(pen: Pen, part: Filled, of: str) -> None:
    """Paint the filled part of a vessel as what it holds. Raises KeyError for an unknown kind."""
    mark = _MARKS[of]
    part.path()
    if mark is None:
        pen.paint(Ink.FOOD)
        return
    pen.paint(Ink.PAPER if mark.light else Ink.FOOD)
    if mark.light:
        # the surface would not show on white
        reach = part.half(part.top)
        shapes.bar(pen, part.cx - reach, part.top, part.cx + reach, part.top, STROKE)
    if mark.width:
        _strew(pen, part, mark)
    else:
        _waves(pen, part)


@dataclass(frozen=True, slots=True)
class _Mark:
    """A mark strewn over what is held: its size, its distance to the next, how it is drawn."""

    width: float
    height: float
    across: float
    down: float
    draw: Callable[[Pen, int, float, Ink, Ink], None]
    """Draws it about the origin; the number turns one against the next, at a scale.

    The first ink is its own, the second that of what lies round it.
    """
    light: bool = False
    """True for what is white itself, with dark marks."""


def _strew(pen: Pen, part: Filled, mark: _Mark) -> None:
    """Rows of the mark, as many as there is room for, smaller where not even one would go in."""
    for scale in _SCALES:
        places = _places(part, mark, scale)
        if places:
            break
    own, ground = (Ink.FOOD, Ink.PAPER) if mark.light else (Ink.PAPER, Ink.FOOD)
    for number, (x, y) in enumerate(places):
        mark.draw(TurnedPen(pen, x, y, 0, scale), number, scale, own, ground)


def loose(pen: Pen, x: float, y: float, width: float, height: float, of: str) -> None:
    """A solid food lying loose in a box, heaped up: its marks in its own colour, upper rows in
    the gaps of the lower. Raises KeyError for an unknown kind, ValueError for one without marks.
    """
    mark = _MARKS[of]
    if mark is None or not mark.width:
        raise ValueError(of)
    turn = 90 if mark.height > mark.width * 1.8 else 0
    wide, high = (mark.height, mark.width) if turn else (mark.width, mark.height)
    across, down = wide * 1.12, high * 1.14
    scale = min(1.0, width / wide, height / high)
    most = max(1, int(width / (across * scale)))
    number = 0
    for row in range(max(1, int(height / (down * scale)))):
        along = max(1, most - row)
        for n in range(along):
            middle = x + width / 2 + (n - (along - 1) / 2) * across * scale
            at = y + high * scale / 2 + row * down * scale
            mark.draw(TurnedPen(pen, middle, at, turn, scale), number, scale, Ink.FOOD, Ink.PAPER)
            number += 1


_SCALES = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.36)


def _places(part: Filled, mark: _Mark, scale: float) -> list[tuple[float, float]]:
    """Middles of the marks of a scale that lie wholly inside; near the surface if not half way."""
    room = part.top - part.bottom - 2 * _EDGE
    high, down, across = mark.height * scale / 2, mark.down * scale, mark.across * scale
    rows = int((room - 2 * high) // down) + 1
    reach = (rows - 1) / 2 * down
    for middle in ((part.top + part.bottom) / 2, part.top - _EDGE - high - reach):
        found: list[tuple[float, float]] = []
        for row in range(rows):
            y = middle + row * down - reach
            free = min(part.half(y - high), part.half(y + high)) - _EDGE
            along = int((2 * free - mark.width * scale) // across) + 1
            found += [(part.cx + (n - (along - 1) / 2) * across, y) for n in range(along)]
        if found:
            return found
    return []


def _waves(pen: Pen, part: Filled) -> None:
    """White waves across, from wall to wall."""
    step = 6.0
    rows = max(1, int((part.top - part.bottom - 2.4) // step))
    for row in range(rows):
        y = part.top - 4.6 - row * step if rows > 1 else (part.top + part.bottom) / 2
        free = min(part.half(y - 1.6), part.half(y + 1.6)) - 3
        if free < 2.6:
            continue
        swing, count = 2.4, max(1, round(free / 5))
        width = 2 * free / count
        pen.move(part.cx - free, y)
        for n in range(count):
            x = part.cx - free + n * width
            pen.curve(x + width / 3, y + swing, x + width * 2 / 3, y - swing, x + width, y)
        pen.paint(Ink.GAP, 2.3)


def _seed(pen: Pen, number: int, _scale: float, own: Ink, _ground: Ink) -> None:
    shapes.ellipse(TurnedPen(pen, 0, 0, 32 if number % 2 else -32), 0, 0, 4.1, 2)
    pen.paint(own)


def _round_seed(pen: Pen, _number: int, _scale: float, own: Ink, _ground: Ink) -> None:
    dot(pen, 0, 0, 2.5, own)


def _speck(pen: Pen, number: int, _scale: float, own: Ink, _ground: Ink) -> None:
    # strewn, or a spoon of powder would look like a spoon with holes
    dot(pen, (0.0, 0.7, -0.6, 0.4)[number % 4], (0.5, -0.6, 0.2)[number % 3], 1.35, own)


def _cow(pen: Pen, _number: int, _scale: float, own: Ink, ground: Ink) -> None:
    """A cow's head from the front."""
    for side in (-1, 1):
        shapes.polyline(pen, [(side * 2.4, 3.6), (side * 4.6, 4.6), (side * 4.8, 7)])
        pen.paint(Ink.LINE, 2)
        shapes.ellipse(TurnedPen(pen, side * 5.9, 1.6, side * -14), 0, 0, 2.6, 1.5)
        pen.paint(own)
    smooth(pen, [(-4, 4), (4, 4), (4.6, 0.4), (3.6, -4.6), (0, -7), (-3.6, -4.6), (-4.6, 0.4)])
    pen.paint(own)
    for x in (-2, 2):
        dot(pen, x, 1, 1.1, ground)
    shapes.ellipse(pen, 0, -4.2, 2.6, 1.7)
    pen.paint(ground)


def _oil_drop(pen: Pen, _number: int, scale: float, own: Ink, ground: Ink) -> None:
    shapes.drop(pen, 0, -8, 16)
    pen.paint(own)
    if scale > 0.65:  # in a small one the shine would close up on a copy
        shapes.drop(pen, 1, -5.2, 5.6)
        pen.paint(ground)


def _leaf(pen: Pen, number: int, _scale: float, own: Ink, ground: Ink) -> None:
    turned = TurnedPen(pen, 0, 0, 40 if number % 2 else 130)
    shapes.leaf(turned, -5.8, 0, 5.8, 0, 0.34)
    pen.paint(own)
    turned.move(-6, 0)
    turned.line(2.4, 0)
    turned.paint(Ink.LINE if ground is Ink.FOOD else Ink.GAP, 1.7)


def _cube(pen: Pen, number: int, _scale: float, own: Ink, _ground: Ink) -> None:
    shapes.rounded(TurnedPen(pen, 0, 0, 14 if number % 2 else -12), -2.9, -2.9, 5.8, 5.8, 1.2)
    pen.paint(own)


def _leg(pen: Pen, _number: int, _scale: float, own: Ink, ground: Ink) -> None:
    """A leg of meat with its bone."""
    bone, line = (own, Ink.GAP) if ground is Ink.FOOD else (Ink.SOLID, Ink.LINE)
    shapes.polyline(pen, [(0.6, -0.6), (3.6, -3.6)])
    pen.paint(line, 2.2)
    for x, y in ((4.9, -3.5), (3.5, -4.9)):
        dot(pen, x, y, 1.6, bone)
    smooth(pen, [(-6, 4), (-3.4, 6.4), (1.4, 5.4), (3, 1.6), (1.6, -1.6), (-1.6, -3),
                 (-5.4, -1.4)])
    pen.paint(own)


def _little_fish(pen: Pen, number: int, _scale: float, own: Ink, ground: Ink) -> None:
    # upright, as it goes into a spoon
    turned = TurnedPen(pen, 0, 0, 90 if number % 2 else -90)
    smooth(turned, [(-7, 0), (-3.6, 3.1), (0.4, 3.1), (3.6, 0.6), (3.6, -0.6), (0.4, -3.1),
                    (-3.6, -3.1)])
    turned.paint(own)
    shapes.polyline(turned, [(2.6, 0), (7, 3.6), (6, 0), (7, -3.6)], closed=True)
    turned.paint(own)
    dot(turned, -4.2, 0.8, 0.95, ground)


_MARKS: dict[str, _Mark | None] = {
    "plain": None,
    "water": _Mark(0, 0, 0, 0, _speck),
    "milk": _Mark(16, 14, 18, 16.4, _cow, light=True),
    "oil": _Mark(9, 16, 12.6, 18, _oil_drop),
    "grain": _Mark(7.4, 5.2, 8.4, 6.2, _seed),
    "pulses": _Mark(5, 5, 7.2, 7, _round_seed),
    "powder": _Mark(2.8, 2.6, 4.2, 4.0, _speck, light=True),
    "leaves": _Mark(9, 9, 10.4, 10.4, _leaf),
    "pieces": _Mark(5.6, 5.6, 7.6, 7.4, _cube, light=True),
    "meat": _Mark(11.4, 12, 13, 13.4, _leg),
    "fish": _Mark(7.2, 14, 8.6, 15, _little_fish, light=True),
}
