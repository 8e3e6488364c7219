"""The meals of the day chart: the line from sun to moon, and a cell a meal."""

from __future__ import annotations

from cards.card.model import IconUse
from cards.layout.pages import MM, Item, RuleItem, Tag
from cards.layout.parts import HAIR
from cards.layout.setting import (
    Block,
    Setter,
    fan_of_icons,
    moved,
    row_of_icons,
    width,
)
from cards.layout.wall.wall_portions import over
from cards.plan.day_chart import DayChart, Helping, MealCell

COLUMN = 4 * MM
"""Between meals."""

LABEL_MM = 15.0
"""Width of a day's name at the left of a week."""

DAY_LINE = 1.4
"""Stroke of the day's line in points."""


def _columns(chart: DayChart, room: float) -> tuple[float, float]:
    """Left edge of the first column, and how wide each is."""
    left = LABEL_MM * MM if chart.rows[0].label else 0.0
    count = len(chart.slots)
    return left, (room - left - COLUMN * (count - 1)) / count


def meal_line(chart: DayChart, setter: Setter, room: float) -> Block:
    """Sun, a bowl a meal over its column (smaller between meals), milk between them, moon."""
    left, cell = _columns(chart, room)
    week = bool(chart.rows[0].label)
    tall = (setter.between(8, 6) if week else setter.between(11, 8.5)) * MM
    sun, moon = setter.icon(chart.sun, tall), setter.icon(chart.moon, tall)
    line = tall + 0.6 * MM
    items: list[Item] = [*moved(sun.items, 0, 0, Tag("P", 0))]
    number = 1
    for index in range(len(chart.slots)):
        centre = left + index * (cell + COLUMN) + cell / 2
        size = tall * (0.62 if chart.small[index] else 0.9)
        bowl = setter.icon(_bowl(chart, index), size)
        items += moved(bowl.items, centre - width(bowl) / 2, tall - size, Tag("P", number))
        number += 1
        if index < len(chart.drinks) and chart.drinks[index]:
            high = tall * 0.85 if chart.drinks[index][0].name == "cup" else tall
            icons = [setter.icon(icon, high) for icon in chart.drinks[index]]
            milk = fan_of_icons(icons, 0.5 * MM, (cell + COLUMN) / 2)
            x = centre + (cell + COLUMN) / 2 - width(milk) / 2
            items += moved(milk.items, x, tall - milk.height, Tag("P", number))
            number += 1
    items += moved(moon.items, room - width(moon), 0, Tag("P", number))
    items.append(RuleItem(0, line, room, line, DAY_LINE))
    words = setter.in_line(chart.milk, setter.sizes.body, 5 * MM, "body")
    if width(words) > room:
        words = setter.stack(chart.milk, setter.sizes.body, room, "body")
    below = line + 0.8 * MM
    items += moved(words.items, (room - width(words)) / 2, below, Tag("P", number + 1))
    return Block(tuple(items), below + words.height)


def _bowl(chart: DayChart, index: int) -> IconUse:
    """The bowl over a column, said by the first dish that stands in it."""
    dish = next((row.cells[index] for row in chart.rows if row.cells[index]), None)
    said = dish.title if dish else chart.title
    return IconUse("meal", (("fill", 1.0),), alt=said[0].text)


def day_rows(chart: DayChart, setter: Setter, room: float) -> Block:
    """A row a day, a cell a meal."""
    left, cell = _columns(chart, room)
    week = bool(chart.rows[0].label)
    gap = setter.between(1.2, 0.6) * MM
    pictures = _picture_height(chart, setter, cell)
    items: list[Item] = []
    y = 0.0
    for number, row in enumerate(chart.rows):
        label = setter.stack(row.label, setter.message, left - 1 * MM, "message") if week else None
        cells = [
            (_wide(one, setter, cell) if week else _tall(one, setter, cell, pictures))
            if one
            else Block((), 0.0)
            for one in row.cells
        ]
        height = max(0.0, *(block.height for block in cells), label.height if label else 0.0)
        if number:
            items.append(RuleItem(0, y - gap / 2, room, y - gap / 2, HAIR))
        inside = Tag("Table"), Tag("TR", number)
        if label:
            head = (*inside, Tag("TH", 0, how="Row"))
            items += moved(label.items, 0, y + (height - label.height) / 2, *head)
        for index, block in enumerate(cells):
            x = left + index * (cell + COLUMN)
            down = y + ((height - block.height) / 2 if week else 0.0)
            items += moved(block.items, x, down, *inside, Tag("TD", index + 1))
        y += height + gap
    high = y - gap
    for index in range(len(chart.slots)):
        x = left + index * (cell + COLUMN) - COLUMN / 2
        if x > 0:
            items.append(RuleItem(x, 0, x, high, HAIR))
    return Block(tuple(items), high)


