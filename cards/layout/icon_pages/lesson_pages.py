"""place_first_lesson: one thing a row, large; then rows as a card draws them, to read together."""

from __future__ import annotations

from collections.abc import Sequence

from cards.card.first_lesson import Example, FirstLesson, LessonRow, Practice, ReadRow
from cards.card.model import IconUse, NeedList, NeedRow, NeedSection, Said, StepList, StepSection
from cards.diagnostics.diagnostic import Place
from cards.icons import catalogue
from cards.layout import blocks_back, blocks_front
from cards.layout.a4 import (
    BEAT,
    DEPTH,
    LEAST,
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
from cards.layout.pages import MM, IconItem, Item, Pages, Placed, TextItem, flat
from cards.layout.parts import beside_or_below
from cards.layout.setting import Block, Setter, moved, row_of_icons, width
from cards.text.faces import FontBook

PICTURE = 26 * MM
"""Height of a picture that is no measure; measures are as much larger than on a card."""

TRUE = 2.05
"""How much larger than on a card a measure is drawn."""

NUMBER, SHOW, SAY = 0.0, 14 * MM, 134 * MM
"""Where number, pictures and the trainer's words begin."""

PLACE = 40 * MM
"""Width of a place for an example; three to a row."""

FIRST_SIDE, BACK_ROW = 5, 43.5 * MM
"""Rows on the first side, which share its height, and the height of one on the back."""

CARD_ROWS = (1.75, 1.6, 1.45)
"""How much larger than on a card the rows to read together are drawn, as far as they fit."""

SAID = ((14.0, 13.0), (13.0, LEAST), (LEAST, LEAST))
"""Type sizes of what the trainer says, as far as they fit a row."""

STEP_ROOM, STEP_PICTURE = 110 * MM, 9 * MM
"""Width of a step's row that has no words, and where its picture begins."""


def place_first_lesson(lesson: FirstLesson, layout: Layout, book: FontBook) -> Pages:
    """Both sides. Raises GlyphMissing and TooWide."""
    setter = sheet_setter(layout, book)
    front = Flow()
    front.add(title_block(lesson.title, (lesson.how,), setter))
    first, rest = lesson.rows[:FIRST_SIDE], lesson.rows[FIRST_SIDE:]
    for row, pitch in zip(first, _pitches(first, setter, DEPTH - front.y), strict=True):
        if row is not first[0]:
            front.rule()
        block = _row(row, setter, pitch)
        # up into the 3 mm of its own above, where two tall scripts would cross the rule
        lift = min(2.5 * MM, max(0.0, max(item.box[3] for item in flat(block.items)) - pitch))
        front.add(Block(moved(block.items, 0, -lift), pitch), pitch)
    for scale in CARD_ROWS:
        back = _back(lesson, rest, setter, sheet_setter(layout, book, scale))
        if back.y <= DEPTH:
            break
    sides = (("front", front.pages()[0]), ("back", back.pages()[0]))
    return bound(sides, lesson.meta, lesson.foot, setter)


def _pitches(rows: Sequence[LessonRow], setter: Setter, room: float) -> list[float]:
    """Heights of rows that share a room: all alike, but where one needs more."""
    equal = room / len(rows)
    needed = [
        max(item.box[3] for item in flat(_row(row, setter, equal).items)) + 1 * MM for row in rows
    ]
    spare = (room - sum(needed)) / len(rows)
    if max(needed) <= equal or spare < -3 * MM:
        return [equal] * len(rows)
    return [need + spare for need in needed]


def _back(lesson: FirstLesson, rows: Sequence[LessonRow], setter: Setter, large: Setter) -> Flow:
    back = Flow()
    for row in rows:
        back.add(_row(row, setter, BACK_ROW), BACK_ROW)
        back.rule()
    back.add(_reading(lesson.reading, setter, large))
    back.rule()
    back.y += BEAT / 2
    back.add(_practice(lesson.practice, setter, large))
    return back


def _row(row: LessonRow, setter: Setter, height: float) -> Block:
    """Number, pictures on one foot line with captions below, and what the trainer says."""
    number = _number(row.number, setter)
    tried = [setter.stack(row.said, sizes, ROOM - SAY, "body") for sizes in SAID]
    words = next((said for said in tried if said.height <= height - 4 * MM), tried[0])
    foot = 3 * MM + PICTURE
    items: list[Item] = [*moved(number.items, NUMBER, foot - PICTURE / 2 - number.height / 2)]
    x = SHOW
    for example in row.examples:
        room = PLACE * (2 if example.wide else 1)
        shown = _pictures(example, setter, room - 2 * MM)
        caption = setter.stack(example.caption, SMALL, room - 3 * MM, "caption")
        items += moved(shown.items, x, foot - shown.height)
        items += moved(caption.items, x, foot + 1.5 * MM)
        x += room
    items += moved(words.items, SAY, max(3 * MM, foot - PICTURE / 2 - words.height / 2))
    return Block(tuple(items), height)


def _number(number: str, setter: Setter) -> Block:
    return setter.line(number, 30.0, "und", "numeral", Place(""), bold=True)


def _pictures(example: Example, setter: Setter, room: float) -> Block:
    blocks = [setter.icon(use, _height(use)) for use in example.icons]
    gap = 1.6 * MM
    row = row_of_icons(blocks, gap)
    if width(row) <= room:
        return row
    share = (room - gap * (len(blocks) - 1)) / (width(row) - gap * (len(blocks) - 1))
    return row_of_icons([setter.icon(use, _height(use) * share) for use in example.icons], gap)


def _height(use: IconUse) -> float:
    true = catalogue.find(use.name).true_height_mm
    return true * TRUE * MM if true else PICTURE


def _reading(reading: ReadRow, setter: Setter, large: Setter) -> Block:
    """A card's row as it is drawn, and below its parts their names, an arrow between each."""
    number = _number(reading.number, setter)
    words = setter.stack(reading.said, (15.0, 13.0), ROOM - SHOW, "body")
    row = _card_need(reading.row, large, ROOM - SHOW)
    y = 3 * MM
    items: list[Item] = [*moved(words.items, SHOW, y)]
    y += words.height + 2 * MM
    items += moved(row.items, SHOW, y)
    items += moved(number.items, NUMBER, y + (row.height - number.height) / 2)
    y += row.height + 1 * MM
    names = [setter.stack(bold(said), SMALL, ROOM, "part") for said in reading.parts]
    arrow = setter.icon(IconUse("arrow"), 5 * MM)
    end = 0.0
    for middle, name in zip(_middles(row), names, strict=True):
        start = max(end + 2 * MM, SHOW + middle - width(name) / 2)
        if end:
            items += moved(arrow.items, end + (start - end - width(arrow)) / 2, y + 1 * MM)
        items += moved(name.items, start, y)
        end = start + width(name)
    return Block(tuple(items), y + names[0].height + 2 * MM)


def _middles(row: Block) -> tuple[float, ...]:
    """The middles of pictures, number and words of a card's row, from its left edge."""
    pictures = [item for item in flat(row.items) if isinstance(item, IconItem)]
    texts = [item for item in flat(row.items) if isinstance(item, TextItem)]
    parts: tuple[Sequence[Placed], ...] = (
        pictures,
        [item for item in texts if item.role == "numeral"],
        [item for item in texts if item.role == "body"],
    )
    return tuple(
        (min(item.box[0] for item in part) + max(item.box[2] for item in part)) / 2
        for part in parts
    )


def _card_need(row: NeedRow, large: Setter, room: float) -> Block:
    return blocks_front.needs(NeedList((NeedSection((), (row,)),)), large, room, 0.0)


def _practice(practice: Practice, setter: Setter, large: Setter) -> Block:
    """Rows to read aloud, drawn by what draws a card's; what they say stands at the foot."""
    heading = heading_block(practice.heading, setter)
    need = _card_need(practice.need, large, ROOM - SHOW)
    steps = blocks_back.steps(
        StepList((StepSection((), practice.steps),)), large, STEP_ROOM, 1 * MM
    )
    items: list[Item] = [*heading.items]
    y = heading.height + 2 * MM
    items += moved(need.items, STEP_PICTURE, y)
    y += need.height + 3 * MM
    items += moved(steps.items, 0, y)
    y += steps.height + 4 * MM
    answers = _answers(practice.answers_heading, practice.answers, setter)
    items += moved(answers.items, 0, y)
    return Block(tuple(items), y + answers.height)


def _answers(heading: Said, answers: Sequence[Said], setter: Setter) -> Block:
    """What the rows say, a line each."""
    title = setter.in_line(bold(heading), (SMALL[0], SMALL[0]), 3 * MM, "heading")
    items: list[Item] = [*title.items]
    y = title.height
    for answer in answers:
        line = beside_or_below(answer, setter, ROOM, 5 * MM)
        items += moved(line.items, 0, y)
        y += line.height
    return Block(tuple(items), y)
