"""place_day_chart: meals from sun to moon, a row a day, on A3."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from cards.card.feeding_chart import Warned
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error
from cards.layout.a4 import bold, settled
from cards.layout.blocks_back import PANEL_STROKE
from cards.layout.checks import check_pages
from cards.layout.layoutfile import IconSizes, InkLimit, Layout, TypeSizes
from cards.layout.mirror import as_read
from cards.layout.pages import MM, Item, Page, Pages, PanelItem, Tag, flat
from cards.layout.parts import GAP
from cards.layout.place import sizes_at
from cards.layout.setting import Block, Setter, baseline, fan_of_icons, moved, width
from cards.layout.wall.day_chart_cells import day_rows, meal_line
from cards.layout.wall.wall_portions import foot
from cards.plan.day_chart import DayChart
from cards.text.faces import FontBook

WIDE_MM, HIGH_MM = 420.0, 297.0
"""A3 across (ISO 216)."""

WIDTH_MM, MARGIN_MM = 210.0, 4.5
"""The chart is drawn half as wide, and magnified."""

MAGNIFY = WIDE_MM / WIDTH_MM

OF_A_DAY = TypeSizes(
    title=(26, 16), title_least=(18, 12), body=(10, 7.5), least=(6.5, 5), message=(12, 9),
    numeral=20, small=4.5,
)  # fmt: skip
OF_A_WEEK = TypeSizes(
    title=(20, 14), title_least=(14, 10), body=(9, 7.5), least=(5.5, 4.8), message=(8, 7),
    numeral=15, small=4.5,
)  # fmt: skip
"""Type as drawn, in points; on paper it is twice as large."""

QR_MM = 0.4
"""A module of the code as drawn: 0.8 mm on paper."""

TRIES = 9
"""Sizes tried, from the wished to the least."""


def place_day_chart(chart: DayChart, layout: Layout, book: FontBook, at: Place) -> Result[Pages]:
    """The chart on a page; a week that is too full for one goes on to more.

    Errors: a glyph no font has, a word or a single day too large.
    """
    kind = OF_A_WEEK if chart.rows[0].label else OF_A_DAY
    own = layout.model_copy(
        update={
            "type": kind,
            "magnify": MAGNIFY,
            "icons": IconSizes(row_mm=12, measure_scale=(1.3, 0.6), measure_least_mm=5, mark_mm=12),
            "qr": layout.qr.model_copy(update={"module_mm": QR_MM, "least_module_mm": QR_MM}),
            "ink": InkLimit(most_percent=15),
        }
    )
    full: list[Diagnostic] = []

    def make() -> Pages:
        height, margin = HIGH_MM / MAGNIFY * MM, MARGIN_MM * MM
        room = (WIDTH_MM * MM - 2 * margin, height - 2 * margin)
        count = len(chart.rows)
        over_by = 0.0
        for each in dict.fromkeys(-(-count // pages) for pages in range(1, count + 1)):
            parts = [
                replace(chart, rows=chart.rows[start : start + each])
                for start in range(0, count, each)
            ]
            placed = [_page(part, Setter(book, own, sizes_at(own, 0, 0)), room) for part in parts]
            over_by = max(over for _, over in placed)
            if over_by <= 0:
                break
        if over_by > 0:
            full.append(_too_full(over_by * MAGNIFY / MM, at))
        pages = tuple(
            Page(f"chart {n}" if len(placed) > 1 else "chart", flat(items, margin, margin))
            for n, (items, _) in enumerate(placed, 1)
        )
        return as_read(Pages(WIDTH_MM * MM, height, margin, chart.meta, pages, MAGNIFY))

    placed = settled(make, at)
    if placed.value is None or full:
        return Result(None, tuple(full) or placed.diagnostics)
    return Result(placed.value, check_pages(placed.value, own))


def _page(
    chart: DayChart, setter: Setter, room: tuple[float, float]
) -> tuple[tuple[Item, ...], float]:
    """The bands of one page at the largest sizes that fit, and by how much they do not."""
    bands: list[Block] = []
    over_by = 0.0
    for number in range(TRIES):
        tried = replace(setter, sizes=sizes_at(setter.layout, number / (TRIES - 1), 0))
        bands = _bands(chart, tried, room[0])
        over_by = sum(b.height for b in bands) + 2 * MM * (len(bands) - 1) - room[1]
        if over_by <= 0:
            break
    gap = 2 * MM - min(0.0, over_by) / (len(bands) - 1)
    items: list[Item] = []
    y = 0.0
    for index, band in enumerate(bands):
        items += moved(band.items, 0, y, Tag("Sect", index))
        y += band.height + gap
    return tuple(items), over_by


def _too_full(mm: float, at: Place) -> Diagnostic:
    return error(
        at,
        "chart-too-full",
        f"the chart is {mm:.0f} mm too long at the smallest type",
        "give dishes shorter titles, or plan fewer ages or meals on one chart",
    )


def _bands(chart: DayChart, setter: Setter, room: float) -> list[Block]:
    """Heading, the day's line, its rows, safety, foot: each across the chart."""
    head = _heading(chart, setter, room)
    line = meal_line(chart, setter, room)
    rows = day_rows(chart, setter, room)
    joined = (*line.items, *moved(rows.items, 0, line.height + 1 * MM))
    body = Block(joined, line.height + 1 * MM + rows.height)
    safe = _safety(chart.safety, setter, room, 0.7 if chart.rows[0].label else 1.0)
    return [head, body, safe, foot(chart.foot, setter, room, 0.0)]


