"""The recipe as the later stages see it: frozen, exact, every part with its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from cards.diagnostics.diagnostic import Place
from cards.source.amounts import Amount, Duration
from cards.source.vocabulary import Flame, Texture, actions

Words = Mapping[str, str]
"""A text by language code."""

YOUNGEST, OLDEST = 6, 23
"""Months the cards are for: complementary feeding, 6 to 23 completed months."""


@dataclass(frozen=True, slots=True)
class Instead:
    """What may be taken in place of an ingredient, at any time or in a season."""

    ingredient: Ingredient
    season: str
    """One of the closed list of seasons; empty where it may be taken at any time."""


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
    instead: tuple[Instead, ...] = ()
    aka: tuple[str, ...] = ()
    """Other foods that steps may mean by it: what may be taken instead, or what it stands for."""


@dataclass(frozen=True, slots=True)
class Use:
    """What a step takes. Without ``amount`` it takes the food, or what is left of it."""

    name: str
    amount: Amount | None = None
    rest: bool = False
    """True where the recipe says "the rest of"."""


@dataclass(frozen=True, slots=True)
class Step:
    """One thing the cook does."""

    action: str
    uses: tuple[Use, ...]
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
    use_at: Place
    """Where the step says what it takes."""
    water_kept: bool | None = None
    """False where the step's water is thrown away, None where the recipe does not say."""


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
class Signature:
    """Somebody's word that the words of one language are right.

    All three texts are empty where the author calls her own words a draft.
    """

    role: str
    date: str
    words: str
    """Digest of what was read, as ``signed.words_digest`` makes it."""
    at: Place = field(default_factory=lambda: Place(""))


@dataclass(frozen=True, slots=True)
class Keep:
    """How long the cooked dish may wait, and how."""

    time: Duration
    fridge: bool
    covered: bool


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
    """Cooked weight, volume or pieces, and how many portions (unit ``portion``)."""
    keep: Keep | None
    ready: Duration | None
    """How soon the recipe promises the dish, as in "ready in 30 minutes"."""
    texture: Texture | None
    version: str
    revised: str
    parts: tuple[Part, ...]
    accepted: tuple[Acceptance, ...]
    statements: tuple[tuple[str, Place], ...]
    """What the author says of the dish, as in "rich in iron"; checked, never printed."""
    credit: str
    sources: tuple[str, ...]
    at: Place
    places: Mapping[str, Place]
    """Places of the file's top-level values, by key."""
    author: str = ""
    """The language the author writes in: the first of the title."""
    piece: Words = field(default_factory=dict)
    """What the author calls one of the pieces that the dish makes, as "idli"."""
    signed: Mapping[str, Signature] = field(default_factory=dict)
    """Who has read the words over, by language; in a side file or in the recipe itself."""

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


def variants(recipe: Recipe) -> Iterator[tuple[Instead, Recipe]]:
    """The recipe once for each thing that may be taken instead, with that in its place."""
    for number, part in enumerate(recipe.parts):
        for index, line in enumerate(part.ingredients):
            for instead in line.instead:
                lines = list(part.ingredients)
                lines[index] = instead.ingredient
                parts = list(recipe.parts)
                parts[number] = replace(part, ingredients=tuple(lines))
                yield instead, replace(recipe, parts=tuple(parts))


def texture_of(recipe: Recipe) -> Texture | None:
    """How the dish reaches the child, as written or by its steps; None where it is not said."""
    if recipe.texture is not None:
        return recipe.texture
    cooked = [part for part in recipe.parts if part.steps]
    smooth = bool(cooked) and all(_comes_smooth(part, cooked) for part in cooked)
    return Texture.MASHED if smooth else None


def _comes_smooth(part: Part, parts: list[Part]) -> bool:
    """True for a part that is made smooth itself, or with a later one that takes it."""
    if last_smooth(part) is not None:
        return True
    names = {name.casefold() for name in part.name.values()}
    for other in parts[parts.index(part) + 1 :]:
        last = last_smooth(other)
        if last is not None and any(
            use.name.casefold() in names for step in other.steps[: last + 1] for use in step.uses
        ):
            return True
    return False


_SET = ("shape", "griddle", "fry", "chop")
"""Actions that make pieces, or set what was smooth."""


def last_smooth(part: Part) -> int | None:
    """The number of the step after which the part stays smooth; None where there is none.

    It mashes the part, or grinds it after its last heat, and nothing makes pieces of it later.
    """
    last_heat = max((n for n, s in enumerate(part.steps) if actions()[s.action].heat), default=-1)
    smooth = [
        n
        for n, s in enumerate(part.steps)
        if s.action == "mash" or (s.action == "grind" and n > last_heat)
    ]
    if not smooth or any(s.action in _SET for s in part.steps[smooth[-1] + 1 :]):
        return None
    return smooth[-1]
