"""Which meals of a day are free, and in which order the days of a week come."""

from __future__ import annotations

from collections.abc import Iterable, Sequence, Set
from dataclasses import replace

from cards.nutrition.feeding import bands
from cards.plan.day_sums import Meal
from cards.source.day import BETWEEN, MAIN, SLOTS


def slots_for(taken: Set[str], of: Iterable[str]) -> tuple[int, int, int]:
    """Free meals, whether there may be a fourth (1 or 0), and free places between meals.

    A fourth meal takes the afternoon, where every age may have four (WHO 2009).
    """
    main = sum(slot not in taken for slot in MAIN)
    between = sum(slot not in taken for slot in BETWEEN)
    may = all(bands()[band].meals[1] > len(MAIN) for band in of)
    return main, int(may and "afternoon" not in taken), between


def spread(days: Sequence[Sequence[Meal]], *, movable: bool) -> tuple[Meal, ...]:
    """The days one after the other, unlike ones side by side, meals from morning to evening.

    Days are the same to the sums, so a week may be told in any order; days
    that the file fixes stay (``movable`` is then False).
    """
    left = list(days)
    order: list[Sequence[Meal]] = []
    while left:
        before = {m.dish.id for m in order[-1]} if order and movable else set()
        alike = [len(before & {m.dish.id for m in day}) for day in left]
        order.append(left.pop(alike.index(min(alike)) if movable else 0))
    return tuple(
        replace(meal, day=number)
        for number, day in enumerate(order)
        for meal in sorted(day, key=lambda m: SLOTS.index(m.slot))
    )
