"""place_feeding_chart: ages side by side on one ground line; milk, variety and safety below."""

from __future__ import annotations

from collections.abc import Sequence

from cards.card.feeding_chart import AgePanel, FeedingChart, Variety, Warned
from cards.card.model import Marked, Said
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error
from cards.layout.a4 import settled
from cards.layout.blocks_back import PANEL_STROKE
from cards.layout.blocks_front import THEN
from cards.layout.blocks_wall import foot, over
from cards.layout.checks import check_pages
from cards.layout.layoutfile import IconSizes, InkLimit, Layout, TypeSizes
from cards.layout.pages import MM, Item, Page, Pages, PanelItem, RuleItem, Tag
from cards.layout.parts import GAP, HAIR, age_mark
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
from cards.text.faces import FontBook

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

CHILD_MM = (15.0, 19.5, 24.0)
"""Heights of the children, youngest first: they grow along the ground line."""

QR_MM = 0.32
"""A module of the code as drawn: 0.9 mm on A2."""

COLUMN = 5 * MM
"""Between panels."""

TRIES = 9
"""Sizes tried, from the wished to the least."""


def place_feeding_chart(
    chart: FeedingChart, layout: Layout, book: FontBook, size: str, at: Place
) -> Result[Pages]:
    """The chart on a page of ``size``. Errors: a glyph no font has, a word or all too large."""
    wide, high = SIZES[size]
    magnify = wide / WIDTH_MM
    kind = ALONE if len(chart.heading.title) == 1 else BOTH
    own = layout.model_copy(
        update={
            "type": kind,
            "magnify": magnify,
            "icons": IconSizes(
                row_mm=12, measure_scale=(1.6, 1.15), measure_least_mm=8, mark_mm=12
            ),
            "qr": layout.qr.model_copy(update={"module_mm": QR_MM, "least_module_mm": QR_MM}),
            "ink": InkLimit(most_percent=15),
        }
    )
    full: list[Diagnostic] = []

    def make() -> Pages:
        height = high / magnify * MM
        margin = MARGIN_MM * MM
        room = (WIDTH_MM * MM - 2 * margin, height - 2 * margin)
        over_by = 0.0
        for number in range(TRIES):
            setter = Setter(book, own, _try(kind, number / (TRIES - 1)))
            bands = _bands(chart, setter, room[0])
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
        page = Page("chart", tuple(items))
        return Pages(WIDTH_MM * MM, height, margin, chart.meta, (page,), magnify)

    placed = settled(make, at)
    if placed.value is None or full:
        return Result(None, tuple(full) or placed.diagnostics)
    return Result(placed.value, check_pages(placed.value, own))


def _too_full(mm: float, at: Place) -> Diagnostic:
    return error(
        at,
        "chart-too-full",
        f"the chart is {mm:.0f} mm too long at the smallest type",
        "shorten the phrases of the chart in the words files: "
        "snacks, variety, food groups, cautions",
    )


def _try(kind: TypeSizes, tight: float) -> Try:
    def between(wished: tuple[float, float], least: tuple[float, float]) -> tuple[float, float]:
        first, second = (w + (n - w) * tight for w, n in zip(wished, least, strict=True))
        return round(first, 2), round(second, 2)

    title = between(kind.title, kind.title_least)
    return Try(title, between(kind.body, kind.least), kind.numeral, kind.small, tight, 0)


