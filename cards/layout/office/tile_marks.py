"""What is printed on the sheets of a large page: where to cut, where to glue, what comes beside it.

What will lie under the next sheet is striped; what is cut away is outside the
window. So nothing that is seen in the end is printed over.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cards.card.model import CardMeta, IconUse
from cards.icons import catalogue
from cards.layout.office.sheet_marks import LINE_UP, MARK, STRIP_TYPE, TRUE, set_line, true_line
from cards.layout.office.sheet_plan import EDGE
from cards.layout.office.tile_plan import OVERLAP, Tile, Tiling
from cards.layout.page_foot import code_item
from cards.layout.pages import MM, IconItem, PanelItem, Placed, RuleItem, TextItem
from cards.text.faces import FontBook
from cards.text.runs import main_script
from cards.text.wrap import Span, words_of, wrap
from cards.words.language import Language

Box = tuple[float, float, float, float]
"""Left, top, right, bottom in points, y downwards."""

STRIPE = 3 * MM
"""From stripe to stripe: far enough apart that the picture below shows how to lay the sheet."""

DASH = 2 * MM
LABEL = 11.0
TICK = 3 * MM
HEAD, BODY = 20.0, 13.0
MAP_MARGIN = 15 * MM
CODE_ROOM = 13 * MM
"""More than a code's own height, so that it keeps clear of the window and the line to measure."""


@dataclass(frozen=True, slots=True)
class Overlay:
    """Marks over a sheet of a size, and where white paper comes under them first."""

    sheet: tuple[float, float]
    items: tuple[Placed, ...]
    white: tuple[Box, ...] = ()


@dataclass(frozen=True, slots=True)
class Words:
    """The programme's first language and its type."""

    language: Language
    book: FontBook

    def line(self, text: str, size: float, weight: str = "bold") -> TextItem:
        """One line from (0, 0)."""
        return set_line(text, self.language, self.book, size, weight)

    def centred(self, text: str, x: float, y: float, size: float) -> TextItem:
        """One bold line of figures and capitals with its middle at (x, y)."""
        item = self.line(text, size)
        return item.moved(x - item.line.width / 2, y + 0.33 * size)

    def lines(
        self, text: str, x: float, y: float, room: float, size: float, weight: str = "regular"
    ) -> list[TextItem]:
        """Lines wrapped to ``room`` below ``y``."""
        leading, ascent = self.book.metrics(main_script(text))
        words = words_of((Span(text, weight),), self.book, self.language.code)
        lines = wrap(words, size, room, even=False)
        bare = self.line("0", size)
        return [
            TextItem(
                x, y + (n * leading + ascent) * size, size, line, bare.language, bare.role,
                bare.at, y + n * leading * size, y + (n + 1) * leading * size,
            )
            for n, line in enumerate(lines)
        ]  # fmt: skip


def tile_overlay(
    tiling: Tiling, tile: Tile, words: Words, meta: CardMeta, name: str = ""
) -> Overlay:
    """The marks of one sheet. ``name`` comes before labels where a file has several pages.

    What the page is of stands over the window, and as a code below it where there is room.
    """
    left, bottom = tiling.corner
    width, height = tiling.window
    top = tiling.sheet[1] - bottom - height
    box = (left, top, left + width, top + height)
    beside, below = tile.column + 1 < tiling.columns, tile.row + 1 < tiling.rows
    items: list[Placed] = [*_cuts(box, beside, below)]
    white: list[Box] = []
    own = name + tile.label
    if beside:
        strip = (box[2] - OVERLAP, top, box[2], box[3])
        patch, marks = _glue_beside(strip, own, name + _next(tile, 0, 1), words)
        white.append(patch)
        items += [*_stripes(strip, patch), *_dashes(strip[0] + MARK / 2, top, box[3]), *marks]
    if below:
        strip = (left, box[3] - OVERLAP, box[2] - (OVERLAP if beside else 0), box[3])
        patch, marks = _glue_below(strip, own, name + _next(tile, 1, 0), words)
        white.append(patch)
        items += [*_stripes(strip, patch), *_dashes_across(strip), *marks]
    label = words.line(own, LABEL + 2)
    items.append(label.moved(left + 1.5 * MM, top - 1.4 * MM))
    items.append(_icon("scissors", left + label.line.width + 4 * MM, top - 4.7 * MM, 4.4 * MM))
    told = words.line(meta.keywords, STRIP_TYPE, "regular")
    items.append(told.moved(box[2] - told.line.width - TICK, top - 1.4 * MM))
    code = code_item(meta.code, grows=True)
    if tiling.sheet[1] - box[3] >= code.side + CODE_ROOM:
        items.append(code.moved(box[2] - code.side, box[3] + TICK))
    items += _true(words, left, tiling.sheet[1])
    return Overlay(tiling.sheet, tuple(items), tuple(white))


