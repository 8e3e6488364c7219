"""The market: where a food is sold, in what, and to which step amounts are rounded up."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from cards.data import load
from cards.foods.mass import grams_of
from cards.foods.table import Food
from cards.foods.units import Measures
from cards.source.amounts import EACH, Amount
from cards.source.session_fields import Sale


@dataclass(frozen=True, slots=True)
class Quantity:
    """What to ask for at a stall. ``unit`` is gram, kilogram, millilitre, litre or a pack."""

    number: Fraction
    unit: str


@dataclass(frozen=True, slots=True)
class AsBought:
    """Grams as bought for grams as eaten. ``share`` is 0 where no source tells what is eaten."""

    grams: float
    share: float
    source: str
    """Source and code of the share; empty where nothing is thrown away, or none is known."""

    @property
    def known(self) -> bool:
        """False where the weight is only that of the recipe."""
        return self.share > 0


def _market() -> dict[str, Any]:
    return load.mapping("market.yaml")


def stalls() -> dict[str, str]:
    """Stalls in the order one walks, each with its icon."""
    return dict(_market()["stalls"])


def stall_of(food: Food) -> str:
    """The stall a food is bought at."""
    rules = _market()["stall_of"]
    by_flag = next((stall for flag, stall in rules["flag"].items() if food.has(flag)), "")
    found = rules["food"].get(food.id) or rules["form"].get(food.form) or by_flag
    return str(found or rules["group"][food.group])


def as_bought(food: Food, edible_g: float) -> AsBought:
    """The edible share turned round: what must be bought so that ``edible_g`` are left."""
    measure = food.measures.get("edible_share")
    if measure is not None:
        source = " ".join(part for part in (measure.source, measure.code) if part)
        return AsBought(edible_g / measure.value, measure.value, source)
    if food.form in _market()["whole_forms"] or food.group == "dairy":
        return AsBought(edible_g, 1.0, "")
    return AsBought(edible_g, 0.0, "")


def quantity(
    food: Food, edible_g: float, measures: Measures, sale: Sale | None = None
) -> Quantity | None:
    """What to buy so that ``edible_g`` can be eaten, rounded up; None for a pack that cannot hold.

    Whole packs or pieces where the food is sold so; liquids by volume where their density is
    known; all else by weight.
    """
    bought = as_bought(food, edible_g).grams
    density = food.measures.get("density")
    if sale is not None:
        size = sale.grams or (sale.ml * density.value if density else 0.0)
        return Quantity(_whole(bought / size), sale.pack) if size else None
    one = grams_of(Amount(Fraction(1), Fraction(1), EACH), food, measures)
    if one and food.id in _market()["pieces"]:
        return Quantity(_whole(edible_g / one), EACH)
    if density is not None and food.form in ("liquid", "fat"):
        return _stepped(bought / density.value, "millilitre", "litre")
    return _stepped(bought, "gram", "kilogram")


def _whole(number: float) -> Fraction:
    # a hair over a whole number is the dust of dividing, not one more piece
    return Fraction(max(1, math.ceil(number - 1e-6)))


def _stepped(amount: float, small: str, large: str) -> Quantity:
    step = next(step for below, step in _market()["steps"] if amount < below)
    rounded = int(_whole(amount / step)) * int(step)
    if rounded < 1000:
        return Quantity(Fraction(rounded), small)
    return Quantity(Fraction(rounded, 1000), large)
