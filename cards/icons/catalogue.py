"""The whole family: importing this room draws up the register of all icons."""

from __future__ import annotations

from cards.icons import (  # noqa: F401  imported for what they register
    actions,
    baked,
    cooking,
    counted,
    daytime,
    forbidden,
    fruit,
    garden,
    groups,
    handled,
    keeping,
    marks,
    measures,
    people,
    printing,
    safety,
    texture,
    vegetables,
)
from cards.icons.registry import Icon, find, names

__all__ = ["Icon", "find", "names"]
