"""What several blocks are made of: a mark with words, a name on a line, a child of an age."""

from __future__ import annotations

from cards.card.model import IconUse, Marked, NeedRow, PortionColumn, Said, StepRow, Text
from cards.diagnostics.diagnostic import Place
from cards.layout.pages import MM, Item, RuleItem
from cards.layout.setting import Block, Setter, moved, row_of_icons, width

Items = tuple[Item, ...]

HAIR = 0.8
"""Stroke of separating lines in points: the thinnest a photocopy keeps."""

GAP = 2 * MM
"""Between an icon and its words."""

COLUMN_GAP = 3 * MM
"""Between columns."""

PICTURE_SHARE = 0.3
"""Share of the width that pictures of ingredients have where languages stand in columns."""

NUMBER = 9 * MM
"""Room for a number there; so the columns of words stand alike on every card."""


def column_age(column: PortionColumn, setter: Setter, height: float) -> Block:
    """The age that a column of portions is for."""
    at = column.meals[0].at
    return age_mark(column.age_icon, column.ages, column.months, setter, height, at)


def age_mark(
    icon: IconUse, ages: str, months: Said, setter: Setter, height: float, at: Place
) -> Block:
    """A child of that age, the months in large figures, the word in both languages."""
    child = setter.icon(icon, height)
    figures = setter.line(ages, setter.sizes.numeral, "und", "numeral", at, bold=True)
    words = setter.in_line(months, setter.sizes.least, 1.5 * MM, "body")
    x = width(child) + 1.5 * MM
    inner = figures.height + words.height
    top = max(0.0, (child.height - inner) / 2)
    items = (
        *moved(child.items, 0, max(0.0, (inner - child.height) / 2)),
        *moved(figures.items, x, top),
        *moved(words.items, x, top + figures.height),
    )
    return Block(items, max(child.height, inner), span=x + max(width(figures), width(words)))


def words_left(room: float) -> float:
    """Left edge of the columns of words beside ingredients and portions."""
    return room * PICTURE_SHARE + NUMBER + COLUMN_GAP


def rule_between(said: Said, setter: Setter, room: float, at: tuple[float, float, float]) -> Items:
    """The rule between two columns of words in ``room``; ``at`` is left edge, top and bottom."""
    if not setter.in_columns(said) or not setter.column(room):
        return ()
    left, top, bottom = at
    return (RuleItem(left + room / 2, top, left + room / 2, bottom, HAIR),)


def mark_with_words(
    marked: Marked, setter: Setter, room: float, icon_height: float, slot: float = 0.0
) -> Block:
    """An icon with its words to the right, centred on one another; the icon has ``slot``."""
    icon = setter.icon(marked.icon, icon_height)
    x = (slot or width(icon)) + GAP
    words = setter.stack(marked.said, setter.sizes.body, room - x, "body")
    height = max(icon.height, words.height)
    return Block(
        (
            *moved(icon.items, 0, (height - icon.height) / 2),
            *moved(words.items, x, (height - words.height) / 2),
        ),
        height,
    )


PREP = 8 * MM
"""Height of a mark that tells what was done to a food before: its thinnest line is 0.8 pt."""


def prep_marks(row: NeedRow, setter: Setter, height: float = PREP) -> Block:
    """What was done to the food before, small, with a gap to the measures that follow."""
    marks = row_of_icons([setter.icon(icon, height) for icon in row.preps[:2]], 0.5 * MM)
    if not row.preps:
        return marks
    return Block(marks.items, marks.height, span=width(marks) + 1.5 * MM)