def map_overlay(
    tiling: Tiling, words: Words, meta: CardMeta, name: str = ""
) -> tuple[Overlay, Box]:
    """The first sheet: what to do, and the whole page small; where that picture comes.

    At its foot stands what the page is of, in words and as a code.
    """
    width, height = tiling.map_sheet
    room = width - 2 * MAP_MARGIN
    size = [round(length / MM / 10) for length in tiling.page]
    head = words.language.phrase(
        "tile-map", count=tiling.columns * tiling.rows, width=size[0], height=size[1]
    )
    items: list[Placed] = [*words.lines(head, MAP_MARGIN, MAP_MARGIN - 5 * MM, room, HEAD, "bold")]
    how = words.language.phrase("tile-how")
    items += words.lines(how, MAP_MARGIN, items[-1].box[3] + 1 * MM, room, BODY)
    top = items[-1].box[3] + 5 * MM
    code = code_item(meta.code, grows=True)
    foot = height - MAP_MARGIN - code.side
    high = foot - 2 * MM - top
    scale = min(room / tiling.page[0], high / tiling.page[1])
    wide, tall = (length * scale for length in tiling.page)
    left = (width - wide) / 2
    picture = (left, top, left + wide, top + tall)
    items.append(PanelItem(left, top, wide, tall, 0, 1.0))
    starts = [(t.box[0] * scale, tall - t.box[3] * scale) for t in tiling.tiles]
    columns = [x for x, _ in starts[: tiling.columns]]
    rows = [y for _, y in starts[:: tiling.columns]]
    items += [RuleItem(left + x, top, left + x, top + tall, 1.0) for x in columns[1:]]
    items += [RuleItem(left, top + y, left + wide, top + y, 1.0) for y in rows[1:]]
    white = []
    for tile in tiling.tiles:
        ends_x, ends_y = [*columns[1:], wide], [*rows[1:], tall]
        x = left + (columns[tile.column] + ends_x[tile.column]) / 2
        y = top + (rows[tile.row] + ends_y[tile.row]) / 2
        text = words.centred(name + tile.label, x, y, LABEL + 5)
        half = text.line.width / 2 + 2 * MM
        box = (x - half, y - 4 * MM, x + half, y + 4 * MM)
        white.append(box)
        items += [PanelItem(box[0], box[1], 2 * half, 8 * MM, 0, 1.0), text]
    items += words.lines(meta.keywords, MAP_MARGIN, foot + 2 * MM, room - code.side - 4 * MM, LABEL)
    items.append(code.moved(width - MAP_MARGIN - code.side, foot))
    items += _true(words, MAP_MARGIN, height)
    return Overlay(tiling.map_sheet, tuple(items), tuple(white)), picture


def _next(tile: Tile, down: int, right: int) -> str:
    return Tile(tile.row + down, tile.column + right, tile.box).label


def _true(words: Words, left: float, height: float) -> list[Placed]:
    """The line that is measured, in the margin at the foot, its words after it."""
    y = height - EDGE - LINE_UP
    said = words.line(words.language.phrase("print-line"), STRIP_TYPE, "regular")
    return [*true_line(left, y), said.moved(left + TRUE + 2 * MM, y + 0.15 * STRIP_TYPE)]


