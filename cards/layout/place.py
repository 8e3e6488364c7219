"""place: a Card becomes Pages at the largest sizes that fit, or is refused, naming lines."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from cards.card.model import Card
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error
from cards.layout import blocks_back, blocks_front
from cards.layout.layoutfile import Layout
from cards.layout.pages import MM, Item, Page, Pages, TextItem
from cards.layout.setting import Block, Setter, Sizes, moved
from cards.text.faces import FontBook
from cards.text.shape import GlyphMissing
from cards.text.wrap import TooWide

Placer = Callable[[Any, Setter, float, float], Block]

_PLACERS: dict[str, Placer] = {
    "heading": blocks_front.heading,
    "lead": blocks_front.lead,
    "needs": blocks_front.needs,
    "portions": blocks_front.portions,
    "running": blocks_back.running,
    "steps": blocks_back.steps,
    "safety": blocks_back.safety_full,
    "foot": blocks_back.foot,
}

_PART_OF = {"running": "heading"}
"""Blocks that draw on a part of the card of another name."""

STEP_PT = 0.5
"""The fit tries body sizes this far apart."""


def place(card: Card, layout: Layout, book: FontBook) -> Result[Pages]:
    """Place all sides. Errors: a glyph no font has, a word too wide, a side too full."""
    page = layout.page
    width, height = page.width_mm * MM, page.height_mm * MM
    margin = page.margin_mm * MM
    room = (width - 2 * margin, height - 2 * margin)
    pages: list[Page] = []
    faults: list[Diagnostic] = []
    for name, blocks in layout.sides.items():
        side = _side(card, blocks, layout, book, room)
        faults += side.diagnostics
        if side.value is not None:
            pages.append(Page(name, moved(side.value, margin, margin)))
    if faults:
        return Result(None, tuple(faults))
    return Result(Pages(width, height, margin, card.meta, tuple(pages)))


def tries(layout: Layout) -> Iterator[Sizes]:
    """Type sizes from the wished to the least, both languages and the title shrinking together."""
    kind = layout.type
    steps = max(1, round((kind.body[0] - kind.least[0]) / STEP_PT))
    for step in range(steps + 1):
        share = step / steps

        def between(
            wished: tuple[float, float], least: tuple[float, float], share: float = share
        ) -> tuple[float, float]:
            first, second = (w + (n - w) * share for w, n in zip(wished, least, strict=True))
            return round(first, 2), round(second, 2)

        yield Sizes(
            title=between(kind.title, kind.title_least),
            body=between(kind.body, kind.least),
            numeral=kind.numeral,
            small=kind.small,
            measure_scale=1.0 - 0.06 * share,
        )


def _side(
    card: Card, names: list[str], layout: Layout, book: FontBook, room: tuple[float, float]
) -> Result[tuple[Item, ...]]:
    over = 0.0
    placed: list[tuple[str, Block]] = []
    for placers in _variants():
        for sizes in tries(layout):
            try:
                placed = _measure(card, names, Setter(book, layout, sizes), placers, room[0], 0.0)
            except GlyphMissing as trouble:
                return Result(None, (_missing(card, trouble),))
            except TooWide as trouble:
                over = float("inf")
                fault = _too_wide(card, trouble)
                continue
            gap = layout.space.block_mm * MM
            used = sum(b.height for _, b in placed) + gap * (len(placed) - 1)
            over = used - room[1]
            if over <= 0:
                return Result(
                    _spread(card, names, Setter(book, layout, sizes), placers, room, placed)
                )
    if over == float("inf"):
        return Result(None, (fault,))
    return Result(None, tuple(_too_full(placed, over)))


def _variants() -> Iterator[dict[str, Placer]]:
    """First with all general cautions the box may hold, then with the least."""
    yield _PLACERS
    yield {**_PLACERS, "safety": blocks_back.safety}


def _measure(
    card: Card,
    names: list[str],
    setter: Setter,
    placers: dict[str, Placer],
    room: float,
    extra: float,
) -> list[tuple[str, Block]]:
    return [
        (name, placers[name](getattr(card, _PART_OF.get(name, name)), setter, room, extra))
        for name in names
    ]


def _spread(
    card: Card,
    names: list[str],
    setter: Setter,
    placers: dict[str, Placer],
    room: tuple[float, float],
    placed: list[tuple[str, Block]],
) -> tuple[Item, ...]:
    """Give left-over height to the rows first, up to a measure, then between the blocks."""
    space = setter.layout.space
    gap = space.block_mm * MM
    left = room[1] - sum(b.height for _, b in placed) - gap * (len(placed) - 1)
    rows = sum(b.rows for _, b in placed)
    most = (space.row_most_mm - space.row_mm) * MM
    extra = min(most, left * 0.75 / rows) if rows else 0.0
    final = _measure(card, names, setter, placers, room[0], extra)
    left = room[1] - sum(b.height for _, b in final) - gap * (len(final) - 1)
    gap += max(0.0, left) / max(1, len(final) - 1)
    items: list[Item] = []
    y = 0.0
    for _, block in final:
        items += moved(block.items, 0, y)
        y += block.height + gap
    return tuple(items)


def _missing(card: Card, trouble: GlyphMissing) -> Diagnostic:
    shown = ", ".join(f'"{c}" (U+{ord(c):04X})' for c in trouble.characters[:4])
    at = _where(card, trouble.characters[0])
    return error(
        at,
        "glyph-missing",
        f"no font here has {shown}, script {trouble.script}",
        "use other characters, or list a font for the script in fonts/fonts.yaml",
    )


def _too_wide(card: Card, trouble: TooWide) -> Diagnostic:
    return error(
        _where(card, trouble.word),
        "word-too-wide",
        f'the word "{trouble.word}" is wider than its place on the card',
        "use a shorter word, or part it with a space",
    )


def _where(card: Card, piece: str) -> Place:
    """The place of the first text on the card that holds ``piece``."""
    for text in _texts(card):
        if piece in text.text:
            return text.at  # type: ignore[no-any-return]
    return Place(card.meta.subject.split(",")[0])


def _texts(value: Any) -> Iterator[Any]:
    from dataclasses import fields, is_dataclass

    from cards.card.model import Text

    if isinstance(value, Text):
        yield value
    elif isinstance(value, tuple):
        for inner in value:
            yield from _texts(inner)
    elif is_dataclass(value):
        for field in fields(value):
            yield from _texts(getattr(value, field.name))


def _too_full(placed: list[tuple[str, Block]], over: float) -> Iterator[Diagnostic]:
    """One message naming the lines that wrap most; shortening them is the cure."""
    lines: dict[Place, int] = {}
    words: dict[Place, str] = {}
    for _, block in placed:
        for item in block.items:
            if isinstance(item, TextItem) and item.at.line and item.role in ("body", "title"):
                lines[item.at] = lines.get(item.at, 0) + 1
                words.setdefault(item.at, item.line.text)
    worst = sorted(lines, key=lambda at: (-lines[at], at))[:3]
    first = worst[0] if worst else Place("")
    blocks = " and ".join(name for name, _ in placed)
    named = "; ".join(f'line {at.line} ("{words[at]}...")' for at in worst)
    yield error(
        first,
        "side-too-full",
        f"the side with {blocks} is {over / MM:.0f} mm too long at the smallest type",
        f"shorten or take out: {named}",
    )
