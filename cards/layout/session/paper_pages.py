"""place_paper: a paper's tables on A4 pages, their heads repeated where a page is turned."""

from __future__ import annotations

from collections.abc import Sequence

from cards.card.icon_words import shown
from cards.card.model import Said
from cards.layout.a4 import (
    BODY,
    ROOM,
    SMALL,
    Flow,
    bold,
    bound,
    heading_block,
    sheet_setter,
    title_block,
)
from cards.layout.layoutfile import Layout
from cards.layout.pages import MM, Item, Pages, PanelItem, Placed, RuleItem, TextItem, flat
from cards.layout.parts import HAIR
from cards.layout.setting import Block, Setter, moved, width
from cards.plan.paper import Cell, Column, Paper, Section
from cards.text.faces import FontBook

TICK = 5 * MM
"""Side of a box to tick."""

TICK_STROKE = 1.1
GAP = 3 * MM
"""Between columns."""

ROW_ROOM = 1.3 * MM
"""Above and below what stands in a row."""

PICTURE = 8 * MM
"""Height of a row's picture."""

ICON = 10 * MM
LANGUAGES_GAP = 3 * MM
"""Between two languages on one line."""


def place_paper(paper: Paper, layout: Layout, book: FontBook) -> Pages:
    """The paper's pages. Raises GlyphMissing and TooWide."""
    setter = sheet_setter(layout, book)
    flow = Flow()
    flow.add(title_lines(paper.title, paper.under, setter))
    flow.y += 2 * MM
    for section in paper.sections:
        _section(section, flow, setter)
    notes = (*paper.notes, paper.cited) if paper.cited else paper.notes
    if notes:
        # notes belong together: the last of them is seldom read alone
        blocks = [setter.stack(note, SMALL, ROOM, "body") for note in notes]
        flow.need(sum(block.height + 1.5 * MM for block in blocks) + 3 * MM)
        flow.y += 3 * MM
        for block in blocks:
            flow.need(block.height)
            flow.add(block, block.height + 1.5 * MM)
    named = [(f"{paper.name} {n}", items) for n, items in enumerate(flow.pages(), 1)]
    return bound(named, paper.meta, paper.foot, setter)


def title_lines(title: Said, under: Sequence[Said], setter: Setter) -> Block:
    """The title, then sayings with their languages side by side where they fit; a hairline."""
    head = title_block(title, (), setter)
    items = list(head.items[:-1])
    y = head.height - 1 * MM
    for said in under:
        block = _words(said, False, Column("small"), ROOM, setter)
        items += moved(block.items, 0, y)
        y += block.height + 0.5 * MM
    y += 1 * MM
    items.append(RuleItem(0, y, ROOM, y, HAIR))
    return Block(tuple(items), y)


def _section(section: Section, flow: Flow, setter: Setter) -> None:
    widths = _widths(section.columns)
    heading = _heading(section, setter)
    heads = _heads(section, widths, setter)
    icons = section.icons or ("",) * len(section.rows)
    rows = [
        _row(cells, section.columns, widths, icon, setter)
        for cells, icon in zip(section.rows, icons, strict=True)
    ]
    top = heading.height + heads.height
    # a heading never stands alone at the foot of a page
    flow.need(top + sum(row.height for row in rows[:2]))
    if heading.height:
        flow.y += 2 * MM if flow.y else 0
        flow.add(heading)
    if heads.height:
        flow.add(heads)
    for row in rows:
        if flow.items and flow.y + row.height > flow.depth:
            # whoever holds the next page sees what it goes on with
            flow.rule()
            flow.turn()
            flow.add(heading)
            flow.add(heads)
        flow.rule()
        flow.add(row)
    flow.rule()
    flow.y += 2 * MM


def _widths(columns: Sequence[Column]) -> list[float]:
    """Widths in points; gaps lie inside them, at the right."""
    left = ROOM - sum(column.width_mm for column in columns) * MM
    return [column.width_mm * MM if column.width_mm else left for column in columns]


def _heading(section: Section, setter: Setter) -> Block:
    if not section.heading:
        return Block((), 0.0)
    x = 0.0
    items: list[Item] = []
    height = 0.0
    if section.icon:
        icon = setter.icon(shown(section.icon), ICON)
        items += icon.items
        x, height = width(icon) + GAP, ICON
    words = heading_block(section.heading, setter, ROOM - x)
    height = max(height, words.height)
    items += moved(words.items, x, (height - words.height) / 2)
    if section.aside:
        aside = setter.in_line(section.aside, SMALL, LANGUAGES_GAP, "head")
        items += moved(_to_right(aside, ROOM), 0, height - aside.height)
    return Block(tuple(items), height + 1.5 * MM)


