"""What the kitchens need for a demonstration: per group and in all."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from cards.data import load
from cards.foods.units import Measures
from cards.source.recipe import Part, Recipe
from cards.source.session import Session
from cards.source.vocabulary import KITCHEN, actions

SPOONS = ("cup", "bowl", "glass", "ladle", "tablespoon", "teaspoon")
"""Measures that a group needs in its hands, if a recipe uses them."""

_HEAPED = "heaped "
_CUT = ("chop", "peel", "grate")


@dataclass(frozen=True, slots=True)
class Need:
    """One thing: so many for each group, so many in all; 0 in all where nobody has counted."""

    thing: str
    each: int
    total: int


def kitchen_needs(
    session: Session, recipes: Sequence[Recipe], measures: Measures
) -> tuple[Need, ...]:
    """Things to bring. A group cooks one dish after another, so the most of any dish is enough.

    Within a dish the parts stand on the fire together: each wants its own pot (common practice).
    """
    most: Counter[str] = Counter()
    for recipe in recipes:
        dish: Counter[str] = Counter()
        for part in recipe.parts:
            dish += Counter(set(_things(part)))
        most |= dish
        most |= Counter(dict.fromkeys(_spoons(recipe, measures), 1))
    always = {"fire": 1, "cook-spoon": 1, "mixing-bowl": 2, "cloth": 2}
    found = [Need(thing, count, count * session.groups) for thing, count in always.items()]
    order = ["knife", *KITCHEN, *SPOONS]
    found += [
        Need(thing, most[thing], most[thing] * session.groups)
        for thing in sorted(most, key=order.index)
        if thing not in always
    ]
    return (
        *found,
        Need("child-bowl", 0, session.children),
        Need("child-spoon", 0, session.children),
    )


def _things(part: Part) -> list[str]:
    """Vessels and tools of a part's steps."""
    vessels = load.mapping("market.yaml")["vessel"]
    found: list[str] = []
    for step in part.steps:
        needed = actions()[step.action].needs or vessels.get(step.action, "")
        found += [needed] if needed else []
        found += ["knife"] if step.action in _CUT else []
    for line in part.ingredients:
        cut = {"chopped", "chopped fine", "sliced", "peeled"}.intersection(line.preps)
        found += ["knife"] if cut else []
        found += ["grater"] if "grated" in line.preps else []
        found += ["pot"] if "boiled" in line.preps else []
    return found


def _spoons(recipe: Recipe, measures: Measures) -> list[str]:
    """Measures the recipe's amounts are given in."""
    units = [line.amount.unit for line in recipe.ingredients if line.amount]
    named = [unit.removeprefix(_HEAPED) for unit in units]
    own = [u for u in named if measures.dimension(u) == "volume"]
    return [unit for unit in own if unit in SPOONS]
