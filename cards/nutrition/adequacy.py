"""How a dish stands against needs: densities, shares of energy, ratios. Unknown is said."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from cards.nutrition import needs
from cards.nutrition.analysis import Analysis
from cards.nutrition.feeding import Band, bands, meals_without_milk


class Standing(StrEnum):
    """Enough, short, or not to be told."""

    ENOUGH = "enough"
    SHORT = "short"
    UNKNOWN = "cannot tell"


@dataclass(frozen=True, slots=True)
class Density:
    """A component per 100 kcal against what is desired, for one band.

    ``least`` is True where some of the dish has no figure, so that the amount
    reads "at least"; an amount that is enough anyway stays enough.
    """

    tag: str
    band: str
    per_100_kcal: float | None
    desired: float
    standing: Standing
    least: bool

    @property
    def share(self) -> float | None:
        """Amount over what is desired."""
        return None if self.per_100_kcal is None else self.per_100_kcal / self.desired


def density(analysis: Analysis, tag: str, band: str) -> Density:
    """The standing of one component."""
    total = analysis.totals[tag]
    energy = analysis.totals["ENERC"]
    desired = needs.desired_density(tag, band)
    amount = analysis.per_100_kcal(tag) if energy.judgeable else None
    if amount is None:
        standing = Standing.UNKNOWN
    elif amount >= desired and energy.complete:
        standing = Standing.ENOUGH
    elif not total.judgeable:
        standing, amount = Standing.UNKNOWN, amount if amount >= desired else None
    else:
        standing = Standing.ENOUGH if amount >= desired else Standing.SHORT
    return Density(tag, band, amount, desired, standing, not total.complete)


def energy_shares(analysis: Analysis) -> dict[str, float] | None:
    """Percent of energy from protein, fat and carbohydrate (4, 9, 4 kcal a gram; general Atwater
    factors, FAO Food and Nutrition Paper 77, memory). None where one of them is not known."""
    parts = {"PROCNT": 4, "FAT": 9, "CHOAVL": 4}
    if not all(analysis.totals[tag].judgeable for tag in parts):
        return None
    kcal = {tag: analysis.totals[tag].value * factor for tag, factor in parts.items()}
    whole = sum(kcal.values())
    return {tag: 100 * value / whole for tag, value in kcal.items()} if whole else None


def ala_share(analysis: Analysis) -> float | None:
    """Percent of energy from alpha-linolenic acid; None where too little is known."""
    total, energy = analysis.totals["F18D3N3"], analysis.totals["ENERC"]
    if not total.judgeable or not energy.judgeable or not energy.value:
        return None
    return 100 * 9 * total.value / 1000 / energy.value


PHYTATE_G_PER_MOL, IRON_G_PER_MOL, ZINC_G_PER_MOL = 660.04, 55.845, 65.38
"""Molar masses of phytic acid, iron and zinc (IUPAC standard atomic weights)."""


def phytate_ratio(phytate_mg: float, mineral_mg: float, g_per_mol: float) -> float:
    """Molar ratio of phytate to a mineral."""
    return (phytate_mg / PHYTATE_G_PER_MOL) / (mineral_mg / g_per_mol)


def phytate_ratios(analysis: Analysis) -> dict[str, float | None]:
    """Phytate to iron and to zinc in the dish; nothing is taken off for soaking or fermenting,
    since no published figure here supports a number."""
    found: dict[str, float | None] = {}
    for tag, mass in (("FE", IRON_G_PER_MOL), ("ZN", ZINC_G_PER_MOL)):
        phytate, mineral = analysis.totals["PHYTAC"], analysis.totals[tag]
        sure = phytate.judgeable and mineral.judgeable and mineral.value > 0
        found[tag] = phytate_ratio(phytate.value, mineral.value, mass) if sure else None
    return found


@dataclass(frozen=True, slots=True)
class EnergyGap:
    """What the dish brings of a day's energy from food, eaten at every meal."""

    band: str
    kcal_a_meal: float
    kcal_a_day: float
    share: float


def energy_gap(analysis: Analysis, milk: str = "average") -> tuple[EnergyGap, ...]:
    """For each band, the larger portion times the least meals, against energy from food.

    ``milk`` is "average" (WHO 2009), "low" (PAHO/WHO 2003, for a child who needs
    more than most) or "none" (WHO 2005, four meals at least).
    """
    if not analysis.totals["ENERC"].judgeable:
        return ()
    gaps: list[EnergyGap] = []
    for portion in analysis.portions:
        band: Band = bands()[portion.band]
        meals, need = portion.meals[0], band.energy_from_food
        if milk == "low":
            need = band.food_energy("low")
        elif milk == "none":
            meals, need = max(meals, meals_without_milk()), band.energy_without_milk
        meal = portion.per_portion["ENERC"]
        gaps.append(EnergyGap(portion.band, meal, meal * meals, meal * meals / need))
    return tuple(gaps)
