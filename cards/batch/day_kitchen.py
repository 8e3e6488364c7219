"""The dishes a plan may take: recipes read and summed, those with errors left out and told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from cards.batch.day_cups import cups_for
from cards.batch.kit import Kit
from cards.batch.run import Run
from cards.batch.stages import run_file
from cards.card.drafts import drafts_of
from cards.diagnostics.diagnostic import (
    Diagnostic,
    Place,
    Result,
    error,
    has_errors,
    note,
)
from cards.diagnostics.nearest import did_you_mean
from cards.nutrition.total import total
from cards.plan.day_dishes import Dish, dish_of, in_season
from cards.plan.day_prices import prices_per_g
from cards.plan.day_sums import Meal
from cards.source.day import DayFile
from cards.source.workspace import Workspace


@dataclass(frozen=True, slots=True)
class OnHand:
    """Dishes by name, and those that may be proposed."""

    by_id: Mapping[str, Dish]
    proposable: tuple[Dish, ...]
    cups: tuple[Meal, ...]
    """Cups of milk of each day."""
    drafts: Mapping[str, tuple[str, ...]]
    """Languages in which nobody has read over a dish's words, by its name."""


def dishes_for(day: DayFile, workspace: Workspace, kit: Kit) -> Result[OnHand]:
    """Every dish the plan names or may take. Errors: names no recipe has, or with errors."""
    kitchen = _Kitchen(day, workspace, kit)
    prices = prices_per_g(day.prices, kit.table, kit.measures)
    kitchen.faults += prices.diagnostics
    named = [(planned.dish, planned.at) for meals in day.days for planned in meals.values()]
    for name, at in (*named, *day.dishes):
        kitchen.named(name, at)
    if has_errors(kitchen.faults) or prices.value is None:
        return Result(None, tuple(kitchen.faults))
    cups = cups_for(day, prices.value, kit)
    if cups.value is None:
        return Result(None, (*kitchen.faults, *cups.diagnostics))
    wished = {name for name, _ in day.dishes} or set(kitchen.files)
    take = {name for name, _ in named} | (wished if day.propose else set())
    by_id = {}
    for name in sorted(take):
        dish = kitchen.dish(name, prices.value, dict(named).get(name))
        if dish is not None:
            by_id[name] = dish
    if has_errors(kitchen.faults):
        return Result(None, tuple(kitchen.faults))
    proposable = tuple(
        dish
        for name, dish in by_id.items()
        if name in wished and name not in kitchen.barred and set(day.bands) <= set(dish.servings)
    )
    return Result(OnHand(by_id, proposable, cups.value, kitchen.drafts), tuple(kitchen.faults))


class _Kitchen:
    """Reads recipes as they are asked for."""

    def __init__(self, day: DayFile, workspace: Workspace, kit: Kit) -> None:
        self.day, self.workspace, self.kit = day, workspace, kit
        self.files: dict[str, Path] = {p.stem: p for p in workspace.recipe_files()}
        self.faults: list[Diagnostic] = []
        self.drafts: dict[str, tuple[str, ...]] = {}
        self.barred: set[str] = set()
        """Dishes with a food that is not to be had."""
        self.without = {food for name, at in day.without for food in self._food(name, at)}

    def _food(self, name: str, at: Place) -> tuple[str, ...]:
        food = self.kit.table.find(name)
        if food is not None:
            return (food.id,)
        meant = did_you_mean(name, self.kit.table.nearest(name), "cards foods find")
        what = f'"{name[:60]}" is not in the food table'
        self.faults.append(error(at, "food-unknown", what, meant))
        return ()

    def named(self, name: str, at: Place) -> None:
        """Tell of a name that no recipe has."""
        if name not in self.files:
            how = did_you_mean(name, self.files, f"recipes here: {', '.join(self.files)}")
            what = f'there is no recipe "{name}" in this folder'
            self.faults.append(error(at, "dish-unknown", what, how))

    def dish(self, name: str, prices: Mapping[str, float], asked: Place | None) -> Dish | None:
        """The dish of a recipe; None where it has errors, told as one where it was asked for."""
        run = run_file(self.files[name], self.workspace, self.kit)
        if run.recipe is None or run.analysis is None or has_errors(run.diagnostics):
            tell, at = (error, asked) if asked else (note, self.day.at)
            what = f'"{name}" has errors, so it is not planned'
            how = f"mend it first: cards check {run.name}"
            self.faults.append(tell(at, "dish-refused", what, how))
            return None
        analysis = run.analysis
        recipe = in_season(run.recipe, self.day.season)
        if recipe != run.recipe:
            kit = self.kit
            again = total(recipe, kit.table, kit.measures, kit.programme.bands)
            analysis = again.value or analysis
        dish = dish_of(recipe, analysis, prices)
        self.drafts[name] = tuple(lang.code for lang in drafts_of(recipe, self.kit.languages))
        lines = [line for line in analysis.lines if not line.ingredient.optional]
        if any(line.food.id in self.without for line in lines):
            self.barred.add(name)
            if asked:
                what = f'"{name}" needs a food that this plan is without'
                how = "choose another dish, or take the food out of without:"
                self.faults.append(error(asked, "dish-refused", what, how))
        return self._of_age(dish, run, asked)

    def _of_age(self, dish: Dish, run: Run, asked: Place | None) -> Dish:
        missing = [band for band in self.day.bands if band not in dish.servings]
        if missing and asked and run.recipe is not None:
            ages = f"{run.recipe.age_from}-{run.recipe.age_to}"
            what = f'"{dish.id}" is for {ages} months, and this plan for {", ".join(missing)}'
            how = "choose a dish for this age, or make a plan of its own for the older children"
            self.faults.append(error(asked, "dish-not-for-age", what, how))
        return dish
