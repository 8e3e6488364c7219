"""Amounts as pictures: as many icons as there are, the last filled to its share."""

from __future__ import annotations

from fractions import Fraction

from cards.card.model import IconUse
from cards.foods.table import Food
from cards.source.amounts import Amount

MOST = 10
"""More icons than this in one row nobody counts; the recipe should use a larger measure."""

_VESSELS = {
    "cup": "cup",
    "bowl": "bowl",
    "glass": "glass",
    "ladle": "ladle",
    "tablespoon": "tablespoon",
    "teaspoon": "teaspoon",
    "heaped tablespoon": "heaped-tablespoon",
    "heaped teaspoon": "heaped-teaspoon",
}
_FILLED_PIECES = ("lemon", "onion", "tomato", "potato", "banana")
_PLAIN = {"pinch": "pinch", "handful": "handful", "leaf": "leaf", "clove": "clove"}
_WEIGHED = ("gram", "kilogram", "millilitre", "litre")


def measure_icons(amount: Amount | None, food: Food, alt: str) -> tuple[IconUse, ...]:
    """Icons for an amount. A range is full to its smaller number, then empty outlines.

    Raises TooMany when there are more than can be counted at a glance.
    """
    if amount is None:
        return (IconUse("jug", alt=alt),)
    if amount.unit in _WEIGHED:
        return (IconUse("jug" if "litre" in amount.unit else "weight", alt=alt),)
    if amount.high > MOST:
        raise TooMany(amount)
    name, fillable = _icon_for(amount.unit, food)
    shares = _shares(amount.low, amount.high)
    if not fillable:
        return tuple(IconUse(name, alt=alt) for _ in shares)
    return tuple(IconUse(name, (("fill", round(float(s), 4)),), alt=alt) for s in shares)


class TooMany(ValueError):
    """More of a measure than a row of icons can show."""

    def __init__(self, amount: Amount) -> None:
        super().__init__(str(amount))
        self.amount = amount


def _icon_for(unit: str, food: Food) -> tuple[str, bool]:
    if unit in _VESSELS:
        return _VESSELS[unit], True
    if unit in _PLAIN:
        return _PLAIN[unit], False
    if unit == "piece":
        return ("fish-piece" if food.has("fish") else "chunk"), True
    if unit in ("each", "small", "medium", "large"):
        if food.id == "egg":
            return "egg", False
        if food.has("fish"):
            return "fish", False
        for name in _FILLED_PIECES:
            if food.id == name or food.id.endswith(f"-{name}"):
                return name, True
        return "whole", True
    return "bowl", True


def _shares(low: Fraction, high: Fraction) -> list[Fraction]:
    """Fill of each icon: wholes, the fraction, then empties up to the larger number."""
    whole, rest = divmod(low, 1)
    shares = [Fraction(1)] * int(whole)
    if rest:
        shares.append(rest)
    empties = -(-high // 1) - len(shares)
    return shares + [Fraction(0)] * int(empties)
