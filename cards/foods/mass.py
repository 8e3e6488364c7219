"""An ingredient line's mass: grams of edible food, and how it was found."""

from __future__ import annotations

from dataclasses import dataclass

from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error, warning
from cards.diagnostics.nearest import did_you_mean
from cards.foods.table import Food, FoodMeasure, FoodTable
from cards.foods.units import Measures
from cards.source.amounts import EACH, Amount
from cards.source.recipe import Ingredient

TOLERANCES = {"liquid": 0.15, "leaf": 0.5, "counted": 0.4, "handful": 0.5, "spooned": 0.3}
"""How far a measure and the grams of one line may lie apart before a warning, by kind (common
practice): liquids fill a spoon alike, leaves and handfuls do not, whole things differ in size,
and level and heaped spoons of dry food by about a third."""

_WHOLE = ("medium", "piece")
"""Measures of a food that give the weight of one whole middling thing, the better first."""

_SCALE = {"each": 1.0, "piece": 1.0, "medium": 1.0, "small": 0.7, "large": 1.4}
"""Counts against a middling one, where the table has no weight of their own (common practice)."""


@dataclass(frozen=True, slots=True)
class Mass:
    """Edible grams, with the words that tell how they were found."""

    edible_g: float
    how: str


def understood(amount: Amount | None, food: Food) -> Amount | None:
    """The amount a bare count means: leaves of a leaf, cloves of garlic, else pieces."""
    if amount is None or amount.unit != EACH or not food.measures.keys().isdisjoint(_WHOLE):
        return amount
    for natural in ("leaf", "clove"):
        if natural in food.measures:
            return Amount(amount.low, amount.high, natural)
    return amount


def mass_of(
    line: Ingredient, amount: Amount | None, food: Food, measures: Measures
) -> Result[Mass]:
    """Grams of a line: its own weight if given, else ``amount`` times density or piece weight."""
    measured: Mass | None = None
    faults: tuple[Diagnostic, ...] = ()
    if amount is not None:
        found = _measured(line, amount, food, measures)
        measured, faults = found.value, found.diagnostics
    if line.grams is None:
        if amount is None:
            return Result(Mass(0.0, "as needed; not counted"))
        return Result(measured, faults)
    grams = measures.grams(float(line.grams.middle), line.grams.unit)
    mass = Mass(grams, f"{grams:g} g as the recipe says")
    if measured is not None and measured.edible_g > 0:
        ratio = grams / measured.edible_g
        may = TOLERANCES[_kind(amount, food, measures)]
        if not 1 - may <= ratio <= 1 / (1 - may):
            return Result(
                mass,
                (
                    warning(
                        line.at,
                        "spoons-against-grams",
                        f"{amount} of {food.name} is about {measured.edible_g:.0f} g, "
                        f"but the recipe says {grams:g} g",
                        "mend the one that is wrong; the grams are used in the sums",
                    ),
                ),
            )
    return Result(mass)


def grams_of(amount: Amount, food: Food, measures: Measures) -> float | None:
    """Edible grams of an amount of a food; None where it is not known what it weighs."""
    probe = Ingredient(food.name, amount, None, (), False, {}, Place(""))
    found = _measured(probe, understood(amount, food) or amount, food, measures).value
    return found.edible_g if found else None


def _measured(line: Ingredient, amount: Amount, food: Food, measures: Measures) -> Result[Mass]:
    number = float(amount.middle)
    dimension = measures.dimension(amount.unit)
    if dimension == "mass":
        grams = measures.grams(number, amount.unit)
        return Result(Mass(grams, f"{grams:g} g as the recipe says"))
    own = food.measures.get(amount.unit)
    if own is not None:
        return Result(_counted(number, amount.unit, own, food, 1.0))
    if dimension == "volume":
        density = food.measures.get("density")
        if density is not None:
            faults = _swollen(line, amount, food)
            ml = measures.millilitres(number, amount.unit)
            grams = ml * density.value
            return Result(
                Mass(grams, f"{ml:g} ml x {density.value:g} g/ml ({_from(density)})"), faults
            )
    scale = _SCALE.get(amount.unit)
    whole = next((food.measures[name] for name in _WHOLE if name in food.measures), None)
    if scale is not None and whole is not None:
        return Result(_counted(number, amount.unit, whole, food, scale))
    known = [m for m in food.measures if m not in ("edible_share", "density", "juice")]
    if "density" in food.measures:
        known += ["cup", "tablespoon", "teaspoon"]
    return Result(
        None,
        (
            error(
                line.at,
                "measure-without-weight",
                f"it is not known what {_one(amount.unit)} {food.name} weighs",
                f'add grams, as in "{amount} (40 g) {food.name}"'
                + (f"; known for it: {', '.join(known)}" if known else ""),
            ),
        ),
    )


SWELLING = frozenset(("soaked", "sprouted", "cooked", "boiled"))
"""Preparations that make grains and pulses swell, so that a cup of them holds less of the food."""


def _swollen(line: Ingredient, amount: Amount, food: Food) -> tuple[Diagnostic, ...]:
    swollen = [name for name in line.preps if name in SWELLING]
    if not swollen or not food.has("grain", "pulse") or food.form == "ground":
        return ()
    return (
        warning(
            line.at,
            "swollen-measure",
            f"the table knows {food.name} dry; {amount} of it {swollen[0]} holds much less",
            "give the dry amount, or add the grams of dry food in brackets",
        ),
    )


def _counted(number: float, unit: str, measure: FoodMeasure, food: Food, scale: float) -> Mass:
    grams = number * measure.value * scale
    one = "one" if unit == EACH else f"a {unit}"
    how = f"{number:g} x {measure.value * scale:g} g {one} ({_from(measure)})"
    share = food.measures.get("edible_share")
    if measure.basis == "bought" and share is not None:
        return Mass(grams * share.value, f"{how} x {share.value:g} edible ({_from(share)})")
    return Mass(grams, how)


def _from(measure: FoodMeasure) -> str:
    return " ".join(part for part in (measure.source, measure.code) if part)


def _kind(amount: Amount | None, food: Food, measures: Measures) -> str:
    """The kind of measure a tolerance is stated for."""
    if amount is not None and amount.unit == "handful":
        return "handful"
    if amount is not None and measures.dimension(amount.unit) == "count":
        return "counted"
    if food.form in ("liquid", "fat"):
        return "liquid"
    return "leaf" if food.form == "leaf" else "spooned"


def _one(unit: str) -> str:
    return "one" if unit == EACH else f"one {unit} of"


def unknown_food(line: Ingredient, table: FoodTable, measures: Measures) -> Diagnostic:
    """The message for a food the table does not have, or for a measure misspelt before one."""
    first, _, food = line.food.partition(" ")
    bare = line.amount is not None and line.amount.unit == EACH
    if bare and food and table.find(food) is not None:
        return error(
            line.at,
            "unit-unknown",
            f'"{first}" is not a measure',
            did_you_mean(first, measures.words, f'to say how much, write "2 tbsp {food}"'),
        )
    meant = table.nearest(line.food)
    if len(meant) == 1:
        hint = f'did you mean "{meant[0]}"?'
    elif meant:
        hint = f"which one: {', '.join(meant)}?"
    else:
        hint = (
            "use a food of the table (cards foods lists them), or the nearest one, "
            "and print your own name with en: and hi:"
        )
    name = line.food if len(line.food) <= 60 else line.food[:57] + "..."
    return error(line.at, "food-unknown", f'"{name}" is not in the food table', hint)
