"""Blocks stacked in a room: measuring them at one try's sizes, and sharing out what is left."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from cards.card.model import Card
from cards.layout import blocks_back, blocks_columns, blocks_front
from cards.layout.layoutfile import Columns
from cards.layout.pages import MM, Item, RuleItem, Tag
from cards.layout.parts import HAIR
from cards.layout.setting import Block, Setter, moved
from cards.layout.wall import wall_portions, wall_rows
from cards.text.wrap import TooWide

Placer = Callable[[Any, Setter, float, float], Block]

_PLACERS: dict[str, Placer] = {
    "heading": blocks_front.heading,
    "lead": blocks_front.lead,
    "needs": blocks_front.needs,
    "portions": blocks_front.portions,
    "running": blocks_back.running,
    "steps": blocks_back.steps,
    "safety": blocks_back.safety,
    "foot": blocks_back.foot,
}

_ON_A_WALL: dict[str, Placer] = {
    "needs": wall_rows.needs,
    "portions": wall_portions.portions,
    "steps": wall_rows.steps,
    "safety": wall_portions.safety,
    "foot": wall_portions.foot,
}

_IN_COLUMNS: dict[str, Placer] = {
    "lead": blocks_columns.lead,
    "portions": blocks_columns.portions,
}
"""Blocks in their form for two languages side by side."""

_PART_OF = {"running": "heading"}
"""Blocks that draw on a part of the card of another name."""

_STEADY = frozenset(("heading", "lead", "running", "safety", "foot"))
"""Blocks that take no extra space."""

Named = tuple[str, Block]
Known = dict[tuple[str, float, tuple[float, float], int, float, float], Block]
"""Blocks by name, tightness, type sizes, cautions, width, extra space: tries share the most."""


@dataclass(frozen=True)
class Stacker:
    """A card's blocks at the sizes of one try."""

    card: Card
    setter: Setter
    known: Known = field(default_factory=dict)

    @property
    def gap(self) -> float:
        """Least space between blocks in points."""
        return self.setter.between(*self.setter.layout.space.block_mm) * MM

    def measured(
        self, bands: Sequence[str | Columns], width: float, extra: float = 0.0
    ) -> list[Named]:
        """Each band as a block; columns are as high as the highest of them."""
        return [self._band(band, width, extra) for band in bands]

    def height(self, placed: Sequence[Named]) -> float:
        """What the bands take, one below the other."""
        return sum(b.height for _, b in placed) + self.gap * (len(placed) - 1)

    def filled(self, bands: Sequence[str | Columns], room: tuple[float, float]) -> tuple[Item, ...]:
        """The bands in a room they fit: what is left goes to rows first, then between bands.

        Where there are columns, what is left goes to them, and within each in the same way.
        """
        width, height = room
        placed = self.measured(bands, width)
        left = height - self.height(placed)
        if any(isinstance(band, Columns) for band in bands):
            return self._with_columns(bands, width, left)
        rows = sum(b.rows for _, b in placed)
        most = self.setter.layout.space.row_most_mm * MM - self.setter.row_gap(0)
        extra = min(most, left * 0.75 / rows) if rows else 0.0
        try:
            final = self.measured(bands, width, extra)
        except TooWide:  # pictures that grow leave less for words
            final = placed
        while extra > 0 and self.height(final) > height:
            # headings and rules take a share too, which the count of rows does not tell
            extra = extra - 0.25 if extra > 0.25 else 0.0
            final = self.measured(bands, width, extra)
        left = height - self.height(final)
        spread = max(0.0, left) / max(1, len(final) - 1)
        # a list that goes on overleaf stands under its heading, and leaves the foot empty
        goes_on = self.card.heading.counted and bands[-1] in self.setter.layout.continues
        gap = self.gap + (0.0 if goes_on else spread)
        items: list[Item] = []
        y = 0.0
        for number, (_, block) in enumerate(final):
            items += moved(block.items, 0, y, Tag("", number))
            y += block.height + gap
        return tuple(items)

    def _band(self, band: str | Columns, width: float, extra: float) -> Named:
        if isinstance(band, Columns):
            stacks = [self.measured(c, w) for c, w in self._shares(band, width)]
            return "columns", Block((), max(self.height(stack) for stack in stacks))
        cautions = self.setter.sizes.cautions if band == "safety" else 0
        extra = 0.0 if band in _STEADY else extra
        sizes = self.setter.sizes
        key = (band, sizes.tight, sizes.body, cautions, width, extra)
        if key not in self.known:
            part = getattr(self.card, _PART_OF.get(band, band))
            placers = _PLACERS | _ON_A_WALL if self.setter.layout.wall else _PLACERS
            if self.setter.in_columns(self.card.heading.title):
                placers = _PLACERS | _IN_COLUMNS
            self.known[key] = placers[band](part, self.setter, width, extra)
        return band, self.known[key]

    def _shares(self, band: Columns, width: float) -> list[tuple[list[str], float]]:
        """Each column with its width in points; two gaps of the page lie between two."""
        free = width - 2 * self.gap * (len(band.columns) - 1)
        whole = sum(band.widths)
        return [
            (names, free * share / whole)
            for names, share in zip(band.columns, band.widths, strict=True)
        ]

    def _with_columns(
        self, bands: Sequence[str | Columns], width: float, left: float
    ) -> tuple[Item, ...]:
        items: list[Item] = []
        y = 0.0
        share = left / sum(isinstance(band, Columns) for band in bands)
        for number, band in enumerate(bands):
            _, block = self._band(band, width, 0.0)
            own_tag = Tag("", number)
            if isinstance(band, str):
                items += moved(block.items, 0, y, own_tag)
                y += block.height + self.gap
                continue
            height = block.height + share
            x = 0.0
            for index, (names, own) in enumerate(self._shares(band, width)):
                if index:
                    items.append(RuleItem(x - self.gap, y, x - self.gap, y + height, HAIR))
                filled = self.filled(names, (own, height))
                items += moved(filled, x, y, own_tag, Tag("", index))
                x += own + 2 * self.gap
            y += height + self.gap
        return tuple(items)
