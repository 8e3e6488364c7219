"""total: a Recipe becomes an Analysis."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from cards.diagnostics.diagnostic import Diagnostic, Result, error, has_errors, note, warning
from cards.foods.components import components
from cards.foods.mass import mass_of, understood, unknown_food
from cards.foods.retention import retention_row
from cards.foods.table import FoodTable
from cards.foods.units import Measures
from cards.nutrition import feeding, portions
from cards.nutrition.analysis import Analysis, Portion, Total
from cards.nutrition.feeding import Band
from cards.nutrition.flow import Flow
from cards.nutrition.line import Choice, Line
from cards.source.recipe import Ingredient, Recipe, texture_of
from cards.source.vocabulary import Texture

GAIN = 1.02
"""How much heavier than what went in a dish may be, for scales and rounding, undoubted."""


_DOUBTS = frozenset(("spoons-against-grams", "makes-too-much", "makes-too-little"))
"""Messages after which the cooked weight is not to be judged by: one slip, one message."""

MOST_MEALS = 5
"""The most meals a day the published tables reckon with (PAHO/WHO 2003, Tables 1 and 2)."""


def total(
    recipe: Recipe, table: FoodTable, measures: Measures, band_names: Iterable[str]
) -> Result[Analysis]:
    """Sum the dish and set the portions. Errors: unknown foods, measures without a weight."""
    faults: list[Diagnostic] = []
    lines: list[Line] = []
    for ingredient in recipe.ingredients:
        food = table.find(ingredient.food)
        if food is None:
            faults.append(unknown_food(ingredient, table, measures))
            continue
        amount = understood(ingredient.amount, food)
        mass = mass_of(ingredient, amount, food, measures)
        faults += mass.diagnostics
        if mass.value is not None:
            choices = _choices(ingredient, table, measures)
            faults += choices.diagnostics
            lines.append(
                Line(
                    ingredient,
                    food,
                    amount,
                    mass.value.edible_g,
                    mass.value.how,
                    instead=choices.value or (),
                )
            )
    if has_errors(faults):
        return Result(None, tuple(faults))
    flow = Flow(recipe, tuple(lines))
    lines = [
        replace(line, retention=retention_row(line.food, flow.cooking(line))) for line in lines
    ]
    counted = [line for line in lines if not line.ingredient.optional]
    if all(line.food.has("water") for line in counted):
        faults.append(
            error(
                recipe.at_key("ingredients"),
                "no-food",
                "there is no food here besides water and what is optional",
                "list at least one food with an amount that is not optional",
            )
        )
        return Result(None, tuple(faults))
    if sum(line.edible_g for line in counted) <= 0:
        return Result(
            None,
            (
                *faults,
                error(
                    recipe.at,
                    "amount-missing",
                    "nothing here has a weight",
                    "give at least one ingredient an amount",
                ),
            ),
        )
    cooked_g, cooked_ml, how, more = _cooked(recipe, counted, measures)
    faults += more
    totals = {tag: sum_component(tag, counted) for tag in components()}
    totals["WATER"] = balanced_water(totals["WATER"], counted, cooked_g)
    analysis = Analysis(
        lines=tuple(lines),
        cooked_g=cooked_g,
        cooked_ml=cooked_ml,
        cooked_how=how,
        cooked_doubted=bool({d.kind for d in more} & _DOUBTS),
        totals=totals,
        portions=(),
        assumptions=(
            how,
            "losses in cooking: USDA retention factors, Release 6, one factor a food",
            *(
                f"{line.food.name}: as {line.retention.cooking} (row {line.retention.code})"
                for line in lines
                if line.retention
            ),
            *(
                f"{line.food.name}: {line.food.note}"
                for line in lines
                if line.food.match == "proxy"
            ),
        ),
    )
    bands = [feeding.bands()[name] for name in band_names]
    served = [
        b for b in bands if recipe.age_from <= b.last_month and recipe.age_to >= b.first_month
    ]
    if not served:
        faults.append(
            warning(
                recipe.at_key("ages"),
                "ages-outside",
                "no age band of the programme is served",
                "check ages: here and in the programme file",
            )
        )
    done = tuple(_portion(band, analysis, recipe, measures) for band in served)
    greedy = [p for p in done if p.grams_high > cooked_g * GAIN]
    if greedy:
        faults.append(
            warning(
                recipe.at_key("makes"),
                "makes-less-than-a-meal",
                f"one meal at {greedy[0].band} months is {greedy[0].grams_high:.0f} g, "
                f"but the dish makes {cooked_g:.0f} g",
                "write the recipe for at least one child's meal, and say how many it feeds",
            )
        )
    return Result(replace(analysis, portions=done), tuple(faults))


def _choices(
    ingredient: Ingredient, table: FoodTable, measures: Measures
) -> Result[tuple[Choice, ...]]:
    """The foods that may be taken instead."""
    faults: list[Diagnostic] = []
    found: list[Choice] = []
    for instead in ingredient.instead:
        food = table.find(instead.ingredient.food)
        if food is None:
            faults.append(unknown_food(instead.ingredient, table, measures))
        else:
            found.append(Choice(instead.ingredient, food, instead.season))
    return Result(tuple(found), tuple(faults))


def sum_component(tag: str, lines: Iterable[Line]) -> Total:
    """One component over the lines; a missing figure is told, not taken as nothing."""
    value = known = mass = 0.0
    missing: list[str] = []
    for line in lines:
        value += line.at_least(tag)
        if line.food.has("water") or line.edible_g == 0:
            continue
        mass += line.edible_g
        if line.holds(tag) is None:
            missing.append(line.food.name)
        else:
            known += line.edible_g
    return Total(tag, value, known / mass if mass else 0.0, tuple(dict.fromkeys(missing)))


def dry_matter_g(line: Line) -> float:
    """Grams of a line besides water; nothing where the water of the food is not known."""
    water = line.food.figures.get("WATER")
    return line.edible_g * (1 - water.value / 100) if water else 0.0


def balanced_water(raw: Total, lines: Iterable[Line], cooked_g: float) -> Total:
    """Water as what the cooked weight leaves beside all else.

    Water boils away or is poured off, so its sum over the raw foods is not
    what is eaten (mixed-recipe method, EuroFIR and FAO/INFOODS; seen). Where
    the water of a food is not known, the sum stands, up to the cooked weight.
    """
    if raw.missing:
        return Total("WATER", min(raw.value, cooked_g), raw.known_share, raw.missing)
    dry = sum(line.edible_g for line in lines) - raw.value
    return Total("WATER", max(0.0, cooked_g - dry), raw.known_share, ())


def _cooked(
    recipe: Recipe, lines: list[Line], measures: Measures
) -> tuple[float, float, str, list[Diagnostic]]:
    """Cooked g and ml, how they are known, and what is doubtful about them."""
    raw_g = sum(line.edible_g for line in lines)
    per_ml = feeding.dish_g_per_ml()
    mass = volume = None
    for amount in recipe.makes:
        number = float(amount.middle)
        if measures.dimension(amount.unit) == "mass":
            mass = measures.grams(number, amount.unit)
        elif measures.dimension(amount.unit) == "volume":
            volume = measures.millilitres(number, amount.unit)
    if mass is None and volume is None:
        given = recipe.at_key("makes") if recipe.makes else recipe.at
        what = "weight" if recipe.makes else "amount"
        guess = note(
            given,
            "makes-missing",
            f"the cooked {what} is not given; the sums take it that no water boils away",
            "weigh or measure the cooked dish once and write "
            f"makes: {recipe.makes[0] if recipe.makes else '3 cups'} (700 g)",
        )
        return raw_g, raw_g / per_ml, f"weight of all that goes in, {raw_g:.0f} g", [guess]
    faults: list[Diagnostic] = []
    if mass is not None and volume is not None and not 0.7 <= mass / volume <= 1.35:
        faults.append(
            warning(
                recipe.at_key("makes"),
                "spoons-against-grams",
                f"{volume:g} ml of a cooked dish cannot weigh {mass:g} g",
                "mend the one that is wrong; a cup of 250 ml weighs about 250 g",
            )
        )
    if mass is None:
        assert volume is not None
        mass = volume * per_ml
        how = f"{volume:g} ml made, at {per_ml:g} g per ml (common practice)"
    else:
        how = f"{mass:g} g made, as the recipe says"
    open_water = any(line.edible_g == 0 for line in lines)
    if mass > raw_g * GAIN and not open_water and not faults:
        faults.append(
            warning(
                recipe.at_key("makes"),
                "makes-too-much",
                f"the dish is said to weigh {mass:.0f} g, but only {raw_g:.0f} g goes in",
                "check makes and the amounts; is the water listed?",
            )
        )
    dry = sum(dry_matter_g(line) for line in lines)
    if mass < dry:
        faults.append(
            error(
                recipe.at_key("makes"),
                "makes-too-little",
                f"the dish is said to weigh {mass:.0f} g, but it holds {dry:.0f} g besides water",
                "check makes and the amounts",
            )
        )
    return mass, volume if volume is not None else mass / per_ml, how, faults


def softer(by_age: Texture, of_dish: Texture | None) -> Texture:
    """The softer of what the age can take and what the dish is."""
    order = list(Texture)
    if of_dish is None:
        return by_age
    return min(by_age, of_dish, key=order.index)


def _portion(band: Band, analysis: Analysis, recipe: Recipe, measures: Measures) -> Portion:
    density = analysis.energy_density
    g_per_ml = analysis.cooked_g / analysis.cooked_ml
    small, large = portions.meal_ml(band, density, g_per_ml)
    cap = band.stomach_g / g_per_ml
    cup, spoon = measures.millilitres(1, "cup"), measures.millilitres(1, "tablespoon")
    pieces = next((float(a.middle) for a in recipe.makes if a.unit == "piece"), None)
    if texture_of(recipe) is Texture.MASHED:
        pieces = None  # what is mashed is given by the cup, and nobody can count it
    start = None
    if pieces:
        piece_g = analysis.cooked_g / pieces
        low, high = (portions.in_pieces(ml * g_per_ml, piece_g) for ml in (small, large))
        grams = float(high.number) * piece_g
    else:
        low, high = (portions.in_household(ml, cap, cup, spoon) for ml in (small, large))
        if low.unit != high.unit:
            low = high
        grams = float(high.number) * measures.millilitres(1, high.unit) * g_per_ml
        if band.start_ml:
            first, last = (max(1, round(ml / spoon)) for ml in band.start_ml)
            if last * spoon < float(high.number) * measures.millilitres(1, high.unit):
                start = (first, last)
    # more than five meals nobody gives; the rule too-thin speaks about such a dish
    least = min(band.whole_meals(density), MOST_MEALS) if density else band.meals[0]
    share = grams / analysis.cooked_g
    return Portion(
        band=band.name,
        months=(max(band.first_month, recipe.age_from), min(band.last_month, recipe.age_to)),
        unit=high.unit,
        low=Fraction(low.number),
        high=Fraction(high.number),
        start=start,
        meals=(least, max(least, band.meals[1])),
        texture=softer(band.texture, texture_of(recipe)),
        grams_high=grams,
        per_portion={tag: t.value * share for tag, t in analysis.totals.items()},
    )
