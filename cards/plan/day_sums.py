"""sum_days: planned meals and breast milk against the needs of an age. Unknown is said."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from cards.nutrition import breast_milk, needs
from cards.nutrition.adequacy import Standing
from cards.nutrition.analysis import ENOUGH_KNOWN
from cards.nutrition.feeding import bands, variety
from cards.nutrition.needs import Need, Profile
from cards.plan.day_dishes import Dish, Serving

PARTLY = frozenset(("NIA",))
"""Needs that count more than the food table does: niacin equivalents, of which the body makes a
part from protein (WHO/FAO 2004, memory). Enough is told; short cannot be."""

MILK_SLOT = "milk"
"""Where a meal stands that is a cup of milk, for a child who is not breastfed."""


def milk_group(milk: str) -> int:
    """Breast milk, if there is any, is one of the eight groups (WHO/UNICEF 2021)."""
    return 0 if milk == "none" else 1


@dataclass(frozen=True, slots=True)
class Meal:
    """A dish at a meal of a day, with its steps for each age."""

    day: int
    slot: str
    dish: Dish
    steps: Mapping[str, int]

    def serving(self, band: str) -> Serving:
        """The dish at an age."""
        return self.dish.servings[band]

    def grams(self, band: str) -> float:
        """Cooked grams."""
        return self.steps[band] * self.serving(band).step_g

    def holds(self, tag: str, band: str) -> float:
        """What is known of a component in it."""
        return self.steps[band] * self.serving(band).per_step[tag]


class Limit(StrEnum):
    """How an amount stands against a level not to go beyond."""

    WITHIN = "within"
    OVER = "over"
    NOT_DAILY = "not every day"
    UNKNOWN = "cannot tell"


@dataclass(frozen=True, slots=True)
class Intake:
    """A component a day, the mean of the days: food, breast milk, need.

    ``milk`` is None where its content is not known here, ``least`` True where
    some of the food has no figure.
    """

    tag: str
    food: float
    milk: float | None
    need: Need
    wanted: float
    standing: Standing
    least: bool

    @property
    def share(self) -> float:
        """Part of the need that is known to be met."""
        return (self.food + (self.milk or 0.0)) / self.wanted


@dataclass(frozen=True, slots=True)
class Upper:
    """A component against its upper level: mean of the days, and the day with the most."""

    tag: str
    mean: float
    most: float
    most_day: int
    level: float
    need: Need
    limit: Limit


@dataclass(frozen=True, slots=True)
class DayTotal:
    """One day at one age."""

    meals: int
    """Times fed, what is between meals and cups of milk among them."""
    feeds: int
    """Cups of milk among them."""
    energy: float | None
    """kcal from food; None where too little of it has a figure."""
    groups: tuple[str, ...]
    """Food groups of the dishes and cups; breast milk is counted in ``variety``."""
    variety: int
    milk_ml: float
    """Animal milk, curd and the like in cups and dishes, as ml of milk."""
    cost: float | None

    @property
    def diverse(self) -> bool:
        """True with enough food groups, breast milk among them."""
        return self.variety >= variety()[0]


@dataclass(frozen=True, slots=True)
class BandSums:
    """All that a plan comes to at one age."""

    band: str
    milk: str
    energy_need: tuple[float, float]
    """kcal from food: of the average child, and what covers 97.5 % of children."""
    days: tuple[DayTotal, ...]
    intakes: tuple[Intake, ...]
    uppers: tuple[Upper, ...]

    @property
    def weakest(self) -> tuple[Intake, ...]:
        """What is short, the least part of the need first."""
        short = [i for i in self.intakes if i.standing is Standing.SHORT]
        return tuple(sorted(short, key=lambda i: (i.share, i.tag)))

    @property
    def unknown(self) -> tuple[str, ...]:
        """Tags of what cannot be told."""
        return tuple(i.tag for i in self.intakes if i.standing is Standing.UNKNOWN)


def sum_days(meals: Sequence[Meal], count: int, band: str, milk: str, profile: Profile) -> BandSums:
    """The sums of ``count`` days of meals at an age. Amounts in the components' units a day."""
    facts = bands()[band]
    by_day = [[m for m in meals if m.day == n] for n in range(count)]
    return BandSums(
        band=band,
        milk=milk,
        energy_need=(facts.mean_food_energy(milk), facts.food_energy(milk)),
        days=tuple(_day(day, band, milk) for day in by_day),
        intakes=tuple(
            _intake(tag, need, meals, count, band, milk)
            for tag, need in profile.needs.items()
            if band in need.by_band
        ),
        uppers=tuple(
            _upper(tag, level, by_day, band, milk)
            for tag, level in (*needs.upper_levels().items(), ("NA", needs.sodium_level()))
        ),
    )


