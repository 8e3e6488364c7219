"""place_hours: bars over hours, one row a step, that read in black and white."""

from __future__ import annotations

from datetime import datetime, timedelta

from cards.card.icon_words import shown
from cards.card.model import Said
from cards.diagnostics.diagnostic import Place
from cards.layout.a4 import LEAST, ROOM, SMALL, Flow, bound, heading_block, sheet_setter
from cards.layout.layoutfile import Layout
from cards.layout.pages import MM, BarItem, Item, Pages, PanelItem, RuleItem
from cards.layout.parts import HAIR
from cards.layout.session.paper_pages import title_lines
from cards.layout.setting import Block, Setter, moved, width
from cards.plan.hours_paper import Bar, HoursPaper
from cards.text.faces import FontBook
from cards.words.digits import LATIN

CLOCK, WORDS, BARS = 11 * MM, 26 * MM, 80 * MM
"""Where the hour, the words and the bars begin; the icon stands before them."""

SPAN = ROOM - BARS
ICON = 8.5 * MM
BAR = 4.2 * MM
"""Height of a bar."""

OUTLINE = 1.0
THINNEST = 1.4 * MM
"""A bar is never thinner, however short the work."""

MARKED = "+"
"""Stands behind the hour of a wait that is longer than on the card."""

STRIPE = 1.2 * MM
"""Hours nearer to one another than this are not drawn in a bar."""

MARK = 5 * MM
"""Height of the sun and moon over the hours."""


def place_hours(paper: HoursPaper, layout: Layout, book: FontBook) -> Pages:
    """The timeline's pages. Raises GlyphMissing and TooWide."""
    setter = sheet_setter(layout, book)
    flow = Flow()
    flow.add(title_lines(paper.title, paper.under, setter))
    flow.y += 3 * MM
    axis = _axis(paper, setter)
    flow.add(axis)
    for dish in paper.dishes:
        heading = heading_block(dish.title, setter, ROOM)
        rows = [_row(bar, paper, setter) for bar in dish.bars]
        if flow.need(heading.height + 3 * MM + sum(row.height for row in rows)):
            flow.add(axis)
        flow.rule()
        flow.y += 1 * MM
        flow.add(heading)
        for row in rows:
            flow.add(row)
        flow.y += 1 * MM
    flow.rule()
    flow.y += 3 * MM
    for number, note in enumerate(paper.notes):
        starred = number == 0 and any(bar.longer for dish in paper.dishes for bar in dish.bars)
        block = _note(note, setter, starred)
        flow.need(block.height)
        flow.add(block, block.height + 1.5 * MM)
    named = [(f"hours {n}", items) for n, items in enumerate(flow.pages(), 1)]
    return bound(named, paper.meta, paper.foot, setter)


def _at(moment: datetime, paper: HoursPaper) -> float:
    """Where a moment lies, from the left edge."""
    return BARS + SPAN * ((moment - paper.begins) / (paper.ends - paper.begins))


def _pitch(paper: HoursPaper) -> float:
    """Points an hour takes."""
    return SPAN / ((paper.ends - paper.begins) / timedelta(hours=1))


def _axis(paper: HoursPaper, setter: Setter) -> Block:
    """Day names, sun and moon, the night as a bar, and hours in figures."""
    items: list[Item] = []
    names = 0.0
    lines: list[float] = []
    for n, (midnight, said) in enumerate(paper.days):
        left = _at(max(midnight, paper.begins), paper)
        right = _at(min(midnight + timedelta(days=1), paper.ends), paper)
        block = setter.stack(said, SMALL, 60 * MM, "head", bold_first=True)
        if width(block) + 2 <= right - left:
            items += moved(block.items, left + 2, 0)
            names = max(names, block.height)
        lines += [left] if n else []
    items += [RuleItem(x, 0, x, names, HAIR) for x in lines]
    y = names + 1 * MM
    items += _sky(paper, y, setter)
    y += MARK + 1 * MM
    hours = _hours(paper, setter)
    items += moved(hours.items, 0, y)
    height = y + hours.height + 1 * MM
    return Block(tuple(items), height)


