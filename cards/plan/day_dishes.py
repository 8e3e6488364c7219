"""A dish as a plan sees it: whole household steps of it, what each brings, what it costs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from cards.diagnostics.diagnostic import Place
from cards.nutrition.analysis import ENOUGH_KNOWN, Analysis, Portion
from cards.source.recipe import Ingredient, Recipe, Words

STEP: Mapping[str, Fraction] = {
    "cup": Fraction(1, 4),
    "tablespoon": Fraction(1),
    "piece": Fraction(1, 2),
}
"""What amounts are told in: quarter cups, whole big spoons, half pieces."""

YOUNGEST = "6-8"


@dataclass(frozen=True, slots=True)
class Serving:
    """A dish at one age, counted in steps of its household measure.

    ``main`` and ``between`` are the least and most steps of a meal and of what
    is given between meals.
    """

    unit: str
    main: tuple[int, int]
    between: tuple[int, int]
    step_g: float
    per_step: Mapping[str, float]
    """Components of one step, by tag."""

    def number(self, steps: int) -> Fraction:
        """The household amount of so many steps."""
        return steps * STEP[self.unit]


@dataclass(frozen=True, slots=True)
class Dish:
    """A recipe on hand, summed as it is cooked in the plan's season."""

    id: str
    title: Words
    digest: str
    groups: tuple[str, ...]
    liver: bool
    servings: Mapping[str, Serving]
    known: Mapping[str, float]
    """Share of the dish's mass, water left out, that each component has a figure for."""
    per_g: float | None
    """Money a gram of cooked dish; None where too much of it has no price."""
    unpriced: tuple[str, ...]
    at: Place
    piece: Words = field(default_factory=dict)
    """What the author calls the dish's pieces."""
    milk_ml_per_g: float = 0.0
    """ml of animal milk, or curd and the like, that a gram of cooked dish is made with."""


def dish_of(recipe: Recipe, analysis: Analysis, prices_per_g: Mapping[str, float]) -> Dish:
    """The dish of a summed recipe. ``prices_per_g`` is money an edible gram of
    food, by food id."""
    per_g, unpriced = _cost(analysis, prices_per_g)
    return Dish(
        id=recipe.id,
        title=recipe.title,
        digest=recipe.digest,
        groups=analysis.groups,
        liver=any(
            line.food.has("liver") and not line.ingredient.optional for line in analysis.lines
        ),
        servings={portion.band: _serving(portion) for portion in analysis.portions},
        known={tag: total.known_share for tag, total in analysis.totals.items()},
        per_g=per_g,
        unpriced=unpriced,
        at=recipe.at,
        piece=recipe.piece,
        milk_ml_per_g=_milk_ml(analysis) / analysis.cooked_g,
    )


MILK_G_PER_ML = 1.03
"""Weight of milk (common practice); a gram of curd is taken as a gram of milk."""


def _milk_ml(analysis: Analysis) -> float:
    """Milk and what is milk still, as curd is; not its fat alone, nor what is dried."""
    grams = sum(
        line.edible_g or 0.0
        for line in analysis.lines
        if line.food.has("milk")
        and line.food.group == "dairy"
        and line.food.form in ("liquid", "paste")
        and not line.ingredient.optional
    )
    return grams / MILK_G_PER_ML


def _serving(portion: Portion) -> Serving:
    """Between a meal's published amounts, from half for the youngest; half a meal between meals.

    The youngest begin with spoons and come to half a cup (WHO 2009); how much
    is given between meals is not published, and half a meal is common practice.
    """
    step = STEP[portion.unit]
    most = int(portion.high / step)
    least = int(portion.low / step)
    if portion.band == YOUNGEST:
        least = -(-least // 2)
    half = max(1, most // 2)
    return Serving(
        unit=portion.unit,
        main=(max(1, least), most),
        between=(-(-half // 2), half),
        step_g=portion.grams_high / most,
        per_step={tag: value / most for tag, value in portion.per_portion.items()},
    )


def _cost(
    analysis: Analysis, prices_per_g: Mapping[str, float]
) -> tuple[float | None, tuple[str, ...]]:
    """Money a gram of cooked dish, and the foods without a price. A blank is not nothing."""
    money = known = mass = 0.0
    unpriced: list[str] = []
    for line in analysis.lines:
        if line.ingredient.optional or line.food.has("water") or not line.edible_g:
            continue
        mass += line.edible_g
        price = prices_per_g.get(line.food.id)
        if price is None:
            unpriced.append(line.food.name)
            continue
        known += line.edible_g
        money += price * line.edible_g
    enough = mass > 0 and known / mass >= ENOUGH_KNOWN
    return (money / analysis.cooked_g if enough else None), tuple(dict.fromkeys(unpriced))


def in_season(recipe: Recipe, season: str) -> Recipe:
    """The recipe with what it says is taken in a season."""

    def line(ingredient: Ingredient) -> Ingredient:
        found = [i.ingredient for i in ingredient.instead if i.season == season]
        return found[0] if season and found else ingredient

    parts = tuple(
        replace(part, ingredients=tuple(line(i) for i in part.ingredients)) for part in recipe.parts
    )
    return replace(recipe, parts=parts)
