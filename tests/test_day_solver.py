"""The search for a plan, against every plan there is: small sets, counted out by hand."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator, Sequence
from dataclasses import replace

import pytest

from cards.diagnostics.diagnostic import Place
from cards.nutrition.needs import Need, Profile, profile
from cards.plan.day_dishes import Dish, Serving
from cards.plan.day_model import Model, Wish, alike
from cards.plan.day_program import Effort, Program
from cards.plan.day_slots import spread
from cards.plan.day_solver import Proposal, propose
from cards.plan.day_sums import Meal

BAND = "9-11"
# kcal a day from food beside average breast milk: WHO (2009) 300 (seen); PAHO/WHO (2003), what
# covers 97.5 % of children, 858 - 379 (memory and arithmetic)
LOW, HIGH = 300, 858 - 379
# Dewey and Brown (2003): 0.616 l of milk with 280 mg of calcium, 0.3 of iron, 1.2 of zinc a litre
MILK = {"CA": 0.616 * 280, "FE": 0.616 * 0.3, "ZN": 0.616 * 1.2}
NEEDS = {"CA": 400.0, "FE": 9.3}
# IOM: retinol 600 ug, zinc 5 mg, iron 40 mg; sodium 370 mg (AI)
LEVELS = {"RETOL": 600.0, "ZN": 5.0, "FE": 40.0, "NA": 370.0}
GROUPS = ("grains-roots", "pulses-nuts-seeds", "dairy", "flesh", "eggs", "other-plants")
WHO = profile("who")
PROFILE = Profile("small", "small", {tag: WHO.needs[tag] for tag in NEEDS})


def dish(name: str, chance: random.Random, **changes: object) -> Dish:
    most = chance.choice((2, 3, 4))
    serving = Serving(
        unit="cup",
        main=(chance.randint(1, most), most),
        between=(1, max(1, most // 2)),
        step_g=62.5,
        per_step={
            "ENERC": chance.uniform(25, 75),
            "CA": chance.uniform(2, 80),
            "FE": chance.uniform(0.1, 1.2),
            "ZN": chance.uniform(0.1, 0.6),
            "RETOL": chance.uniform(0, 150),
            "NA": chance.uniform(1, 60),
        },
    )
    made = Dish(
        id=name,
        title={"en": name},
        digest="0" * 10,
        groups=tuple(chance.sample(GROUPS, chance.randint(1, 3))),
        liver=False,
        servings={BAND: serving},
        known=dict.fromkeys(serving.per_step, 1.0),
        per_g=chance.uniform(0.01, 0.2),
        unpriced=(),
        at=Place("x.yaml"),
    )
    return replace(made, **changes)  # type: ignore[arg-type]


Eaten = tuple[tuple[Dish, bool, int], ...]
"""A day: dishes, whether as a meal, in how many steps."""


def every_day(dishes: Sequence[Dish]) -> Iterator[Eaten]:
    """Every day that can be made of them: three meals and two between, or four and one."""
    choices = []
    for d in dishes:
        s = d.servings[BAND]
        mains = [(d, True, n) for n in range(s.main[0], s.main[1] + 1)]
        between = [(d, False, n) for n in range(s.between[0], s.between[1] + 1)]
        choices.append([None, *mains, *between])
    for picked in itertools.product(*choices):
        day = tuple(p for p in picked if p)
        mains = sum(main for _, main, _ in day)
        between = len(day) - mains
        if mains <= 4 and between <= 2 and len(day) <= 5:
            yield day


def eaten(day: Eaten, tag: str) -> float:
    return sum(n * d.servings[BAND].per_step[tag] for d, _, n in day)


def broken(day: Eaten) -> float:
    """How far a day is from what must be, in the solver's weights."""
    energy = eaten(day, "ENERC")
    groups = {g for d, _, _ in day for g in d.groups}
    amiss = 3 * max(0, 3 - sum(main for _, main, _ in day))
    amiss += 5 * max(0.0, LOW - energy, energy - HIGH) / LOW
    amiss += max(0, 5 - 1 - len(groups))
    for tag, level in LEVELS.items():
        milk = 0.0 if tag == "RETOL" else MILK.get(tag, 0.0)
        amiss += 100 * max(0.0, eaten(day, tag) + milk - level) / level
    return amiss


def lacking(day: Eaten, tag: str) -> float:
    return max(0.0, 1 - (eaten(day, tag) + MILK[tag]) / NEEDS[tag])


def cost(day: Eaten) -> float:
    return sum(n * d.servings[BAND].step_g * (d.per_g or 0) for d, _, n in day)


def as_day(plan: Proposal, number: int = 0) -> Eaten:
    # a meal of the afternoon may be the fourth or one between: told apart by its size below
    day = [m for m in plan.meals if m.day == number]
    return tuple((m.dish, m.slot in ("morning", "midday", "evening"), m.steps[BAND]) for m in day)


