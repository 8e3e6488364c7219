"""Lead and portions where two languages stand in columns: rows of pictures, then both languages."""

from __future__ import annotations

from cards.card.model import Lead, Marked, PortionColumn, PortionTable, Said
from cards.layout.blocks_front import THEN, ahead
from cards.layout.pages import MM, Item, RuleItem, Tag, flat
from cards.layout.parts import (
    COLUMN_GAP,
    HAIR,
    Items,
    column_age,
    day_within,
    rule_between,
    words_left,
)
from cards.layout.setting import BETWEEN, Block, Setter, baseline, fan_of_icons, moved, width


def lead(block: Lead, setter: Setter, room: float, _extra: float) -> Block:
    """A row each for when to begin, how long the work takes, how much it makes."""
    height = setter.between(setter.layout.icons.row_mm, 9) * MM
    gap = setter.between(1, 0.5) * MM
    items: list[Item] = [RuleItem(0, 0, room, 0, HAIR)]
    y = top = gap
    for index, marked in enumerate(block.items):
        row = _row(_right(setter.icon(marked.icon, height), room), marked.said, setter, room)
        items += moved(row.items, 0, y, Tag("P", index))
        y += row.height + gap
    items += _rule(block.items[0].said, setter, room, top, y - gap)
    items.append(RuleItem(0, y, room, y, HAIR))
    return Block(tuple(items), y)


def portions(block: PortionTable, setter: Setter, room: float, extra: float) -> Block:
    """An age a group of rows: who and how soft, how much, how often; milk below them all."""
    gap = setter.between(1, 0.4) * MM + extra * 0.4
    pad = setter.between(1.5, 0.7) * MM + extra * 0.6
    items: list[Item] = []
    y = 0.0
    for number, column in enumerate(block.columns):
        inside = Tag("Table"), Tag("TR", number)
        items.append(RuleItem(0, y, room, y, HAIR))
        y += pad
        top = y
        child = column_age(column, setter, setter.between(12, 10) * MM)
        rows = _rows(column, setter, room)
        soft = min(item.box[0] for item in flat(rows[0].items))
        if width(child) > soft - 1 * MM:
            items += moved(child.items, 0, y, *inside, Tag("TH", how="Row"))
            y += child.height + gap
        else:  # beside the first row: the spoons of the first weeks need the whole width
            down = max(0.0, (rows[0].height - child.height) / 2)
            items += moved(child.items, 0, y + down, *inside, Tag("TH", how="Row"))
            rows[0] = _beside(Block((), child.height), rows[0], 0)
        for index, row in enumerate(rows):
            items += moved(row.items, 0, y, *inside, Tag("TD", index))
            y += row.height + gap
        items += _rule(column.meals, setter, room, top, y - gap)
        y += pad - gap
    items.append(RuleItem(0, y, room, y, HAIR))
    y += pad
    milk = _marked(block.breast_milk, setter, room, setter.between(10, 9) * MM)
    items += moved(milk.items, 0, y, Tag("P"))
    items += _rule(block.breast_milk.said, setter, room, y, y + milk.height)
    return Block(tuple(items), y + milk.height, rows=2 * len(block.columns))


def _rows(column: PortionColumn, setter: Setter, room: float) -> list[Block]:
    """How soft, how much, how often."""
    free = words_left(room) - COLUMN_GAP
    often = _right(_often(column, setter, free), room)
    return [
        _marked(column.texture, setter, room, setter.between(10, 8.5) * MM),
        _amount(column, setter, room, free),
        _row(often, column.meals, setter, room),
    ]


def _often(column: PortionColumn, setter: Setter, free: float) -> Block:
    """The day's meals, and under them that a dish is not for every day."""
    day = day_within(column, setter, setter.between(5, 4.5) * MM, free)
    if not column.seldom:
        return day
    week = setter.icon(column.seldom[0], 9 * MM)
    below = moved(week.items, max(0.0, width(day) - width(week)), day.height + 0.5 * MM)
    return Block((*day.items, *below), day.height + 0.5 * MM + week.height)


def _amount(column: PortionColumn, setter: Setter, room: float, free: float) -> Block:
    """Spoons and cups; in each column the number, "2-3, then" before it in the first weeks."""
    icons = [setter.measure(icon) for icon in column.start_icons]
    if icons:
        icons.append(setter.icon(THEN, 5 * MM))
    icons += [setter.measure(icon) for icon in column.amount_icons]
    picture = _right(fan_of_icons(icons, 0.6 * MM, free), room)
    if not column.start:
        return _row(picture, column.amount, setter, room)
    before = ahead(column.start, setter, column.amount[0].at)
    left = words_left(room)
    parts = [
        setter.stack((text,), (size, size), setter.column(room - left) - width(before), "body")
        for text, size in zip(column.amount, setter.sizes.body, strict=True)
    ]
    base = max(baseline(part) for part in (*parts, before))
    items: list[Item] = []
    for index, part in enumerate(parts):
        x = index * (setter.column(room - left) + BETWEEN)
        items += moved(before.items, x, base - baseline(before))
        items += moved(part.items, x + width(before), base - baseline(part))
    words = Block(tuple(items), max(part.height + base - baseline(part) for part in parts))
    return _beside(picture, words, left)


def _marked(marked: Marked, setter: Setter, room: float, height: float) -> Block:
    return _row(_right(setter.icon(marked.icon, height), room), marked.said, setter, room)


def _right(picture: Block, room: float) -> Block:
    """A picture that ends where the words are near."""
    x = words_left(room) - COLUMN_GAP - width(picture)
    return Block(moved(picture.items, x, 0), picture.height)


def _row(picture: Block, said: Said, setter: Setter, room: float) -> Block:
    """A picture and the words in their columns."""
    left = words_left(room)
    return _beside(picture, setter.stack(said, setter.sizes.body, room - left, "body"), left)


def _beside(picture: Block, words: Block, left: float) -> Block:
    height = max(picture.height, words.height)
    items = (
        *moved(picture.items, 0, (height - picture.height) / 2),
        *moved(words.items, left, (height - words.height) / 2),
    )
    return Block(items, height)


def _rule(said: Said, setter: Setter, room: float, top: float, bottom: float) -> Items:
    left = words_left(room)
    return rule_between(said, setter, room - left, (left, top, bottom))
