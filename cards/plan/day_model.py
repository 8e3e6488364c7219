"""The days of a plan as a linear program: what may be chosen, what must be, what is wished for.

A model is of single days, or of days taken together: days that nothing tells
apart are then counted and not looked at one by one. Every plan of single days
is also one of days together, so what these cannot reach, no plan can.
"""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass

from cards.nutrition import breast_milk, needs
from cards.nutrition.feeding import bands, variety, without_milk
from cards.nutrition.needs import Profile
from cards.plan.day_dishes import Dish
from cards.plan.day_program import Found, Program
from cards.plan.day_slots import free_meals, slots_for, spread
from cards.plan.day_sums import PARTLY, Meal, counted_milk, milk_group

LIVER_A_WEEK = 1
"""Liver at most once a week (common practice; the sums rest on IOM 2001, retinol)."""

LEVEL, ENERGY, MEAL, GROUP = 100.0, 5.0, 3.0, 1.0
"""What gives way last where not all that must be can be: an upper level passed by all of itself,
energy short by all of it, a meal, a food group (our own choice)."""

SELDOM, AGAIN, FULL = 2, 0.3, 0.02
"""A dish that comes more than twice is avoided where as good a plan can do without, by a third of
what a meal more is; full portions are preferred by a little (our own choice)."""

ROOM = 1e-4
"""How much of what was reached a later wish may give back."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What a proposal is asked for."""

    dishes: tuple[Dish, ...]
    bands: tuple[str, ...]
    milk: str
    days: int
    most_times: int
    fixed: tuple[Meal, ...]
    cheapest: bool
    cups: tuple[Meal, ...] = ()
    """Cups of milk of every day, for a child who is not breastfed."""


def alike(wish: Wish) -> tuple[tuple[int, ...], ...]:
    """The days of a wish, those that nothing tells apart together."""
    kinds: dict[frozenset[tuple[str, str, tuple[tuple[str, int], ...]]], list[int]] = {}
    for day in range(wish.days):
        written = frozenset(
            (m.slot, m.dish.id, tuple(sorted(m.steps.items()))) for m in wish.fixed if m.day == day
        )
        kinds.setdefault(written, []).append(day)
    return tuple(tuple(days) for days in kinds.values())


