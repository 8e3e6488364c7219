"""Which meals of a day are free, and in which order the days of a week come."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import replace
from itertools import pairwise, permutations

from cards.nutrition.feeding import bands, without_milk
from cards.plan.day_dishes import Dish
from cards.plan.day_sums import Meal
from cards.source.day import BETWEEN, MAIN, SLOTS


def slots_for(taken: Set[str], of: Iterable[str], milk: str = "average") -> tuple[int, int, int]:
    """Free meals, how many more there may be, and free places between meals.

    A fourth meal takes the afternoon, where every age may have four (WHO 2009).
    A child who is not breastfed may have five (WHO 2005), the last in the forenoon.
    """
    main = sum(slot not in taken for slot in MAIN)
    between = sum(slot not in taken for slot in BETWEEN)
    may = all(bands()[band].meals[1] > len(MAIN) for band in of)
    if milk == "none":
        most = without_milk().meals[1] - len(MAIN)
        return main, min(most, between), between
    return main, int(may and "afternoon" not in taken), between


def spread(days: Sequence[Sequence[Meal]], *, movable: bool) -> tuple[Meal, ...]:
    """The days one after the other, like ones apart, meals from morning to evening.

    Days are the same to the sums, so a week may be told in any order; days
    that the file fixes stay (``movable`` is then False).
    """
    names = [{m.dish.id for m in day} for day in days]

    def alike(order: Sequence[int]) -> int:
        """Dishes that come again the day after, or two days after, which counts less."""
        pairs = ((a, b, 3) for a, b in pairwise(order))
        over = ((a, b, 1) for a, b in zip(order, order[2:], strict=False))
        return sum(weight * len(names[a] & names[b]) for a, b, weight in (*pairs, *over))

    plain = tuple(range(len(days)))
    order = min(permutations(plain), key=alike) if movable else plain
    return tuple(
        replace(meal, day=number)
        for number, which in enumerate(order)
        for meal in sorted(days[which], key=lambda m: SLOTS.index(m.slot))
    )


MORE = ("afternoon", "forenoon")
"""Where a fourth and a fifth meal stand."""


def free_meals(
    day: int, fixed: Sequence[Meal], free: Sequence[tuple[str, Dish, Mapping[str, int]]]
) -> tuple[Meal, ...]:
    """Found dishes in the meals that are not written down, from morning to evening."""
    taken = {m.slot for m in fixed}
    mains = [slot for slot in (*MAIN, *MORE) if slot not in taken]
    between = [slot for slot in ("afternoon", "forenoon") if slot not in taken]
    meals: list[Meal] = []
    for role, dish, steps in sorted(free, key=lambda f: (f[0] != "main", f[1].id)):
        left = mains if role == "main" else [s for s in between if s not in taken]
        slot = left[0]
        taken.add(slot)
        mains = [s for s in mains if s != slot]
        meals.append(Meal(day, slot, dish, dict(steps)))
    return tuple(meals)
