"""propose: dishes and amounts for the meals that are not written down, found by a solver.

First what must be (energy within its band, food groups, meals, upper levels),
then as much of every need as the dishes reach, then the cheapest or simplest
of those. Every demand has slack, so that what cannot be met is told and not
refused.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from cards.nutrition import breast_milk, needs
from cards.nutrition.feeding import bands, variety
from cards.nutrition.needs import Profile
from cards.plan.day_dishes import Dish
from cards.plan.day_program import Effort, Found, Program
from cards.plan.day_slots import slots_for, spread
from cards.plan.day_sums import MILK_GROUP, PARTLY, Meal, counted_milk

LIVER_A_WEEK = 1
"""Liver at most once a week (common practice; the sums rest on IOM 2001, retinol)."""

LEVEL, ENERGY, MEAL, GROUP = 100.0, 5.0, 3.0, 1.0
"""What gives way last where not all that must be can be: an upper level passed by all of itself,
energy short by all of it, a meal, a food group (our own choice)."""

DAY_EFFORT, WEEK_EFFORT = Effort(), Effort(nodes=150, seconds=40.0, gap=0.01, near=0.02)
LAST_EFFORT = Effort(nodes=20, seconds=40.0, gap=0.05)
"""For a day, for a week, and for a week's last wish, which only makes a good plan handier. For a
week an answer is near enough within two hundredths of one need."""

SELDOM, AGAIN, FULL = 2, 0.3, 0.02
"""A dish that comes more than twice is avoided where as good a plan can do without, by a third of
what a meal more is; full portions are preferred by a little (our own choice)."""

NEAR = 0.004
"""Part of a need within which it is told how far dishes reach."""

ROOM = 1e-4
"""How much of what was reached a later wish may give back."""


@dataclass(frozen=True, slots=True)
class Reach:
    """The most of a need that the dishes on hand can bring within all that must be."""

    band: str
    tag: str
    share: float
    proven: bool


@dataclass(frozen=True, slots=True)
class Proposal:
    """Meals found, with those written down; what binds; whether the search came to its end."""

    meals: tuple[Meal, ...]
    reaches: tuple[Reach, ...]
    proven: bool


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


def propose(wish: Wish, profile: Profile) -> Proposal:
    """The best plan, the same for the same dishes in whatever order they come."""
    model = _Model(wish, profile)
    effort = DAY_EFFORT if wish.days == 1 else WEEK_EFFORT
    must = model.solve(model.must, effort)
    model.hold(model.must, must.objective)
    reached = model.solve(model.short, effort, must)
    reaches = []
    for (band, tag), slack in model.slack.items():
        if reached.values[slack] > 0.005:
            best = model.solve({slack: 1.0}, replace(effort, near=NEAR), reached)
            reaches.append(Reach(band, tag, 1 - best.objective, best.proven))
    model.hold(model.short, reached.objective)
    if wish.days > 1 and not wish.cheapest:
        effort = LAST_EFFORT
    last = model.solve(model.simple(), effort, reached)
    proven = must.proven and reached.proven and (last.proven or not wish.cheapest)
    return Proposal(model.meals(last), tuple(reaches), proven)


class _Model:
    """The columns and rows of a wish."""

    def __init__(self, wish: Wish, profile: Profile) -> None:
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
        for day in range(wish.days):
            self._day(day)
        self._week()
        for band in wish.bands:
            self._needs(band)

    def solve(
        self, objective: Mapping[int, float], effort: Effort, start: Found | None = None
    ) -> Found:
        """The least of an objective; there is always a plan, if only an empty one."""
        found = self.program.least(objective, effort, start.values if start else ())
        if found is None:
            raise RuntimeError("the search ended before its first plan")
        return found

    def hold(self, objective: Mapping[int, float], value: float) -> None:
        """Keep what was reached."""
        self.program.row(objective, high=value + ROOM)

    def _day(self, day: int) -> None:
        wish, program = self.wish, self.program
        fixed = [m for m in wish.fixed if m.day == day]
        taken = {m.dish.id for m in fixed}
        for dish in self.dishes:
            for role in ("main", "between"):
                free = dish.id not in taken
                self.chosen[day, role, dish.id] = program.column(0, int(free), whole=True)
                for band in wish.bands:
                    self._amount(day, role, dish, band)
            both = [self.chosen[day, role, dish.id] for role in ("main", "between")]
            program.row(dict.fromkeys(both, 1.0), high=1)
        mains = {self.chosen[day, "main", d.id]: 1.0 for d in self.dishes}
        between = {self.chosen[day, "between", d.id]: 1.0 for d in self.dishes}
        main, fourth, most_between = slots_for({m.slot for m in fixed}, wish.bands)
        lacking = self._must(MEAL)
        program.row({**mains, lacking: 1.0}, low=main)
        program.row(mains, high=main + fourth)
        program.row(between, high=most_between)
        program.row({**mains, **between}, high=main + most_between)
        self._groups(day, fixed)
        for band in wish.bands:
            self._energy(day, band, fixed)
            for tag, level in self._levels(band).items():
                eaten = sum(m.holds(tag, band) for m in fixed)
                milk = counted_milk(tag, breast_milk.holds(tag, band, wish.milk) or 0.0)
                over = self._must(LEVEL)
                terms = {n: v / level for n, v in self._terms(tag, band, (day,)).items()}
                program.row({**terms, over: -1.0}, high=1 - (eaten + milk) / level)

    def _amount(self, day: int, role: str, dish: Dish, band: str) -> None:
        """Whole steps between the least and the most, if the dish is chosen at all."""
        serving = dish.servings[band]
        low, high = serving.main if role == "main" else serving.between
        steps = self.program.column(0, high, whole=True)
        self.steps[day, role, dish.id, band] = steps
        chosen = self.chosen[day, role, dish.id]
        self.program.row({steps: 1.0, chosen: -float(high)}, high=0)
        self.program.row({steps: 1.0, chosen: -float(low)}, low=0)

    def _must(self, weight: float) -> int:
        """Slack of something that must be."""
        slack = self.program.column(0, 50)
        self.must[slack] = weight
        return slack

    def _terms(self, tag: str, band: str, days: Sequence[int]) -> dict[int, float]:
        """What the free dishes bring of a component, by column."""
        by_id = {dish.id: dish for dish in self.dishes}
        return {
            column: by_id[dish].servings[band].per_step[tag]
            for (day, _, dish, of), column in self.steps.items()
            if of == band and day in days
        }

    def _levels(self, band: str) -> dict[str, float]:
        levels = {tag: need.by_band[band] for tag, need in needs.upper_levels().items()}
        return {**levels, "NA": needs.sodium_level().by_band[band]}

    def _energy(self, day: int, band: str, fixed: Sequence[Meal]) -> None:
        """From the average child's need to what covers 97.5 % of children."""
        facts = bands()[band]
        low, high = facts.mean_food_energy(self.wish.milk), facts.food_energy(self.wish.milk)
        eaten = sum(m.holds("ENERC", band) for m in fixed)
        terms = {n: v / low for n, v in self._terms("ENERC", band, (day,)).items()}
        under, over = self._must(ENERGY), self._must(ENERGY)
        self.program.row(
            {**terms, under: 1.0, over: -1.0}, low=1 - eaten / low, high=(high - eaten) / low
        )

    def _groups(self, day: int, fixed: Sequence[Meal]) -> None:
        """Enough food groups in the day; breast milk is one."""
        there = {group for m in fixed for group in m.dish.groups}
        marks: dict[int, float] = {}
        for group in sorted({g for d in self.dishes for g in d.groups} - there):
            mark = self.program.column(0, 1)
            marks[mark] = 1.0
            bringing = {
                self.chosen[day, role, d.id]: -1.0
                for d in self.dishes
                if group in d.groups
                for role in ("main", "between")
            }
            self.program.row({mark: 1.0, **bringing}, high=0)
        lacking = self._must(GROUP)
        least = variety()[0] - MILK_GROUP - len(there)
        self.program.row({**marks, lacking: 1.0}, low=least)

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
            eaten = sum(m.holds(tag, band) for m in wish.fixed) + milk * wish.days
            slack = self.program.column(0, 1)
            self.slack[band, tag] = slack
            self.short[slack] = 1.0
            terms = {n: v / wanted for n, v in self._terms(tag, band, days).items()}
            self.program.row({**terms, slack: 1.0}, low=1 - eaten / wanted)
        if wish.days == 1:
            return
        for tag, level in self._levels(band).items():
            milk = breast_milk.holds(tag, band, wish.milk) or 0.0
            eaten = sum(m.holds(tag, band) for m in wish.fixed)
            terms = {n: v / level for n, v in self._terms(tag, band, days).items()}
            over = self._must(LEVEL)
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
            for column in self.steps.values():
                terms[column] = -FULL / self.program.upper[column] / len(self.wish.bands)
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


def free_meals(
    day: int, fixed: Sequence[Meal], free: Sequence[tuple[str, Dish, Mapping[str, int]]]
) -> tuple[Meal, ...]:
    """Found dishes in the meals that are not written down, from morning to evening."""
    taken = {m.slot for m in fixed}
    mains = [slot for slot in ("morning", "midday", "evening", "afternoon") if slot not in taken]
    between = [slot for slot in ("afternoon", "forenoon") if slot not in taken]
    meals: list[Meal] = []
    for role, dish, steps in sorted(free, key=lambda f: (f[0] != "main", f[1].id)):
        left = mains if role == "main" else [s for s in between if s not in taken]
        slot = left[0]
        taken.add(slot)
        mains = [s for s in mains if s != slot]
        meals.append(Meal(day, slot, dish, dict(steps)))
    return tuple(meals)
