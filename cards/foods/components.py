"""Food components: INFOODS tagname, unit and name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from cards.data import load

KJ_PER_KCAL = 4.184
"""Thermochemical calorie (by definition)."""


@dataclass(frozen=True, slots=True)
class Component:
    """A nutrient or other component; ``unit`` holds for every figure of it."""

    tag: str
    unit: str
    name: str


@cache
def components() -> Mapping[str, Component]:
    """All components by tagname, in printing order."""
    return {tag: Component(tag, **facts) for tag, facts in load.mapping("components.yaml").items()}
