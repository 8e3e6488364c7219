"""What the sums say: frozen results of the total stage."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from cards.nutrition.line import Line
from cards.source.vocabulary import Texture

ENOUGH_KNOWN = 0.8
"""Share of the dish's mass a figure must be known for before anything is judged by it
(common practice)."""


@dataclass(frozen=True, slots=True)
class Total:
    """A component's sum over the dish.

    ``value`` sums the figures there are, in the component's unit; where
    ``known_share`` (by mass, water left out) is under 1 it reads "at least".
    """

    tag: str
    value: float
    known_share: float
    missing: tuple[str, ...]

    @property
    def complete(self) -> bool:
        """True when every ingredient has a figure."""
        return not self.missing

    @property
    def judgeable(self) -> bool:
        """True when enough of the dish has a figure to judge by."""
        return self.known_share >= ENOUGH_KNOWN


@dataclass(frozen=True, slots=True)
class Portion:
    """A meal of this dish for one age band.

    Amounts are household measures: quarter cups (``unit`` cup), whole spoons
    (tablespoon) or half pieces (piece). ``start`` is the first weeks' amount
    in tablespoons, for the youngest band only.
    """

    band: str
    months: tuple[int, int]
    """First and last month of the band that this dish is for."""
    unit: str
    low: Fraction
    high: Fraction
    start: tuple[int, int] | None
    meals: tuple[int, int]
    texture: Texture
    grams_high: float
    per_portion: Mapping[str, float]
    """Components in the larger portion, by tag."""


@dataclass(frozen=True, slots=True)
class Analysis:
    """Sums of one recipe."""

    lines: tuple[Line, ...]
    cooked_g: float
    cooked_ml: float
    cooked_how: str
    cooked_doubted: bool
    """True where the cooked weight cannot be right; what it makes thin or rich is not judged."""
    totals: Mapping[str, Total]
    portions: tuple[Portion, ...]
    assumptions: tuple[str, ...]

    def per_100_g(self, tag: str) -> float:
        """Amount per 100 g as eaten."""
        return self.totals[tag].value * 100 / self.cooked_g

    def per_100_kcal(self, tag: str) -> float | None:
        """Amount per 100 kcal; None when the dish has no known energy."""
        energy = self.totals["ENERC"].value
        return self.totals[tag].value * 100 / energy if energy else None

    @property
    def energy_density(self) -> float | None:
        """kcal per g as eaten; None when too little of the dish has a figure."""
        energy = self.totals["ENERC"]
        return energy.value / self.cooked_g if energy.judgeable else None

    @property
    def groups(self) -> tuple[str, ...]:
        """Food groups the dish brings, each once, in order of mass."""
        mass: dict[str, float] = {}
        for line in self.lines:
            if line.food.group != "none" and not line.ingredient.optional:
                mass[line.food.group] = mass.get(line.food.group, 0.0) + line.edible_g
        return tuple(sorted(mass, key=lambda g: (-mass[g], g)))
