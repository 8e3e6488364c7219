"""Portions by age: the published amount, adjusted to how dense this dish is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from cards.nutrition.feeding import Band, dense_enough


@dataclass(frozen=True, slots=True)
class Measured:
    """An amount in a household measure."""

    number: Fraction
    unit: str


def adjusted_ml(base_ml: float, density: float | None) -> float:
    """The published volume for a dish of ``density`` kcal per g, unrounded.

    Within the densities the published table assumes the amount stands. A
    thinner dish needs more for the same energy, a denser one less: energy
    equals volume times density. Reproduces the table's own row for food of
    0.6 kcal per g (166.7, 187.5 after rounding, 250 ml).
    """
    low, high = dense_enough()
    if density is None or low <= density <= high:
        return base_ml
    return base_ml * (low if density < low else high) / density


def meal_ml(band: Band, density: float | None, g_per_ml: float) -> tuple[float, float]:
    """Smaller and larger volume of a meal, capped by what the stomach holds.

    Under the lower density the smaller published amount grows, since the
    larger is already the appetite's end.
    """
    cap = band.stomach_g / g_per_ml
    low_density, _ = dense_enough()
    small, large = band.meal_ml
    if density is not None and density < low_density:
        grown = min(cap, adjusted_ml(small, density))
        return grown, max(grown, min(cap, large))
    return min(cap, adjusted_ml(small, density)), min(cap, adjusted_ml(large, density))


NEAR = 0.2
"""How far a quarter cup may miss the amount before whole spoons serve better (common practice)."""

MOST_SPOONS = 6
"""More big spoons than this nobody counts (common practice)."""


def in_household(ml: float, cap_ml: float, cup_ml: float, spoon_ml: float) -> Measured:
    """The nearest quarter cup, or whole big spoons for a little; never above ``cap_ml``."""
    quarter = cup_ml / 4
    quarters = min(math.floor(ml / quarter + 0.5), math.floor(cap_ml / quarter))
    spoons = min(max(1, math.floor(ml / spoon_ml + 0.5)), math.floor(cap_ml / spoon_ml))
    close = abs(quarters * quarter - ml) <= NEAR * ml
    if quarters and (close or spoons > MOST_SPOONS):
        return Measured(Fraction(quarters, 4), "cup")
    return Measured(Fraction(spoons), "tablespoon")


def in_pieces(grams: float, piece_g: float) -> Measured:
    """The nearest half piece, at least a half."""
    halves = max(1, math.floor(2 * grams / piece_g + 0.5))
    return Measured(Fraction(halves, 2), "piece")
