"""What differs between two cards of one dish, as a person would tell it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from itertools import zip_longest

from cards.card.model import Card, Said


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that is said otherwise, or in one of the two only; empty where it is not said."""

    block: str
    """``title``, ``time``, ``amounts``, ``steps``, ``portions`` or ``warnings``."""
    before: str
    now: str


def changes(old: Card, new: Card) -> tuple[Change, ...]:
    """What differs, block by block in the order in which a card is read."""
    found: list[Change] = []
    for block, before, now in zip(BLOCKS, _told(old), _told(new), strict=True):
        found += _differing(block, before, now)
    return tuple(found)


def own_warnings(card: Card) -> dict[str, tuple[str, ...]]:
    """What the dish's own warnings say in each language, by picture."""
    return {one.icon.name: tuple(_plain(t.text) for t in one.said) for one in card.safety.own}


BLOCKS = ("title", "time", "amounts", "steps", "portions", "warnings")


def _told(card: Card) -> tuple[list[str], ...]:
    needs = [row for section in card.needs.sections for row in section.rows]
    steps = [row for section in card.steps.sections for row in section.rows]
    portions = [
        f"{column.ages} {_words(column.months)}: {_words(column.amount)}, {_words(column.meals)}, "
        f"{_words(column.texture.said)}"
        for column in card.portions.columns
    ]
    marks = [" ".join((mark.alt or mark.name) for mark in row.marks) for row in steps]
    return (
        [f"{_words(card.heading.title)}, {card.heading.ages} {_words(card.heading.months)}"],
        [_words(item.said) for item in card.lead.items],
        [f"{row.number} {_words(row.said)}".strip() for row in needs],
        [
            f"{_words(row.said)} ({said})" if said else _words(row.said)
            for row, said in zip(steps, marks, strict=True)
        ],
        portions,
        [_words(one.said) for one in card.safety.own],
    )


def _words(said: Said) -> str:
    return " / ".join(_plain(text.text) for text in said)


def _plain(text: str) -> str:
    return text.replace("*", "")


def _differing(block: str, before: Sequence[str], now: Sequence[str]) -> Iterator[Change]:
    matcher = SequenceMatcher(None, before, now, autojunk=False)
    for what, a1, a2, b1, b2 in matcher.get_opcodes():
        if what != "equal":
            for one, other in zip_longest(before[a1:a2], now[b1:b2], fillvalue=""):
                yield Change(block, one, other)