def known_share(tag: str, meals: Iterable[Meal], band: str) -> float:
    """Share of the food by mass that a component has a figure for; 1 where there is no food."""
    eaten = [(meal.grams(band), meal.dish.known[tag]) for meal in meals]
    whole = sum(grams for grams, _ in eaten)
    return sum(grams * share for grams, share in eaten) / whole if whole else 1.0


def _day(day: Sequence[Meal], band: str, milk: str) -> DayTotal:
    sure = known_share("ENERC", day, band) >= ENOUGH_KNOWN
    groups = tuple(dict.fromkeys(group for m in day for group in m.dish.groups))
    costs = [m.dish.per_g * m.grams(band) for m in day if m.dish.per_g is not None]
    return DayTotal(
        meals=len(day),
        energy=sum(m.holds("ENERC", band) for m in day) if sure else None,
        feeds=sum(m.slot == MILK_SLOT for m in day),
        groups=groups,
        variety=len(groups) + milk_group(milk),
        milk_ml=sum(m.dish.milk_ml_per_g * m.grams(band) for m in day),
        cost=sum(costs) if len(costs) == len(day) else None,
    )


def _intake(
    tag: str, need: Need, meals: Sequence[Meal], count: int, band: str, milk: str
) -> Intake:
    food = sum(m.holds(tag, band) for m in meals) / count
    from_milk = breast_milk.holds(tag, band, milk)
    wanted = need.by_band[band]
    known = known_share(tag, meals, band)
    if food + (from_milk or 0.0) >= wanted:
        standing = Standing.ENOUGH
    elif from_milk is None or known < ENOUGH_KNOWN or tag in PARTLY:
        standing = Standing.UNKNOWN
    else:
        standing = Standing.SHORT
    return Intake(tag, food, from_milk, need, wanted, standing, known < 1 - 1e-9)


def _upper(tag: str, level: Need, by_day: Sequence[Sequence[Meal]], band: str, milk: str) -> Upper:
    """Mean with breast milk where its content is known, and the day with the most."""
    from_milk = breast_milk.holds(tag, band, milk) or 0.0
    food = [sum(m.holds(tag, band) for m in day) for day in by_day]
    mean = sum(food) / len(food) + from_milk
    most = max(food)
    known = known_share(tag, [m for day in by_day for m in day], band)
    return Upper(
        tag=tag,
        mean=mean,
        most=most + from_milk,
        most_day=food.index(most),
        level=level.by_band[band],
        need=level,
        limit=_limit(tag, mean, most + counted_milk(tag, from_milk), level.by_band[band], known),
    )


def counted_milk(tag: str, from_milk: float) -> float:
    """What counts of breast milk against the level of a single day.

    Retinol is stored, and its level is one of habit (IOM 2001): on a single
    day only food is held against it, over a week food and milk.
    """
    return 0.0 if tag == "RETOL" else from_milk


def _limit(tag: str, mean: float, most: float, level: float, known: float) -> Limit:
    sure = level * (1 + 1e-9)
    if most > sure:
        return Limit.OVER
    if mean > sure:
        return Limit.NOT_DAILY
    return Limit.UNKNOWN if known < ENOUGH_KNOWN else Limit.WITHIN
