"""Published figures on feeding by age, opened from data/feeding.yaml."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from cards.data import load
from cards.source.vocabulary import Texture


@dataclass(frozen=True, slots=True)
class Band:
    """An age band: volumes in ml and masses in g a meal, energies in kcal a day."""

    name: str
    first_month: int
    last_month: int
    energy_from_food: float
    start_ml: tuple[float, float] | None
    meal_ml: tuple[float, float]
    thin_ml: float
    meals: tuple[int, int]
    snacks: tuple[int, int]
    """Snacks a day that may be offered, as the child's appetite asks (WHO 2009)."""
    texture: Texture
    energy_without_milk: float
    """kcal a day from food for a child who is not breastfed (WHO 2005)."""
    energy_total: float
    """kcal a day that a child of this age needs on average, breast milk and food together."""
    least_meals: int
    """Times a day a breastfed child should be fed at least, snacks among them (WHO/UNICEF 2021)."""
    energy_plus_2sd: float
    milk_energy_average: float
    milk_energy_low: float
    stomach_g: float

    def food_energy(self, milk: str = "average") -> float:
        """kcal a day that food must bring to cover 97.5 % of children (PAHO/WHO 2003)."""
        energies = {"none": 0.0, "low": self.milk_energy_low}
        return self.energy_plus_2sd - energies.get(milk, self.milk_energy_average)

    def mean_food_energy(self, milk: str = "average") -> float:
        """kcal a day that food must bring to the average child.

        As published (WHO 2009) at average breast milk; computed as the need less
        the milk at low (615 - 217, 686 - 157, 894 - 90 kcal). As published for a
        child who is not breastfed (WHO 2005).
        """
        if milk == "none":
            return self.energy_without_milk
        if milk == "low":
            return self.energy_total - self.milk_energy_low
        return self.energy_from_food

    def fed_least(self, milk: str = "average") -> int:
        """Times a day a child should be fed at least, milk feeds of one not breastfed among them
        (WHO/UNICEF 2021)."""
        return without_milk().least_meals if milk == "none" else self.least_meals

    def meals_needed(self, density: float, milk: str = "average") -> float:
        """Least meals a day at ``density`` kcal per g, unrounded (PAHO/WHO 2003, Table 1)."""
        return self.food_energy(milk) / (density * self.stomach_g)

    def density_needed(self, meals: float, milk: str = "average") -> float:
        """Least kcal per g at ``meals`` a day, unrounded (PAHO/WHO 2003, Table 2)."""
        return self.food_energy(milk) / (meals * self.stomach_g)

    def whole_meals(self, density: float) -> int:
        """Meals a day for a card: rounded up, never under the published least."""
        return max(self.meals[0], math.ceil(round(self.meals_needed(density), 6)))


@cache
def bands() -> Mapping[str, Band]:
    """All age bands by name."""
    return {
        name: _band(name, facts) for name, facts in load.mapping("feeding.yaml")["bands"].items()
    }


def _band(name: str, facts: dict[str, Any]) -> Band:
    def value(key: str) -> Any:
        return facts[key]["value"]

    return Band(
        name=name,
        first_month=facts["first_month"],
        last_month=facts["last_month"],
        energy_from_food=value("energy_from_food"),
        start_ml=tuple(value("start_ml")) if "start_ml" in facts else None,
        meal_ml=tuple(value("meal_ml")),
        thin_ml=value("thin_ml"),
        meals=tuple(value("meals")),
        snacks=tuple(value("snacks")),
        texture=Texture(value("texture")),
        energy_without_milk=value("energy_without_milk"),
        energy_total=value("energy_total"),
        least_meals=value("least_meals"),
        energy_plus_2sd=value("energy_plus_2sd"),
        milk_energy_average=value("milk_energy_average"),
        milk_energy_low=value("milk_energy_low"),
        stomach_g=value("stomach_g"),
    )


def variety() -> tuple[int, int]:
    """Food groups a day at least, and of how many (WHO/UNICEF 2021)."""
    facts = load.mapping("feeding.yaml")["variety"]
    return facts["least"]["value"], facts["groups"]["value"]


@dataclass(frozen=True, slots=True)
class WithoutMilk:
    """A child of 6 to 23 months who is not breastfed (WHO 2005; WHO/UNICEF 2021)."""

    least_feeds: int
    """Milk feeds a day at least."""
    least_meals: int
    """Times fed a day at least, milk feeds among them."""
    meals: tuple[int, int]
    snacks: tuple[int, int]
    beside_animal_foods_ml: tuple[float, float]
    """ml of milk a day where other food of animals is eaten regularly."""
    alone_ml: tuple[float, float]
    """ml of milk a day where it is not."""


@cache
def without_milk() -> WithoutMilk:
    """The figures for a child who is not breastfed."""
    facts = load.mapping("feeding.yaml")["without_milk"]
    return WithoutMilk(
        least_feeds=facts["least_feeds"]["value"],
        least_meals=facts["least_meals"]["value"],
        meals=tuple(facts["meals"]["value"]),
        snacks=tuple(facts["snacks"]["value"]),
        beside_animal_foods_ml=tuple(facts["milk_ml_beside_animal_foods"]["value"]),
        alone_ml=tuple(facts["milk_ml_alone"]["value"]),
    )


def documents(*names: str) -> tuple[str, ...]:
    """The documents that figures come from, by their keys in the file."""
    sources = load.mapping("feeding.yaml")["sources"]
    return tuple(sources[name] for name in names)


def edition() -> tuple[int, str]:
    """Version of the figures and the day they were last gone over."""
    facts = load.mapping("feeding.yaml")
    return facts["version"], facts["revised"]


def dense_enough() -> tuple[float, float]:
    """The energy densities, kcal per g, between which the published portions hold."""
    facts = load.mapping("feeding.yaml")
    return facts["density_low"], facts["density_high"]


def meals_without_milk() -> int:
    """Least meals a day of a child who is not breastfed."""
    return without_milk().meals[0]


def dish_g_per_ml() -> float:
    """Weight of a cooked soft dish, g per ml."""
    return float(load.mapping("feeding.yaml")["dish_g_per_ml"])
