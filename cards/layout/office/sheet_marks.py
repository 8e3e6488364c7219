"""What is printed beside the cards of a sheet: cut marks, and a strip to see that sizes are true.

Cards that fill a sheet leave no waste to print on. Marks then lie on the cut
itself, where the cards' own margins are white and the cut takes them away.
"""

from __future__ import annotations

from collections.abc import Sequence

from cards.card.model import CardMeta
from cards.diagnostics.diagnostic import Place
from cards.layout.office.affine import Matrix, at, moved, quarter, then
from cards.layout.office.sheet_plan import BLEED, EDGE, MARK_ROOM, STRIP_HIGH, Flip, Grid
from cards.layout.pages import MM, Page, Pages, Placed, RuleItem, TextItem
from cards.text.faces import FontBook
from cards.text.wrap import Span, width_of, words_of, wrap
from cards.words.language import Language

MARK = 0.5
"""Stroke of marks in points; a copier loses 0.25 (common practice)."""

MARK_OFF = 2 * MM
"""From trim to cut mark, unless there is bleed."""

MARK_LONG = 5 * MM
CROSS = 3 * MM
"""Arm of the cross where two cuts meet."""

TRUE = 100 * MM
"""The line that is measured with a ruler."""

PAD = 1 * MM
STRIP = (TRUE + 2 * PAD, STRIP_HIGH)
"""Width and height of the strip with the line."""

LINE_UP = 1 * MM
"""From the strip's foot to the line."""

STRIP_TYPE = 6.5


def cut_marks(grid: Grid) -> tuple[RuleItem, ...]:
    """The cut marks of a sheet, y downwards; the same for both of its sides."""
    rules: list[RuleItem] = []
    width, height = grid.sheet
    for axis in (0, 1):
        long, wide = (height, width) if axis == 0 else (width, height)
        room = grid.corner[1 - axis]
        for cut in grid.cuts(axis):
            if min(cut, wide - cut) < EDGE:
                continue  # the sheet's own edge, or too near it to be printed
            inner = not grid.gap and cut not in (grid.cuts(axis)[0], grid.cuts(axis)[-1])
            first = EDGE + STRIP_HIGH if axis == 0 and _waste(grid) else EDGE
            ends = _mark(room, first, inner, bool(grid.gap))
            if ends is None:
                continue
            for start, end in (ends, (long - ends[0], long - ends[1])):
                rules.append(_rule(axis, cut, start, end, height))
    if not grid.gap:
        for x in grid.cuts(0)[1:-1]:
            for y in grid.cuts(1)[1:-1]:
                rules.append(_rule(0, x, y - CROSS, y + CROSS, height))
                rules.append(_rule(1, y, x - CROSS, x + CROSS, height))
    return tuple(rules)


def _mark(room: float, first: float, inner: bool, bleed: bool) -> tuple[float, float] | None:
    """Where along its cut a mark begins and ends, from the sheet's edge; None without room."""
    off = BLEED if bleed else MARK_OFF
    if room - off - first >= MARK_ROOM - 0.001:
        return max(first, room - off - MARK_LONG), room - off
    return (EDGE, EDGE + MARK_LONG) if inner else None


def _rule(axis: int, cut: float, start: float, end: float, height: float) -> RuleItem:
    if axis == 0:
        return RuleItem(cut, height - start, cut, height - end, MARK)
    return RuleItem(start, height - cut, end, height - cut, MARK)


