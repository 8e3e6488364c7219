"""A paper of a training day as words in tables: what comes between the plan and its pages."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from cards.card.model import CardMeta, Said
from cards.card.origin import PageFoot

Cell = tuple[Said, ...]
"""What stands in a cell: the first in bold and larger, further sayings small below it."""

Kind = Literal["tick", "amount", "text", "small", "figure", "write", "icon"]
"""A box to tick, a number with its measure, words, small words, figures set right, room to
write in, the picture of the row."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column; ``width_mm`` of 0 takes what the others leave."""

    kind: Kind
    width_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Section:
    """A table under a heading. ``heads`` has a saying for each column, or is empty.

    ``aside`` stands at the right end of the heading's line; ``icons`` are those of the rows, where
    a column shows them.
    """

    heading: Said
    icon: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    heads: tuple[Said, ...] = ()
    aside: Said = ()
    icons: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Paper:
    """One file of A4 pages. ``under`` stands below the title, ``notes`` after the tables.

    ``cited`` names documents, after the notes.
    """

    name: str
    meta: CardMeta
    foot: PageFoot
    title: Said
    under: tuple[Said, ...]
    sections: tuple[Section, ...]
    notes: tuple[Said, ...] = ()
    cited: Said = ()
