"""Sheets of A4: their setter, title, foot and a column that turns the page."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from cards.card.model import CardMeta, Said, Text
from cards.card.origin import PageFoot
from cards.diagnostics.diagnostic import Place, Result, error
from cards.layout import page_foot
from cards.layout.checks import check_boxes
from cards.layout.layoutfile import STACKED, IconSizes, Layout, Space
from cards.layout.mirror import as_read
from cards.layout.page_foot import CodeTooLong
from cards.layout.pages import MM, Item, Page, Pages, RuleItem, flat
from cards.layout.parts import HAIR
from cards.layout.setting import Block, Setter, Try, moved, width
from cards.text.faces import FontBook
from cards.text.shape import GlyphMissing
from cards.text.wrap import TooWide

WIDTH, HEIGHT, MARGIN, TOP = 210 * MM, 297 * MM, 15 * MM, 11 * MM
ROOM = WIDTH - 2 * MARGIN
DEPTH = HEIGHT - TOP - page_foot.HEIGHT - page_foot.BELOW
"""Height that a page has for its own."""

LEAST = 12.0
"""Least type size on these sheets, in points; they are read over a shoulder."""

BEAT = 5 * MM
"""The rhythm: rows are so many of it high."""

TITLE, HEAD, BODY = (22.0, 17.0), (15.0, 13.0), (14.0, 12.5)
SMALL = (LEAST, LEAST)


def sheet_setter(layout: Layout, book: FontBook, scale: float = 1.0) -> Setter:
    """A setter whose sizes are these sheets' own, whatever the programme's ``layout``.

    ``scale`` enlarges icons, measures and numerals of a card's rows from those of a hand card.
    """
    icons = IconSizes(
        row_mm=12 * scale,
        measure_scale=(1.05 * scale, 1.05 * scale),
        measure_least_mm=9,
        mark_mm=12 * scale,
    )
    space = Space(block_mm=(4, 4), row_mm=(1, 1), row_most_mm=5)
    kind = layout.type.model_copy(update={"least": SMALL})
    own = layout.model_copy(
        update={"icons": icons, "space": space, "type": kind, "languages": STACKED}
    )
    body = (16.0, 14.0) if scale > 1 else BODY
    sizes = Try(TITLE, body, SMALL, 18 * max(1.0, scale * 0.75), LEAST, 0.0, 0)
    return Setter(book, own, sizes)


def bold(said: Said) -> Said:
    """The same in bold, all of it."""
    return tuple(Text(t.language, f"*{t.text.replace('*', '')}*", t.at) for t in said)


def title_block(title: Said, under: Sequence[Said], setter: Setter) -> Block:
    """The title in each language, then further sayings at body size, and a hairline."""
    block = setter.stack(title, setter.sizes.title, ROOM, "title", bold_first=True)
    items = list(block.items)
    y = block.height + 1.5 * MM
    for said in under:
        words = setter.stack(said, SMALL, ROOM, "body")
        items += moved(words.items, 0, y)
        y += words.height + 1 * MM
    y += 1 * MM
    items.append(RuleItem(0, y, ROOM, y, HAIR))
    return Block(tuple(items), y)


def heading_block(said: Said, setter: Setter, room: float = ROOM) -> Block:
    """A heading in each language on one line, or below one another where that is too wide."""
    line = setter.in_line(bold(said), HEAD, 4 * MM, "heading")
    if width(line) <= room:
        return line
    return setter.stack(bold(said), HEAD, room, "heading")


@dataclass
class Flow:
    """Blocks from the top of a page downwards; a new page where one does not fit."""

    depth: float = DEPTH
    y: float = 0.0
    done: list[tuple[Item, ...]] = field(default_factory=list)
    items: list[Item] = field(default_factory=list)

    def need(self, height: float) -> bool:
        """Turn the page unless ``height`` points are left. True where it was turned."""
        if self.y + height <= self.depth + 0.01 or not self.items:
            return False
        self.turn()
        return True

    def turn(self) -> None:
        """Begin a new page."""
        self.done.append(tuple(self.items))
        self.items, self.y = [], 0.0

    def add(self, block: Block, height: float | None = None, x: float = 0.0) -> None:
        """Put a block; go down by ``height`` or its own."""
        self.items += moved(block.items, x, self.y)
        self.y += block.height if height is None else height

    def set(self, block: Block) -> None:
        """Put a block, on a new page where this one does not hold it."""
        self.need(max((item.box[3] for item in flat(block.items)), default=0.0))
        self.add(block)

    def rule(self) -> None:
        """A hairline across."""
        self.items.append(RuleItem(0, self.y, ROOM, self.y, HAIR))

    def pages(self) -> list[tuple[Item, ...]]:
        """All pages so far."""
        return [*self.done, tuple(self.items)]


def settled(make: Callable[[], Pages], at: Place) -> Result[Pages]:
    """The pages that ``make`` places, or one diagnostic that says what keeps them from it."""
    try:
        pages = make()
    except GlyphMissing as missing:
        letters = ", ".join(f'"{c}" (U+{ord(c):04X})' for c in missing.characters[:4])
        trouble = error(
            at,
            "glyph-missing",
            f"no font here has {letters}, script {missing.script}",
            "use other characters in the programme's name and the words file",
        )
        return Result(None, (trouble,))
    except TooWide as wide:
        trouble = error(
            at,
            "word-too-wide",
            f'the word "{wide.word}" is wider than its place on the sheet',
            "use a shorter word in the words file, or part it with a space",
        )
        return Result(None, (trouble,))
    except CodeTooLong as long:
        trouble = error(
            at,
            "name-too-long",
            f"link, folders and name of this file make {len(str(long))} characters, too many for "
            f"the code of a page",
            "give file and folders shorter names, or the programme a shorter link",
        )
        return Result(None, (trouble,))
    return Result(pages, check_boxes(pages))


def bound(
    sides: Sequence[tuple[str, Sequence[Item]]], meta: CardMeta, foot: PageFoot, setter: Setter
) -> Pages:
    """Named sides with their foot at one place. Raises GlyphMissing, TooWide and CodeTooLong."""
    pages: list[Page] = []
    for number, (name, items) in enumerate(sides, 1):
        block = page_foot.foot_block(foot, number, len(sides), setter, ROOM, LEAST)
        pages.append(Page(name, flat((*items, *moved(block.items, 0, DEPTH)), MARGIN, TOP)))
    return as_read(Pages(WIDTH, HEIGHT, page_foot.BELOW, meta, tuple(pages)))
