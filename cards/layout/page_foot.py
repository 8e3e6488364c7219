"""The foot of every page of A4: whose it is, what it is of, which page, and its QR code."""

from __future__ import annotations

from cards.card.model import Said
from cards.card.origin import PageFoot
from cards.diagnostics.diagnostic import Place
from cards.layout.blocks_back import trace_line
from cards.layout.pages import MM, Item, QrItem, RuleItem
from cards.layout.parts import HAIR
from cards.layout.qr import qr_modules
from cards.layout.setting import Block, Setter, moved, width
from cards.words.digits import LATIN

SIDE = 22 * MM
"""Of the code with its quiet zone: the same on all of these pages."""

LEAST_MODULE = 0.4 * MM
"""Both readers read it after three copies of copies (``tests/test_page_codes.py``); a code of more
characters is refused."""

OVER = 1 * MM
"""From the hairline over the foot to what stands in it."""

HEIGHT = SIDE + OVER
"""Of a page, kept for the foot."""

BELOW = 6 * MM
"""From the foot to the edge of the paper: an office printer reaches so far, and the code's own
quiet zone keeps it further from the edge still."""

BESIDE = 4 * MM
"""Between words and code."""

MOST_MODULES = int(SIDE / LEAST_MODULE) - 8


class CodeTooLong(Exception):
    """A code that would be too fine for its place."""


def code_item(payload: str, *, grows: bool = False) -> QrItem:
    """The code from its own corner; too long a one ``grows``, or raises CodeTooLong."""
    modules = qr_modules(payload)
    if modules > MOST_MODULES and not grows:
        raise CodeTooLong(payload)
    return QrItem(0, 0, max(SIDE, (modules + 8) * LEAST_MODULE), modules, payload)


def foot_block(
    foot: PageFoot, number: int, count: int, setter: Setter, room: float, size: float
) -> Block:
    """A hairline; below it words on the left, one above the other, and the code on the right.

    Raises GlyphMissing, TooWide and CodeTooLong.
    """
    code = code_item(foot.qr)
    left = room - SIDE - BESIDE
    figures = str.maketrans(LATIN, foot.digits)
    told = f"{number} / {count}".translate(figures)
    page = setter.line(told, size, "und", "foot", Place(""), bold=True)
    items: list[Item] = [RuleItem(0, 0, room, 0, HAIR), *moved((code,), room - SIDE, OVER)]
    y = OVER + 0.5 * MM
    first = _in_line(foot.whose, setter, left - width(page) - BESIDE, size)
    items += moved(first.items, 0, y)
    items += moved(page.items, left - width(page), y)
    y += max(first.height, page.height)
    lines = trace_line(foot.trace, setter, left, named=True)
    items += moved(lines.items, 0, y)
    y += lines.height
    items += moved(_in_line(foot.drafts, setter, left, size).items, 0, y)
    return Block(tuple(items), HEIGHT)


def _in_line(said: Said, setter: Setter, room: float, size: float) -> Block:
    """Languages side by side; below one another where they are too wide."""
    if not said:
        return Block((), 0.0)
    line = setter.in_line(said, (size, size), 4 * MM, "foot")
    return line if width(line) <= room else setter.stack(said, (size, size), room, "foot")
