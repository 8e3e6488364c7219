"""An ingredient with its food, its mass and how it is cooked."""

from __future__ import annotations

from dataclasses import dataclass

from cards.foods.retention import RetentionRow
from cards.foods.table import Food
from cards.source.amounts import Amount
from cards.source.recipe import Ingredient


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """An ingredient with its food and mass. Two lines are the same only if they are one."""

    ingredient: Ingredient
    food: Food
    amount: Amount | None
    """The amount as understood: "8 mint leaves" counts leaves."""
    edible_g: float
    how: str
    retention: RetentionRow | None = None
    """What cooking leaves of it; None takes nothing off."""

    def holds(self, tag: str) -> float | None:
        """Amount of a component left after cooking, in its unit; None where no figure is known."""
        figure = self.food.figures.get(tag)
        if figure is None:
            return None
        share = self.retention.share(tag) if self.retention else 1.0
        return self.edible_g / 100 * figure.value * share
