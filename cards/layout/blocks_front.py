"""The front's blocks: heading, lead, what is needed, portions. Each returns a Block."""

from __future__ import annotations

from cards.card.model import (
    Heading,
    IconUse,
    Lead,
    NeedList,
    NeedRow,
    PortionColumn,
    PortionTable,
)
from cards.diagnostics.diagnostic import Place
from cards.layout.pages import MM, Item, RuleItem, Tag, flat
from cards.layout.parts import (
    COLUMN_GAP,
    GAP,
    HAIR,
    PICTURE_SHARE,
    WORDS_LEAST,
    age_mark,
    beside_or_below,
    column_age,
    day_and_week,
    day_of_meals,
    day_within,
    mark_with_words,
    part_heading,
    prep_marks,
    rule_between,
    words_left,
)
from cards.layout.setting import (
    FIGURE_HEIGHT,
    Block,
    Setter,
    baseline,
    fan_of_icons,
    moved,
    width,
)

THEN = IconUse("arrow", alt="→")
"""From the first weeks' amount to what follows. A sign, since it stands for no word of its own."""


def heading(block: Heading, setter: Setter, room: float, _extra: float) -> Block:
    """Title on the left, the child's age on the right, always in that corner."""
    age = age_mark(
        block.age_icon,
        block.ages,
        block.months,
        setter,
        setter.between(14, 12) * MM,
        block.title[0].at,
    )
    age_width = width(age)
    title = setter.stack(
        block.title, setter.sizes.title, room - age_width - COLUMN_GAP, "title", bold_first=True
    )
    height = max(title.height, age.height)
    items = (
        *moved(title.items, 0, 0, Tag("H1")),
        *moved(age.items, room - age_width, (height - age.height) / 2, Tag("P")),
    )
    return Block(items, height)


def lead(block: Lead, setter: Setter, room: float, _extra: float) -> Block:
    """When to begin and how long the work takes, side by side, between hairlines."""
    cell = room / max(2, len(block.items))
    icon_height = setter.between(setter.layout.icons.row_mm, 10) * MM
    cells = [mark_with_words(item, setter, cell - COLUMN_GAP, icon_height) for item in block.items]
    height = max(c.height for c in cells)
    pad = setter.between(1.5, 1) * MM
    items: list[Item] = [RuleItem(0, 0, room, 0, HAIR)]
    for index, placed in enumerate(cells):
        down = pad + (height - placed.height) / 2
        items += moved(placed.items, index * cell, down, Tag("P", index))
    items.append(RuleItem(0, height + 2 * pad, room, height + 2 * pad, HAIR))
    return Block(tuple(items), height + 2 * pad)


def needs(block: NeedList, setter: Setter, room: float, extra: float) -> Block:
    """A row an ingredient: pictures, number, words, each in its own column down the page."""
    rows = [row for section in block.sections for row in section.rows]
    columns = setter.in_columns(rows[0].said)
    most = room * PICTURE_SHARE - COLUMN_GAP if columns else room * 0.42
    fans = {id(row): _fan(row, setter, most) for row in rows}
    icon_column = max(width(f) for f in fans.values()) + COLUMN_GAP
    numbers = {
        id(row): setter.line(
            row.number, setter.sizes.numeral, "und", "numeral", row.said[0].at, bold=True
        )
        for row in rows
        if row.number
    }
    number_column = max((width(n) for n in numbers.values()), default=0.0) + COLUMN_GAP
    if columns:
        icon_column = max(icon_column, room * PICTURE_SHARE)
        number_column = max(number_column, words_left(room) - icon_column)
    left, words_room = icon_column + number_column, room - icon_column - number_column
    words = {id(row): setter.stack(row.said, setter.sizes.body, words_room, "body") for row in rows}
    gap = setter.row_gap(extra)
    items: list[Item] = []
    y = 0.0
    for part, section in enumerate(block.sections):
        if section.heading:
            y += gap if y else 0.0
            title = part_heading(section.heading, section.mark, setter, left, words_room, room)
            items += moved(title.items, 0, y, Tag("H2", part))
            y += title.height + gap / 2
        for index, row in enumerate(section.rows):
            listed = Tag("L", part, how="Disc"), Tag("LI", index)
            label, body = (*listed, Tag("Lbl")), (*listed, Tag("LBody"))
            fan, said, number = fans[id(row)], words[id(row)], numbers.get(id(row))
            height = max(fan.height, said.height, number.height if number else 0.0)
            if number and section.heading and not index:
                y += _rises(number, said, height)
            end = icon_column - COLUMN_GAP - width(fan)
            items += moved(fan.items, end, y + (height - fan.height) / 2, *label)
            if number:
                # on the first line's baseline: read across as "6 big spoons rice"
                first = y + (height - said.height) / 2 + baseline(said) - baseline(number)
                items += moved(number.items, icon_column, first, *body)
            items += moved(said.items, left, y + (height - said.height) / 2, *body)
            y += height + gap
    items += rule_between(rows[0].said, setter, words_room, (left, 0.0, y - gap))
    return Block(tuple(items), y - gap, rows=len(rows) - 1)


