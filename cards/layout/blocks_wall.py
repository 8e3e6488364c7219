"""Blocks in their form for a wall: pictures first, message words large, sentences below."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from cards.card.model import (
    Foot,
    IconUse,
    NeedList,
    NeedRow,
    NeedSection,
    PortionColumn,
    PortionTable,
    SafetyBox,
    Said,
    StepList,
    StepRow,
    StepSection,
    Text,
)
from cards.diagnostics.diagnostic import Place
from cards.layout.blocks_back import caution_box, qr_of, slot_of_marks, trace_line
from cards.layout.blocks_front import THEN
from cards.layout.pages import MM, Item, RuleItem, Tag
from cards.layout.parts import (
    COLUMN_GAP,
    GAP,
    HAIR,
    age_mark,
    mark_with_words,
)
from cards.layout.setting import Block, Setter, fan_of_icons, moved, row_of_icons, width

UNDER = 0.5 * MM
"""Between a picture and the words under it."""

WIDE = 44 * MM
"""From this width on an age has room for two things side by side."""

PICTURE_GROWS = 1.5
"""How much larger than ``icons.row_mm`` a step's picture is where there is room for it."""


def needs(block: NeedList, setter: Setter, room: float, extra: float) -> Block:
    """Ingredients side by side: measures over their number, name and, smaller, the rest."""
    return _grid(
        block.sections,
        _need,
        setter.layout.beside("needs"),
        setter,
        room,
        extra,
        "Disc",
    )


def _need(row: NeedRow, setter: Setter, room: float, _extra: float) -> tuple[Block, Block]:
    """Measures with number and unit; under them the name, large, and the rest of the words."""
    unit, _, _ = _parted(row.said[0].text)
    count = _counted(row, unit, setter, room * 0.55)
    free = room - width(count) - (1 * MM if count.items else 0)
    fan = fan_of_icons([setter.measure(icon) for icon in row.icons], 0.7 * MM, free)
    height = max(fan.height, count.height)
    picture = (
        *moved(fan.items, 0, height - fan.height),
        *moved(count.items, width(fan) + 1 * MM, height - count.height),
    )
    items: list[Item] = []
    y = 0.0
    for index, text in enumerate(row.said):
        own = min(index, 1)
        before, name, after = _parted(text.text)
        if index:
            after = f"{row.number} {before}{'' if after[:1] in ',;:' else ' '}{after}".strip()
        for piece, points, role in (
            (f"*{name}*", setter.message[own], "message"),
            (after.lstrip(" ,;:"), setter.sizes.body[own], "body"),
        ):
            if piece:
                said = (Text(text.language, piece, text.at),)
                put = setter.stack(said, (points, points), room, role)
                items += moved(put.items, 0, y)
                y += put.height
    return Block(picture, height), Block(tuple(items), y)


def _counted(row: NeedRow, unit: str, setter: Setter, room: float) -> Block:
    """The number and, small under it, what is counted."""
    at, size = row.said[0].at, setter.sizes.numeral
    items: tuple[Item, ...] = ()
    y = 0.0
    if row.number:
        number = setter.line(row.number, size, "und", "numeral", at, bold=True)
        # figures have no tails: the unit stands close under them
        items, y = number.items, number.height - size * 0.2
    if unit:
        said = (Text(row.said[0].language, unit, at),)
        below = setter.stack(said, setter.sizes.body, room, "body")
        items, y = (*items, *moved(below.items, 0, y)), y + below.height
    return Block(items, y)


def _parted(text: str) -> tuple[str, str, str]:
    """What stands before the first bold stretch, that stretch, what follows; without stars."""
    before, _, rest = text.partition("*")
    name, _, after = rest.partition("*")
    if not name:
        return "", before.strip(), ""
    return before.strip(), name.strip(), after.replace("*", "").strip()


def steps(block: StepList, setter: Setter, room: float, extra: float) -> Block:
    """Steps side by side: number, picture and marks in a row, the sentence under them."""
    return _grid(
        block.sections,
        _step,
        setter.layout.beside("steps"),
        setter,
        room,
        extra,
        "Decimal",
    )


def _step(row: StepRow, setter: Setter, room: float, extra: float) -> tuple[Block, Block]:
    least = setter.layout.icons.row_mm * MM
    number = setter.line(
        row.number, setter.sizes.numeral, "und", "numeral", row.said[0].at, bold=True
    )
    marks = _marks(row.marks, setter)
    left = width(number) + 1 * MM
    free = room - left - width(marks) - (GAP if row.marks else 0)
    wished = setter.between(least * PICTURE_GROWS, least) + extra
    icon = setter.icon(row.icon, min(max(free, least * 0.7), wished))
    height = max(icon.height, marks.height)
    items = (
        *moved(number.items, 0, (height - number.height) / 2, Tag("Lbl")),
        *moved(icon.items, left, height - icon.height, Tag("LBody")),
        *moved(marks.items, left + width(icon) + GAP, height - marks.height, Tag("LBody")),
    )
    return Block(items, height), setter.stack(row.said, setter.sizes.body, room, "body")


