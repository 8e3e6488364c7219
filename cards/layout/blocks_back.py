"""The back's blocks: steps, safety box, foot. Each returns a Block."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache, partial

from cards.card.model import Foot, Heading, IconUse, SafetyBox, Said, StepList, Text
from cards.layout.layoutfile import TURNED
from cards.layout.pages import MM, Item, PanelItem, QrItem, RuleItem, Tag, TextItem
from cards.layout.parts import (
    GAP,
    HAIR,
    beside_or_below,
    mark_with_words,
    number_over_parts,
    part_heading,
    rule_between,
    words_after_parts,
)
from cards.layout.qr import qr_modules
from cards.layout.setting import Block, Setter, baseline, icon_block, moved, row_of_icons, width
from cards.text.faces import FontBook
from cards.text.shape import GlyphMissing
from cards.text.wrap import TooWide

PANEL_STROKE = 1.6
_NUMBER_MM = 9
PICTURE_TAKES = 0.6
"""Share of a row's extra space by which its picture grows."""


def running(block: Heading, setter: Setter, room: float, _extra: float) -> Block:
    """The title on one line, so that a side copied alone still says what it is of."""
    bold = tuple(Text(t.language, f"*{t.text}*", t.at) for t in block.title)
    counted = _counted(block, setter)
    free = room - width(counted)
    if setter.in_columns(bold):
        line = setter.stack(bold, setter.sizes.least, free, "body")
    else:
        line = beside_or_below(bold, setter, free, 3 * MM)
    rule = line.height + 1 * MM
    title = moved(line.items, 0, 0, Tag("H1"))
    right = moved(counted.items, room - width(counted), 0, Tag("P"))
    return Block((*title, *right, RuleItem(0, rule, room, rule, HAIR)), rule)


def _counted(block: Heading, setter: Setter) -> Block:
    """Which of how many sides this is, where there are more than one."""
    if not block.counted:
        return Block((), 0.0)
    return setter.in_line(block.counted, setter.sizes.least, 3 * MM, "body")


def steps(block: StepList, setter: Setter, room: float, extra: float) -> Block:
    """A row a step: number, picture, words; then a column each for lid, flame and time."""
    rows = [row for section in block.sections for row in section.rows]
    marks = _mark_columns(
        tuple(row.marks for row in rows), setter.layout.icons.mark_mm * MM, setter.book
    )
    mark_width = width(marks[0][0]) if rows else 0.0
    icons = setter.layout.icons
    most = (icons.row_most_mm or icons.row_mm) * MM
    least = setter.between(most, icons.row_mm * MM)
    icon_height = min(least + extra * PICTURE_TAKES, most)
    extra -= icon_height - least
    words_x = _NUMBER_MM * MM + icon_height + GAP + 1 * MM
    least_room = room - words_x - (mark_width + GAP if mark_width else 0)
    gap = setter.row_gap(extra)
    items: list[Item] = []
    y = 0.0
    following = iter(zip(rows, marks, strict=True))
    for part, section in enumerate(block.sections):
        if section.heading:
            y += gap if y else 0.0
            title = part_heading(section.heading, section.mark, setter, words_x, least_room, room)
            items += moved(title.items, 0, y, Tag("H2", part))
            y += title.height + gap / 2
        for index in range(len(section.rows)):
            listed = Tag("L", part, how="Decimal"), Tag("LI", index)
            label, body = Tag("Lbl"), Tag("LBody")
            row, (mark, taken) = next(following)
            # words may run on as far as the row's own first mark
            words_room = room - words_x - (taken + GAP if taken else 0)
            if setter.in_columns(row.said):
                words_room = least_room
            number = number_over_parts(row, setter, (_NUMBER_MM - 1) * MM)
            icon = setter.icon(row.icon, icon_height)
            said = words_after_parts(row, setter, words_room)
            height = max(number.height, icon.height, said.height, mark.height)
            for placed, x, tag in (
                (number, 0.0, label),
                (icon, _NUMBER_MM * MM, body),
                (said, words_x, body),
                (mark, room - mark_width, body),
            ):
                items += moved(placed.items, x, y + (height - placed.height) / 2, *listed, tag)
            y += height + gap
    items += rule_between(rows[0].said, setter, least_room, (words_x, 0.0, y - gap))
    return Block(tuple(items), y - gap, rows=len(rows) - 1)


