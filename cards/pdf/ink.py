"""A pen that writes drawings as page content, in grid units."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from cards.icons import catalogue
from cards.icons.pen import STROKE, Ink
from cards.pdf.code import num

ACCENT = (0x8A / 255, 0x3A / 255, 0x0E / 255)
"""The one accent: a rust, 7.8 to 1 against white, a third of the way up from black in grey."""

BLACK, WHITE = (0.0, 0.0, 0.0), (1.0, 1.0, 1.0)

Colour = tuple[float, float, float]
"""Red, green and blue from 0 to 1."""

COLOURS: Mapping[Ink, Colour] = {
    Ink.SOLID: BLACK,
    Ink.LINE: BLACK,
    Ink.PAPER: WHITE,
    Ink.GAP: WHITE,
    Ink.FOOD: ACCENT,
}


class CodePen:
    """Writes the verbs as operators of a content stream, in grid units.

    The numbers do not know where the drawing will stand: an icon shown twice is the same
    code twice, which packs to next to nothing, and is worked out once.
    """

    def __init__(self, colours: Mapping[Ink, Colour] = COLOURS) -> None:
        self._colours = colours
        self._path: list[str] = []
        self._set: dict[str, str] = {}
        self._code = ["1 J 1 j"]

    @property
    def code(self) -> str:
        """All that was painted so far."""
        return "\n".join(self._code)

    def _verb(self, operator: str, *numbers: float) -> None:
        self._path.append(" ".join([*(num(n, 2) for n in numbers), operator]))

    def move(self, x: float, y: float) -> None:
        """Start a contour."""
        self._verb("m", x, y)

    def line(self, x: float, y: float) -> None:
        """Add a line."""
        self._verb("l", x, y)

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        """Add a curve."""
        self._verb("c", x1, y1, x2, y2, x, y)

    def close(self) -> None:
        """Close the contour."""
        self._verb("h")

    def paint(self, ink: Ink, width: float = STROKE) -> None:
        """Paint the path and begin a new one."""
        colour = self._colours[ink]
        if ink in (Ink.LINE, Ink.GAP):
            self._state("w", num(width, 2))
            self._state("RG", colour_code(colour))
            self._path.append("S")
        else:
            self._state("rg", colour_code(colour))
            self._path.append("f*")
        self._code.append(" ".join(self._path))
        self._path = []

    def _state(self, operator: str, value: str) -> None:
        if self._set.get(operator) != value:
            self._set[operator] = value
            self._code.append(f"{value} {operator}")


def colour_code(colour: Colour) -> str:
    """The three numbers of a colour."""
    return " ".join(num(part) for part in colour)


def shown(code: str, x: float, y: float, scale: float) -> str:
    """A drawing's code with its lower left corner at (x, y), ``scale`` points to a grid unit."""
    return f"q {num(scale, 5)} 0 0 {num(scale, 5)} {num(x)} {num(y)} cm\n{code}\nQ"


@lru_cache(maxsize=2_000)
def icon_code(name: str, params: tuple[tuple[str, float | str], ...]) -> str:
    """An icon's code in grid units."""
    pen = CodePen()
    catalogue.find(name).draw(pen, **dict(params))
    return pen.code