def _marks(marks: Sequence[IconUse], setter: Setter) -> Block:
    """Lid over flame, half as high each where there are both; then the time, always last."""
    height = setter.layout.icons.mark_mm * MM
    fire = [i for i in marks if i.name == "cover" or i.name.startswith("flame")]
    time = [i for i in marks if i not in fire]
    blocks: list[Block] = []
    if len(fire) == 2:
        lid, flame = sorted(fire, key=lambda i: i.name != "cover")
        upper, lower = (setter.icon(i, height * 0.56) for i in (lid, flame))
        blocks.append(Block((*upper.items, *moved(lower.items, 0, upper.height)), upper.height * 2))
    elif fire:
        blocks.append(setter.icon(fire[0], height * 0.8))
    if time:
        blocks.append(slot_of_marks(tuple(time), height, setter.book))
    return row_of_icons(blocks, GAP) if blocks else Block((), 0.0)


Make = Callable[[Any, Setter, float, float], tuple[Block, Block]]


def _grid(
    sections: Sequence[NeedSection | StepSection],
    make: Make,
    columns: int,
    setter: Setter,
    room: float,
    extra: float,
    numbering: str,
) -> Block:
    """Cells in rows of ``columns``: pictures of a row on one foot line, words below them.

    A part's heading stands over its first cell. Of the extra space most goes to pictures.
    """
    gap = setter.row_gap(extra * 0.3)
    cell = (room - COLUMN_GAP * (columns - 1)) / columns
    entries = [
        (part, index, section.heading if not index else (), row)
        for part, section in enumerate(sections)
        for index, row in enumerate(section.rows)
    ]
    items: list[Item] = []
    y = 0.0
    for start in range(0, len(entries), columns):
        line = entries[start : start + columns]
        cells = [make(row, setter, cell, extra * 0.7) for *_, row in line]
        titles = [_title(heading, setter, cell) for _, _, heading, _ in line]
        top = max(t.height for t in titles)
        picture = max(upper.height for upper, _ in cells)
        placed = zip(line, titles, cells, strict=True)
        for column, ((part, index, _, _), title, (upper, lower)) in enumerate(placed):
            x = column * (cell + COLUMN_GAP)
            tags = Tag("L", part, how=numbering), Tag("LI", index)
            label = Tag("Lbl" if numbering == "Disc" else "")
            items += moved(title.items, x, y, Tag("H2", part))
            items += moved(upper.items, x, y + top + picture - upper.height, *tags, label)
            items += moved(lower.items, x, y + top + picture + UNDER, *tags, Tag("LBody"))
        y += top + picture + UNDER + max(lower.height for _, lower in cells) + gap
    return Block(tuple(items), y - gap, rows=-(-len(entries) // columns))


def _title(heading: Said, setter: Setter, room: float) -> Block:
    """A part's name over its first cell."""
    if not heading:
        return Block((), 0.0)
    bold = tuple(Text(t.language, f"*{t.text}*", t.at) for t in heading)
    return setter.stack(bold, setter.sizes.body, room, "body")


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
    child = age_mark(
        column.age_icon,
        column.ages,
        column.months,
        setter,
        setter.between(16, 11.5) * MM,
        column.meals[0].at,
    )
    texture = mark_with_words(column.texture, setter, room, setter.between(11, 8) * MM)
    amount, meals = _amount(column, setter, room), _meals(column, setter, room)
    return [child, texture, amount, meals]


def _meals(column: PortionColumn, setter: Setter, room: float) -> Block:
    """A bowl a meal, and words under them."""
    bowls = [setter.icon(i, setter.between(5.5, 4.6) * MM) for i in column.meal_icons]
    if len(bowls) == 1 and column.meal_icons[0].name != "meal":
        bowls = [setter.icon(column.meal_icons[0], 9 * MM)]
    often = setter.stack(column.meals, setter.sizes.body, room, "body")
    return over(fan_of_icons(bowls, 0.7 * MM, room), often)


def _amount(column: PortionColumn, setter: Setter, room: float) -> Block:
    """Pictures over numbers; the first weeks' spoons and an arrow before what follows."""
    pictures = [setter.measure(i) for i in column.amount_icons]
    if not column.start_icons:
        words = setter.stack(column.amount, setter.message, room, "message")
        return over(fan_of_icons(pictures, 0.6 * MM, room), words)
    at = column.amount[0].at
    number = setter.line(column.start, setter.message[0], "und", "message", at, bold=True)
    arrow = setter.icon(THEN, 3.2 * MM)
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
    said = Block(
        (*number.items, *moved(words.items, left, 0)), max(number.height, words.height)
    )
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
    lines: list[Item] = []
    y = 0.0
    for number, text in enumerate(block.trace, 2):
        named = text is block.trace[-1]
        said = Text(block.brings[0].language, text, Place(""))
        line = trace_line(said, setter, room - side - middle, named)
        lines += moved(line.items, middle, y, Tag("P", number))
        y += line.height
    height = max(y, side, first.height)
    items = (
        *moved(first.items, 0, (height - first.height) / 2, Tag("P", 1)),
        *moved(lines, 0, (height - y) / 2),
        *moved(code, room - side, (height - side) / 2),
    )
    return Block(items, height)