def _rises(number: Block, said: Block, height: float) -> float:
    """By how much a number in its row of a height rises over it, in points."""
    top = (
        (height - said.height) / 2
        + baseline(said)
        - baseline(number)
        + flat(number.items)[0].box[1]
    )
    return max(0.0, -top)


def _fan(row: NeedRow, setter: Setter, most: float) -> Block:
    """The row's icons; overlapped like a fan when they would take too much room."""
    before = prep_marks(row, setter)
    fan = fan_of_icons([setter.measure(icon) for icon in row.icons], 0.8 * MM, most - width(before))
    height = max(before.height, fan.height)
    return Block(
        (
            *moved(before.items, 0, (height - before.height) / 2),
            *moved(fan.items, width(before), (height - fan.height) / 2),
        ),
        height,
    )


def portions(block: PortionTable, setter: Setter, room: float, extra: float) -> Block:
    """A column an age, youngest on the left; below them all that breastfeeding goes on."""
    count = max(2, len(block.columns))
    cell = room / count
    cells = [_portion_rows(column, setter, cell - COLUMN_GAP) for column in block.columns]
    if len(cells) == 1:
        # one age alone: who and how soft on the left, how much and how often on the right
        cells = [cells[0][:2], cells[0][2:]]
    row = setter.between(1, 0.5) * MM + extra
    pad = setter.between(1.5, 1) * MM + extra
    items: list[Item] = [RuleItem(0, 0, room, 0, HAIR)]
    y = pad
    placed: list[tuple[int, int, tuple[Item, ...]]] = []
    for number in range(len(cells[0]) if cells else 0):
        height = max(rows[number].height for rows in cells)
        for index, rows in enumerate(cells):
            inner, down = rows[number], y + (height - rows[number].height) / 2
            # one age alone is one column, though it is set in two
            at = (number, index) if block.columns[1:] else (number + index * len(rows), 0)
            tag = Tag("TD", at[1]) if at[0] else Tag("TH", at[1], how="Column")
            inside = Tag("Table"), Tag("TR", at[0]), tag
            placed.append((*at, moved(inner.items, index * cell, down, *inside)))
        y += height + row
    for _, _, inner_items in sorted(placed, key=lambda one: one[:2]):
        items += inner_items
    for index in range(1, len(cells)):
        x = index * cell - COLUMN_GAP / 2
        items.append(RuleItem(x, pad, x, y - row, HAIR))
    items.append(RuleItem(0, y, room, y, HAIR))
    y += setter.between(1, 0.5) * MM
    icon = setter.icon(block.breast_milk.icon, setter.between(10, 9) * MM)
    x = width(icon) + GAP
    words = beside_or_below(block.breast_milk.said, setter, room - x, 4 * MM)
    height = max(icon.height, words.height)
    items += moved(icon.items, 0, y + (height - icon.height) / 2, Tag("P"))
    items += moved(words.items, x, y + (height - words.height) / 2, Tag("P"))
    return Block(tuple(items), y + height, rows=4)