def _sky(paper: HoursPaper, y: float, setter: Setter) -> list[Item]:
    """A moon over each midnight, a sun over each noon, where there is room."""
    items: list[Item] = []
    for midnight, _ in paper.days:
        for name, hour in (("moon", 0), ("sun", 12)):
            icon = setter.icon(shown(name), MARK)
            middle = _at(midnight + timedelta(hours=hour), paper)
            left = middle - width(icon) / 2
            if left >= BARS and left + width(icon) <= ROOM:
                items += moved(icon.items, left, y)
    return items


def _hours(paper: HoursPaper, setter: Setter) -> Block:
    """Figures of the hours that have room, the session's in bold."""
    pitch = _pitch(paper)
    step = next((s for s in (1, 3, 6, 12, 24) if s * pitch >= 9 * MM), 24)
    bold = setter.line(paper.clock, LEAST, "und", "hour", Place(""), bold=True)
    middle = min(_at(paper.starts, paper), ROOM - width(bold) / 2)
    items: list[Item] = [*moved(bold.items, middle - width(bold) / 2, 0)]
    taken = (middle - width(bold) / 2 - 3, middle + width(bold) / 2 + 3)
    figures = str.maketrans(LATIN, paper.foot.digits)
    hour = paper.begins
    while hour <= paper.ends:
        if hour.hour % step == 0:
            told = str(hour.hour).translate(figures)
            line = setter.line(told, LEAST, "und", "hour", Place(""))
            left = _at(hour, paper) - width(line) / 2
            right = left + width(line)
            free = right < taken[0] or left > taken[1]
            if free and left >= BARS - width(line) / 2 - 0.1 and right <= ROOM + 0.1:
                items += moved(line.items, left, 0)
        hour += timedelta(hours=1)
    return Block(tuple(items), bold.height)


def _row(bar: Bar, paper: HoursPaper, setter: Setter) -> Block:
    """Icon, hour, words, and the bar at their middle."""
    room = BARS - WORDS - 3 * MM
    words = setter.stack(bar.words, SMALL, room, "body")
    height = max(ICON, words.height) + 0.8 * MM
    middle = height / 2
    icon = setter.icon(bar.icon, ICON)
    if width(icon) > CLOCK - 1 * MM:
        icon = setter.icon(bar.icon, ICON * (CLOCK - 1 * MM) / width(icon))
    told = f"{bar.clock}{MARKED if bar.longer else ''}"
    clock = setter.line(told, LEAST, "und", "hour", Place(""), bold=True)
    items: list[Item] = [
        *moved(icon.items, 0, middle - icon.height / 2),
        *moved(clock.items, CLOCK, middle - clock.height / 2),
        *moved(words.items, WORDS, middle - words.height / 2),
    ]
    items += _night_lines(paper, height)
    start = _at(paper.starts, paper)
    items.append(RuleItem(start, 0, start, height, 1.6))
    items += _drawn(bar, paper, middle - BAR / 2)
    return Block(tuple(items), height)


def _night_lines(paper: HoursPaper, height: float) -> list[Item]:
    """Midnight as a hairline down the rows."""
    found = [_at(midnight, paper) for midnight, _ in paper.days if midnight > paper.begins]
    return [RuleItem(x, 0, x, height, HAIR) for x in found]


def _drawn(bar: Bar, paper: HoursPaper, y: float) -> list[Item]:
    left, right = _at(bar.begins, paper), _at(bar.ends, paper)
    wide = max(THINNEST, right - left)
    if bar.how == "work":
        # work ends where the next thing begins, so a thin bar grows to the left
        return [BarItem(right - wide, y, wide, BAR, "dark")]
    items: list[Item] = [PanelItem(left, y, wide, BAR, 0.5, OUTLINE)]
    if bar.how == "wait" and _pitch(paper) >= STRIPE:
        hour = bar.begins.replace(minute=0) + timedelta(hours=1)
        while hour < bar.ends:
            x = _at(hour, paper)
            if left + 1 < x < right - 1:
                items.append(RuleItem(x, y, x, y + BAR, OUTLINE))
            hour += timedelta(hours=1)
    return items


def _note(note: Said, setter: Setter, starred: bool) -> Block:
    star = setter.line(MARKED, LEAST, "und", "note", Place(""), bold=True)
    words = setter.stack(note, SMALL, ROOM - 5 * MM, "note")
    items = moved(words.items, 5 * MM, 0)
    return Block((*star.items, *items) if starred else items, words.height)
