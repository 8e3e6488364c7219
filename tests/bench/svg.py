"""A pen that writes drawings as SVG, for programs that know no pen of ours."""

from __future__ import annotations

from cards.icons import catalogue
from cards.icons.pen import STROKE, Ink
from cards.pdf.ink import COLOURS, num


class SvgPen:
    """The five verbs as SVG paths in grid units, y upwards."""

    def __init__(self) -> None:
        self._path: list[str] = []
        self.paths: list[str] = []

    def _verb(self, letter: str, *numbers: float) -> None:
        self._path.append(letter + " ".join(num(n, 2) for n in numbers))

    def move(self, x: float, y: float) -> None:
        self._verb("M", x, y)

    def line(self, x: float, y: float) -> None:
        self._verb("L", x, y)

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        self._verb("C", x1, y1, x2, y2, x, y)

    def close(self) -> None:
        self._verb("Z")

    def paint(self, ink: Ink, width: float = STROKE) -> None:
        colour = "#" + "".join(f"{round(part * 255):02x}" for part in COLOURS[ink])
        drawn = (
            f'fill="none" stroke="{colour}" stroke-width="{num(width, 2)}"'
            if ink in (Ink.LINE, Ink.GAP)
            else f'fill="{colour}" fill-rule="evenodd"'
        )
        self.paths.append(f'<path d="{"".join(self._path)}" {drawn}/>')
        self._path = []


def svg(name: str, params: tuple[tuple[str, float | str], ...]) -> str:
    """An icon as an SVG file of its own size in grid units."""
    icon = catalogue.find(name)
    pen = SvgPen()
    icon.draw(pen, **dict(params))
    size = f"{num(icon.width)} {num(icon.height)}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size}" '
        f'width="{num(icon.width)}" height="{num(icon.height)}">'
        f'<g transform="matrix(1 0 0 -1 0 {num(icon.height)})" '
        'stroke-linecap="round" stroke-linejoin="round">' + "".join(pen.paths) + "</g></svg>"
    )