def _portion_rows(column: PortionColumn, setter: Setter, room: float) -> list[Block]:
    """Who, how soft, how much, how often."""
    ages = column_age(column, setter, setter.between(12, 11) * MM)
    texture = mark_with_words(column.texture, setter, room, setter.between(10, 9) * MM)
    return [ages, texture, _amount(column, setter, room), _meals(column, setter, room)]


def _amount(column: PortionColumn, setter: Setter, room: float) -> Block:
    """Icons, and below them the number; "2-3, then" before it where the first weeks have less."""
    icons = [setter.measure(icon) for icon in column.start_icons]
    if icons:
        icons.append(setter.icon(THEN, 6.4 * MM))
    icons += [setter.measure(icon) for icon in column.amount_icons]
    fan = fan_of_icons(icons, 0.6 * MM, room)
    roomy = setter.sizes.tight <= ROOMY
    words = beside_or_below(column.amount, setter, room, 3 * MM)
    if column.start and roomy:
        arrow = setter.icon(THEN, 3.6 * MM)
        first = beside_or_below(column.first, setter, room - width(arrow) - 1 * MM, 3 * MM)
        middle = baseline(first) - FIGURE_HEIGHT / 2 * setter.sizes.least[0] - arrow.height / 2
        then = moved(arrow.items, width(first) + 1 * MM, middle)
        words = Block(
            (*first.items, *then, *moved(words.items, 0, first.height)),
            first.height + words.height,
        )
    elif column.start:
        before = ahead(column.start, setter, column.amount[0].at)
        words = beside_or_below(column.amount, setter, room - width(before), 3 * MM)
        down = baseline(words) - baseline(before)
        words = Block(
            (*moved(before.items, 0, down), *moved(words.items, width(before), 0)), words.height
        )
    y = fan.height + 0.5 * MM
    return Block((*fan.items, *moved(words.items, 0, y)), y + words.height)


ROOMY = 0.9
"""Up to this tightness of a side there is room to say what a picture shows as well."""


def ahead(start: str, setter: Setter, at: Place) -> Block:
    """The first weeks' number of spoons and an arrow to what follows."""
    size = setter.sizes.least[0]
    number = setter.line(start, size, "und", "body", at, bold=True)
    arrow = setter.icon(THEN, 3.6 * MM)
    x = width(number) + 1 * MM
    middle = baseline(number) - FIGURE_HEIGHT / 2 * size - arrow.height / 2
    return Block(
        (*number.items, *moved(arrow.items, x, middle)),
        number.height,
        span=x + width(arrow) + 1 * MM,
    )


def _meals(column: PortionColumn, setter: Setter, room: float) -> Block:
    """The day's meals in one line, words beside or below; in two lines where space is short."""
    height = setter.between(5, 4.5) * MM
    if column.seldom:
        return day_and_week(column, setter, room, height)
    day = day_within(column, setter, height, room)
    words = beside_or_below(column.meals, setter, room, 3 * MM)
    y = day.height + 0.5 * MM
    ways = [Block((*day.items, *moved(words.items, 0, y)), y + words.height)]
    days = [day]
    if setter.sizes.tight > 0.5:
        days.append(day_of_meals(column, setter, height, folded=True))
    ways += [_beside(day, column, setter, room) for day in days if room - width(day) > WORDS_LEAST]
    return min(ways, key=lambda way: way.height)


def _beside(day: Block, column: PortionColumn, setter: Setter, room: float) -> Block:
    left = width(day) + GAP
    meals = setter.stack(column.meals, setter.sizes.least, room - left, "body")
    height = max(day.height, meals.height)
    down = (height - day.height) / 2, (height - meals.height) / 2
    return Block((*moved(day.items, 0, down[0]), *moved(meals.items, left, down[1])), height)