def day_of_meals(
    column: PortionColumn, setter: Setter, height: float, *, folded: bool = False
) -> Block:
    """The meals of a day on their way from sun to moon, in one line or ``folded`` in two."""
    alt = column.meal_icons[0].alt if column.meal_icons else ""
    signs = [IconUse("sun", alt=alt), *column.meal_icons, IconUse("moon", alt=alt)]
    half = -(-len(signs) // 2) if folded else len(signs)
    items: list[Item] = []
    x = y = 0.0
    for line in (signs[:half], signs[half:]):
        if line:
            y += 1 * MM if y else 0.0
            row = [setter.icon(icon, height) for icon in line]
            across = 0.0
            for block in row:
                items += moved(block.items, across, y)
                across += width(block) + 0.7 * MM
            x = max(x, across - 0.7 * MM)
            y += height + RUN
            items.append(RuleItem(0, y, across - 0.7 * MM, y, HAIR))
    return Block(tuple(items), y + HAIR, span=x)


def day_within(column: PortionColumn, setter: Setter, height: float, room: float) -> Block:
    """The meals of a day in one line, a little smaller if need be; else in two."""
    for share in (1.0, 0.9, 0.82):
        day = day_of_meals(column, setter, height * share)
        if width(day) <= room:
            return day
    return day_of_meals(column, setter, height, folded=True)


def day_and_week(column: PortionColumn, setter: Setter, room: float, height: float) -> Block:
    """The day's meals, and under them with its words that this dish is not for every day."""
    day = day_within(column, setter, height, room)
    icon = setter.icon(column.seldom[0], height * 2)
    if room - width(icon) - GAP > WORDS_LEAST:
        week = mark_with_words(Marked(column.seldom[0], column.meals), setter, room, icon.height)
    else:
        words = setter.stack(column.meals, setter.sizes.body, room, "body")
        below = moved(words.items, 0, icon.height)
        week = Block((*icon.items, *below), icon.height + words.height)
    y = day.height + 0.5 * MM
    return Block((*day.items, *moved(week.items, 0, y)), y + week.height)


WORDS_LEAST = 20 * MM
"""Least room in which words beside a picture are not torn."""

RUN = 0.5 * MM
"""From a day's meals to the line they stand on."""


def beside_or_below(said: Said, setter: Setter, room: float, gap: float) -> Block:
    """Short words at the least sizes: languages on one line, or below one another."""
    line = setter.in_line(said, setter.sizes.least, gap, "body")
    if width(line) <= room:
        return line
    return setter.stack(said, setter.sizes.least, room, "body")


def part_heading(
    said: Said, mark: IconUse | None, setter: Setter, left: float, words_room: float, room: float
) -> Block:
    """The part's dots, its name in both languages, bold, and a thick line as far as the room.

    Where languages stand in columns, the name stands over those of the words, from ``left``.
    """
    bold = tuple(Text(t.language, f"*{t.text}*", t.at) for t in said)
    columns = setter.in_columns(said)
    if columns:
        words = setter.stack(bold, setter.sizes.body, words_room, "body")
    else:
        words = setter.in_line(bold, setter.sizes.body, 3 * MM, "body")
    dots = setter.icon(mark, setter.between(*PART)) if mark else Block((), 0.0)
    if not columns:
        left = width(dots) + 1.5 * MM if mark else 0.0
    height = max(dots.height, words.height)
    items = [
        *moved(dots.items, 0, (height - dots.height) / 2),
        *moved(words.items, left, (height - words.height) / 2),
    ]
    x = left + width(words) + 2 * MM
    if mark and not columns and x < room:
        items.append(RuleItem(x, height / 2, room, height / 2, PART_LINE))
    return Block(tuple(items), height)


def words_after_parts(row: StepRow, setter: Setter, room: float) -> Block:
    """A step's words, before them the dots of each part that it takes.

    In columns the dots stand elsewhere (``number_over_parts``), so that words begin alike.
    """
    if setter.in_columns(row.said):
        return setter.stack(row.said, setter.sizes.body, room, "body")
    height = setter.between(*PART) * 0.8
    dots = row_of_icons([setter.icon(icon, height) for icon in row.parts], 0.6 * MM)
    left = width(dots) + (1.5 * MM if row.parts else 0)
    words = setter.stack(row.said, setter.sizes.body, room - left, "body")
    # on the first line, as a word would stand
    items = (*moved(dots.items, 0, 0.4 * MM), *moved(words.items, left, 0))
    return Block(items, max(dots.height, words.height))


def number_over_parts(row: StepRow, setter: Setter, room: float) -> Block:
    """A step's number; where its words stand in columns, under it the dots of parts it takes."""
    number = setter.line(
        row.number, setter.sizes.numeral, "und", "numeral", row.said[0].at, bold=True
    )
    if not row.parts or not setter.in_columns(row.said):
        return number
    height = setter.between(*PART) * 0.8
    dots = row_of_icons([setter.icon(icon, height) for icon in row.parts], 0.6 * MM)
    if width(dots) > room:
        height *= room / width(dots)
        dots = row_of_icons([setter.icon(icon, height) for icon in row.parts], 0.6 * MM)
    items = (*number.items, *moved(dots.items, 0, number.height))
    return Block(items, number.height + dots.height)


PART = (5.6 * MM, 4.4 * MM)
"""Height of the dots that tell a part from the others, wished and least."""

PART_LINE = 2.4
"""Stroke in points of the line that begins a part."""