def wish(dishes: Sequence[Dish], **changes: object) -> Wish:
    plain = Wish(tuple(dishes), (BAND,), "average", 1, 7, (), False)
    return replace(plain, **changes)  # type: ignore[arg-type]


@pytest.mark.parametrize("seed", range(14))
def test_no_plan_of_all_is_better(seed: int) -> None:
    chance = random.Random(seed)
    dishes = [dish(f"dish-{n}", chance) for n in range(5)]
    plan = propose(wish(dishes), PROFILE)
    assert plan.proven
    days = list(every_day(dishes))
    least = min(broken(day) for day in days)
    sound = [day for day in days if broken(day) <= least + 1e-4]
    short = min(sum(lacking(day, tag) for tag in NEEDS) for day in sound)
    best = [d for d in sound if sum(lacking(d, tag) for tag in NEEDS) <= short + 1e-4]
    found = as_day(plan)
    assert broken(found) == pytest.approx(least, abs=5e-4)
    assert sum(lacking(found, tag) for tag in NEEDS) == pytest.approx(short, abs=5e-4)
    assert len(found) == min(len(day) for day in best)  # the simplest of the best
    for reach in plan.reaches:  # how far these dishes reach, each need looked at alone
        most = 1 - min(lacking(day, reach.tag) for day in sound)
        assert reach.share == pytest.approx(most, abs=5e-4)
    bound = {reach.tag for reach in plan.reaches}
    assert all(lacking(found, tag) > 0.004 for tag in bound)
    assert all(tag in bound for tag in NEEDS if lacking(found, tag) > 0.006)


@pytest.mark.parametrize("seed", range(6))
def test_no_plan_as_good_is_cheaper(seed: int) -> None:
    chance = random.Random(100 + seed)
    dishes = [dish(f"dish-{n}", chance) for n in range(5)]
    plan = propose(wish(dishes, cheapest=True), PROFILE)
    days = list(every_day(dishes))
    least = min(broken(day) for day in days)
    sound = [day for day in days if broken(day) <= least + 1e-4]
    short = min(sum(lacking(day, tag) for tag in NEEDS) for day in sound)
    best = [d for d in sound if sum(lacking(d, tag) for tag in NEEDS) <= short + 1e-4]
    assert cost(as_day(plan)) <= min(cost(day) for day in best) * 1.001


def test_the_order_of_the_dishes_does_not_sway_it() -> None:
    chance = random.Random(7)
    dishes = [dish(f"dish-{n}", chance) for n in range(6)]
    plans = [propose(wish(order, days=3), PROFILE) for order in (dishes, dishes[::-1], dishes)]
    assert plans[0] == plans[1] == plans[2]


def test_two_days_are_as_good_as_every_pair_of_days() -> None:
    chance = random.Random(3)
    dishes = [dish(f"dish-{n}", chance) for n in range(4)]
    plan = propose(wish(dishes, days=2, most_times=1), PROFILE)

    def names(day: Eaten) -> set[str]:
        return {d.id for d, _, _ in day}

    days = list(every_day(dishes))
    pairs = [(a, b) for a in days for b in days if not names(a) & names(b)]

    def both(a: Eaten, b: Eaten) -> float:
        """What is amiss in either day, and in their mean with all that milk brings."""
        amiss = broken(a) + broken(b)
        for tag, level in LEVELS.items():
            milk = 0.616 * 500 if tag == "RETOL" else MILK.get(tag, 0.0)
            over = eaten(a, tag) + eaten(b, tag) + 2 * milk - 2 * level
            amiss += 100 * max(0.0, over) / level
        return amiss

    least = min(both(a, b) for a, b in pairs)
    found = as_day(plan, 0), as_day(plan, 1)
    assert both(*found) == pytest.approx(least, rel=0.01)
    assert not names(found[0]) & names(found[1])


def test_liver_comes_once_a_week_at_most_however_good_it_would_be() -> None:
    chance = random.Random(11)
    dishes = [dish(f"dish-{n}", chance) for n in range(6)]
    rich = dishes[0].servings[BAND]
    more = replace(rich, per_step={**rich.per_step, "FE": 4.0, "RETOL": 100.0})
    liver = replace(dishes[0], liver=True, servings={BAND: more})
    plan = propose(wish([liver, *dishes[1:]], days=7), PROFILE)
    assert sum(meal.dish.liver for meal in plan.meals) == 1
    again = propose(wish([replace(liver, liver=False), *dishes[1:]], days=7), PROFILE)
    assert sum(meal.dish.id == liver.id for meal in again.meals) > 1


def test_no_dish_comes_more_often_than_allowed() -> None:
    chance = random.Random(5)
    dishes = [dish(f"dish-{n}", chance) for n in range(9)]
    plan = propose(wish(dishes, days=7, most_times=3), PROFILE)
    for one in dishes:
        assert sum(meal.dish.id == one.id for meal in plan.meals) <= 3


