"""Portions, cautions and foot in their form for a wall."""

from __future__ import annotations

from collections.abc import Sequence

from cards.card.model import Foot, PortionColumn, PortionTable, SafetyBox
from cards.layout.blocks_back import caution_box, qr_of, trace
from cards.layout.blocks_front import THEN
from cards.layout.pages import MM, Item, RuleItem, Tag
from cards.layout.parts import (
    COLUMN_GAP,
    GAP,
    HAIR,
    column_age,
    day_and_week,
    day_within,
    mark_with_words,
)
from cards.layout.setting import Block, Setter, fan_of_icons, moved, width

WIDE = 44 * MM
"""From this width on an age has room for two things side by side."""


def portions(block: PortionTable, setter: Setter, room: float, extra: float) -> Block:
    """An age a column: the child, the food and the filled cup, a bowl a meal; milk goes on."""
    count = len(block.columns)
    cell = (room - COLUMN_GAP * (count - 1)) / count
    cells = [_age(column, setter, cell) for column in block.columns]
    if cell > WIDE:
        cells = _halved(block.columns, setter, cell)
    row = setter.between(1.4, 0.6) * MM + extra
    items: list[Item] = [RuleItem(0, 0, room, 0, HAIR)]
    top = setter.between(1.5, 0.8) * MM
    y = top
    for number in range(len(cells[0])):
        height = max(rows[number].height for rows in cells)
        for index, rows in enumerate(cells):
            tag = Tag("TD", index) if number else Tag("TH", index, how="Column")
            inside = Tag("Table"), Tag("TR", number), tag
            down = y + height - rows[number].height
            items += moved(rows[number].items, index * (cell + COLUMN_GAP), down, *inside)
        y += height + row
    for index in range(1, count):
        x = index * (cell + COLUMN_GAP) - COLUMN_GAP / 2
        items.append(RuleItem(x, top, x, y - row, HAIR))
    items.append(RuleItem(0, y - row / 2, room, y - row / 2, HAIR))
    milk = mark_with_words(block.breast_milk, setter, room, setter.between(11, 8.5) * MM)
    items += moved(milk.items, 0, y, Tag("P"))
    return Block(tuple(items), y + milk.height, rows=len(cells[0]))


def _halved(columns: Sequence[PortionColumn], setter: Setter, room: float) -> list[list[Block]]:
    """Two rows where there is room: who beside how soft, how much beside how often."""
    cells = [_age(column, setter, room / 2) for column in columns]
    upper = max(width(child) for child, *_ in cells) + GAP
    lower = max(room / 2, max(width(amount) for _, _, amount, _ in cells) + GAP)
    halved: list[list[Block]] = []
    for column, (child, _, amount, _) in zip(columns, cells, strict=True):
        icon = setter.icon(column.texture.icon, setter.between(11, 8) * MM)
        said = setter.stack(column.texture.said, setter.sizes.body, room - upper, "body")
        often = _meals(column, setter, room - lower)
        halved.append([_beside(child, over(icon, said), upper), _beside(amount, often, lower)])
    return halved


def _beside(left: Block, right: Block, x: float) -> Block:
    """Two blocks side by side on one foot line."""
    height = max(left.height, right.height)
    items = (
        *moved(left.items, 0, height - left.height),
        *moved(right.items, x, height - right.height),
    )
    return Block(items, height)


def _age(column: PortionColumn, setter: Setter, room: float) -> list[Block]:
    """Who, how soft, how much, how often."""
    child = column_age(column, setter, setter.between(16, 11.5) * MM)
    texture = mark_with_words(column.texture, setter, room, setter.between(11, 8) * MM)
    amount, meals = _amount(column, setter, room), _meals(column, setter, room)
    return [child, texture, amount, meals]


def _meals(column: PortionColumn, setter: Setter, room: float) -> Block:
    """A bowl a meal from sun to moon, and words under them."""
    height = setter.between(5.5, 4.6) * MM
    if column.seldom:
        return day_and_week(column, setter, room, height)
    day = day_within(column, setter, height, room)
    often = setter.stack(column.meals, setter.sizes.body, room, "body")
    return over(day, often)


def _amount(column: PortionColumn, setter: Setter, room: float) -> Block:
    """Pictures over numbers; the first weeks' spoons and an arrow before what follows."""
    pictures = [setter.measure(i) for i in column.amount_icons]
    if not column.start_icons:
        words = setter.stack(column.amount, setter.message, room, "message")
        return over(fan_of_icons(pictures, 0.6 * MM, room), words)
    at = column.amount[0].at
    number = setter.line(column.start, setter.message[0], "und", "message", at, bold=True)
    arrow = setter.icon(THEN, 4.4 * MM)
    spoons = fan_of_icons([setter.measure(i) for i in column.start_icons], 0.5 * MM, room * 0.5)
    x = width(spoons) + 0.8 * MM
    then = x + width(arrow) + 0.8 * MM
    cups = fan_of_icons(pictures, 0.6 * MM, room - then)
    height = max(spoons.height, cups.height)
    # amounts stand under their pictures, or as near as there is room
    least = width(number) + GAP
    words = setter.stack(column.amount, setter.message, room - least, "message")
    left = max(least, min(then, room - width(words)))
    picture = Block(
        (
            *moved(spoons.items, 0, height - spoons.height),
            *moved(arrow.items, x, (height - arrow.height) / 2),
            *moved(cups.items, then, height - cups.height),
        ),
        height,
    )
    said = Block((*number.items, *moved(words.items, left, 0)), max(number.height, words.height))
    return over(picture, said)


def over(picture: Block, words: Block) -> Block:
    """A picture with words under it."""
    down = picture.height + 0.4 * MM
    return Block((*picture.items, *moved(words.items, 0, down)), down + words.height)


def safety(block: SafetyBox, setter: Setter, room: float, _extra: float) -> Block:
    """The box, its pictures as large as there is room for."""
    return caution_box(block, setter, room, setter.between(13, 9.5) * MM)


def foot(block: Foot, setter: Setter, room: float, _extra: float) -> Block:
    """Who comes first, where the chart comes from, and the QR code, side by side."""
    code = (qr_of(block, setter),) if block.qr else ()
    side = code[0].side if code else 0.0
    middle = (room - side) * 0.5
    first = mark_with_words(block.guidance, setter, middle - GAP, setter.between(10, 8) * MM)
    lines = trace(block, setter, room - side - middle)
    y = lines.height
    height = max(y, side, first.height)
    items = (
        *moved(first.items, 0, (height - first.height) / 2, Tag("P", 1)),
        *moved(lines.items, middle, (height - y) / 2),
        *moved(code, room - side, (height - side) / 2),
    )
    return Block(items, height)
