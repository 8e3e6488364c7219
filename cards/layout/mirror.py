"""Pages in the way their language is read: placed from left to right, then mirrored if need be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from cards.icons import catalogue
from cards.layout.pages import IconItem, Page, Pages, Placed, RuleItem, TextItem
from cards.text.bidi import reads_leftward


def as_read(pages: Pages) -> Pages:
    """The pages mirrored where their first language is read from right to left.

    Columns, rows and numbers change sides; drawings stay as they are, except those that point.
    In either case the lines of one text are flush on the side where its language begins a line.
    """
    turned = reads_leftward(pages.meta.language)
    found: list[Page] = []
    for page in pages.pages:
        items = tuple(_flush(page.items, turned))
        if turned:
            items = tuple(mirrored(item, pages.width) for item in items)
        found.append(page if items == page.items else replace(page, items=items))
    return replace(pages, pages=tuple(found))


_ARROWS = str.maketrans("←→", "→←")


def mirrored(item: Placed, width: float) -> Placed:
    """An item at its place on the other side of a page of ``width`` points."""
    right = item.box[2]
    if isinstance(item, RuleItem):
        # one that slopes would slope the other way
        return replace(item, x1=width - item.x2, y1=item.y2, x2=width - item.x1, y2=item.y1)
    if isinstance(item, IconItem):
        if not catalogue.find(item.icon.name).points:
            return replace(item, x=width - right)
        icon = replace(item.icon, alt=item.icon.alt.translate(_ARROWS))
        return replace(item, x=width - right, icon=icon, turned=not item.turned)
    return replace(item, x=width - right)


def _flush(items: Sequence[Placed], turned: bool) -> Iterator[Placed]:
    """Items before they are mirrored, with the lines of each text flush on the right side.

    Lines stand flush where the page's first language begins them. A text that is read the other
    way is flush on its other side, within the room that its own longest line takes.
    """
    for key, same in groupby(items, _text_of):
        lines = list(same)
        if key is None or len(lines) == 1:
            yield from lines
            continue
        widest = max(line.box[2] for line in lines)
        for line in lines:
            assert isinstance(line, TextItem)
            away = reads_leftward(line.language) != turned
            yield replace(line, x=widest - line.line.width) if away else line


def _text_of(item: Placed) -> tuple[object, ...] | None:
    """What the lines of one text have in common; None for what is no such line."""
    if not isinstance(item, TextItem) or item.language == "und":
        return None
    return item.language, item.role, item.at, item.size, item.x, item.tags
