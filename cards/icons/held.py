"""What a measure holds: water, milk, oil, grain, pulses, powder, leaves, pieces, each in a pattern
of its own that one-bit black keeps. Patterns lie inside the filled part and never change its level.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from cards.icons import shapes
from cards.icons.marks import TurnedPen, dot
from cards.icons.pen import STROKE, Ink, Pen

HELD = ("plain", "water", "milk", "oil", "grain", "pulses", "powder", "leaves", "pieces")
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
    draw: Callable[[Pen, int, float], None]
    """Draws it about the origin; the number turns one against the next, at a scale."""
    light: bool = False
    """True for what is white itself, with dark marks."""


def _strew(pen: Pen, part: Filled, mark: _Mark) -> None:
    """Rows of the mark, as many as there is room for, smaller where not even one would go in."""
    for scale in _SCALES:
        places = _places(part, mark, scale)
        if places:
            break
    for number, (x, y) in enumerate(places):
        mark.draw(TurnedPen(pen, x, y, 0, scale), number, scale)


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


def _seed(pen: Pen, number: int, _scale: float) -> None:
    shapes.ellipse(TurnedPen(pen, 0, 0, 28 if number % 2 else -28), 0, 0, 3.5, 1.6)
    pen.paint(Ink.PAPER)


def _round_seed(pen: Pen, _number: int, _scale: float) -> None:
    dot(pen, 0, 0, 2.5, Ink.PAPER)


def _speck(pen: Pen, number: int, _scale: float) -> None:
    # strewn, or a spoon of powder would look like a spoon with holes
    dot(pen, (0.0, 1.0, -0.9, 0.5)[number % 4], (0.7, -0.8, 0.2)[number % 3],
        (1.2, 1.7, 1.3)[number % 3], Ink.FOOD)


def _milk_drop(pen: Pen, _number: int, _scale: float) -> None:
    shapes.drop(pen, 0, -5.4, 11)
    pen.paint(Ink.FOOD)


def _oil_drop(pen: Pen, _number: int, scale: float) -> None:
    shapes.drop(pen, 0, -8, 16)
    pen.paint(Ink.PAPER)
    if scale > 0.65:  # in a small one the shine would close up on a copy
        shapes.drop(pen, 1, -5.2, 5.6)
        pen.paint(Ink.FOOD)


def _leaf(pen: Pen, number: int, _scale: float) -> None:
    turned = TurnedPen(pen, 0, 0, 40 if number % 2 else 130)
    shapes.leaf(turned, -5.8, 0, 5.8, 0, 0.34)
    pen.paint(Ink.PAPER)
    shapes.bar(turned, -6, 0, 2.4, 0, 1.7)


def _cube(pen: Pen, number: int, _scale: float) -> None:
    shapes.rounded(TurnedPen(pen, 0, 0, 14 if number % 2 else -12), -2.9, -2.9, 5.8, 5.8, 1.2)
    pen.paint(Ink.FOOD)


_MARKS: dict[str, _Mark | None] = {
    "plain": None,
    "water": _Mark(0, 0, 0, 0, _speck),
    "milk": _Mark(7.4, 11, 11, 13.4, _milk_drop, light=True),
    "oil": _Mark(9, 16, 12.6, 18, _oil_drop),
    "grain": _Mark(6.6, 3.6, 8, 5.6, _seed),
    "pulses": _Mark(5, 5, 7.2, 7, _round_seed),
    "powder": _Mark(3, 2.5, 4.5, 4.4, _speck, light=True),
    "leaves": _Mark(9, 9, 10.4, 10.4, _leaf),
    "pieces": _Mark(5.6, 5.6, 7.6, 7.4, _cube, light=True),
}
