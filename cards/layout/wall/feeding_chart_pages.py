"""place_feeding_chart: ages side by side on one ground line; milk, variety and safety below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from cards.card.feeding_chart import FeedingChart, Variety, Warned
from cards.card.model import Marked, Said
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error
from cards.layout.a4 import settled
from cards.layout.blocks_back import PANEL_STROKE
from cards.layout.checks import check_pages
from cards.layout.layoutfile import STACKED, IconSizes, InkLimit, Layout, TypeSizes
from cards.layout.mirror import as_read
from cards.layout.pages import MM, Item, Page, Pages, PanelItem, RuleItem, Tag, flat
from cards.layout.parts import GAP, HAIR
from cards.layout.place import sizes_at
from cards.layout.setting import (
    Block,
    Setter,
    Try,
    baseline,
    fan_of_icons,
    moved,
    row_of_icons,
    width,
)
from cards.layout.wall.feeding_chart_ages import COLUMN, age_panels
from cards.layout.wall.wall_portions import foot, over
from cards.text.faces import FontBook
from cards.text.wrap import TooWide

SIZES = {"a2": (594.0, 420.0), "a1": (841.0, 594.0)}
"""Trim sizes in mm, across (ISO 216)."""

WIDTH_MM, MARGIN_MM = 210.0, 4.5
"""The chart is drawn as wide as an A5 page lies, and magnified."""

ALONE = TypeSizes(
    title=(30, 15), title_least=(24, 12), body=(11, 6), least=(8, 4.5), message=(16, 9),
    numeral=24, small=5, reading_m=0.53, message_m=1.05,
)  # fmt: skip
BOTH = TypeSizes(
    title=(25, 17), title_least=(20, 13), body=(9, 6.6), least=(6.6, 5), message=(13, 9),
    numeral=22, small=4.6, reading_m=0.44, message_m=0.85,
)  # fmt: skip
"""Type as drawn, in points: in one language, in two. On A2 it is 2.8 times larger and on A1 4
times, and so are the distances: 3 m and 1.5 m on A2 in one language (ANSI Z535)."""

QR_MM = 0.32
"""A module of the code as drawn: 0.9 mm on A2."""

TRIES = 9
"""Sizes tried, from the wished to the least."""

LAST = (0.95, 0.9, 0.85)
"""Shares of the least that sentences have where a script is tall or its words are long; they are
read from as much nearer."""


def place_feeding_chart(
    chart: FeedingChart,
    layout: Layout,
    book: FontBook,
    size: str,
    at: Place,
    *,
    least: bool = False,
) -> Result[Pages]:
    """The chart on a page of ``size``. Errors: a glyph no font has, a word or all too large.

    ``least`` tries only the least sizes, where it is only asked whether it fits.
    """
    wide, high = SIZES[size]
    magnify = wide / WIDTH_MM
    kind = ALONE if len(chart.heading.title) == 1 else BOTH
    last = [(kind.least[0] * share, kind.least[1] * share) for share in LAST]
    kind = kind.model_copy(update={"last": last})
    own = layout.model_copy(
        update={
            "type": kind,
            "languages": STACKED,
            "space": layout.space.model_copy(update={"second_mm": 0}),
            "magnify": magnify,
            "icons": IconSizes(row_mm=11, measure_scale=(1.6, 1.0), measure_least_mm=8, mark_mm=12),
            "qr": layout.qr.model_copy(update={"module_mm": QR_MM, "least_module_mm": QR_MM}),
            "ink": InkLimit(most_percent=15),
        }
    )
    full: list[Diagnostic] = []

    def make() -> Pages:
        height = high / magnify * MM
        margin = MARGIN_MM * MM
        room = (WIDTH_MM * MM - 2 * margin, height - 2 * margin)
        tries = _tries(own)[-1:] if least else _tries(own)
        for sizes in tries:
            try:
                bands = _bands(chart, Setter(book, own, sizes), room[0])
            except TooWide:
                if sizes is tries[-1]:
                    raise
                continue
            over_by = sum(b.height for b in bands) + 2 * MM * (len(bands) - 1) - room[1]
            if over_by <= 0:
                break
        if over_by > 0:
            full.append(_too_full(over_by * magnify / MM, at))
        gap = 2 * MM - min(0.0, over_by) / (len(bands) - 1)
        items: list[Item] = []
        y = 0.0
        for index, band in enumerate(bands):
            items += moved(band.items, margin, margin + y, Tag("Sect", index))
            y += band.height + gap
        page = Page("chart", flat(items))
        return as_read(Pages(WIDTH_MM * MM, height, margin, chart.meta, (page,), magnify))

    placed = settled(make, at)
    if placed.value is None or full:
        return Result(None, tuple(full) or placed.diagnostics)
    return Result(placed.value, check_pages(placed.value, own))


def _tries(layout: Layout) -> list[Try]:
    """From the wished sizes to the least, then only sentences smaller."""
    tries = [sizes_at(layout, number / (TRIES - 1), 0) for number in range(TRIES)]
    tries += [replace(tries[-1], body=pair, least=pair) for pair in layout.type.last]
    return tries


def _too_full(mm: float, at: Place) -> Diagnostic:
    return error(
        at,
        "chart-too-full",
        f"the chart is {mm:.0f} mm too long at the smallest type",
        "shorten the phrases of the chart in the words files: "
        "snacks, variety, food groups, cautions",
    )


def _bands(chart: FeedingChart, setter: Setter, room: float) -> list[Block]:
    """Heading, ages, what holds for all of them, foot: each across the chart."""
    return [
        _heading(chart, setter, room),
        age_panels(chart, setter, room),
        _for_all(chart, setter, room),
        foot(chart.foot, setter, room, 0.0),
    ]


def _heading(chart: FeedingChart, setter: Setter, room: float) -> Block:
    """The title, and all ages in the upper right corner."""
    block = chart.heading
    at = block.title[0].at
    figures = setter.line(block.ages, setter.sizes.title[0], "und", "numeral", at, bold=True)
    months = setter.in_line(block.months, setter.sizes.body, 1.5 * MM, "body")
    age = width(figures) + 1.5 * MM + width(months)
    free = room - age - COLUMN
    title = setter.stack(block.title[:1], setter.sizes.title, free, "title", bold_first=True)
    other = (
        setter.in_line(block.title[1:], (setter.sizes.title[1],) * 2, GAP, "title")
        if block.title[1:]
        else None
    )
    if other and width(title) + COLUMN + width(other) <= free:
        down = baseline(title) - baseline(other)
        items = (*title.items, *moved(other.items, width(title) + COLUMN, down))
        title = Block(items, max(title.height, down + other.height))
    elif other:
        title = setter.stack(block.title, setter.sizes.title, free, "title", bold_first=True)
    base = baseline(figures) - baseline(months)
    whole = (
        *moved(title.items, 0, 0, Tag("H1")),
        *moved(figures.items, room - age, 0, Tag("P")),
        *moved(months.items, room - width(months), base, Tag("P")),
    )
    return Block(whole, max(title.height, figures.height))


def _for_all(chart: FeedingChart, setter: Setter, room: float) -> Block:
    """Breast milk, variety and safety side by side, as high as the highest."""
    milk_room, safe_room = 28 * MM, 85 * MM
    variety_room = room - milk_room - safe_room - 2 * COLUMN
    variety = _variety(chart.variety, setter, variety_room)
    safe = _safety(chart.safety, setter, safe_room)
    height = max(variety.height, safe.height + 4 * MM)
    milk = _milk(chart.milk, setter, milk_room, height - 2 * MM)
    height = max(height, milk.height)
    middle = milk_room + COLUMN
    right = middle + variety_room + COLUMN
    box = PanelItem(0, 0, safe_room, height, 2 * MM, PANEL_STROKE)
    items = (
        RuleItem(0, 0, right - COLUMN, 0, HAIR),
        *moved(milk.items, 0, 2 * MM, Tag("", 0)),
        RuleItem(middle - COLUMN / 2, 2 * MM, middle - COLUMN / 2, height, HAIR),
        *moved(variety.items, middle, 2 * MM, Tag("", 1)),
        *moved((box,), right, 0),
        *moved(safe.items, right, (height - safe.height) / 2, Tag("Aside", 2)),
    )
    return Block(items, height)


def _milk(milk: Marked, setter: Setter, room: float, depth: float) -> Block:
    """The mother as large as width and depth allow."""
    words = setter.stack(milk.said, setter.sizes.body, room, "body")
    least = setter.icon(milk.icon, 16 * MM)
    tall = min(least.height * room / width(least), depth - words.height - 1 * MM)
    block = over(setter.icon(milk.icon, max(least.height, tall)), words)
    return Block(moved(block.items, 0, 0, Tag("P")), block.height + 2 * MM)


def _variety(variety: Variety, setter: Setter, room: float) -> Block:
    """How many of the groups a day, in words and in marks, over the groups four by four."""
    marks = row_of_icons([setter.icon(i, 3.4 * MM) for i in variety.count_icons], 0.6 * MM)
    words = setter.stack(variety.heading, setter.sizes.body, room - width(marks) - GAP, "body")
    height = max(words.height, marks.height)
    items = [
        *moved(words.items, 0, (height - words.height) / 2, Tag("H2")),
        *moved(marks.items, room - width(marks), (height - marks.height) / 2, Tag("P")),
    ]
    cells = [
        ([setter.icon(m.icon, setter.between(12.5, 8.2) * MM)], m.said) for m in variety.groups
    ]
    grid = _pictured(cells, 4, setter, room)
    items += moved(grid.items, 0, height + 1 * MM)
    return Block(tuple(items), height + 1 * MM + grid.height + 2 * MM)


def _safety(cautions: Sequence[Warned], setter: Setter, room: float) -> Block:
    pad = 2.5 * MM
    height = setter.between(12.5, 8.2) * MM
    cells = [
        ([setter.icon(i, height) for i in caution.icons], caution.said) for caution in cautions
    ]
    grid = _pictured(cells, 4, setter, room - 2 * pad)
    return Block(moved(grid.items, pad, 0), grid.height)


def _pictured(
    cells: Sequence[tuple[list[Block], Said]], columns: int, setter: Setter, room: float
) -> Block:
    """Pictures with words under them, in rows; two pictures take two places."""
    cell = (room - GAP * (columns - 1)) / columns
    items: list[Item] = []
    y = deep = 0.0
    column = 0
    for number, (icons, words) in enumerate(cells):
        places = min(len(icons), columns)
        if column + places > columns:
            y, deep, column = y + deep + 0.8 * MM, 0.0, 0
        wide = places * (cell + GAP) - GAP
        said = setter.stack(words, setter.sizes.body, wide, "body")
        block = over(fan_of_icons(icons, GAP, wide), said)
        items += moved(block.items, column * (cell + GAP), y, Tag("P", number))
        deep, column = max(deep, block.height), column + places
    return Block(tuple(items), y + deep)
