"""What several blocks are made of: a mark with words, a name on a line, a child of an age."""

from __future__ import annotations

from cards.card.model import IconUse, Marked, Said, Text
from cards.diagnostics.diagnostic import Place
from cards.layout.pages import MM, Item, RuleItem
from cards.layout.setting import Block, Setter, moved, width

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


def beside_or_below(said: Said, setter: Setter, room: float, gap: float) -> Block:
    """Short words at the least sizes: languages on one line, or below one another."""
    line = setter.in_line(said, setter.sizes.least, gap, "body")
    if width(line) <= room:
        return line
    return setter.stack(said, setter.sizes.least, room, "body")


def part_heading(said: Said, setter: Setter, left: float, room: float) -> Block:
    """A name in both languages, bold, on one line; or over the columns of words from ``left``."""
    bold = tuple(Text(t.language, f"*{t.text}*", t.at) for t in said)
    if not setter.in_columns(said):
        return setter.in_line(bold, setter.sizes.body, 3 * MM, "body")
    words = setter.stack(bold, setter.sizes.body, room, "body")
    return Block(moved(words.items, left, 0), words.height)
