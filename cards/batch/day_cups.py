"""Cups of milk of a child who is not breastfed: boiled, summed as a dish is."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from cards.batch.kit import Kit
from cards.diagnostics.diagnostic import Result, error
from cards.diagnostics.nearest import did_you_mean
from cards.foods.table import Food
from cards.nutrition.total import total
from cards.plan.day_dishes import STEP, Dish, Serving, dish_of
from cards.plan.day_sums import MILK_SLOT, Meal
from cards.source.day import DayFile, MilkFeeds
from cards.source.read import read

ONE_CUP = """\
recipe: 1
title: {{{titles}}}
ages: 6-23 months
makes: 1 cup
texture: mashed
ingredients:
  - 1 cup {name}
steps:
  - do: boil
    use: all
"""
"""A cup of milk as a recipe, so that boiling takes from it what it takes from any dish."""


def cups_for(day: DayFile, prices: Mapping[str, float], kit: Kit) -> Result[tuple[Meal, ...]]:
    """The cups of one day, as meals. Errors: what is no whole milk of an animal, or has no weight.

    Toned and skimmed milk, condensed milk and drinks of plants are not the milk
    of a child under two years who is not breastfed (WHO 2023).
    """
    feeds = day.feeds
    if feeds is None:
        return Result(())
    food = kit.table.find(feeds.food)
    if food is None:
        meant = did_you_mean(feeds.food, kit.table.nearest(feeds.food), "cards foods find milk")
        what = f'"{feeds.food[:60]}" is not in the food table'
        return Result(None, (error(feeds.at, "food-unknown", what, meant),))
    if not food.has("raw-milk"):
        what = f"{food.name} is not whole milk of an animal"
        how = "write cow milk, buffalo milk or goat milk; infant formula is for the health worker"
        return Result(None, (error(feeds.at, "milk-wrong", what, how),))
    dish = _dish(food, feeds, prices, day, kit)
    if dish is None:
        what = f"it is not known what a cup of {food.name} weighs"
        how = "choose another milk, or give its density in foods.csv"
        return Result(None, (error(feeds.at, "measure-without-weight", what, how),))
    steps = int(feeds.cups / STEP["cup"])
    cup = Meal(0, MILK_SLOT, dish, dict.fromkeys(day.bands, steps))
    return Result((cup,) * feeds.times)


def _dish(
    food: Food, feeds: MilkFeeds, prices: Mapping[str, float], day: DayFile, kit: Kit
) -> Dish | None:
    codes = dict.fromkeys((*kit.programme.languages, *kit.programme.chosen))
    titles = ", ".join(f"{code}: {food.name}" for code in codes)
    recipe = read(ONE_CUP.format(name=food.name, titles=titles), day.path, kit.programme).value
    if recipe is None:
        return None
    analysis = total(recipe, kit.table, kit.measures, kit.programme.bands).value
    if analysis is None:
        return None
    dish = dish_of(recipe, analysis, prices)
    quarters = int(Fraction(1) / STEP["cup"])
    serving = Serving(
        unit="cup",
        main=(quarters, quarters),
        between=(quarters, quarters),
        step_g=analysis.cooked_g / quarters,
        per_step={tag: part.value / quarters for tag, part in analysis.totals.items()},
    )
    return Dish(
        id=food.id,
        title={lang.code: lang.food(food.id, food.name) for lang in kit.languages},
        digest=day.digest,
        groups=dish.groups,
        liver=False,
        servings=dict.fromkeys(day.bands, serving),
        known=dish.known,
        per_g=dish.per_g,
        unpriced=dish.unpriced,
        at=feeds.at,
        milk_ml_per_g=dish.milk_ml_per_g,
    )
