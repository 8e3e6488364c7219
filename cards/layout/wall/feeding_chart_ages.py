"""The ages of the feeding chart, side by side: who, how soft, how much, how often."""

from __future__ import annotations

from dataclasses import replace

from cards.card.feeding_chart import AgePanel, FeedingChart
from cards.layout.blocks_front import THEN
from cards.layout.pages import MM, Item, RuleItem, Tag
from cards.layout.parts import GAP, HAIR, age_mark
from cards.layout.setting import (
    Block,
    Setter,
    fan_of_icons,
    moved,
    row_of_icons,
    width,
)
from cards.layout.wall.wall_portions import over

CHILD_MM = (15.0, 19.5, 24.0)
"""Heights of the children, youngest first: they grow along the ground line."""

COLUMN = 5 * MM
"""Between panels."""

SOFT = 16 * MM
"""Least width of how soft the food is."""

NUMERALS = (0.92, 0.84, 0.76)
"""Shares of their size that the ages in wide digits have, as far as they need it."""

GROUND = 2.0
"""Stroke of the ground line in points."""


def age_panels(chart: FeedingChart, setter: Setter, room: float) -> Block:
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


def _who(panel: AgePanel, setter: Setter, room: float, tall: float) -> Block:
    """The child, its months, and on the right how soft its food is."""
    column = panel.feeding
    at = column.meals[0].at
    child = age_mark(column.age_icon, column.ages, column.months, setter, tall, at)
    for share in NUMERALS:
        if width(child) + GAP + SOFT <= room:
            break
        sizes = replace(setter.sizes, numeral=setter.sizes.numeral * share)
        narrow = replace(setter, sizes=sizes)
        child = age_mark(column.age_icon, column.ages, column.months, narrow, tall, at)
    left = width(child) + GAP
    icon = setter.icon(column.texture.icon, setter.between(14, 12) * MM)
    said = setter.stack(column.texture.said, setter.sizes.body, room - left, "body")
    soft = over(icon, said)
    height = max(child.height, soft.height)
    items = (
        *moved(child.items, 0, height - child.height),
        *moved(soft.items, room - max(width(soft), SOFT), height - soft.height - 0.6 * MM),
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
