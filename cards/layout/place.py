"""place: a Card becomes Pages at the largest sizes that fit, or is refused, naming lines."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Any

from cards.card.model import Card
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error
from cards.layout import blocks_back, blocks_front
from cards.layout.layoutfile import Layout
from cards.layout.pages import MM, Item, Page, Pages, Tag, TextItem
from cards.layout.setting import Block, Setter, Try, moved
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
    "safety": blocks_back.safety,
    "foot": blocks_back.foot,
}

_PART_OF = {"running": "heading"}
"""Blocks that draw on a part of the card of another name."""

_STEADY = frozenset(("heading", "lead", "running", "safety", "foot"))
"""Blocks that take no extra space."""

_Known = dict[tuple[str, float, int, float], Block]
"""Blocks of one side by name, tightness, cautions and extra space: tries have most in common."""

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
            pages.append(Page(name, moved(side.value, margin, margin, Tag("Sect", len(pages)))))
    if faults:
        return Result(None, tuple(faults))
    return Result(Pages(width, height, margin, card.meta, tuple(pages)))


def tries(layout: Layout) -> Iterator[Try]:
    """What the fit tries, best first.

    All cautions the box may hold at the wished sizes; then the usual number,
    then the least, each from the wished sizes down to the least.
    """
    safety = layout.safety
    yield _try(layout, 0.0, safety.most)
    steps = max(1, round((layout.type.body[0] - layout.type.least[0]) / STEP_PT))
    for cautions in (safety.usual, safety.least):
        for step in range(steps + 1):
            yield _try(layout, step / steps, cautions)


def _try(layout: Layout, tight: float, cautions: int) -> Try:
    def between(wished: tuple[float, float], least: tuple[float, float]) -> tuple[float, float]:
        first, second = (w + (n - w) * tight for w, n in zip(wished, least, strict=True))
        return round(first, 2), round(second, 2)

    kind = layout.type
    return Try(
        title=between(kind.title, kind.title_least),
        body=between(kind.body, kind.least),
        numeral=kind.numeral,
        small=kind.small,
        tight=tight,
        cautions=cautions,
    )


def _side(
    card: Card, names: list[str], layout: Layout, book: FontBook, room: tuple[float, float]
) -> Result[tuple[Item, ...]]:
    known: _Known = {}
    wide: TooWide | None = None
    placed: list[tuple[str, Block]] = []
    over = 0.0
    for sizes in tries(layout):
        setter = Setter(book, layout, sizes)
        wide = None
        try:
            placed = _measure(card, names, setter, room[0], 0.0, known)
        except GlyphMissing as trouble:
            return Result(None, (_missing(card, trouble),))
        except TooWide as trouble:
            wide = trouble
            continue
        over = _height(placed, setter) - room[1]
        if over <= 0:
            return Result(_spread(card, names, setter, room, placed, known))
    return Result(None, (_too_wide(card, wide) if wide else _too_full(card, placed, over),))


def _gap(setter: Setter) -> float:
    return setter.between(*setter.layout.space.block_mm) * MM


def _height(placed: list[tuple[str, Block]], setter: Setter) -> float:
    return sum(b.height for _, b in placed) + _gap(setter) * (len(placed) - 1)


def _measure(
    card: Card, names: list[str], setter: Setter, room: float, extra: float, known: _Known
) -> list[tuple[str, Block]]:
    """The side's blocks; what ``known`` has is taken from it, and what is new goes into it."""
    placed: list[tuple[str, Block]] = []
    for name in names:
        cautions = setter.sizes.cautions if name == "safety" else 0
        key = (name, setter.sizes.tight, cautions, 0.0 if name in _STEADY else extra)
        if key not in known:
            part = getattr(card, _PART_OF.get(name, name))
            known[key] = _PLACERS[name](part, setter, room, extra)
        placed.append((name, known[key]))
    return placed


def _spread(
    card: Card,
    names: list[str],
    setter: Setter,
    room: tuple[float, float],
    placed: list[tuple[str, Block]],
    known: _Known,
) -> tuple[Item, ...]:
    """Give left-over height to the rows first, up to a measure, then between the blocks."""
    left = room[1] - _height(placed, setter)
    rows = sum(b.rows for _, b in placed)
    most = setter.layout.space.row_most_mm * MM - setter.row_gap(0)
    extra = min(most, left * 0.75 / rows) if rows else 0.0
    final = _measure(card, names, setter, room[0], extra, known)
    while extra > 0 and _height(final, setter) > room[1]:
        # headings and rules take a share too, which the count of rows does not tell
        extra = extra - 0.25 if extra > 0.25 else 0.0
        final = _measure(card, names, setter, room[0], extra, known)
    left = room[1] - _height(final, setter)
    gap = _gap(setter) + max(0.0, left) / max(1, len(final) - 1)
    items: list[Item] = []
    y = 0.0
    for number, (_, block) in enumerate(final):
        items += moved(block.items, 0, y, Tag("", number))
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
    return Place(card.meta.path)


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


def _too_full(card: Card, placed: list[tuple[str, Block]], over: float) -> Diagnostic:
    """One message naming the lines that wrap most, and how many rows would have to go."""
    lines: dict[Place, int] = {}
    words: dict[Place, str] = {}
    for _, block in placed:
        for item in block.items:
            if isinstance(item, TextItem) and item.at.line and item.role in ("body", "title"):
                lines[item.at] = lines.get(item.at, 0) + 1
                words.setdefault(item.at, item.line.text)
    # a row has a line a language; only lines that wrap can be made shorter
    wrapping = [at for at in lines if lines[at] > len(card.heading.title)]
    worst = sorted(wrapping, key=lambda at: (-lines[at], at))[:3]
    listed, block = next((name, b) for name, b in placed if name in ("needs", "steps"))
    what = "ingredients" if listed == "needs" else "steps"
    each = block.height / (block.rows + 1)
    hint = f"take out {math.ceil(over / each)} or more of the {block.rows + 1} {what}"
    if worst:
        named = "; ".join(f'line {at.line} ("{words[at]}...")' for at in worst)
        hint = f"shorten {named}; or {hint}"
    side = "front" if listed == "needs" else "back"
    first = worst[0] if worst else min(lines, default=Place(card.meta.path))
    return error(
        first,
        "side-too-full",
        f"the {side} of the card is {math.ceil(over / MM)} mm too long at the smallest type",
        hint,
    )