def test_what_is_written_down_stays_and_is_counted() -> None:
    chance = random.Random(2)
    dishes = [dish(f"dish-{n}", chance) for n in range(5)]
    fixed = Meal(0, "midday", dishes[4], {BAND: dishes[4].servings[BAND].main[1]})
    plan = propose(wish(dishes, fixed=(fixed,)), PROFILE)
    assert fixed in plan.meals
    assert sum(meal.dish.id == dishes[4].id for meal in plan.meals) == 1
    slots = [meal.slot for meal in plan.meals]
    assert len(set(slots)) == len(slots) and {"morning", "midday", "evening"} <= set(slots)


def test_retinol_over_a_week_counts_the_milk() -> None:
    """Seven days of 7 x 308 ug from milk leave 292 a day for food (600 - 0.616 x 500)."""
    chance = random.Random(21)
    heavy = []
    for n in range(5):
        one = dish(f"dish-{n}", chance, groups=GROUPS[:4])
        s = one.servings[BAND]
        per = {**s.per_step, "RETOL": 30.0 + 25 * n, "ENERC": 60.0, "NA": 1.0, "ZN": 0.1}
        heavy.append(replace(one, servings={BAND: replace(s, main=(2, 2), per_step=per)}))
    plan = propose(wish(heavy, days=7, most_times=7), PROFILE)
    food = sum(meal.holds("RETOL", BAND) for meal in plan.meals) / 7
    assert food + 0.616 * 500 <= 600 + 0.1


def test_a_search_that_is_ended_says_so() -> None:
    """A knapsack of weights that no branch proves in no time: twenty odd numbers, an even sum."""
    program = Program()
    columns = [program.column(0, 1, whole=True) for _ in range(24)]
    program.row({c: 2.0 * (1 + n % 7) + 2 for n, c in enumerate(columns)}, low=51, high=61.0)
    program.row({c: 3.0 + n for n, c in enumerate(columns)}, low=101.5, high=102.5)
    objective = {c: 1.0 + (n * 37 % 11) / 7 for n, c in enumerate(columns)}
    known = program.least(objective, Effort())
    assert known is not None and known.proven
    stopped = program.least(objective, Effort(seconds=0.0), known.values)
    assert stopped is None or not stopped.proven


def test_needs_without_a_figure_for_milk_are_not_searched_for() -> None:
    magnesium = Need("MG", {BAND: 54}, "who2004", "seen", "")
    other = Profile("small", "small", {**PROFILE.needs, "MG": magnesium})
    chance = random.Random(1)
    dishes = [dish(f"dish-{n}", chance) for n in range(5)]
    plan = propose(wish(dishes), other)
    assert {reach.tag for reach in plan.reaches} <= set(NEEDS)


def test_days_alike_are_set_apart_and_written_ones_stay() -> None:
    chance = random.Random(9)
    one, two, three = (dish(f"dish-{n}", chance) for n in range(3))
    days = [[Meal(n, "midday", d, {BAND: 1})] for n, d in enumerate((one, one, two, two, three))]
    names = [meal.dish.id for meal in spread(days, movable=True)]
    assert sorted(names) == sorted(day[0].dish.id for day in days)
    assert all(a != b for a, b in itertools.pairwise(names))
    assert [m.dish.id for m in spread(days, movable=False)] == [d[0].dish.id for d in days]
    assert [m.day for m in spread(days, movable=True)] == [0, 1, 2, 3, 4]


@pytest.mark.parametrize("seed", range(4))
def test_days_taken_together_bound_what_single_days_reach(seed: int) -> None:
    """Every plan of single days is one of days together: these are never worse."""
    chance = random.Random(40 + seed)
    asked = wish([dish(f"dish-{n}", chance) for n in range(5)], days=2, most_times=1)
    single = Model(asked, PROFILE, [(0,), (1,)])
    together = Model(asked, PROFILE, alike(asked))
    assert alike(asked) == ((0, 1),)
    for objective in ("must", "short"):
        best = [m.program.least(getattr(m, objective), Effort()) for m in (single, together)]
        assert best[0] is not None and best[1] is not None
        assert best[1].objective <= best[0].objective + 1e-6
        assert best[1].bound <= best[1].objective + 1e-6


def test_written_days_are_alike_only_where_the_same_is_written() -> None:
    chance = random.Random(4)
    one, two = (dish(f"dish-{n}", chance) for n in range(2))
    fixed = tuple(Meal(n, "midday", d, {BAND: 1}) for n, d in ((0, one), (2, one), (3, two)))
    assert alike(wish([one, two], days=5, fixed=fixed)) == ((0, 2), (1, 4), (3,))
