"""The recipe as the later stages see it: frozen, exact, every part with its place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from cards.diagnostics.diagnostic import Place
from cards.source.amounts import Amount, Duration
from cards.source.vocabulary import Flame, Texture, actions

Words = Mapping[str, str]
"""A text by language code."""

YOUNGEST, OLDEST = 6, 23
"""Months the cards are for: complementary feeding, 6 to 23 completed months."""


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One line of what is needed. ``amount`` is None only for water as needed."""

    food: str
    amount: Amount | None
    grams: Amount | None
    preps: tuple[str, ...]
    optional: bool
    names: Words
    """Names to print instead of the food table's, by language."""
    at: Place


@dataclass(frozen=True, slots=True)
class Step:
    """One thing the cook does."""

    action: str
    uses: tuple[str, ...]
    """Foods or parts taken in this step, as written; empty means what is in hand."""
    everything: bool
    """True where the step says it takes all."""
    time: Duration | None
    flame: Flame | None
    whistles: tuple[int, int] | None
    lid: bool | None
    until: str
    size_mm: float | None
    words: Words
    at: Place


@dataclass(frozen=True, slots=True)
class Part:
    """A batter, a filling, a chutney; a plain recipe has one part without a name."""

    name: Words
    ingredients: tuple[Ingredient, ...]
    steps: tuple[Step, ...]
    at: Place


@dataclass(frozen=True, slots=True)
class Acceptance:
    """A safety finding a person has accepted, with reason and role."""

    finding: str
    reason: str
    role: str
    at: Place


@dataclass(frozen=True, slots=True)
class Recipe:
    """One dish."""

    id: str
    """File name without its ending."""
    path: str
    """Path of the file below the programme's folder, with forward slashes."""
    digest: str
    """First ten hex digits of the SHA-256 of the file's text."""
    title: Words
    age_from: int
    age_to: int
    makes: tuple[Amount, ...]
    keep: Duration | None
    texture: Texture | None
    version: str
    revised: str
    parts: tuple[Part, ...]
    accepted: tuple[Acceptance, ...]
    statements: tuple[tuple[str, Place], ...]
    """What the author says of the dish, as in "rich in iron"; checked, never printed."""
    at: Place
    places: Mapping[str, Place]
    """Places of the file's top-level values, by key."""

    def at_key(self, key: str) -> Place:
        """The place of a top-level value, or of the recipe where the key is not written."""
        return self.places.get(key, self.at)

    @property
    def ingredients(self) -> tuple[Ingredient, ...]:
        """All ingredients of all parts, in order."""
        return tuple(i for part in self.parts for i in part.ingredients)

    @property
    def steps(self) -> tuple[Step, ...]:
        """All steps of all parts, in order."""
        return tuple(s for part in self.parts for s in part.steps)


def texture_of(recipe: Recipe) -> Texture | None:
    """How the dish reaches the child, as written or by its steps; None where it is not said."""
    if recipe.texture is not None:
        return recipe.texture
    cooked = [part for part in recipe.parts if part.steps]
    return Texture.MASHED if cooked and all(_ends_smooth(part) for part in cooked) else None


def _ends_smooth(part: Part) -> bool:
    """True when a step mashes the part, or grinds it after its last heat."""
    last_heat = max((n for n, s in enumerate(part.steps) if actions()[s.action].heat), default=-1)
    return any(
        s.action == "mash" or (s.action == "grind" and n > last_heat)
        for n, s in enumerate(part.steps)
    )
