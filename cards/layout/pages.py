"""Placed pages: items in reading order, lengths in points, y downwards from the top edge."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cards.card.model import CardMeta, IconUse
from cards.diagnostics.diagnostic import Place
from cards.layout.qr import qr_rows
from cards.text.wrap import Line

MM = 72 / 25.4
"""Points in a millimetre."""


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

    def moved(self, dx: float, dy: float) -> TextItem:
        """The same, elsewhere."""
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

    def moved(self, dx: float, dy: float) -> IconItem:
        """The same, elsewhere."""
        return IconItem(self.x + dx, self.y + dy, self.width, self.height, self.icon, self.under)

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

    def moved(self, dx: float, dy: float) -> RuleItem:
        """The same, elsewhere."""
        return replace(self, x1=self.x1 + dx, y1=self.y1 + dy, x2=self.x2 + dx, y2=self.y2 + dy)

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

    def moved(self, dx: float, dy: float) -> PanelItem:
        """The same, elsewhere."""
        return replace(self, x=self.x + dx, y=self.y + dy)

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

    def moved(self, dx: float, dy: float) -> BarItem:
        """The same, elsewhere."""
        return replace(self, x=self.x + dx, y=self.y + dy)

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

    @property
    def rows(self) -> tuple[str, ...]:
        """The modules, "1" for dark, worked out where they are painted."""
        return qr_rows(self.payload)

    def moved(self, dx: float, dy: float) -> QrItem:
        """The same, elsewhere."""
        return replace(self, x=self.x + dx, y=self.y + dy)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        return self.x, self.y, self.x + self.side, self.y + self.side


Item = TextItem | IconItem | RuleItem | PanelItem | BarItem | QrItem


@dataclass(frozen=True, slots=True)
class Page:
    """One side."""

    name: str
    items: tuple[Item, ...]


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
