"""Why a card cannot be placed, said with the lines to mend."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from cards.card.model import Card, Text
from cards.diagnostics.diagnostic import Diagnostic, Place, error, warning
from cards.layout.pages import MM, TextItem, flat
from cards.layout.setting import Block
from cards.text.shape import GlyphMissing
from cards.text.wrap import TooWide


def missing(card: Card, trouble: GlyphMissing) -> Diagnostic:
    """A character that no font has."""
    shown = ", ".join(f'"{c}" (U+{ord(c):04X})' for c in trouble.characters[:4])
    at = _where(card, trouble.characters[0])
    return error(
        at,
        "glyph-missing",
        f"no font here has {shown}, script {trouble.script}",
        "use other characters, or list a font for the script in fonts/fonts.yaml",
    )


def too_wide(card: Card, trouble: TooWide) -> Diagnostic:
    """A word wider than its place."""
    return error(
        _where(card, trouble.word),
        "word-too-wide",
        f'the word "{trouble.word}" is wider than its place on the card',
        "use a shorter word, or part it with a space",
    )


def _where(card: Card, piece: str) -> Place:
    """The place of the first text on the card that holds ``piece``."""
    for text in texts_in(card):
        if piece in text.text:
            return text.at
    return Place(card.meta.path)


def texts_in(value: Any) -> Iterator[Text]:
    """All texts of a card, chart or part of one, in the order of its fields."""
    if isinstance(value, Text):
        yield value
    elif isinstance(value, tuple):
        for inner in value:
            yield from texts_in(inner)
    elif is_dataclass(value):
        for field in fields(value):
            yield from texts_in(getattr(value, field.name))


def runs_on(full: Diagnostic, running: str) -> Diagnostic:
    """A side that is too full, as the warning that its list runs on to a further side."""
    listed = "ingredients" if running == "needs" else "steps"
    message = f"{full.message}, so its {listed} run on to a further side"
    return warning(full.place, "side-runs-on", message, f"to do without it, {full.hint}")


def too_full(
    card: Card, placed: list[tuple[str, Block]], over: float, magnify: float
) -> Diagnostic:
    """One message naming the lines that wrap most, and how many rows would have to go.

    ``over`` is what the side is too long by, in points as drawn.
    """
    lines: dict[Place, int] = {}
    words: dict[Place, str] = {}
    for _, block in placed:
        for item in flat(block.items):
            if isinstance(item, TextItem) and item.at.line and item.role in ("body", "title"):
                lines[item.at] = lines.get(item.at, 0) + 1
                words.setdefault(item.at, item.line.text)
    # a row has a line a language; only lines that wrap can be made shorter
    wrapping = [at for at in lines if lines[at] > len(card.heading.title)]
    worst = sorted(wrapping, key=lambda at: (-lines[at], at))[:3]
    lists = [(name, b) for name, b in placed if name in ("needs", "steps")]
    listed, block = max(lists, key=lambda one: one[1].height)
    what = "ingredients" if listed == "needs" else "steps"
    rows = [row for section in getattr(card, listed).sections for row in section.rows]
    hint = (
        f"take out {math.ceil(over * len(rows) / block.height)} or more of the {len(rows)} {what}"
    )
    if worst:
        named = "; ".join(f'line {at.line} ("{words[at]}...")' for at in worst)
        hint = f"shorten {named}; or {hint}"
    side = "front of the card" if listed == "needs" else "back of the card"
    if len(lists) > 1:
        side = "page"
    first = worst[0] if worst else rows[-1].said[0].at
    return error(
        first,
        "side-too-full",
        f"the {side} is {math.ceil(over * magnify / MM)} mm too long at the smallest type",
        hint,
    )
