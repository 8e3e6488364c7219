"""Set texts into lines: the measuring that every block is built on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from cards.card.model import IconUse, Said, Text
from cards.diagnostics.diagnostic import Place
from cards.icons import catalogue
from cards.layout.layoutfile import BESIDE, TURNED, Layout
from cards.layout.pages import MM, IconItem, Item, Moved, Tag, TextItem, flat
from cards.text.faces import FontBook
from cards.text.runs import main_script
from cards.text.wrap import Line, Span, plain, spans_of, width_of, words_of, wrap

BETWEEN = 6 * MM
"""Between two columns of words, with a rule in the middle."""

NARROWEST = 27 * MM
"""A narrower column of words has one word on a line; languages then stand under one another."""

NARROW = 34 * MM
"""In less than this the second language does not stand in, since it would need one more line."""

LABEL_LEAST = 10.0
"""Least type size of a number inside a clock, in points."""

FIGURE_HEIGHT = 0.66
"""Height of figures in ems, a little over what the fonts ink (0.64, measured)."""


@dataclass(frozen=True, slots=True)
class Try:
    """What one try of the fit works with: type sizes in points, tightness, cautions."""

    title: tuple[float, float]
    body: tuple[float, float]
    least: tuple[float, float]
    """Of short words that stay small."""
    numeral: float
    small: float
    tight: float
    """How far the try has come from the wished sizes (0) to the least (1)."""
    cautions: int
    """How many cautions the safety box takes, the dish's own always."""


@dataclass(frozen=True, slots=True)
class Block:
    """Items placed from their own upper left corner, and the height they take in points.

    ``rows`` tells how many rows can take extra space.
    """

    items: tuple[Item, ...]
    height: float
    rows: int = 0
    span: float = 0.0
    """Width where it is known, or set aside and more than the items take."""


