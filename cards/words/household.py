"""Amounts that a household can measure: spoons, cups and pieces in halves, thirds and quarters."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cards.diagnostics.diagnostic import Diagnostic, warning
from cards.foods.mass import TOLERANCES
from cards.foods.table import Food
from cards.foods.units import Measures
from cards.nutrition.line import Line
from cards.source.amounts import Amount, mixed
from cards.words.numbers import number

PARTS = (1, 2, 3, 4)
"""Into how many parts people divide a cup or a spoon by eye (common practice)."""

_MASS = ("gram", "kilogram")
_BARE = (*_MASS, "millilitre", "litre")
"""Units that take a scale or a measuring jug."""

_NOT_DIVIDED = (*_BARE, "pinch")

CLOSE = 0.1
"""Share of the weight by which a measure may miss it; nearer ones are not told apart."""

FAR = min(TOLERANCES.values())
"""A measure that misses the weight by more is not offered."""

_CHOICES: tuple[tuple[str, tuple[int, ...], Fraction, Fraction], ...] = (
    ("medium", (1, 2), Fraction(1, 2), Fraction(8)),
    ("piece", (1, 2), Fraction(1, 2), Fraction(12)),
    ("cup", (4, 3), Fraction(1, 4), Fraction(8)),
    ("tablespoon", (1, 2), Fraction(1, 2), Fraction(8)),
    ("teaspoon", (4, 2), Fraction(1, 4), Fraction(4)),
    ("handful", (2, 1), Fraction(1, 2), Fraction(4)),
    ("pinch", (1,), Fraction(1), Fraction(4)),
)
"""Measures to offer: name, parts it is divided into, least and most of it."""


def check_amounts(lines: Sequence[Line], measures: Measures) -> Iterator[Diagnostic]:
    """Ingredients that no household can measure out as they are written."""
    for line in lines:
        yield from _odd(line, measures)
        yield from _grams_alone(line, measures)


def _odd(line: Line, measures: Measures) -> Iterator[Diagnostic]:
    amount = line.ingredient.amount
    if (
        amount is None
        or amount.unit in _NOT_DIVIDED
        or measures.dimension(amount.unit) != "volume"
        or all(value.denominator in PARTS for value in (amount.low, amount.high))
    ):
        return
    ml = measures.millilitres(float(amount.middle), amount.unit)
    near = _nearest(
        {u: measures.millilitres(1, u) for u in ("cup", "tablespoon", "teaspoon", "pinch")}, ml
    )
    yield warning(
        line.ingredient.at,
        "amount-odd",
        f"nobody can measure {amount} of {line.food.name}",
        "write halves, thirds or quarters" + (f"; about the same: {_text(near)}" if near else ""),
    )


def _grams_alone(line: Line, measures: Measures) -> Iterator[Diagnostic]:
    given = line.ingredient
    bare = given.amount or given.grams
    if (
        bare is None
        or bare.unit not in _BARE
        or given.optional
        or line.food.group == "flesh"  # weighed at the market
    ):
        return
    yield warning(
        given.at,
        "grams-alone",
        f"{bare} of {line.food.name} takes a scale or a measuring jug",
        _in_household(bare, line.food, measures),
    )


def _in_household(bare: Amount, food: Food, measures: Measures) -> str:
    value = float(bare.middle)
    if bare.unit in _MASS:
        size = measures.grams(value, bare.unit)
        near = _nearest(_weights(food, measures), size)
        weight = f" ({size:g} g)"
    else:
        size = measures.millilitres(value, bare.unit)
        spoons = ("cup", "tablespoon", "teaspoon")
        near = _nearest({unit: measures.millilitres(1, unit) for unit in spoons}, size)
        weight = ""
    if near is None:
        return f'measure it once, and write it like "1 cup{weight} {food.name}"'
    return f'write "{_text(near)}{weight} {food.name}"'


def _weights(food: Food, measures: Measures) -> dict[str, float]:
    """What one of each measure weighs, in g edible, as far as it is known of the food."""
    share = food.measures.get("edible_share")
    density = food.measures.get("density")
    found: dict[str, float] = {}
    for unit, *_ in _CHOICES:
        own = food.measures.get(unit)
        if own is not None:
            bought = own.basis == "bought" and share is not None
            found[unit] = own.value * (share.value if bought and share else 1.0)
        elif density is not None and measures.dimension(unit) == "volume":
            found[unit] = measures.millilitres(1, unit) * density.value
    return found


def _nearest(sizes: dict[str, float], wanted: float) -> Amount | None:
    """The measure that comes close to ``wanted``: the first of the close ones, else the best."""
    found: list[tuple[float, int, Amount]] = []
    for order, (unit, parts, least, most) in enumerate(_CHOICES):
        for divided in parts if unit in sizes else ():
            count = Fraction(round(wanted / sizes[unit] * divided), divided)
            if least <= count <= most:
                miss = abs(float(count) * sizes[unit] - wanted) / wanted
                if miss <= FAR:
                    found.append((max(miss, CLOSE), order, Amount(count, count, unit)))
    return min(found, key=lambda entry: entry[:2])[2] if found else None


def _text(amount: Amount) -> str:
    return str(amount).replace(mixed(amount.low), number(amount.low), 1)