def _picture_height(chart: DayChart, setter: Setter, room: float) -> float:
    """The height at which the pictures of every dish stand side by side, none over another."""
    height = setter.between(15, 11) * MM
    for row in chart.rows:
        for cell in row.cells:
            icons = [setter.icon(i, height) for i in cell.groups] if cell else []
            wide = width(row_of_icons(icons, 0.8 * MM)) if icons else 0.0
            height *= min(1.0, room / wide) if wide else 1.0
    return height


def _tall(cell: MealCell, setter: Setter, room: float, height: float) -> Block:
    """Pictures, name and amount below one another."""
    pictures = row_of_icons([setter.icon(i, height) for i in cell.groups], 0.8 * MM * 0.95)
    name = setter.stack(cell.title, setter.message, room, "message", bold_first=True)
    block = over(pictures, name)
    items, y = list(block.items), block.height + 2 * MM
    for helping in cell.helpings:
        one = _helping(helping, setter, room, small=False)
        items += moved(one.items, 0, y)
        y += one.height + 1 * MM
    return Block(tuple(items), y - 1 * MM)


PAIR = 2
"""Pictures side by side in a cell of a week."""


def _wide(cell: MealCell, setter: Setter, room: float) -> Block:
    """Pictures two by two, name and amount beside them."""
    height = setter.between(6.2, 4.6) * MM
    icons = [setter.icon(i, height) for i in cell.groups]
    items: list[Item] = []
    y = side = 0.0
    for start in range(0, len(icons), PAIR):
        row = row_of_icons(icons[start : start + PAIR], 0.5 * MM)
        items += moved(row.items, 0, y)
        y += row.height + 0.5 * MM
        side = max(side, width(row))
    deep = y - 0.5 * MM
    x = side + 1.5 * MM
    name = setter.stack(cell.title, setter.sizes.body, room - x, "body", bold_first=True)
    words, y = list(name.items), name.height + 0.3 * MM
    for helping in cell.helpings:
        one = _helping(helping, setter, room - x, small=True)
        words += moved(one.items, 0, y)
        y += one.height + 0.3 * MM
    tall = max(deep, y)
    placed = (
        *moved(items, 0, (tall - deep) / 2),
        *moved(words, x, (tall - y) / 2),
    )
    return Block(placed, tall)


def _helping(helping: Helping, setter: Setter, room: float, *, small: bool) -> Block:
    """The child where there are several, the measure, the amount in words.

    In a week's small cells the child's picture leaves no room for the measure's.
    """
    parts: list[Block] = []
    if helping.child:
        parts.append(setter.icon(helping.child, (4.2 if small else 9) * MM))
    icons = [setter.icon(i, 4.2 * MM) if small else setter.measure(i) for i in helping.icons]
    fan = fan_of_icons(icons, 0.4 * MM, room * (0.45 if small else 0.6))
    if not small or (helping.child is None and width(fan) <= room * 0.5):
        parts.append(fan)
    elif helping.child is None:
        # the number tells how many; one picture tells of what
        parts.append(icons[0])
    x = sum(width(part) + 1 * MM for part in parts)
    if not small and sum(width(part) + 1 * MM for part in parts) > room * 0.55:
        child = [*parts[:-1], fan] if helping.child else [fan]
        words = setter.stack(helping.said, setter.message, room, "message")
        return over(fan_of_icons(child, 0.4 * MM, room), words)
    sizes = setter.sizes.body if small else setter.message
    role = "body" if small else "message"
    words = setter.stack(helping.said, sizes, room - x, role)
    tall = max(words.height, *(part.height for part in parts))
    items: list[Item] = []
    left = 0.0
    for part in parts:
        items += moved(part.items, left, (tall - part.height) / 2)
        left += width(part) + 1 * MM
    items += moved(words.items, x, (tall - words.height) / 2)
    return Block(tuple(items), tall)
