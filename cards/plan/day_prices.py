"""Prices of a plan as money an edible gram of each food."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from cards.diagnostics.diagnostic import Diagnostic, Result, error
from cards.diagnostics.nearest import did_you_mean
from cards.foods.mass import grams_of
from cards.foods.table import Food, FoodTable
from cards.foods.units import Measures
from cards.source.amounts import Amount
from cards.source.day import Price, PriceUnit

ONE = Fraction(1)
BOUGHT: dict[PriceUnit, str] = {"kilogram": "kilogram", "litre": "litre", "piece": "piece"}


def prices_per_g(
    prices: Iterable[Price], table: FoodTable, measures: Measures
) -> Result[dict[str, float]]:
    """Money an edible gram by food id. Errors: unknown foods, measures without a weight.

    A kilogram is bought with what is thrown away, where the table knows its
    edible share; a piece is taken by its edible weight.
    """
    found: dict[str, float] = {}
    faults: list[Diagnostic] = []
    for price in prices:
        food = table.find(price.food)
        if food is None:
            meant = did_you_mean(price.food, table.nearest(price.food), "cards foods find")
            faults.append(error(price.at, "food-unknown", _unknown(price.food), meant))
            continue
        grams = _edible_grams(price.unit, food, measures)
        if grams is None:
            how = "give its price per kg"
            what = f"it is not known what one {price.unit} of {food.name} weighs"
            faults.append(error(price.at, "measure-without-weight", what, how))
        else:
            found[food.id] = price.value / grams
    return Result(found, tuple(faults))


def _edible_grams(unit: PriceUnit, food: Food, measures: Measures) -> float | None:
    grams = grams_of(Amount(ONE, ONE, BOUGHT[unit]), food, measures)
    share = food.measures.get("edible_share")
    if unit == "kilogram" and grams is not None and share is not None:
        return grams * share.value
    return grams


def _unknown(name: str) -> str:
    return f'"{name[:60]}" is not in the food table'