def _cuts(box: Box, beside: bool, below: bool) -> Iterator[RuleItem]:
    """Lines to cut along, wholly outside the window, longer than it at both ends."""
    left, top, right, bottom = box
    out = MARK / 2
    for x in (left - out, *(() if beside else (right + out,))):
        yield RuleItem(x, top - TICK, x, bottom + (0 if below else TICK), MARK)
    for y in (top - out, *(() if below else (bottom + out,))):
        yield RuleItem(left - TICK, y, right + (0 if beside else TICK), y, MARK)


def _stripes(strip: Box, patch: Box) -> Iterator[RuleItem]:
    """Slanting lines over the strip, but for the patch."""
    left, top, right, bottom = strip
    wide, tall = right - left, bottom - top
    for n in range(1, int((wide + tall) / STRIPE) + 1):
        # the line x + y = s, as far as it lies in the strip
        s = n * STRIPE
        ends = (max(0.0, s - tall), min(wide, s))
        parts = [ends]
        # the patch leaves out what lies between these
        cut_from = max(patch[0] - left, s - (patch[3] - top))
        cut_to = min(patch[2] - left, s - (patch[1] - top))
        if cut_from < cut_to:
            parts = [(ends[0], min(ends[1], cut_from)), (max(ends[0], cut_to), ends[1])]
        for x1, x2 in parts:
            if x2 - x1 > 0.1:
                yield RuleItem(left + x1, top + s - x1, left + x2, top + s - x2, MARK)


def _dashes(x: float, top: float, bottom: float) -> Iterator[RuleItem]:
    """Where the edge of the next sheet comes to lie."""
    for y in _steps(top, bottom):
        yield RuleItem(x, y, x, min(bottom, y + DASH), MARK)


def _dashes_across(strip: Box) -> Iterator[RuleItem]:
    y = strip[1] + MARK / 2
    for x in _steps(strip[0], strip[2]):
        yield RuleItem(x, y, min(strip[2], x + DASH), y, MARK)


def _steps(start: float, end: float) -> Sequence[float]:
    return [start + n * 2 * DASH for n in range(int((end - start) / DASH / 2) + 1)]


def _glue_beside(strip: Box, own: str, other: str, words: Words) -> tuple[Box, list[Placed]]:
    """The glue mark in an upright strip: icon, this sheet, that sheet below one another."""
    x, y = (strip[0] + strip[2]) / 2, (strip[1] + strip[3]) / 2
    half = OVERLAP / 2 - 0.5 * MM
    patch = (x - half, y - 13 * MM, x + half, y + 13 * MM)
    texts = [
        words.centred(text, x, y + down * MM, LABEL)
        for text, down in ((own, 0.5), ("+", 5), (other, 9.5))
    ]
    return patch, [_icon("glue", x - 3.5 * MM, y - 11.5 * MM, 7 * MM), *texts]


def _glue_below(strip: Box, own: str, other: str, words: Words) -> tuple[Box, list[Placed]]:
    """The same in a strip that lies: side by side."""
    x, y = (strip[0] + strip[2]) / 2, (strip[1] + strip[3]) / 2
    text = words.centred(f"{own} + {other}", 0, y, LABEL)
    half = (text.line.width + 7 * MM + 2 * MM) / 2
    tall = OVERLAP / 2 - 0.5 * MM
    patch = (x - half - 2 * MM, y - tall, x + half + 2 * MM, y + tall)
    icon = _icon("glue", x - half, y - 3.5 * MM, 7 * MM)
    return patch, [icon, text.moved(x - half + 9 * MM - text.x, 0)]


def _icon(name: str, x: float, y: float, height: float) -> IconItem:
    drawing = catalogue.find(name)
    return IconItem(x, y, drawing.width * height / drawing.height, height, IconUse(name))
