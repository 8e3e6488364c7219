"""A card whose list is too long for one side, in pieces that follow one another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from cards.card.model import Card, Heading, NeedList, Said, StepList, Text


def split_card(
    card: Card, blocks: Sequence[str], running: str, count: int
) -> list[tuple[Card, list[str]]]:
    """The card ``count`` times with an even share of the list, and each one's blocks.

    What stands before the list is on the first side, what follows it on the last;
    sides after the first begin with the title, and all say which of how many they are.
    """
    at = blocks.index(running)
    before, after = list(blocks[:at]), list(blocks[at + 1 :])
    pieces: list[tuple[Card, list[str]]] = []
    for index, sections in enumerate(_shared(getattr(card, running).sections, count)):
        names = before if index == 0 else ["running"]
        names = [*names, running, *(after if index == count - 1 else [])]
        heading = replace(card.heading, counted=_counted(card.heading, index + 1, count))
        own = replace(card, heading=heading)
        if running == "steps":
            own = replace(own, steps=StepList(sections))
        else:
            own = replace(own, needs=NeedList(sections))
        pieces.append((own, names))
    return pieces


def _counted(heading: Heading, number: int, count: int) -> Said:
    """Which of how many sides, in each language and its digits."""
    digits = heading.digits or ("0123456789",) * len(heading.one_of)
    return tuple(
        Text(said.language, said.text.format(number=own[number], count=own[count]), said.at)
        for said, own in zip(heading.one_of, digits, strict=True)
    )


def _shared(sections: Sequence[Any], count: int) -> list[tuple[Any, ...]]:
    """The sections' rows in ``count`` even shares; a section's heading stands above each share."""
    rows = [(section, row) for section in sections for row in section.rows]
    shares: list[tuple[Any, ...]] = []
    for index in range(count):
        share = rows[index * len(rows) // count : (index + 1) * len(rows) // count]
        told: dict[int, list[Any]] = {}
        own = {id(section): section for section, _ in share}
        for section, row in share:
            told.setdefault(id(section), []).append(row)
        shares.append(tuple(replace(own[key], rows=tuple(found)) for key, found in told.items()))
    return shares