@dataclass(frozen=True, slots=True)
class Setter:
    """Knows fonts, layout and the sizes of this try."""

    book: FontBook
    layout: Layout
    sizes: Try

    def stack(
        self,
        said: Said,
        sizes: tuple[float, float],
        room: float,
        role: str,
        bold_first: bool = False,
    ) -> Block:
        """Each language below the one before, wrapped to ``room`` points.

        Where the layout sets languages otherwise: in two columns if each is wide enough, or
        all in one place, of which only the first is shown.
        """
        way = self.layout.languages
        if len(said) > 1 and way == TURNED:
            return self._turned([self._one(t, sizes[0], room, role, bold_first) for t in said])
        column = self.column(room) if len(said) > 1 and way == BESIDE else 0.0
        if column:
            parts = [
                self._one(t, sizes[min(i, 1)], column, role, bold_first and not i)
                for i, t in enumerate(said)
            ]
            return _on_one_baseline(parts, [0.0, column + BETWEEN])
        items: list[Item] = []
        x = y = 0.0
        for index, text in enumerate(said):
            bold = bold_first and not index
            y = self._lines(text, sizes[min(index, 1)], room - x, role, bold, items, (x, y))
            if role == "body" and room > NARROW:
                x = self.layout.space.second_mm * MM
        return Block(tuple(items), y)

    def _one(self, text: Text, size: float, room: float, role: str, bold: bool) -> Block:
        """One language, wrapped."""
        items: list[Item] = []
        height = self._lines(text, size, room, role, bold, items, (0.0, 0.0))
        return Block(tuple(items), height)

    def _lines(
        self,
        text: Text,
        size: float,
        room: float,
        role: str,
        bold: bool,
        items: list[Item],
        at: tuple[float, float],
    ) -> float:
        """Add the lines of a text, from ``at`` on; returns where they end."""
        x, y = at
        found = _set(text.text, bold, self.book, text.language, size, room)
        height, ascent = found.leading * size, found.ascent * size
        for line in found.lines:
            base, foot = ascent + y, height + y
            items.append(TextItem(x, base, size, line, text.language, role, text.at, y, foot))
            y += height
        return y

    def _turned(self, parts: Sequence[Block]) -> Block:
        """The first of the parts, in the room that any needs; fewer lines in its middle."""
        whole = _on_one_baseline(parts, [0.0] * len(parts))
        first = parts[0]
        shown: Sequence[Item] = flat(whole.items)[: len(first.items)]
        if len(shown) < max(len(part.items) for part in parts):
            shown = moved(first.items, 0, (whole.height - first.height) / 2)
        return Block(tuple(shown), whole.height, span=max(width(part) for part in parts))

    def in_columns(self, said: Said) -> bool:
        """Whether languages stand in two columns, where there is room for them."""
        return self.layout.languages == BESIDE and len(said) > 1

    def column(self, room: float) -> float:
        """Width of each of two columns of words in ``room``; 0 where there are none."""
        column = (room - BETWEEN) / 2
        return column if self.layout.languages == BESIDE and column >= NARROWEST else 0.0

    def line(
        self, text: str, size: float, language: str, role: str, at: Place, *, bold: bool = False
    ) -> Block:
        """One unbroken line; its width is that of its one item."""
        found = _set(text, bold, self.book, language, size)
        if not found.lines:
            return Block((), 0.0)
        y, top, bottom = found.ascent * size, 0.0, found.leading * size
        if found.figures:
            # figures have no tails and are as high as capitals: their own space is what they ink
            top, bottom = y - FIGURE_HEIGHT * size, y + 0.05 * size
        item = TextItem(0, y, size, found.lines[0], language, role, at, top, bottom)
        return Block((item,), found.leading * size)

    def in_line(self, said: Said, sizes: tuple[float, float], gap: float, role: str) -> Block:
        """All languages side by side on one baseline."""
        lines = [
            self.line(t.text, sizes[min(i, 1)], t.language, role, t.at) for i, t in enumerate(said)
        ]
        if self.layout.languages == TURNED:
            return self._turned(lines)
        base = max(_text(b).y for b in lines)
        items: list[Item] = []
        x = 0.0
        for block in lines:
            item = _text(block)
            items.append(item.moved(x, base - item.y))
            x += item.line.width + gap
        # a script of little height hangs lower than its own block where another rises higher
        return Block(tuple(items), max(base - _text(b).y + b.height for b in lines))

    def icon(self, use: IconUse, height: float) -> Block:
        """An icon of a height in points, with its label in the middle."""
        return icon_block(use, height, self.book)

    def measure(self, use: IconUse) -> Block:
        """A measure icon at its true size."""
        drawing = catalogue.find(use.name)
        true = drawing.true_height_mm or self.layout.icons.row_mm
        icons = self.layout.icons
        wished = true * self.between(*icons.measure_scale)
        return self.icon(use, max(wished, icons.measure_least_mm) * MM)

    def between(self, wished: float, least: float) -> float:
        """A length on its way from wished to least, as the fit is on its own."""
        return wished + (least - wished) * self.sizes.tight

    @property
    def message(self) -> tuple[float, float]:
        """Type sizes of what a chart says from afar; those of the body on a card."""
        return self.layout.type.message or self.sizes.body

    def row_gap(self, extra: float) -> float:
        """Space between rows in points."""
        return self.between(*self.layout.space.row_mm) * MM + extra


@dataclass(frozen=True, slots=True)
class _Set:
    """A text in lines, with the line height and ascent of its script in ems."""

    lines: tuple[Line, ...]
    leading: float
    ascent: float
    figures: bool
    """True where it has no letter."""


@lru_cache(maxsize=8_000)
def _set(
    text: str, bold: bool, book: FontBook, language: str, size: float, room: float | None = None
) -> _Set:
    """A text wrapped to ``room`` points; in one line without. ``bold`` sets all of it so."""
    spans = (Span(plain(text), "bold"),) if bold else spans_of(text)
    words = words_of(spans, book, language)
    lines = wrap(words, size, width_of(words, size) + 0.01 if room is None else room)
    figures = not any(c.isalpha() for c in text)
    return _Set(lines, *book.metrics(main_script(plain(text))), figures)


