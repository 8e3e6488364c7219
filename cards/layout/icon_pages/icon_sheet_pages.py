"""place_icon_sheet: every icon at its printed size, with its words and name, on one grid."""

from __future__ import annotations

from cards.card.icon_sheet import IconEntry, IconGroup, IconSheet
from cards.card.model import Said
from cards.diagnostics.diagnostic import Place
from cards.icons import catalogue
from cards.layout.a4 import (
    BEAT,
    HEAD,
    LEAST,
    ROOM,
    Flow,
    bold,
    bound,
    heading_block,
    sheet_setter,
    title_block,
)
from cards.layout.layoutfile import Layout
from cards.layout.pages import MM, Item, Pages
from cards.layout.setting import Block, Setter, moved, width
from cards.text.faces import FontBook

WIDEST = 15 * MM
"""Width of the column that an icon stands in."""

ICON = 11 * MM
"""Height of an icon that has no true size of its own."""

CELL = ROOM / 2
WORDS = 18 * MM
"""Where the words of a cell begin."""

WORDS_ROOM = CELL - WORDS - 4 * MM
NAME, LEVELS = 58 * MM, 92 * MM
"""Where name and fills begin in the row of a measure."""

TEXT = (13.0, LEAST)
ROW, LEVEL_ROW = 4 * BEAT, 3 * BEAT


def place_icon_sheet(sheet: IconSheet, layout: Layout, book: FontBook) -> Pages:
    """The sheet's pages. Raises GlyphMissing and TooWide."""
    setter = sheet_setter(layout, book)
    flow = Flow()
    flow.add(title_block(sheet.title, (sheet.how,), setter))
    for group in sheet.groups:
        rows = _rows(group, setter)
        heading = _heading(group, setter)
        # a group that fits a page stands on one
        whole = heading.height + sum(row.height for row in rows)
        turned = flow.need(min(whole + BEAT, flow.depth))
        if flow.y and not turned:
            if flow.done or group is not sheet.groups[0]:
                flow.rule()
            flow.y += 0.4 * BEAT
        flow.add(heading)
        for row in rows:
            flow.need(row.height)
            flow.add(row)
    pages = [(f"icons {n}", items) for n, items in enumerate(flow.pages(), 1)]
    return bound(pages, sheet.meta, sheet.foot, setter)


def _heading(group: IconGroup, setter: Setter) -> Block:
    """The group's name; over the columns of a filled group how full they are."""
    name = heading_block(group.heading, setter, LEVELS if group.levels else ROOM)
    items = list(name.items)
    for index, head in enumerate(group.heads):
        figure = setter.line(head.text, HEAD[0], "und", "level", Place(""), bold=True)
        middle = LEVELS + (index + 0.5) * _pitch(group)
        items += moved(figure.items, middle - width(figure) / 2, 0)
    return Block(tuple(items), name.height + 2 * MM)


def _pitch(group: IconGroup) -> float:
    return (ROOM - LEVELS) / len(group.levels)


def _rows(group: IconGroup, setter: Setter) -> list[Block]:
    if group.levels:
        return [_filled(entry, _pitch(group), setter) for entry in group.entries]
    rows: list[Block] = []
    for start in range(0, len(group.entries), 2):
        cells = [_cell(entry, setter) for entry in group.entries[start : start + 2]]
        height = max(ROW, *(cell.height for cell in cells))
        items: list[Item] = []
        for index, cell in enumerate(cells):
            items += moved(cell.items, index * CELL, 0)
        rows.append(Block(tuple(items), height))
    return rows


def _cell(entry: IconEntry, setter: Setter) -> Block:
    """Icon, then words and name, the icon level with the words' middle."""
    words = setter.stack(_said(entry), TEXT, WORDS_ROOM, "body")
    name = setter.line(entry.name, LEAST, "und", "name", Place(""))
    high = words.height + name.height
    icon = _icon(entry, 0, setter)
    return Block(
        (
            *moved(icon.items, (WIDEST - width(icon)) / 2, max(0.0, (high - icon.height) / 2)),
            *moved(words.items, WORDS, 0),
            *moved(name.items, WORDS, words.height),
        ),
        high + 1.5 * MM,
    )


def _filled(entry: IconEntry, pitch: float, setter: Setter) -> Block:
    """Words, name, and the icon at each level in a column of its own."""
    words = setter.stack(_said(entry), TEXT, NAME - 2 * MM, "body")
    name = setter.line(entry.name, LEAST, "und", "name", Place(""))
    height = max(words.height, 13 * MM)
    items: list[Item] = [
        *moved(words.items, 0, (height - words.height) / 2),
        *moved(name.items, NAME, (height - name.height) / 2),
    ]
    for index in range(len(entry.icons)):
        icon = _icon(entry, index, setter)
        x = LEVELS + (index + 0.5) * pitch - width(icon) / 2
        items += moved(icon.items, x, (height - icon.height) / 2)
    return Block(tuple(items), max(LEVEL_ROW, height + 1 * MM))


def _said(entry: IconEntry) -> Said:
    first, *others = entry.said
    return (*bold((first,)), *others)


def _icon(entry: IconEntry, index: int, setter: Setter) -> Block:
    """At its true size where it has one, else as on a card; small marks smaller, as they stand."""
    use = entry.icons[index]
    drawing = catalogue.find(entry.name)
    if drawing.true_height_mm:
        return setter.icon(use, drawing.true_height_mm * MM)
    widest = WIDEST * drawing.height / drawing.width
    return setter.icon(use, min(ICON * min(1.0, drawing.height / 48), widest))