class Model:
    """The columns and rows of a wish."""

    def __init__(self, wish: Wish, profile: Profile, days: Sequence[tuple[int, ...]]) -> None:
        """``days`` are numbers of days, those taken together in one; they go by their first."""
        self.wish, self.profile = wish, profile
        self.dishes = sorted(wish.dishes, key=lambda d: d.id)
        self.program = Program()
        self.must: dict[int, float] = {}
        self.short: dict[int, float] = {}
        self.slack: dict[tuple[str, str], int] = {}
        # chosen as a meal or between, and in how many steps at each age
        self.again: dict[int, float] = {}
        self.chosen: dict[tuple[int, str, str], int] = {}
        self.steps: dict[tuple[int, str, str, str], int] = {}
        for together in days:
            self._day(together[0], len(together))
        self._week()
        for band in wish.bands:
            self._needs(band)

    @property
    def roles(self) -> tuple[tuple[str, str], ...]:
        """Every dish as a meal and between meals."""
        return tuple((role, dish.id) for dish in self.dishes for role in ("main", "between"))

    def columns_of(self, day: int) -> tuple[int, ...]:
        """The columns of what is chosen on a day, and how much of it."""
        chosen = [n for (of, _, _), n in self.chosen.items() if of == day]
        return (*chosen, *(n for (of, _, _, _), n in self.steps.items() if of == day))

    def hold(self, objective: Mapping[int, float], value: float) -> None:
        """Keep what was reached."""
        self.program.row(objective, high=value + ROOM)

    def _day(self, day: int, many: int) -> None:
        wish, program = self.wish, self.program
        fixed = [m for m in wish.fixed if m.day == day]
        taken = {m.dish.id for m in fixed}
        for dish in self.dishes:
            for role in ("main", "between"):
                free = dish.id not in taken
                most = many if free else 0
                self.chosen[day, role, dish.id] = program.column(0, most, whole=True)
                for band in wish.bands:
                    self._amount(day, many, role, dish, band)
            both = [self.chosen[day, role, dish.id] for role in ("main", "between")]
            program.row(dict.fromkeys(both, 1.0), high=many)
        mains = {self.chosen[day, "main", d.id]: 1.0 for d in self.dishes}
        between = {self.chosen[day, "between", d.id]: 1.0 for d in self.dishes}
        main, fourth, most_between = slots_for({m.slot for m in fixed}, wish.bands, wish.milk)
        lacking = self._must(MEAL, many)
        program.row({**mains, lacking: 1.0}, low=main * many)
        program.row(mains, high=(main + fourth) * many)
        program.row(between, high=most_between * many)
        program.row({**mains, **between}, high=(main + most_between) * many)
        fixed += wish.cups
        if wish.milk == "none":
            least = without_milk().least_meals - len(fixed)
            program.row({**mains, **between, self._must(MEAL, many): 1.0}, low=least * many)
        self._groups(day, many, fixed)
        for band in wish.bands:
            self._energy(day, many, band, fixed)
            for tag, level in self._levels(band).items():
                eaten = sum(m.holds(tag, band) for m in fixed)
                milk = counted_milk(tag, breast_milk.holds(tag, band, wish.milk) or 0.0)
                over = self._must(LEVEL, many)
                terms = {n: v / level for n, v in self._terms(tag, band, (day,)).items()}
                program.row({**terms, over: -1.0}, high=many * (1 - (eaten + milk) / level))

    def _amount(self, day: int, many: int, role: str, dish: Dish, band: str) -> None:
        """Whole steps between the least and the most, if the dish is chosen at all."""
        serving = dish.servings[band]
        low, high = serving.main if role == "main" else serving.between
        steps = self.program.column(0, high * many, whole=True)
        self.steps[day, role, dish.id, band] = steps
        chosen = self.chosen[day, role, dish.id]
        self.program.row({steps: 1.0, chosen: -float(high)}, high=0)
        self.program.row({steps: 1.0, chosen: -float(low)}, low=0)

    def _must(self, weight: float, many: int) -> int:
        """Slack of something that must be."""
        slack = self.program.column(0, 50 * many)
        self.must[slack] = weight
        return slack

    def _terms(self, tag: str, band: str, days: Container[int]) -> dict[int, float]:
        """What the free dishes bring of a component, by column."""
        by_id = {dish.id: dish for dish in self.dishes}
        return {
            column: by_id[dish].servings[band].per_step[tag]
            for (day, _, dish, of), column in self.steps.items()
            if of == band and day in days
        }

    def _written(self, tag: str, band: str) -> float:
        """What meals that stand, and cups of milk, bring over all days."""
        wish = self.wish
        cups = sum(m.holds(tag, band) for m in wish.cups) * wish.days
        return sum(m.holds(tag, band) for m in wish.fixed) + cups

    def _levels(self, band: str) -> dict[str, float]:
        levels = {tag: need.by_band[band] for tag, need in needs.upper_levels().items()}
        return {**levels, "NA": needs.sodium_level().by_band[band]}

    def _energy(self, day: int, many: int, band: str, fixed: Sequence[Meal]) -> None:
        """From the average child's need to what covers 97.5 % of children."""
        facts = bands()[band]
        low, high = facts.mean_food_energy(self.wish.milk), facts.food_energy(self.wish.milk)
        eaten = sum(m.holds("ENERC", band) for m in fixed)
        terms = {n: v / low for n, v in self._terms("ENERC", band, (day,)).items()}
        under, over = self._must(ENERGY, many), self._must(ENERGY, many)
        self.program.row(
            {**terms, under: 1.0, over: -1.0},
            low=many * (1 - eaten / low),
            high=many * (high - eaten) / low,
        )

    def _groups(self, day: int, many: int, fixed: Sequence[Meal]) -> None:
        """Enough food groups in the day; breast milk is one."""
        there = {group for m in fixed for group in m.dish.groups}
        marks: dict[int, float] = {}
        for group in sorted({g for d in self.dishes for g in d.groups} - there):
            mark = self.program.column(0, many)
            marks[mark] = 1.0
            bringing = {
                self.chosen[day, role, d.id]: -1.0
                for d in self.dishes
                if group in d.groups
                for role in ("main", "between")
            }
            self.program.row({mark: 1.0, **bringing}, high=0)
        lacking = self._must(GROUP, many)
        least = variety()[0] - milk_group(self.wish.milk) - len(there)
        self.program.row({**marks, lacking: 1.0}, low=least * many)

    def _week(self) -> None:
        """No dish too often, liver at most once; what comes a third time is marked."""
        for dish in self.dishes:
            times = {n: 1.0 for (_, _, d), n in self.chosen.items() if d == dish.id}
            had = sum(m.dish.id == dish.id for m in self.wish.fixed)
            self.program.row(times, high=max(0, self.wish.most_times - had))
            again = self.program.column(0, self.wish.days)
            self.again[again] = AGAIN
            self.program.row({**times, again: -1.0}, high=max(0, SELDOM - had))
        livers = {d.id for d in self.dishes if d.liver}
        had = sum(m.dish.liver for m in self.wish.fixed)
        times = {n: 1.0 for (_, _, d), n in self.chosen.items() if d in livers}
        self.program.row(times, high=max(0, LIVER_A_WEEK - had))

    def _needs(self, band: str) -> None:
        """Every need that breast milk has a figure for, and upper levels, over all days."""
        wish, days = self.wish, range(self.wish.days)
        for tag, need in self.profile.needs.items():
            milk = breast_milk.holds(tag, band, wish.milk)
            if milk is None or band not in need.by_band or tag in PARTLY:
                continue
            wanted = need.by_band[band] * wish.days
            eaten = self._written(tag, band) + milk * wish.days
            slack = self.program.column(0, 1)
            self.slack[band, tag] = slack
            self.short[slack] = 1.0
            terms = {n: v / wanted for n, v in self._terms(tag, band, days).items()}
            self.program.row({**terms, slack: 1.0}, low=1 - eaten / wanted)
        if wish.days == 1:
            return
        for tag, level in self._levels(band).items():
            milk = breast_milk.holds(tag, band, wish.milk) or 0.0
            eaten = self._written(tag, band)
            terms = {n: v / level for n, v in self._terms(tag, band, days).items()}
            over = self._must(LEVEL, wish.days)
            self.program.row(
                {**terms, over: -1.0}, high=wish.days - (eaten + milk * wish.days) / level
            )

    def simple(self) -> dict[int, float]:
        """Money where it is asked for, else few meals, many dishes and full portions.

        Small parts by the dish's and the day's place make one order of equal plans.
        """
        by_id = {dish.id: dish for dish in self.dishes}
        rank = {dish.id: n for n, dish in enumerate(self.dishes)}
        terms = {
            column: 1 + 0.01 * rank[dish] / len(rank) + 0.001 * day * rank[dish] / len(rank)
            for (day, _, dish), column in self.chosen.items()
        }
        if not self.wish.cheapest:
            for (_, role, dish, band), column in self.steps.items():
                serving = by_id[dish].servings[band]
                most = serving.main[1] if role == "main" else serving.between[1]
                terms[column] = -FULL / most / len(self.wish.bands)
            return {**terms, **self.again}
        for (_, _, dish, band), column in self.steps.items():
            terms[column] = (by_id[dish].per_g or 0.0) * by_id[dish].servings[band].step_g * 100
        return terms

    def meals(self, found: Found) -> tuple[Meal, ...]:
        """The meals of a solution, in their places of the day."""
        by_id = {dish.id: dish for dish in self.dishes}
        days: list[tuple[Meal, ...]] = []
        for day in range(self.wish.days):
            fixed = tuple(m for m in self.wish.fixed if m.day == day)
            free: list[tuple[str, Dish, dict[str, int]]] = []
            for (of, role, dish), column in self.chosen.items():
                if of == day and round(found.values[column]):
                    steps = {
                        band: round(found.values[self.steps[day, role, dish, band]])
                        for band in self.wish.bands
                    }
                    free.append((role, by_id[dish], steps))
            days.append((*fixed, *free_meals(day, fixed, free)))
        return spread(days, movable=not self.wish.fixed)