def _heads(section: Section, widths: Sequence[float], setter: Setter) -> Block:
    items: list[Item] = []
    height = x = 0.0
    for said, room, column in zip(section.heads, widths, section.columns, strict=False):
        if said:
            block = setter.stack(said, SMALL, room - GAP, "head", bold_first=True)
            right = column.kind == "figure"
            items += _to_right(block, x + room - GAP) if right else moved(block.items, x, 0)
            height = max(height, block.height)
        x += room
    return Block(tuple(items), height + 0.5 * MM if height else 0.0)


def _row(
    cells: Sequence[Cell],
    columns: Sequence[Column],
    widths: Sequence[float],
    icon: str,
    setter: Setter,
) -> Block:
    blocks = [
        _cell(cell, column, room - GAP, setter)
        for cell, column, room in zip(cells, columns, widths, strict=True)
    ]
    base = max((_base(block) for block in blocks), default=0.0)
    blocks = [
        Block(moved(block.items, 0, base - _base(block)), block.height + base - _base(block))
        if block.items
        else block
        for block in blocks
    ]
    least = PICTURE if icon else TICK
    height = max(least, *(block.height for block in blocks)) + 2 * ROW_ROOM
    first = min(height, 2 * ROW_ROOM + max(_lead(cells, blocks), TICK))
    over = ROW_ROOM
    if icon:
        # what stands beside a picture stands at its middle
        over, first = (height - max(block.height for block in blocks)) / 2, height
    items: list[Item] = []
    x = 0.0
    for column, block, room in zip(columns, blocks, widths, strict=True):
        if column.kind == "tick":
            y = (first - TICK) / 2
            items.append(PanelItem(x + 1, y, TICK, TICK, 0.8 * MM, TICK_STROKE))
        elif column.kind == "icon" and icon:
            picture = _fitted(icon, room - GAP, setter)
            items += moved(picture.items, x, (height - picture.height) / 2)
        elif column.kind == "figure":
            items += moved(_to_right(block, x + room - GAP), 0, over)
        else:
            items += moved(block.items, x, over)
        x += room
    return Block(tuple(items), height)


def _fitted(name: str, room: float, setter: Setter) -> Block:
    """An icon of the rows' height, or lower where it would be too wide."""
    icon = setter.icon(shown(name), PICTURE)
    return icon if width(icon) <= room else setter.icon(shown(name), PICTURE * room / width(icon))


def _base(block: Block) -> float:
    """The baseline of a block's first line."""
    return next((item.y for item in flat(block.items) if isinstance(item, TextItem)), 0.0)


def _lead(cells: Sequence[Cell], blocks: Sequence[Block]) -> float:
    """Height of the row's first line: what a box to tick stands beside."""
    single = [block.height for cell, block in zip(cells, blocks, strict=True) if len(cell) == 1]
    return min(single, default=0.0)


def _cell(cell: Cell, column: Column, room: float, setter: Setter) -> Block:
    """Sayings below one another; two languages on one line where they fit."""
    items: list[Item] = []
    y = 0.0
    for number, said in enumerate(said for said in cell if said):
        strong = number == 0 and column.kind in ("amount", "text")
        block = _words(said, strong, column, room, setter)
        items += moved(block.items, 0, y)
        y += block.height
    return Block(tuple(items), y)


def _words(said: Said, strong: bool, column: Column, room: float, setter: Setter) -> Block:
    sizes = BODY if strong or column.kind == "figure" else SMALL
    first, *others = said
    others = [text for text in others if text.text != first.text]
    told = (*bold((first,)), *others) if strong else (first, *others)
    line = setter.in_line(told, sizes, LANGUAGES_GAP, "body")
    if width(line) <= room:
        return line
    return setter.stack(told, sizes, room, "body")


def _to_right(block: Block, right: float) -> tuple[Item, ...]:
    """Every line of a block ends at ``right``; what stands on one line stays together."""
    found: list[Item] = []
    items = flat(block.items)
    for item in items:
        base = _foot(item)
        end = max(other.box[2] for other in items if abs(_foot(other) - base) < 0.01)
        found.append(item.moved(right - end, 0))
    return tuple(found)


def _foot(item: Placed) -> float:
    """What items of one line share: their baseline."""
    return item.y if isinstance(item, TextItem) else item.box[3]