def _heading(chart: DayChart, setter: Setter, room: float) -> Block:
    """The title; in the upper right corner the children it is for, with their months."""
    at = chart.title[0].at
    x = 0.0
    parts: list[tuple[Block, float]] = []
    for child in chart.children:
        icon = setter.icon(child.icon, setter.between(13, 11) * MM)
        figures = setter.line(child.ages, setter.sizes.numeral, "und", "numeral", at, bold=True)
        parts += [(icon, x), (figures, x + width(icon) + 1 * MM)]
        x += width(icon) + 1 * MM + width(figures) + 3 * MM
    months = setter.in_line(chart.months, setter.sizes.body, 1.5 * MM, "body")
    parts.append((months, x - 1.5 * MM))
    wide = x - 1.5 * MM + width(months)
    free = room - wide - 5 * MM
    title = setter.in_line(bold(chart.title), setter.sizes.title, 4 * MM, "title")
    if width(title) > free:
        title = setter.stack(bold(chart.title), setter.sizes.title, free, "title")
    height = max(title.height, *(block.height + 0.5 * MM for block, _ in parts))
    items: list[Item] = [*moved(title.items, 0, (height - title.height) / 2, Tag("H1"))]
    foot_line = height - 0.5 * MM
    for number, (block, left) in enumerate(parts):
        is_child = number % 2 == 0 and number < len(parts) - 1
        down = foot_line - (block.height if is_child else baseline(block) + 0.5 * MM)
        items += moved(block.items, room - wide + left, down, Tag("P", number))
    return Block(tuple(items), height)


def _safety(cautions: Sequence[Warned], setter: Setter, room: float, scale: float) -> Block:
    """A box with every caution in one row, picture beside words."""
    pad = 2 * MM * scale
    # a caution of two pictures has half as much room again
    shares = [1 + 0.5 * (len(caution.icons) - 1) for caution in cautions]
    one = (room - 2 * pad - GAP * (len(cautions) - 1)) / sum(shares)
    height = setter.between(11, 8) * MM * scale
    blocks: list[Block] = []
    for caution, share in zip(cautions, shares, strict=True):
        cell = one * share
        icons = fan_of_icons(
            [setter.icon(icon, height) for icon in caution.icons], 0.6 * MM, cell * 0.6
        )
        x = width(icons) + 1 * MM
        words = setter.stack(caution.said, setter.sizes.body, cell - x, "body")
        tall = max(icons.height, words.height)
        items = (
            *moved(icons.items, 0, (tall - icons.height) / 2),
            *moved(words.items, x, (tall - words.height) / 2),
        )
        blocks.append(Block(items, tall))
    tall = max(block.height for block in blocks)
    box = PanelItem(0, 0, room, tall + 2 * pad, 2 * MM, PANEL_STROKE)
    placed: list[Item] = [*moved((box,), 0, 0)]
    x = pad
    for number, (block, share) in enumerate(zip(blocks, shares, strict=True)):
        placed += moved(block.items, x, pad + (tall - block.height) / 2, Tag("P", number))
        x += one * share + GAP
    return Block(tuple(placed), tall + 2 * pad)