@lru_cache(maxsize=64)
def _mark_columns(
    marks: tuple[tuple[IconUse, ...], ...], height: float, book: FontBook
) -> tuple[tuple[Block, float], ...]:
    """Each row's marks, every kind in a column of its own down the page, all blocks as wide.

    With each block how far its first mark stands from the right edge, 0 without marks.
    ``height`` of a mark is in points. The sizes of a try have no part in it.
    """
    slots = [
        [slot_of_marks([i for i in row if _kind(i) == kind], height, book) for kind in _KINDS]
        for row in marks
    ]
    widths = [max((width(row[n]) for row in slots), default=0.0) for n in range(len(_KINDS))]
    blocks: list[tuple[Block, float]] = []
    whole = sum(w for w in widths if w) + GAP * max(0, sum(1 for w in widths if w) - 1)
    for row in slots:
        tallest = max(b.height for b in row)
        items: list[Item] = []
        x = taken = 0.0
        for placed, column in zip(row, widths, strict=True):
            left = x + (column - width(placed)) / 2
            if placed.items:
                taken = taken or whole - left
                items += moved(placed.items, left, (tallest - placed.height) / 2)
            x += column + (GAP if column else 0)
        blocks.append((Block(tuple(items), tallest, span=whole), taken))
    return tuple(blocks)


_KINDS = ("lid", "flame", "time")


def _kind(icon: IconUse) -> str:
    if icon.name.startswith("flame"):
        return "flame"
    return "lid" if icon.name == "cover" else "time"


