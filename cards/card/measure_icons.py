"""Amounts as pictures: as many icons as there are, the last filled to its share."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import cache

from cards.card.model import IconUse
from cards.data import load
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
_PLAIN = {"pinch": "pinch", "handful": "handful", "leaf": "leaf", "clove": "clove"}
_COUNTED = ("each", "small", "medium", "large")
_CUT = ("piece", "slice", "inch")
_WEIGHED = ("gram", "kilogram", "millilitre", "litre")


def measure_icons(
    amount: Amount | None, food: Food, alt: str, preps: Sequence[str] = ()
) -> tuple[IconUse, ...]:
    """Icons for an amount. A range is full to its smaller number, then empty outlines.

    What a vessel holds looks like the food, or like what its ``preps`` have made of it.
    Raises TooMany when there are more than can be counted at a glance.
    """
    if amount is None:
        return (IconUse("jug", alt=alt),)
    if amount.unit in _WEIGHED:
        return (IconUse("jug" if "litre" in amount.unit else "weight", alt=alt),)
    if amount.high > MOST:
        raise TooMany(amount)
    name = _icon_for(amount.unit, food)
    shares = _shares(amount.low, amount.high)
    if name not in _filled():
        return tuple(IconUse(name, alt=alt) for _ in shares)
    held = held_as(food, preps) if name in _VESSELS.values() else "plain"
    return tuple(_filled_to(name, float(share), held, alt) for share in shares)


def counted(amount: Amount) -> bool:
    """True for an amount in pieces of any kind."""
    return amount.unit in _COUNTED or amount.unit in _CUT


def _filled_to(name: str, share: float, held: str, alt: str) -> IconUse:
    # an empty one is the same whatever it might hold
    of = (("of", held),) if share and held != "plain" else ()
    return IconUse(name, (("fill", round(share, 4)), *of), alt=alt)


class TooMany(ValueError):
    """More of a measure than a row of icons can show."""

    def __init__(self, amount: Amount) -> None:
        super().__init__(str(amount))
        self.amount = amount


def _icon_for(unit: str, food: Food) -> str:
    if unit in _VESSELS:
        return _VESSELS[unit]
    if unit == "handful" and food.form == "leaf":
        return "handful-leaves"
    if unit in _PLAIN:
        return _PLAIN[unit]
    swims = food.has("fish") and not food.has("shellfish")
    whole = picture_of(food)
    if unit in _COUNTED:
        return whole or ("fish" if swims else "whole")
    if unit in _CUT:
        cut = _pictures("cut").get(food.id) or (whole if unit == "piece" else None)
        return cut or food.picture or ("fish-piece" if swims else "chunk")
    return "bowl"


def picture_of(food: Food) -> str:
    """The picture of one of a food as it is bought; empty where there is none."""
    return food.picture or _pictures("whole").get(food.id, "")


def prep_icons(preps: Sequence[str], alt: str) -> tuple[IconUse, ...]:
    """Marks of what was done to a food before, each drawing once.

    The food stands beside them, so it is not drawn in them again; ``alt`` is that of its
    measures, since both are read as one.
    """
    marks = load.mapping("pictures.yaml")["preps"]
    return tuple(IconUse(name, alt=alt) for name in dict.fromkeys(marks[p] for p in preps))


def held_as(food: Food, preps: Sequence[str]) -> str:
    """What a vessel with the food in it shows, of ``cards.icons.held.HELD``."""
    facts = {
        "preps": frozenset(preps),
        "flags": food.flags,
        "groups": frozenset((food.group,)),
        "forms": frozenset((food.form,)),
    }
    for line in load.mapping("pictures.yaml")["held"]:
        asked = [(key, values) for key, values in line.items() if key != "of"]
        if all(not facts[key].isdisjoint(values) for key, values in asked):
            return str(line["of"])
    return "plain"


@cache
def _pictures(kind: str) -> Mapping[str, str]:
    """Icon names by food id, for ``whole`` ones or ``cut`` ones."""
    listing = load.mapping("pictures.yaml")[kind]
    return {food: name for name, foods in listing.items() for food in foods}


@cache
def _filled() -> frozenset[str]:
    """Icons that are drawn filled to a share."""
    listing = load.mapping("icons.yaml")
    return frozenset(name for group in listing["filled"] for name in listing["groups"][group])


def _shares(low: Fraction, high: Fraction) -> list[Fraction]:
    """Fill of each icon: wholes, the fraction, then empties up to the larger number."""
    whole, rest = divmod(low, 1)
    shares = [Fraction(1)] * int(whole)
    if rest:
        shares.append(rest)
    empties = -(-high // 1) - len(shares)
    return shares + [Fraction(0)] * int(empties)
