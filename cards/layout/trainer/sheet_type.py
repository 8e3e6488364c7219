"""Type for the trainer's sheet: small, sober, one script's metrics; and a column that flows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from cards.diagnostics.diagnostic import Place
from cards.layout.pages import Placed, RuleItem, Tag, TextItem
from cards.text.faces import FontBook
from cards.text.runs import main_script
from cards.text.shape import GlyphMissing
from cards.text.wrap import Span, TooWide, Word, width_of, words_of, wrap

NOWHERE = Place("")


@dataclass(frozen=True)
class Type:
    """Sets texts of the sheet."""

    book: FontBook

    def width(self, text: str, size: float, weight: str = "regular") -> float:
        """Width of a text on one line, in points."""
        return width_of(self._words(text, weight), size)

    def _words(self, text: str, weight: str) -> tuple[Word, ...]:
        """The text shaped; characters that no font has are shown by their numbers."""
        try:
            return words_of((Span(text, weight),), self.book, "en")
        except GlyphMissing as trouble:
            shown = text
            for character in set(trouble.characters) - set("<U+0123456789ABCDEF>"):
                shown = shown.replace(character, f"<U+{ord(character):04X}>")
            if shown == text:
                raise
            return self._words(shown, weight)

    def line(
        self,
        text: str,
        x: float,
        y: float,
        size: float,
        weight: str = "regular",
        right: bool = False,
    ) -> TextItem:
        """One line with its baseline at ``y``; ``right`` sets it to end at ``x``."""
        words = self._words(text if text.strip() else "-", weight)
        room = width_of(words, size) + 0.01
        line = wrap(words, size, room)[0]
        left = x - line.width if right else x
        return TextItem(
            left, y, size, line, "en", "sheet", NOWHERE, y - 0.72 * size, y + 0.22 * size
        )

    def paragraph(
        self, text: str, x: float, y: float, room: float, size: float, weight: str = "regular"
    ) -> tuple[list[TextItem], float]:
        """Lines wrapped to ``room`` from the top edge ``y``, and the height they take."""
        leading, ascent = self.book.metrics(main_script(text))
        words = self._words(text, weight)
        try:
            lines = wrap(words, size, room, even=False)
        except TooWide:
            # a path or an address may be longer than the line; it is cut into pieces
            longest = max(map(len, text.split()))
            most = min(max(8, int(room / size)), longest - 1)
            return self.paragraph(_parted(text, most), x, y, room, size, weight)
        height = leading * size
        items = [
            TextItem(
                x,
                y + n * height + ascent * size,
                size,
                line,
                "en",
                "sheet",
                NOWHERE,
                y + n * height,
                y + (n + 1) * height,
            )
            for n, line in enumerate(lines)
        ]
        return items, height * len(lines)


def _parted(text: str, most: int) -> str:
    """The text with blanks in words of more than ``most`` letters."""
    return " ".join(
        " ".join(word[n : n + most] for n in range(0, len(word), most)) for word in text.split()
    )


@dataclass
class Column:
    """Collects items downwards; begins a new page where something does not fit."""

    top: float
    bottom: float
    left: float
    width: float
    y: float = 0.0
    done: list[tuple[Placed, ...]] = field(default_factory=list)
    items: list[Placed] = field(default_factory=list)
    tagged: int = 0
    """Elements so far, so that each has a number of its own."""

    def __post_init__(self) -> None:
        self.y = self.top

    def need(self, height: float) -> None:
        """Turn the page unless ``height`` points are left."""
        if self.y + height > self.bottom and self.items:
            self.done.append(tuple(self.items))
            self.items = []
            self.y = self.top

    def add(self, items: Sequence[Placed], height: float, *tags: Tag) -> None:
        """Put items, placed from the column's corner and standing in ``tags``, and move on."""
        self.need(height)
        self.items += [item.moved(self.left, self.y, tags) for item in items]
        self.y += height

    def tag(self, kind: str, alt: str = "") -> Tag:
        """A new element of a kind."""
        self.tagged += 1
        return Tag(kind, self.tagged, alt)

    def rule(self) -> None:
        """A hairline across."""
        self.items.append(RuleItem(self.left, self.y, self.left + self.width, self.y, 0.5))

    def pages(self) -> list[tuple[Placed, ...]]:
        """All pages so far."""
        return [*self.done, tuple(self.items)]