def slot_of_marks(icons: Sequence[IconUse], height: float, book: FontBook) -> Block:
    """Marks of one kind; whistles in rows of up to three, to be counted."""
    whistles = [i for i in icons if i.name == "whistle"]
    others = [icon_block(i, height, book) for i in icons if i.name != "whistle"]
    if len(whistles) < 3:
        return row_of_icons([*(icon_block(i, height, book) for i in whistles), *others], 0.8 * MM)
    small = [icon_block(i, height * 0.62, book) for i in whistles]
    half = -(-len(small) // 2) if len(small) <= 6 else 4
    lines = [row_of_icons(small[n : n + half], 0.8 * MM) for n in range(0, len(small), half)]
    items: list[Item] = []
    y = 0.0
    for line in lines:
        items += moved(line.items, 0, y)
        y += line.height + 0.6 * MM
    counted = Block(tuple(items), y - 0.6 * MM)
    return row_of_icons([counted, *others], 0.8 * MM) if others else counted


def safety(block: SafetyBox, setter: Setter, room: float, _extra: float) -> Block:
    """The one box on the card: the dish's own cautions, then general ones, in columns."""
    return caution_box(block, setter, room, 11 * MM)


def caution_box(block: SafetyBox, setter: Setter, room: float, picture: float) -> Block:
    """As many cautions as a try wishes, all of the dish's own; ``picture`` is their height."""
    most = max(len(block.own), setter.sizes.cautions)
    chosen = (*block.own, *block.general)[:most]
    columns = setter.layout.safety.columns
    pad = setter.between(2, 1.3) * MM
    cell = (room - 2 * pad + GAP) / columns
    slot = 0.0
    if setter.in_columns(chosen[0].said):
        slot = max(width(setter.icon(m.icon, picture)) for m in chosen)
    cells = [mark_with_words(m, setter, cell - GAP, picture, slot) for m in chosen]
    items: list[Item] = []
    y = pad
    for start in range(0, len(cells), columns):
        row = cells[start : start + columns]
        height = max(c.height for c in row)
        for index, placed in enumerate(row):
            down = y + (height - placed.height) / 2
            inside = Tag("Aside"), Tag("P", start + index)
            items += moved(placed.items, pad + index * cell, down, *inside)
        y += height + 1 * MM
    y += pad - 1 * MM
    for index in range(columns):
        at = (pad + index * cell + slot + GAP, pad, y - pad)
        items += rule_between(chosen[0].said, setter, cell - 2 * GAP - slot, at)
    panel = PanelItem(0, 0, room, y, 2 * MM, PANEL_STROKE)
    return Block((panel, *items), y)


def foot(block: Foot, setter: Setter, room: float, _extra: float) -> Block:
    """Left: food groups, who comes first, where the card comes from. Right: the QR code."""
    code = qr_of(block, setter)
    side = code.side
    # the code's own quiet zone is its gap
    left = room - side
    items: list[Item] = []
    y = 0.0
    icons = row_of_icons([setter.icon(g.icon, 10 * MM) for g in block.groups], 1.5 * MM)
    if setter.in_columns(block.brings):  # icons stand close behind the words of both
        title = beside_or_below(block.brings, setter, left * 0.4, 3 * MM)
    else:
        title = setter.stack(block.brings, setter.sizes.least, left * 0.4, "body")
    height = max(icons.height, title.height)
    items += moved(title.items, 0, (height - title.height) / 2, Tag("P"))
    items += moved(icons.items, width(title) + GAP, (height - icons.height) / 2, Tag("P"))
    y += height + 1.5 * MM
    first = mark_with_words(block.guidance, setter, left, 10 * MM)
    items += moved(first.items, 0, y, Tag("P", 1))
    y += first.height + 1 * MM
    lines = trace(replace(block, drafts=()), setter, left)
    taken = width(title) + width(icons) + 2 * GAP
    end = room
    marks = _beside_groups(block, setter, end - taken, height)
    if (height + marks.height) / 2 > y + lines.height - side:
        end = left  # the code stands beside this row
        marks = _beside_groups(block, setter, end - taken, height)
    if not marks.items:
        lines = trace(block, setter, left)
    items += moved(lines.items, 0, y)
    down = (height - marks.height) / 2
    marks = _own_drafts(block, setter, marks)
    items += moved(marks.items, end - width(marks), down, Tag("P", len(block.trace) + 2))
    height = max(y + lines.height, side)
    items += moved((code,), room - side, height - side)
    return Block(tuple(items), height)


def _beside_groups(block: Foot, setter: Setter, room: float, height: float) -> Block:
    """The marks of drafts, where they cost no height; nothing where they do not fit."""
    if block.drafts:
        try:
            marks = setter.stack(block.drafts, (setter.sizes.small,) * 2, room, "trace")
        except TooWide:
            return Block((), 0.0)
        shown = 1 if setter.layout.languages == TURNED else len(block.drafts)
        if len(marks.items) == shown and marks.height <= height:
            return marks
    return Block((), 0.0)


def _own_drafts(block: Foot, setter: Setter, marks: Block) -> Block:
    """On a turned card each side says of its own language alone that it is a draft.

    The room is kept on both, so that pictures stand alike.
    """
    if setter.layout.languages != TURNED:
        return marks
    own = tuple(
        item
        for item in marks.items
        if isinstance(item, TextItem) and item.language == block.brings[0].language
    )
    return Block(own, marks.height, span=width(marks))


def qr_of(block: Foot, setter: Setter) -> QrItem:
    """The code that leads back to the source, with its quiet zone."""
    modules = qr_modules(block.qr)
    return QrItem(0, 0, (modules + 8) * setter.layout.qr.module_mm * MM, modules, block.qr)


def trace(block: Foot, setter: Setter, room: float) -> Block:
    """Where the card comes from, a line each; beside the last, where it fits, what is a draft."""
    items: list[Item] = []
    line = Block((), 0.0)
    y = 0.0
    for number, said in enumerate(block.trace, 2):
        y += line.height
        line = trace_line(said, setter, room, named=said is block.trace[-1])
        items += moved(line.items, 0, y, Tag("P", number))
    if not block.drafts:
        return Block(tuple(items), y + line.height)
    last = Tag("P", len(block.trace) + 2)
    own = partial(_own_drafts, block, setter)
    sizes = (setter.sizes.small, setter.sizes.small)
    marks = setter.in_line(block.drafts, sizes, GAP, "trace")
    right = width(line) + 2 * GAP
    if len(line.items) == 1 and right + width(marks) <= room:
        down = max(0.0, baseline(line) - baseline(marks))
        return Block(
            (*items, *moved(own(marks).items, right, y + down, last)),
            y + max(line.height, down + marks.height),
        )
    if width(marks) > room:
        marks = setter.stack(block.drafts, sizes, room, "trace")
    y += line.height
    return Block((*items, *moved(own(marks).items, 0, y, last)), y + marks.height)


def trace_line(said: Said, setter: Setter, room: float, named: bool) -> Block:
    """A small line, in the first language of the side alone.

    Where it names the file, letters that no font has are no fault of the card.
    """
    said = said if setter.layout.languages == TURNED else said[:1]
    try:
        return setter.stack(said, (setter.sizes.small, setter.sizes.small), room, "trace")
    except GlyphMissing as trouble:
        missing = trouble.characters
        plain = tuple(
            Text(t.language, "".join("?" if c in missing else c for c in t.text), t.at)
            for t in said
        )
        if not named or plain == said:
            raise
        return trace_line(plain, setter, room, named)
