"""place_icon_test: how to ask, the icons alone with lines to write on, counting, what is enough."""

from __future__ import annotations

from collections.abc import Sequence

from cards.card.icon_test import COLUMNS, IconTest, Question
from cards.card.model import IconUse, Said, Text
from cards.diagnostics.diagnostic import Place
from cards.icons import catalogue
from cards.layout.a4 import (
    BEAT,
    BODY,
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
from cards.layout.blocks_back import PANEL_STROKE
from cards.layout.layoutfile import Layout
from cards.layout.pages import MM, Item, Pages, PanelItem, RuleItem
from cards.layout.parts import HAIR, beside_or_below
from cards.layout.setting import Block, Setter, baseline, moved, width
from cards.text.faces import FontBook

PICTURE, PICTURE_WIDEST = 28 * MM, 40 * MM
"""Height of an icon that is asked about, and how wide one that is wider than high may be."""

SMALL_PICTURE = 9 * MM
"""Height of an icon in the counter's table, to be found again."""

NUMBER, ANSWER = 12 * MM, 58 * MM
"""Where picture and answer begin in a row of the test."""

LINES = 3
"""Lines to write an answer on."""

MEANT, COUNTS = 20 * MM, 63 * MM
"""Where meaning and tick columns begin in the counter's table."""

TICK, SUM = 18 * MM, 13 * MM
"""Widths of a column to tick in, and of that for the sum; the percentage has what is left."""

SCORE_ROW = 3 * BEAT

DANGEROUS = COLUMNS.index("opposite")
"""The column of answers by which somebody would come to harm."""


def place_icon_test(test: IconTest, layout: Layout, book: FontBook) -> Pages:
    """The test's pages. Raises GlyphMissing and TooWide."""
    setter = sheet_setter(layout, book)
    sides: list[tuple[str, Sequence[Item]]] = [("how", _how(test, setter))]
    for number, start in enumerate(range(0, len(test.questions), test.a_page), 1):
        asked = test.questions[start : start + test.a_page]
        sides.append((f"test {number}", _asked(test, asked, setter)))
    sides += [(f"count {n}", items) for n, items in enumerate(_counted(test, setter), 1)]
    for number, items in enumerate(_enough(test, setter), 1):
        sides.append(("marks" if number == 1 else f"marks {number}", items))
    return bound(sides, test.meta, test.foot, setter)


def _how(test: IconTest, setter: Setter) -> tuple[Item, ...]:
    """The title and the numbered steps of asking."""
    flow = Flow()
    flow.add(title_block(test.title, (test.why,), setter))
    flow.y += BEAT
    for step in test.how:
        flow.add(_numbered(step.figure, step.said, setter))
    return flow.pages()[0]


def _numbered(number: str, said: Said, setter: Setter, source: str = "") -> Block:
    """A large number and what it says in each language, on one line; a source below."""
    figure = setter.line(number, setter.sizes.numeral, "und", "numeral", said[0].at, bold=True)
    words = setter.stack(said, BODY, ROOM - NUMBER, "body")
    cited = setter.stack((Text("en", source, Place("")),), SMALL, ROOM - NUMBER, "source")
    first = baseline(figure) - baseline(words)
    items = (
        *figure.items,
        *moved(words.items, NUMBER, first),
        *moved(cited.items, NUMBER, first + words.height),
    )
    return Block(items, _beats(words.height + cited.height + 0.9 * BEAT))


def _beats(height: float) -> float:
    """The height, rounded up to whole beats."""
    return -(-height // BEAT) * BEAT


def _asked(test: IconTest, asked: Sequence[Question], setter: Setter) -> tuple[Item, ...]:
    """One page: who is asked, the question, and the pictures with room for the answers."""
    blanks = _blanks(test.blanks, setter)
    question = setter.stack(test.question, (16.0, 14.0), ROOM, "question", bold_first=True)
    rule = beside_or_below(test.own_words, setter, ROOM, 4 * MM)
    items = [*blanks.items, *moved(question.items, 0, blanks.height + 2 * MM)]
    y = blanks.height + 2 * MM + question.height
    items += moved(rule.items, 0, y)
    y += rule.height + 2 * MM
    # a last page with few pictures keeps the rhythm of the full ones
    pitch = (DEPTH - y) / test.a_page
    for row in asked:
        items.append(RuleItem(0, y, ROOM, y, HAIR))
        items += moved(_question_row(row, pitch, setter).items, 0, y)
        y += pitch
    return tuple(items)


def _blanks(names: Sequence[Said], setter: Setter) -> Block:
    """Names in each language with a line to write on, side by side."""
    items: list[Item] = []
    height = 0.0
    cell = ROOM / len(names)
    for index, name in enumerate(names):
        words = setter.in_line(name, SMALL, 1.5 * MM, "body")
        items += moved(words.items, index * cell, 0)
        height = max(height, words.height)
        start = index * cell + width(words) + 1.5 * MM
        items.append(RuleItem(start, words.height, (index + 1) * cell - 4 * MM, words.height, HAIR))
    return Block(tuple(items), height)


def _question_row(row: Question, pitch: float, setter: Setter) -> Block:
    """Number, picture, lines."""
    number = setter.line(row.number, setter.sizes.numeral, "und", "numeral", Place(""), bold=True)
    if width(number) > NUMBER - 1 * MM:  # three figures of a broad script
        size = setter.sizes.numeral * (NUMBER - 1 * MM) / width(number)
        number = setter.line(row.number, size, "und", "numeral", Place(""), bold=True)
    picture = _within(row.asked, PICTURE, PICTURE_WIDEST, setter)
    middle = pitch / 2
    items: list[Item] = [
        *moved(number.items, 0, middle - number.height / 2),
        *moved(picture.items, NUMBER, middle - picture.height / 2),
    ]
    step = PICTURE / LINES
    for line in range(1, LINES + 1):
        y = middle - PICTURE / 2 + line * step - 1 * MM
        items.append(RuleItem(ANSWER, y, ROOM, y, HAIR))
    return Block(tuple(items), pitch)


def _within(use: IconUse, height: float, widest: float, setter: Setter) -> Block:
    """An icon of a height, or lower where it would be wider than ``widest``."""
    drawing = catalogue.find(use.name)
    return setter.icon(use, min(height, widest * drawing.height / drawing.width))


def _counted(test: IconTest, setter: Setter) -> list[tuple[Item, ...]]:
    """The table of meanings with columns to tick, its heads repeated on every page."""
    flow = Flow()
    heads = _heads(test, setter)
    top = 0.0
    for row in test.questions:
        block = _score_row(row, setter)
        if not flow.items or flow.y + block.height > flow.depth:
            if flow.items:
                _close(flow, top)
            flow.add(heading_block(test.count, setter))
            flow.y += 2 * MM
            top = flow.y
            flow.add(heads)
        flow.rule()
        flow.add(block)
    if flow.items:
        _close(flow, top)
    return [page for page in flow.pages() if page]


def _close(flow: Flow, top: float) -> None:
    """Last rule, and the lines between the columns; then a new page."""
    flow.rule()
    edges = _edges()
    for edge in edges[:-1]:
        flow.items.append(RuleItem(edge, top, edge, flow.y, HAIR))
    # what is dangerous stands in a box, as on the card
    left, right = edges[DANGEROUS : DANGEROUS + 2]
    flow.items.append(PanelItem(left, top, right - left, flow.y - top, 1 * MM, PANEL_STROKE))
    flow.turn()


def _edges() -> list[float]:
    """Left edges of the columns to fill in, and the right edge of the last."""
    ticks = [COUNTS + n * TICK for n in range(len(COLUMNS) + 1)]
    return [*ticks, ticks[-1] + SUM, ROOM]


def _heads(test: IconTest, setter: Setter) -> Block:
    meant = setter.stack(bold(test.meant), SMALL, COUNTS - MEANT - 2 * MM, "head")
    items = [*moved(meant.items, MEANT, 0.5 * MM)]
    height = meant.height
    edges = _edges()
    for left, right, name in zip(edges, edges[1:], (*test.columns, *test.sums), strict=False):
        words = setter.stack(name, SMALL, right - left - 1.2 * MM, "head")
        items += moved(words.items, left + 0.8 * MM, 0.5 * MM)
        height = max(height, words.height)
    return Block(tuple(items), height + 2 * MM)


def _score_row(row: Question, setter: Setter) -> Block:
    """Number, small picture, what it should mean, and empty cells."""
    number = setter.line(row.number, LEAST, "und", "numeral", Place(""), bold=True)
    picture = _within(row.scored, SMALL_PICTURE, SMALL_PICTURE, setter)
    words = setter.stack(row.meant, SMALL, COUNTS - MEANT - 2 * MM, "body")
    height = max(SCORE_ROW, words.height + 2 * MM)
    items = (
        *moved(number.items, 0, (height - number.height) / 2),
        *moved(picture.items, MEANT - 2 * MM - width(picture), (height - picture.height) / 2),
        *moved(words.items, MEANT, (height - words.height) / 2),
    )
    return Block(items, height)


def _enough(test: IconTest, setter: Setter) -> list[tuple[Item, ...]]:
    """The marks to reach with their sources, and what to do with a picture that fails."""
    flow = Flow()
    flow.add(heading_block(test.enough, setter))
    flow.y += BEAT
    first, *others = test.notes
    flow.add(_paragraph(first, setter))
    for mark in test.marks:
        flow.set(_numbered(mark.figure, mark.said, setter, mark.source))
    for said in others:
        flow.set(_paragraph(said, setter))
    flow.y += BEAT / 2
    flow.rule()
    flow.y += BEAT / 2
    flow.add(heading_block(test.fails, setter))
    flow.y += BEAT
    for cure in test.cures:
        flow.set(_numbered(cure.figure, cure.said, setter, cure.source))
    return flow.pages()


def _paragraph(said: Said, setter: Setter) -> Block:
    words = setter.stack(said, BODY, ROOM, "body")
    return Block(words.items, _beats(words.height + 0.7 * BEAT))