def _bands(chart: FeedingChart, setter: Setter, room: float) -> list[Block]:
    """Heading, ages, what holds for all of them, foot: each across the chart."""
    return [
        _heading(chart, setter, room),
        _ages(chart, setter, room),
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
    other = setter.in_line(block.title[1:], (setter.sizes.title[1],) * 2, GAP, "title") if block.title[1:] else None
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


def _ages(chart: FeedingChart, setter: Setter, room: float) -> Block:
    """A column an age; children, amounts and days each on a line of their own across."""
    count = len(chart.ages)
    cell = (room - COLUMN * (count - 1)) / count
    line = _picture_line(chart, setter)
    tall = CHILD_MM[-count:] if count < 3 else CHILD_MM
    columns = [
        [_who(panel, setter, cell, child * MM), _amount(panel, setter, cell, line),
         _day(chart, panel, setter, cell), _often(panel, setter, cell)]
        for panel, child in zip(chart.ages, tall, strict=True)
    ]  # fmt: skip
    gaps = (1.2 * MM, setter.between(3, 1.6) * MM, setter.between(3, 1.6) * MM, 0.0)
    items: list[Item] = []
    y = 0.0
    for row, gap in enumerate(gaps):
        height = max(column[row].height for column in columns)
        for index, column in enumerate(columns):
            down = 0.0 if row in (1, 3) else height - column[row].height
            tag = Tag("TD", index) if row else Tag("TH", index, how="Column")
            inside = Tag("Table"), Tag("TR", row), tag
            items += moved(column[row].items, index * (cell + COLUMN), y + down, *inside)
        y += height
        if row == 0:
            # the ground they sit, stand and walk on
            items.append(RuleItem(0, y, room, y, GROUND))
        y += gap
    for index in range(1, count):
        x = index * (cell + COLUMN) - COLUMN / 2
        items.append(RuleItem(x, 2 * MM, x, y, HAIR))
    return Block(tuple(items), y)


GROUND = 2.0
"""Stroke of the ground line in points."""


def _who(panel: AgePanel, setter: Setter, room: float, tall: float) -> Block:
    """The child, its months, and on the right how soft its food is."""
    column = panel.feeding
    at = column.meals[0].at
    child = age_mark(column.age_icon, column.ages, column.months, setter, tall, at)
    left = width(child) + GAP
    icon = setter.icon(column.texture.icon, setter.between(14, 12) * MM)
    said = setter.stack(column.texture.said, setter.sizes.body, room - left, "body")
    soft = over(icon, said)
    height = max(child.height, soft.height)
    items = (
        *moved(child.items, 0, height - child.height),
        *moved(soft.items, room - max(width(soft), 16 * MM), height - soft.height - 0.6 * MM),
    )
    return Block(items, height)


def _amount(panel: AgePanel, setter: Setter, room: float, line: float) -> Block:
    """The first weeks' spoons, an arrow, the amount; ``line`` is where all pictures stand."""
    column = panel.feeding
    cups = fan_of_icons([setter.measure(i) for i in column.amount_icons], 1 * MM, room)
    under = line + 0.4 * MM
    if not column.start:
        words = setter.stack(column.amount, setter.message, room, "message")
        items = (*moved(cups.items, 0, line - cups.height), *moved(words.items, 0, under))
        return Block(items, under + words.height)
    at = column.amount[0].at
    number = setter.line(column.start, setter.message[0], "und", "message", at, bold=True)
    spoons = fan_of_icons([setter.measure(i) for i in column.start_icons], 0.8 * MM, room * 0.5)
    beside = width(number) + 1 * MM
    first = setter.stack(panel.at_first, setter.sizes.body, room * 0.46 - beside, "body")
    arrow = setter.icon(THEN, 5 * MM)
    x = width(spoons) + 2 * MM
    then = max(x + width(arrow) + 2 * MM, beside + width(first) + GAP)
    words = setter.stack(column.amount, setter.message, room - then, "message")
    items = (
        *moved(spoons.items, 0, line - spoons.height),
        *moved(number.items, 0, under),
        *moved(first.items, beside, under + 0.5 * MM),
        *moved(arrow.items, x, line - (spoons.height + arrow.height) / 2),
        *moved(cups.items, then, line - cups.height),
        *moved(words.items, then, under),
    )
    return Block(items, under + max(words.height, number.height, first.height + 0.5 * MM))


def _picture_line(chart: FeedingChart, setter: Setter) -> float:
    """The height of the tallest measure of the chart."""
    icons = [
        icon
        for panel in chart.ages
        for icon in (*panel.feeding.start_icons, *panel.feeding.amount_icons)
    ]
    return max(setter.measure(icon).height for icon in icons)


def _day(chart: FeedingChart, panel: AgePanel, setter: Setter, room: float) -> Block:
    """From sunrise to night: a bowl a meal, standing on the day's line."""
    sun, moon = (setter.icon(icon, 8.5 * MM) for icon in (chart.sun, chart.moon))
    bowls = [setter.icon(icon, 7 * MM) for icon in panel.feeding.meal_icons]
    left, right = width(sun) + GAP, room - width(moon) - GAP
    step = (right - left) / len(bowls)
    line = 8.5 * MM
    items: list[Item] = [*sun.items, *moved(moon.items, room - width(moon), 0)]
    for index, bowl in enumerate(bowls):
        x = left + (index + 0.5) * step - width(bowl) / 2
        items += moved(bowl.items, x, line - bowl.height)
    items.append(RuleItem(left, line + 0.4 * MM, right, line + 0.4 * MM, 1.4))
    return Block(tuple(items), line + 0.8 * MM)


def _often(panel: AgePanel, setter: Setter, room: float) -> Block:
    """How many meals, and beside it the snacks that may be."""
    snack = row_of_icons([setter.icon(i, 5 * MM) for i in panel.snack_icons], 0.8 * MM)
    half = room * 0.4
    meals = setter.stack(panel.feeding.meals, setter.sizes.body, half - GAP, "body")
    left = half + width(snack) + 1 * MM
    words = setter.stack(panel.snacks, setter.sizes.body, room - left, "body")
    height = max(meals.height, words.height, snack.height)
    items = (*meals.items, *moved(snack.items, half, 0), *moved(words.items, left, 0))
    return Block(items, height)


def _for_all(chart: FeedingChart, setter: Setter, room: float) -> Block:
    """Breast milk, variety and safety side by side, as high as the highest."""
    milk_room, safe_room = 28 * MM, 80 * MM
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
        ([setter.icon(m.icon, setter.between(12.5, 8.8) * MM)], m.said) for m in variety.groups
    ]
    grid = _pictured(cells, 4, setter, room)
    items += moved(grid.items, 0, height + 1 * MM)
    return Block(tuple(items), height + 1 * MM + grid.height + 2 * MM)


def _safety(cautions: Sequence[Warned], setter: Setter, room: float) -> Block:
    pad = 2.5 * MM
    height = setter.between(12.5, 8.8) * MM
    cells = [([setter.icon(i, height) for i in caution.icons], caution.said) for caution in cautions]
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
