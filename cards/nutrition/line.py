"""An ingredient with its food, its mass and how it is cooked."""

from __future__ import annotations

from dataclasses import dataclass

from cards.foods.retention import RetentionRow
from cards.foods.table import Food
from cards.nutrition.equivalents import retinol_equivalent_ug
from cards.source.amounts import Amount
from cards.source.recipe import Ingredient


@dataclass(frozen=True, slots=True)
class Choice:
    """A food that may be taken instead; ``season`` is empty where at any time."""

    ingredient: Ingredient
    food: Food
    season: str


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
    instead: tuple[Choice, ...] = ()

    def holds(self, tag: str) -> float | None:
        """Amount of a component left after cooking, in its unit; None where no figure is known."""
        if tag == "VITA_RE":
            retinol, carotene = self._vitamin_a()
            known = retinol is not None and carotene is not None
            return self.at_least(tag) if known else None
        figure = self.food.figures.get(tag)
        if figure is None:
            return None
        share = self.retention.share(tag) if self.retention else 1.0
        return self.edible_g / 100 * figure.value * share

    def at_least(self, tag: str) -> float:
        """What is known to be left, in its unit: a part of it where a figure is missing."""
        if tag != "VITA_RE":
            return self.holds(tag) or 0.0
        retinol, carotene = self._vitamin_a()
        # other carotenoids would only add to it
        return retinol_equivalent_ug(retinol or 0.0, carotene or 0.0)

    def _vitamin_a(self) -> tuple[float | None, float | None]:
        """Retinol and beta-carotene in ug."""
        carotene = self.holds("CARTB")
        if carotene is None and self.holds("VITA_RAE") == 0:
            carotene = 0.0  # no vitamin A at all, so none of it as carotene
        return self.holds("RETOL"), carotene
