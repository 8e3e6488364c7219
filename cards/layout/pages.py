"""Placed pages: items in reading order, lengths in points, y downwards from the top edge."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from cards.card.model import CardMeta, IconUse
from cards.diagnostics.diagnostic import Place
from cards.layout.qr import qr_rows
from cards.text.wrap import Line

MM = 72 / 25.4
"""Points in a millimetre."""


class Tag(NamedTuple):
    """An element of the file's structure that an item stands in, as ISO 32000 (14.8) names them.

    Neighbours with equal tags stand in one element; ``number`` keeps siblings apart. A tag
    without a kind does only that. ``alt`` says a figure in words; ``how`` is the scope of a
    table's heading or the numbering of a list. What is tagged "Artifact" is not read aloud.
    A plain tuple, since neighbours are compared at every depth.
    """

    kind: str
    number: int = 0
    alt: str = ""
    how: str = ""
    language: str = ""


Tags = tuple[Tag, ...]
"""From the outermost element to the innermost."""


@dataclass(frozen=True, slots=True)
class TextItem:
    """One set line. ``x`` is its left edge, ``y`` its baseline."""

    x: float
    y: float
    size: float
    line: Line
    language: str
    role: str
    at: Place
    top: float
    bottom: float
    """Upper and lower edge of the line's own space, for the overlap check."""
    tags: Tags = ()

    def moved(self, dx: float, dy: float, tags: Tags = ()) -> TextItem:
        """The same elsewhere, inside ``tags``."""
        # written out, here and for icons: a page is moved together from thousands of small moves
        return TextItem(
            self.x + dx,
            self.y + dy,
            self.size,
            self.line,
            self.language,
            self.role,
            self.at,
            self.top + dy,
            self.bottom + dy,
            tags + self.tags,
        )

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        return self.x, self.top, self.x + self.line.width, self.bottom


@dataclass(frozen=True, slots=True)
class IconItem:
    """An icon in a box; (x, y) is the upper left corner."""

    x: float
    y: float
    width: float
    height: float
    icon: IconUse
    under: bool = False
    """True where text is printed on it, as a number on a clock."""
    tags: Tags = ()
    turned: bool = False
    """True where it is drawn mirrored, left for right."""

    def moved(self, dx: float, dy: float, tags: Tags = ()) -> IconItem:
        """The same elsewhere, inside ``tags``."""
        return IconItem(
            self.x + dx,
            self.y + dy,
            self.width,
            self.height,
            self.icon,
            self.under,
            tags + self.tags,
            self.turned,
        )

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        return self.x, self.y, self.x + self.width, self.y + self.height


@dataclass(frozen=True, slots=True)
class RuleItem:
    """A straight line of a stroke width."""

    x1: float
    y1: float
    x2: float
    y2: float
    stroke: float
    tags: Tags = ()

    def moved(self, dx: float, dy: float, tags: Tags = ()) -> RuleItem:
        """The same elsewhere, inside ``tags``."""
        return RuleItem(
            self.x1 + dx, self.y1 + dy, self.x2 + dx, self.y2 + dy, self.stroke, tags + self.tags
        )

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        return self.x1, self.y1, self.x2, self.y2


@dataclass(frozen=True, slots=True)
class PanelItem:
    """An outlined box with round corners; (x, y) is the upper left corner."""

    x: float
    y: float
    width: float
    height: float
    radius: float
    stroke: float
    tags: Tags = ()

    def moved(self, dx: float, dy: float, tags: Tags = ()) -> PanelItem:
        """The same elsewhere, inside ``tags``."""
        return replace(self, x=self.x + dx, y=self.y + dy, tags=tags + self.tags)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        return self.x, self.y, self.x + self.width, self.y + self.height


@dataclass(frozen=True, slots=True)
class BarItem:
    """A filled rectangle of a chart; (x, y) is the upper left corner.

    ``shade`` is "dark" or "accent".
    """

    x: float
    y: float
    width: float
    height: float
    shade: str
    tags: Tags = ()

    def moved(self, dx: float, dy: float, tags: Tags = ()) -> BarItem:
        """The same elsewhere, inside ``tags``."""
        return replace(self, x=self.x + dx, y=self.y + dy, tags=tags + self.tags)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        return self.x, self.y, self.x + self.width, self.y + self.height


@dataclass(frozen=True, slots=True)
class QrItem:
    """A QR code with its quiet zone; (x, y) is the upper left corner of the zone."""

    x: float
    y: float
    side: float
    modules: int
    """Modules on a side, without quiet zone."""
    payload: str
    tags: Tags = ()

    @property
    def rows(self) -> tuple[str, ...]:
        """The modules, "1" for dark, worked out where they are painted."""
        return qr_rows(self.payload)

    def moved(self, dx: float, dy: float, tags: Tags = ()) -> QrItem:
        """The same elsewhere, inside ``tags``."""
        return replace(self, x=self.x + dx, y=self.y + dy, tags=tags + self.tags)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        return self.x, self.y, self.x + self.side, self.y + self.side


Placed = TextItem | IconItem | RuleItem | PanelItem | BarItem | QrItem
"""What stands on a page."""


class Moved(NamedTuple):
    """Items of a block moved together, inside ``tags``.

    Many blocks are measured for each that is printed, so the items themselves wait for ``flat``.
    """

    items: Sequence[Item]
    dx: float
    dy: float
    tags: Tags


Item = Placed | Moved
"""What a block is made of."""


def flat(items: Iterable[Item], dx: float = 0.0, dy: float = 0.0, *tags: Tag) -> tuple[Placed, ...]:
    """Items at their places on a page, ``dx`` and ``dy`` points from their own, inside ``tags``."""
    found: list[Placed] = []
    for item in items:
        if isinstance(item, Moved):
            found += flat(item.items, dx + item.dx, dy + item.dy, *tags, *item.tags)
        else:
            found.append(item.moved(dx, dy, tags))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Page:
    """One side."""

    name: str
    items: tuple[Placed, ...]


@dataclass(frozen=True, slots=True)
class Pages:
    """All sides of a card, in points as they are drawn."""

    width: float
    height: float
    margin: float
    meta: CardMeta
    pages: tuple[Page, ...]
    magnify: float = 1.0
    """How much larger than these points it prints."""
