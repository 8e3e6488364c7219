"""The back's blocks: steps, safety box, foot. Each returns a Block."""

from __future__ import annotations

from cards.card.model import Foot, Marked, SafetyBox, StepList, StepRow
from cards.diagnostics.diagnostic import Place
from cards.layout.blocks_front import mark_with_words, part_heading
from cards.layout.pages import MM, Item, PanelItem, QrItem
from cards.layout.qr import qr_rows
from cards.layout.setting import Block, Setter, moved, row_of_icons, width

PANEL_STROKE = 1.6
_GAP = 2 * MM
_NUMBER_MM = 9


def steps(block: StepList, setter: Setter, room: float, extra: float) -> Block:
    """A row a step: number, picture, words, and one column for flame, whistle and time."""
    rows = [row for section in block.sections for row in section.rows]
    marks = {id(row): _marks(row, setter) for row in rows}
    mark_column = max(width(m) for m in marks.values())
    icon_height = setter.layout.icons.row_mm * MM
    words_x = _NUMBER_MM * MM + icon_height + _GAP + 1 * MM
    words_room = room - words_x - (mark_column + _GAP if mark_column else 0)
    gap = setter.layout.space.row_mm * MM + extra
    items: list[Item] = []
    y = 0.0
    for section in block.sections:
        if section.heading:
            title = part_heading(section.heading, setter)
            items += moved(title.items, 0, y)
            y += title.height + gap / 2
        for row in section.rows:
            number = setter.line(row.number, setter.sizes.numeral, "und", "numeral",
                                 row.said[0].at, bold=True)
            icon = setter.icon(row.icon, icon_height)
            said = setter.stack(row.said, setter.sizes.body, words_room, "body")
            mark = marks[id(row)]
            height = max(icon.height, said.height, mark.height)
            for placed, x in ((number, 0.0), (icon, _NUMBER_MM * MM), (said, words_x),
                              (mark, room - mark_column)):
                items += moved(placed.items, x, y + (height - placed.height) / 2)
            y += height + gap
    return Block(tuple(items), y - gap, rows=len(rows) - 1)


def _marks(row: StepRow, setter: Setter) -> Block:
    height = setter.layout.icons.mark_mm * MM
    whistles = [setter.icon(i, height * 0.8) for i in row.marks if i.name == "whistle"]
    others = [setter.icon(i, height) for i in row.marks if i.name != "whistle"]
    first, rest = others[:1], others[1:]
    # flame leads, whistles stand close together as one count, times follow
    flame = first if row.marks and row.marks[0].name.startswith("flame") else []
    after = rest if flame else others
    parts = [*flame, *([row_of_icons(whistles, 0.2 * MM)] if whistles else []), *after]
    return row_of_icons(parts, 1.2 * MM)


def safety(block: SafetyBox, setter: Setter, room: float, _extra: float) -> Block:
    """The one box on the card: the dish's own cautions, then general ones, in columns."""
    shape = setter.layout.safety
    chosen = (*block.own, *block.general)[: max(len(block.own), shape.least)]
    return _box(chosen, setter, room)


def safety_full(block: SafetyBox, setter: Setter, room: float, _extra: float) -> Block:
    """The same with as many general cautions as the box may hold."""
    most = max(len(block.own), setter.layout.safety.most)
    return _box((*block.own, *block.general)[:most], setter, room)


def _box(chosen: tuple[Marked, ...], setter: Setter, room: float) -> Block:
    columns = setter.layout.safety.columns
    pad = 2 * MM
    cell = (room - 2 * pad + _GAP) / columns
    cells = [mark_with_words(m, setter, cell - _GAP, 11 * MM) for m in chosen]
    items: list[Item] = []
    y = pad
    for start in range(0, len(cells), columns):
        row = cells[start : start + columns]
        height = max(c.height for c in row)
        for index, placed in enumerate(row):
            items += moved(placed.items, pad + index * cell, y + (height - placed.height) / 2)
        y += height + 1 * MM
    y += pad - 1 * MM
    panel = PanelItem(0, 0, room, y, 2 * MM, PANEL_STROKE)
    return Block((panel, *items), y)


def foot(block: Foot, setter: Setter, room: float, _extra: float) -> Block:
    """Left: food groups, who comes first, where the card comes from. Right: the QR code."""
    rows = qr_rows(block.qr)
    side = (len(rows) + 8) * setter.layout.qr.module_mm * MM
    code = QrItem(0, 0, side, rows, block.qr)
    left = room - side - _GAP
    items: list[Item] = []
    y = 0.0
    icons = row_of_icons([setter.icon(g.icon, 10 * MM) for g in block.groups], 1.5 * MM)
    title = setter.stack(block.brings, setter.layout.type.least, left * 0.4, "body")
    height = max(icons.height, title.height)
    items += moved(title.items, 0, (height - title.height) / 2)
    items += moved(icons.items, width(title) + _GAP, (height - icons.height) / 2)
    y += height + 1.5 * MM
    least = Setter(setter.book, setter.layout, setter.sizes)
    first = mark_with_words(block.guidance, least, left, 10 * MM)
    items += moved(first.items, 0, y)
    y += first.height + 1 * MM
    for text in block.trace:
        line = setter.stack(
            (type(block.brings[0])(block.brings[0].language, text, Place("")),),
            (setter.sizes.small, setter.sizes.small), left, "trace")
        items += moved(line.items, 0, y)
        y += line.height
    height = max(y, side)
    items += moved((code,), room - side, (height - side) / 2)
    return Block(tuple(items), height)
