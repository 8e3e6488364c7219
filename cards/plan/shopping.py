"""The shopping list: all dishes times the groups, like foods joined, as bought, by stall."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from cards.diagnostics.diagnostic import Diagnostic, Result, error, warning
from cards.diagnostics.nearest import did_you_mean
from cards.foods.mass import mass_of, understood
from cards.foods.table import Food, FoodTable
from cards.foods.units import Measures
from cards.nutrition.analysis import Analysis
from cards.nutrition.line import Choice, Line
from cards.plan.market import AsBought, Quantity, as_bought, quantity, stall_of, stalls
from cards.source.recipe import Recipe
from cards.source.session import Session
from cards.source.session_fields import Sale


@dataclass(frozen=True, slots=True)
class Option:
    """What may be bought in place of a row, or of the part of it ``in_place_of``."""

    food: Food
    season: str
    buy: Quantity | None
    """None where it is not known what it weighs."""
    in_place_of: Quantity | None
    """None where it stands for the whole row."""
    known: bool = True
    """False where no source tells what of it is thrown away."""


@dataclass(frozen=True, slots=True)
class Row:
    """One food to buy. ``edible_g`` is what all recipes of all groups take."""

    food: Food
    stall: str
    edible_g: float
    bought: AsBought
    buy: Quantity
    optional: bool
    """True where every recipe that takes it could do without."""
    dishes: tuple[str, ...]
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class Shopping:
    """Rows in the order of the stalls, then by weight."""

    rows: tuple[Row, ...]

    @property
    def by_stall(self) -> Mapping[str, tuple[Row, ...]]:
        """Rows by stall; a stall at which nothing is bought is left out."""
        found = {stall: tuple(r for r in self.rows if r.stall == stall) for stall in stalls()}
        return {stall: rows for stall, rows in found.items() if rows}


@dataclass
class _Sum:
    """What is gathered of one food."""

    food: Food
    grams: float = 0.0
    optional: bool = True
    dishes: dict[str, None] = field(default_factory=dict)
    others: dict[tuple[str, str], list[tuple[Line, Choice]]] = field(default_factory=dict)


def shop(
    session: Session,
    dishes: Sequence[tuple[Recipe, Analysis]],
    table: FoodTable,
    measures: Measures,
) -> Result[Shopping]:
    """What to buy. Water is not bought; optional foods are, since the trainer shows them."""
    sales, named, faults = _sales(session, table)
    sums: dict[str, _Sum] = {}
    for recipe, analysis in dishes:
        for line in analysis.lines:
            if line.food.has("water"):
                continue
            one = sums.setdefault(line.food.id, _Sum(line.food))
            one.grams += line.edible_g * session.groups
            one.optional = one.optional and line.ingredient.optional
            one.dishes[recipe.id] = None
            for choice in line.instead:
                key = (choice.food.id, choice.season)
                one.others.setdefault(key, []).append((line, choice))
    rows: list[Row] = []
    for one in sums.values():
        buy = quantity(one.food, one.grams, measures, sales.get(one.food.id))
        if buy is None:
            faults.append(
                warning(
                    session.at_key(f"market.{named[one.food.id]}"),
                    "market-unweighed",
                    f"it is not known what a measure of {one.food.name} weighs",
                    "write the pack's weight in grams",
                )
            )
            buy = quantity(one.food, one.grams, measures)
        assert buy is not None
        rows.append(_row(one, buy, session, sales, measures))
    order = list(stalls())
    rows.sort(key=lambda row: (order.index(row.stall), -row.bought.grams, row.food.id))
    stops = any(fault.kind == "food-unknown" for fault in faults)
    return Result(None if stops else Shopping(tuple(rows)), tuple(faults))


def _row(
    one: _Sum, buy: Quantity, session: Session, sales: Mapping[str, Sale], measures: Measures
) -> Row:
    options = tuple(
        _option(pairs, one, session.groups, sales, measures) for pairs in one.others.values()
    )
    return Row(
        one.food,
        stall_of(one.food),
        one.grams,
        as_bought(one.food, one.grams),
        buy,
        one.optional,
        tuple(one.dishes),
        options,
    )


def _option(
    pairs: Sequence[tuple[Line, Choice]],
    one: _Sum,
    groups: int,
    sales: Mapping[str, Sale],
    measures: Measures,
) -> Option:
    """One food that may be taken instead, in all lines that offer it."""
    food, season = pairs[0][1].food, pairs[0][1].season
    grams: float | None = 0.0
    for _, choice in pairs:
        amount = understood(choice.ingredient.amount, food)
        mass = mass_of(choice.ingredient, amount, food, measures).value
        grams = None if grams is None or mass is None else grams + mass.edible_g * groups
    replaced = sum(line.edible_g for line, _ in pairs) * groups
    part = replaced < one.grams - 1e-6
    return Option(
        food,
        season,
        quantity(food, grams, measures, sales.get(food.id)) if grams else None,
        quantity(one.food, replaced, measures, sales.get(one.food.id)) if part else None,
        as_bought(food, 1.0).known,
    )


def _sales(
    session: Session, table: FoodTable
) -> tuple[dict[str, Sale], dict[str, str], list[Diagnostic]]:
    """How foods are sold, and what the session file calls them, by food id."""
    named: dict[str, str] = {}
    found: dict[str, Sale] = {}
    faults: list[Diagnostic] = []
    for name, sale in session.market.items():
        food = table.find(name)
        if food is None:
            near = table.nearest(name)
            faults.append(
                error(
                    session.at_key(f"market.{name}"),
                    "food-unknown",
                    f'"{name[:60]}" is not in the food table',
                    f"which one: {', '.join(near)}?"
                    if near
                    else did_you_mean(name, (), "use the name of a food of the table"),
                )
            )
        else:
            found[food.id] = sale
            named[food.id] = name
    return found, named, faults
