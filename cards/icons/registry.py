"""Every icon by name: its size on the grid, its size on paper, and how it is drawn."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from cards.icons.pen import GRID, Pen

Draw = Callable[..., None]


@dataclass(frozen=True, slots=True)
class Icon:
    """A named drawing.

    ``width`` and ``height`` are in grid units. ``scale_mm`` is the printed
    height in mm at which the icon is true to its sisters (measures only);
    None means it takes the size of the place it is put in. ``points`` is true
    for a drawing that shows the way on, and so is mirrored where one reads
    from right to left.
    """

    name: str
    draw: Draw
    width: float
    height: float
    true_height_mm: float | None = None
    points: bool = False


_ICONS: dict[str, Icon] = {}


def icon(
    name: str,
    *,
    width: float = GRID,
    height: float = GRID,
    true_height_mm: float | None = None,
    points: bool = False,
) -> Callable[[Draw], Draw]:
    """Register the drawing below under ``name``. Raises ValueError if the name is taken."""

    def keep(draw: Draw) -> Draw:
        if name in _ICONS:
            raise ValueError(f"two icons are called {name!r}")
        _ICONS[name] = Icon(name, draw, width, height, true_height_mm, points)
        return draw

    return keep


def find(name: str) -> Icon:
    """The icon called ``name``. Raises KeyError if there is none."""
    return _ICONS[name]


def names() -> tuple[str, ...]:
    """All icon names, sorted."""
    return tuple(sorted(_ICONS))


def draw(name: str, pen: Pen, **params: float | str) -> None:
    """Draw the icon called ``name`` with ``pen``; ``params`` are the drawing's own."""
    find(name).draw(pen, **params)
