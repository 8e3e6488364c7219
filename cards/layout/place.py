"""place: a Card becomes Pages at the largest sizes that fit, or is refused, naming lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from math import ceil, inf

from cards.card.model import Card
from cards.diagnostics.diagnostic import Diagnostic, Result, has_errors
from cards.layout import refusals
from cards.layout.layoutfile import Columns, Layout, blocks_of
from cards.layout.mirror import as_read
from cards.layout.pages import MM, Item, Page, Pages, Tag, flat
from cards.layout.setting import Setter, Try
from cards.layout.split import split_card
from cards.layout.stack import Known, Named, Stacker
from cards.text.faces import FontBook
from cards.text.shape import GlyphMissing
from cards.text.wrap import TooWide

STEP_PT = 0.5
"""The fit tries body sizes this far apart, as they are drawn."""

SHRINKS = 0.04
"""Share of its height that a side loses from one size to the next, about (the demo cards' lose
0.030 to 0.043). It decides what is tried first, never what is taken.
"""

MOST_SIDES = 4
"""A list runs on over so many sides at most."""

Bands = Sequence[str | Columns]


def place(
    card: Card,
    layout: Layout,
    book: FontBook,
    turned: Card | None = None,
    *,
    least: bool = False,
) -> Result[Pages]:
    """Place all sides. Errors: a glyph no font has, a word too wide, a side too full.

    Warning: a list runs on, where the layout means to do without.

    ``turned`` is the same card with its languages the other way round, where a layout sets
    one on each side of the sheet: every place then has room for the longer of the two, so
    that pictures stand alike on both. ``layout`` is the layout as drawn (see
    ``Layout.drawn``). ``least`` tries nothing but the least, which is quicker where it is only
    asked whether a card fits; then no list runs on. Pages are in its points;
    ``Pages.magnify`` is how much larger they print.
    """
    page = layout.page
    width, height = page.width_mm * MM, page.height_mm * MM
    margin = page.margin_mm * MM
    room = (width - 2 * margin, height - 2 * margin)
    pages: list[Page] = []
    told: list[Diagnostic] = []
    for one in (card,) if turned is None else (card, turned):
        spoken = one.heading.title[0].language
        language = "" if one is card else spoken
        for name, bands in layout.sides.items():
            sides = _sides(one, bands, layout, book, room, least)
            told += sides.diagnostics
            for number, items in enumerate(sides.value or (), 1):
                own = name if number == 1 else f"{name} {number}"
                own += f" ({spoken})" if turned else ""
                sect = Tag("Sect", len(pages), language=language)
                pages.append(Page(own, flat(items, margin, margin, sect)))
        if has_errors(told):
            return Result(None, tuple(told))
    whole = Pages(width, height, margin, card.meta, tuple(pages), layout.magnify)
    return Result(as_read(whole), tuple(told))


def rounds(layout: Layout) -> Iterator[tuple[Try, ...]]:
    """What the fit tries, best first, in rounds of ever lower sides.

    All cautions the box may hold at the wished sizes, then the usual number from the wished
    sizes down to the least; then the least number, from the wished down to the least again.
    """
    safety = layout.safety
    steps = max(1, round((layout.type.body[0] - layout.type.least[0]) / STEP_PT))

    def every(cautions: int, few: bool) -> tuple[Try, ...]:
        found = [sizes_at(layout, step / steps, cautions) for step in range(steps + 1)]
        # the first language gets smaller only after cautions have gone
        lasts = [last for last in layout.type.last if few or last[0] >= layout.type.least[0]]
        found += [replace(found[-1], body=last, least=last) for last in lasts]
        return tuple(found)

    yield (sizes_at(layout, 0.0, safety.most), *every(safety.usual, few=False))
    yield every(safety.least, few=True)


def sizes_at(layout: Layout, tight: float, cautions: int) -> Try:
    """Sizes on the way from the wished (``tight`` 0) to the least (1)."""

    def between(wished: tuple[float, float], least: tuple[float, float]) -> tuple[float, float]:
        first, second = (w + (n - w) * tight for w, n in zip(wished, least, strict=True))
        return round(first, 2), round(second, 2)

    kind = layout.type
    return Try(
        title=between(kind.title, kind.title_least),
        body=between(kind.body, kind.least),
        least=kind.least,
        numeral=kind.numeral,
        small=kind.small,
        tight=tight,
        cautions=cautions,
    )


def _sides(
    card: Card, bands: Bands, layout: Layout, book: FontBook, room: tuple[float, float], least: bool
) -> Result[tuple[tuple[Item, ...], ...]]:
    """The side, or where its list is too long and may run on, as few sides as hold it."""
    whole = _side(card, bands, layout, book, room, least)
    running = next((name for name in layout.continues if name in blocks_of(bands)), "")
    if (
        least
        or whole.value is not None
        or not running
        or whole.diagnostics[0].kind != "side-too-full"
    ):
        done = None if whole.value is None else (whole.value,)
        return Result(done, whole.diagnostics)
    full = whole.diagnostics[0]
    rows = sum(len(section.rows) for section in getattr(card, running).sections)
    for count in range(2, min(MOST_SIDES, rows) + 1):
        pieces = split_card(card, [str(name) for name in blocks_of(bands)], running, count)
        placed = [_side(part, names, layout, book, room) for part, names in pieces]
        items = [side.value for side in placed if side.value is not None]
        if len(items) == len(placed):
            meant = layout.running_on_is_meant
            return Result(tuple(items), () if meant else (refusals.runs_on(full, running),))
    return Result(None, whole.diagnostics)


def _side(
    card: Card,
    bands: Bands,
    layout: Layout,
    book: FontBook,
    room: tuple[float, float],
    least: bool = False,
) -> Result[tuple[Item, ...]]:
    columns = any(isinstance(band, Columns) and band.else_widths for band in bands)
    others = [band.otherwise if isinstance(band, Columns) else band for band in bands]
    try:
        for own in (bands, others) if columns else (bands,):
            fit = Fit(card, own, layout, book, room)
            for sizes in [list(rounds(layout))[-1][-1:]] if least else rounds(layout):
                best = fit.first(sizes)
                if best is not None:
                    return Result(fit.stacker(best).filled(own, room))
    except GlyphMissing as trouble:
        return Result(None, (refusals.missing(card, trouble),))
    over = fit.over(sizes[-1])
    if fit.wide:
        return Result(None, (refusals.too_wide(card, fit.wide),))
    return Result(None, (refusals.too_full(card, fit.blocks(sizes[-1]), over, layout.magnify),))


@dataclass
class Fit:
    """A side that is tried at several sizes."""

    card: Card
    bands: Bands
    layout: Layout
    book: FontBook
    room: tuple[float, float]
    known: Known = field(default_factory=dict)
    wide: TooWide | None = None

    def stacker(self, sizes: Try) -> Stacker:
        """The side's blocks at these sizes."""
        return Stacker(self.card, Setter(self.book, self.layout, sizes), self.known)

    def first(self, sizes: Sequence[Try]) -> Try | None:
        """The first of ``sizes`` that fits, if any does, when each makes a lower side.

        What lies between those that do not fit and those that do is tried where the side
        should come to be just full, so that few are.
        """
        fails, fits, at = -1, len(sizes), len(sizes) * 2 // 3
        while fits - fails > 1:
            over = self.over(sizes[at])
            fails, fits = (at, fits) if over > 0 else (fails, at)
            if over == inf:
                at = (fails + fits + 1) // 2
            else:
                at += ceil(over / (SHRINKS * (over + self.room[1])))
            at = min(max(at, fails + 1), fits - 1)
        return sizes[fits] if fits < len(sizes) else None

    def over(self, sizes: Try) -> float:
        """Points by which the side is too high; no end of them where a word is too wide."""
        stacker = self.stacker(sizes)
        self.wide = None
        try:
            return stacker.height(stacker.measured(self.bands, self.room[0])) - self.room[1]
        except TooWide as trouble:
            self.wide = trouble
            return inf

    def blocks(self, sizes: Try) -> list[Named]:
        """The side's blocks as they were measured at these sizes, those in columns too."""
        own = {
            name: block
            for (name, tight, body, cautions, _, extra), block in self.known.items()
            if (tight, body) == (sizes.tight, sizes.body)
            and cautions in (0, sizes.cautions)
            and not extra
        }
        return [(name, own[name]) for name in blocks_of(self.bands) if name in own]