def strip_centre(grid: Grid) -> tuple[float, float, bool]:
    """Where the middle of the true line lies on a sheet's front, and whether it stands upright.

    In the waste below the cards if there is some, else on a cut between two
    cards, else at the foot.
    """
    width = grid.sheet[0]
    foot = EDGE + LINE_UP
    columns, rows = grid.cuts(0)[1:-1], grid.cuts(1)[1:-1]
    if _waste(grid):
        return width / 2, foot, False
    if columns and grid.cell[1] >= TRUE + 2 * (MARK_LONG + EDGE):
        x = columns[len(columns) // 2]
        # with one row in the middle of the sheet, otherwise in the middle of the lowest row
        return x, grid.corner[1] + grid.cell[1] / 2, True
    if rows:
        return width / 2, rows[len(rows) // 2], False
    return width / 2, foot, False


def _waste(grid: Grid) -> bool:
    """True where strip and cut marks go between the cards and the foot of the sheet."""
    off = BLEED if grid.gap else MARK_OFF
    return grid.corner[1] >= EDGE + STRIP_HIGH + MARK_ROOM + off - 0.001


def strip_place(grid: Grid, flip: Flip | None = None) -> Matrix:
    """Where the strip lies on a front, or with ``flip`` on a back.

    Lines on a cut are in register, to be held to the light; at the foot each lies on its own foot.
    """
    x, y, upright = strip_centre(grid)
    if flip is not None and y != EDGE + LINE_UP:
        x, y = at(grid.behind(flip), x, y)
    turn = quarter(STRIP[1]) if upright else moved(0, 0)
    here = at(turn, STRIP[0] / 2, LINE_UP)
    return then(turn, moved(x - here[0], y - here[1]))


def set_line(
    text: str, language: Language, book: FontBook, size: float, weight: str = "regular"
) -> TextItem:
    """One line with its baseline's left end at (0, 0)."""
    words = words_of((Span(text, weight),), book, language.code)
    line = wrap(words, size, width_of(words, size) + 0.01)[0]
    return TextItem(0, 0, size, line, language.code, "print", Place(""), -0.72 * size, 0.22 * size)


def true_line(x: float, y: float, stroke: float = MARK) -> list[Placed]:
    """The line of exactly 100 mm from (x, y) to the right, with upright ends."""
    tick = 1 * MM
    return [
        RuleItem(x, y, x + TRUE, y, stroke),
        RuleItem(x, y - tick, x, y + tick, stroke),
        RuleItem(x + TRUE, y - tick, x + TRUE, y + tick, stroke),
    ]


def strip_pages(
    notes: Sequence[str], upright: bool, language: Language, book: FontBook, meta: CardMeta
) -> Pages:
    """A strip for each note: the line, its words, an arrow to the top of the sheet, the note.

    ``upright`` strips are read from below, so that their arrow points along the line.
    """
    words = language.phrase("print-line")
    pages = []
    base = STRIP[1] - LINE_UP
    for number, note in enumerate(notes, 1):
        said = set_line(words, language, book, STRIP_TYPE)
        told = set_line(note, language, book, STRIP_TYPE)
        up = base - 0.8 * MM
        left = PAD + 1.5 * MM
        right = PAD + TRUE - 1.5 * MM - told.line.width
        items = (
            *true_line(PAD, base),
            said.moved(left, up),
            *_arrow(right - 2.2 * MM, up - 0.9 * MM, along=upright),
            told.moved(right, up),
        )
        pages.append(Page(f"strip {number}", items))
    return Pages(*STRIP, 0.0, meta, tuple(pages))


def _arrow(x: float, y: float, along: bool) -> list[RuleItem]:
    """A small arrow round (x, y), upwards or along the line."""
    half, wing = 0.95 * MM, 0.7 * MM
    tip = (0.0, -half)
    shape = ((tip, (0.0, half)), (tip, (-wing, wing - half)), (tip, (wing, wing - half)))
    return [
        RuleItem(x - a[1], y + a[0], x - b[1], y + b[0], MARK)
        if along
        else RuleItem(x + a[0], y + a[1], x + b[0], y + b[1], MARK)
        for a, b in shape
    ]


def mark_pages(grid: Grid, meta: CardMeta) -> Pages:
    """The cut marks as one page of the sheet's size."""
    return Pages(*grid.sheet, 0.0, meta, (Page("marks", cut_marks(grid)),))