@lru_cache(maxsize=8_000)
def icon_block(use: IconUse, height: float, book: FontBook) -> Block:
    """An icon of a height in points, with its label in the middle."""
    drawing = catalogue.find(use.name)
    width = drawing.width * height / drawing.height
    icon = IconItem(0, 0, width, height, use, under=bool(use.label))
    if not use.label:
        return Block((icon,), height, span=width)
    size = label_size(use.label, height)
    line = _set(use.label, True, book, "und", size, width).lines[0]
    baseline = height / 2 + FIGURE_HEIGHT / 2 * size
    text = TextItem(
        (width - line.width) / 2,
        baseline,
        size,
        line,
        "und",
        "label",
        Place(""),
        baseline - FIGURE_HEIGHT * size,
        baseline + 0.05 * size,
    )
    return Block((icon, text), height, span=max(width, text.box[2]))


def label_size(label: str, height: float) -> float:
    """Type size in points of a number inside a clock of a height."""
    return max(LABEL_LEAST, height * {1: 0.42, 2: 0.38}.get(len(label), 0.3))


def _text(block: Block) -> TextItem:
    item = block.items[0]
    if isinstance(item, Moved):
        (item, *_) = flat((item,))
    assert isinstance(item, TextItem)
    return item


def _on_one_baseline(parts: Sequence[Block], lefts: Sequence[float]) -> Block:
    """Parts at their left edges, their first lines on one baseline."""
    base = max((baseline(part) for part in parts if part.items), default=0.0)
    items: list[Item] = []
    height = 0.0
    for part, left in zip(parts, lefts, strict=True):
        down = base - baseline(part) if part.items else 0.0
        items += moved(part.items, left, down)
        height = max(height, part.height + down)
    return Block(tuple(items), height)


def baseline(block: Block) -> float:
    """The baseline of a block's first line, from its top."""
    return _text(block).y


def width(block: Block) -> float:
    """Right edge of a block's rightmost item, or the width set aside."""
    return block.span or _right(block.items)


def moved(items: Sequence[Item], dx: float, dy: float, *tags: Tag) -> tuple[Item, ...]:
    """Items elsewhere, inside ``tags``."""
    return (Moved(items, dx, dy, tags),) if items else ()


def _right(items: Sequence[Item]) -> float:
    """Right edge of the rightmost item."""
    edges = [
        _right(item.items) + item.dx if isinstance(item, Moved) else item.box[2] for item in items
    ]
    return max(edges, default=0.0)


def row_of_icons(blocks: Sequence[Block], gap: float, tight: float = 1.0) -> Block:
    """Icons side by side on one foot line; ``tight`` under 1 lets them overlap like a fan."""
    height = max((b.height for b in blocks), default=0.0)
    items: list[Item] = []
    x = 0.0
    right = 0.0
    for index, block in enumerate(blocks):
        if index and index % 5 == 0:
            x += gap * 2  # fives stand together, to be counted at a glance
        items += moved(block.items, x, height - block.height)
        wide = width(block)
        right = max(right, x + wide)
        x += (wide + gap) * tight
    return Block(tuple(items), height if right else 0.0, span=right)


TIGHTEST = 0.6
"""How far icons may be pushed over one another and still be counted."""


def fan_of_icons(blocks: Sequence[Block], gap: float, room: float) -> Block:
    """Icons side by side within ``room``: pushed together like a fan, then in more lines."""
    tight = 1.0
    fan = row_of_icons(blocks, gap)
    while width(fan) > room and tight > TIGHTEST:
        tight -= 0.05
        fan = row_of_icons(blocks, gap, tight)
    if width(fan) <= room or len(blocks) < 2:
        return fan
    half = -(-len(blocks) // 2)
    upper, lower = (fan_of_icons(part, gap, room) for part in (blocks[:half], blocks[half:]))
    below = upper.height + gap
    return Block((*upper.items, *moved(lower.items, 0, below)), below + lower.height)
