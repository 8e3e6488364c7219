"""Ingredients and steps in their form for a wall: pictures first, names large, sentences last."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from cards.card.model import (
    IconUse,
    NeedList,
    NeedRow,
    NeedSection,
    StepList,
    StepRow,
    StepSection,
    Text,
)
from cards.layout.blocks_back import slot_of_marks
from cards.layout.pages import MM, Item, Tag
from cards.layout.parts import COLUMN_GAP, GAP, prep_marks, words_after_parts
from cards.layout.setting import Block, Setter, fan_of_icons, moved, row_of_icons, width

UNDER = 0.5 * MM
"""Between a picture and the words under it."""

STACKED = 0.76
"""Share of a mark's height at which whistles in two rows are as high as a clock."""

PREP_WALL = 5.6 * MM
"""Height of the mark of what was done to a food before; a wall's layout magnifies it."""

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


JOINTS = ",;:،؛"
"""Marks between a food and what more is said of it, in all scripts."""


def _need(row: NeedRow, setter: Setter, room: float, _extra: float) -> tuple[Block, Block]:
    """Measures with number and unit; under them the name, large, and the rest of the words."""
    unit, _, _ = _parted(row.said[0].text)
    count = _counted(row, unit, setter, room * 0.55)
    free = room - width(count) - (1 * MM if count.items else 0)
    # measures do not grow with the space left: a cup is as large here as among the portions
    fan = fan_of_icons([setter.measure(icon) for icon in row.icons], 0.7 * MM, free)
    height = max(fan.height, count.height)
    picture = (
        *moved(fan.items, 0, height - fan.height),
        *moved(count.items, width(fan) + 1 * MM, height - count.height),
    )
    prep = prep_marks(row, setter, PREP_WALL)
    items: list[Item] = []
    y = foot = left = 0.0
    for index, text in enumerate(row.said):
        own = min(index, 1)
        before, name, after = _parted(text.text)
        if index:
            after = f"{row.number} {before}{'' if after[:1] in JOINTS else ' '}{after}".strip()
        for piece, points, role in (
            (f"*{name}*", setter.message[own], "message"),
            (after.lstrip(f" {JOINTS}"), setter.sizes.body[own], "body"),
        ):
            if piece:
                said = (Text(text.language, piece, text.at),)
                put = setter.stack(said, (points, points), room - left, role)
                items += moved(put.items, left, y)
                y += put.height
            if row.preps and not left:
                # the name takes the whole width; the mark stands beside what is told of it
                left, foot = width(prep), y + 0.5 * MM + prep.height
                items += moved(prep.items, 0, y + 0.5 * MM)
    return Block(picture, height), Block(tuple(items), max(y, foot))


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
    return Block(items, height), words_after_parts(row, setter, room)


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
        stacked = sum(icon.name == "whistle" for icon in time) > 2
        blocks.append(slot_of_marks(tuple(time), height * (STACKED if stacked else 1), setter.book))
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
        (part, index, section if not index else None, row)
        for part, section in enumerate(sections)
        for index, row in enumerate(section.rows)
    ]
    items: list[Item] = []
    y = 0.0
    for start in range(0, len(entries), columns):
        line = entries[start : start + columns]
        cells = [make(row, setter, cell, extra * 0.7) for *_, row in line]
        titles = [_title(section, setter, cell) for _, _, section, _ in line]
        top = max(t.height for t in titles)
        picture = max(upper.height for upper, _ in cells)
        placed = zip(line, titles, cells, strict=True)
        for column, ((part, index, _, _), title, (upper, lower)) in enumerate(placed):
            x = column * (cell + COLUMN_GAP)
            tags = Tag("L", part, how=numbering), Tag("LI", index)
            # a step's number is tagged where it is placed
            label = (Tag("Lbl"),) if numbering == "Disc" else ()
            items += moved(title.items, x, y, Tag("H2", part))
            items += moved(upper.items, x, y + top + picture - upper.height, *tags, *label)
            items += moved(lower.items, x, y + top + picture + UNDER, *tags, Tag("LBody"))
        y += top + picture + UNDER + max(lower.height for _, lower in cells) + gap
    return Block(tuple(items), y - gap, rows=-(-len(entries) // columns))


def _title(section: NeedSection | StepSection | None, setter: Setter, room: float) -> Block:
    """A part's dots and name over its first cell, as large as there is room for."""
    if section is None or not section.heading:
        return Block((), 0.0)
    bold = tuple(Text(t.language, f"*{t.text}*", t.at) for t in section.heading)
    message, body = setter.message, setter.sizes.body
    sizes = setter.between(message[0], body[0]), setter.between(message[1], body[1])
    dots = setter.icon(section.mark, sizes[0] * 1.1) if section.mark else Block((), 0.0)
    left = width(dots) + (1 * MM if section.mark else 0)
    line = setter.in_line(bold, sizes, GAP, "part")
    if left + width(line) > room:
        line = setter.stack(bold, sizes, room - left, "part")
    height = max(dots.height, line.height)
    return Block((*dots.items, *moved(line.items, left, 0)), height)
