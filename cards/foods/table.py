"""The food table: composition per 100 g edible, measures, and the source of every figure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache

from cards.data import load
from cards.diagnostics.nearest import nearest
from cards.foods.components import components

Row = Mapping[str, str]

FORMS = (
    "whole",
    "split",
    "flaked",
    "ground",
    "paste",
    "liquid",
    "fat",
    "leaf",
    "fresh",
    "crystals",
)
"""The closed list of forms a food comes in."""

GROUPS = (
    "grains-roots",
    "pulses-nuts-seeds",
    "dairy",
    "flesh",
    "eggs",
    "vitamin-a-plants",
    "other-plants",
)
"""Food groups a dish can bring (WHO/UNICEF 2021 infant and young child feeding indicators;
the eighth, breast milk, comes from the mother)."""


NAME_ONLY = "name-only"
"""Flag of a food without figures, listed so that a rule can speak of it; sums say "at least"."""

NAME_ONLY_NOTE = "known by name only"
"""How the note of such a food begins."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A component's amount per 100 g edible portion, in the component's unit."""

    value: float
    source: str
    code: str
    known: str
    note: str


@dataclass(frozen=True, slots=True)
class FoodMeasure:
    """What a measure of this food weighs: g, g/ml for ``density``, a share for ``edible_share``.

    ``basis`` tells whether the weight is of the food as bought or its edible part.
    """

    value: float
    unit: str
    basis: str
    source: str
    code: str
    known: str
    note: str


@dataclass(frozen=True, slots=True)
class Food:
    """One food of the table."""

    id: str
    name: str
    also: tuple[str, ...]
    group: str
    form: str
    flags: frozenset[str]
    allergens: tuple[str, ...]
    match: str
    """Whose figures these are: direct (its own), proxy (another food's), none (no figures)."""
    note: str
    state: str
    """How the figures hold: raw, dry, powder, liquid or cooked."""
    retention: str
    """Group of the retention factors."""
    figures: Mapping[str, Figure]
    measures: Mapping[str, FoodMeasure]
    picture: str = ""
    """Icon that a programme chose for one of it; empty: as ``pictures.yaml`` says."""

    def has(self, *flags: str) -> bool:
        """True when the food carries at least one of the flags."""
        return not self.flags.isdisjoint(flags)

    def called(self, name: str) -> bool:
        """True when ``name``, or its singular, is one of the food's names."""
        own = {fold(n) for n in (self.id, self.name, *self.also)}
        folded = fold(name)
        return not own.isdisjoint((folded, *_singulars(folded)))


FOOD_ALIKE = 0.75
"""How alike a name must be to be offered for another: a wrong food is worse than none."""


class FoodTable:
    """Foods by id and by every name they go by; a name goes to a food with figures first."""

    def __init__(self, foods: Iterable[Food]) -> None:
        self.foods: dict[str, Food] = {food.id: food for food in foods}
        self._names: dict[str, Food] = {}
        for food in sorted(self.foods.values(), key=lambda food: food.has(NAME_ONLY)):
            for name in (food.id, food.name, *food.also):
                self._names.setdefault(fold(name), food)

    def find(self, name: str) -> Food | None:
        """The food a recipe means by ``name``; a plural finds its singular."""
        folded = fold(name)
        for form in (folded, *_singulars(folded)):
            if form in self._names:
                return self._names[form]
        return None

    def nearest(self, name: str) -> tuple[str, ...]:
        """Names a person may have meant: those that hold the word whole, else the most alike."""
        word = fold(name)
        # what is only known by name is there to be warned of, not to be offered
        offered = [f for f in self.foods.values() if not f.has(NAME_ONLY, "mercury")]
        holding = [
            food.name
            for food in offered
            if any(word in fold(n).split() for n in (food.name, *food.also))
        ]
        if holding:
            return tuple(dict.fromkeys(holding))[:6]
        names = {fold(n): n for food in offered for n in (food.name, *food.also)}
        alike = nearest(word, names, FOOD_ALIKE)
        return (alike,) if alike else ()


@lru_cache(maxsize=20_000)
def fold(name: str) -> str:
    """A name as it is compared: small letters, single spaces, no hyphens."""
    return " ".join(name.casefold().replace("-", " ").split())


def _singulars(name: str) -> tuple[str, ...]:
    found = []
    if name.endswith("ves"):
        found.append(name[:-3] + "f")
    if name.endswith("ies"):
        found.append(name[:-3] + "y")
    if name.endswith("es"):
        found.append(name[:-2])
    if name.endswith("s"):
        found.append(name[:-1])
    return tuple(found)


def build_table(foods: Iterable[Row], figures: Iterable[Row], measures: Iterable[Row]) -> FoodTable:
    """A table from rows of the three files. Raises ValueError naming the first wrong row."""
    composition: dict[str, dict[str, Figure]] = {}
    for row in figures:
        component = components().get(row["tag"])
        if component is None or component.unit != row["unit"]:
            raise ValueError(f"{row['food']}: {row['tag']} in {row['unit']} is not in the list")
        if row["value"] == "":
            continue  # blank is not zero: no figure
        composition.setdefault(row["food"], {})[row["tag"]] = Figure(
            float(row["value"]), row["source"], row["code"], row["known"], row["note"]
        )
    sizes: dict[str, dict[str, FoodMeasure]] = {}
    for row in measures:
        sizes.setdefault(row["food"], {})[row["measure"]] = FoodMeasure(
            float(row["value"]),
            row["unit"],
            row["basis"],
            row["source"],
            row["code"],
            row["known"],
            row["note"],
        )
    return FoodTable(
        Food(
            id=row["food"],
            name=row["name"],
            also=tuple(a.strip() for a in row["also"].split(";") if a.strip()),
            group=row["group"],
            form=row["form"],
            flags=frozenset(row["flags"].split()),
            allergens=tuple(row["allergens"].split()),
            match=row["match"],
            note=row["note"],
            state=row.get("state") or "raw",
            retention=row.get("retention") or "none",
            figures=composition.get(row["food"], {}),
            measures=sizes.get(row["food"], {}),
        )
        for row in foods
    )


@cache
def pictures() -> tuple[str, ...]:
    """Icons that can show one of a food, or a share of one."""
    groups = load.mapping("icons.yaml")["groups"]
    return tuple(name for group in ("pieces", "vegetables", "fruit") for name in groups[group])


@cache
def shipped_table() -> FoodTable:
    """The project's own table."""
    return build_table(
        load.rows("foods.csv"), load.rows("composition.csv"), load.rows("measures.csv")
    )


@cache
def sources() -> Mapping[str, Mapping[str, str]]:
    """Every source a figure may name: title, authors, year and terms by key."""
    return load.mapping("sources.yaml")


@dataclass(frozen=True, slots=True)
class Range:
    """Two published figures of one component that lie far apart; the table keeps one of them."""

    low: float
    high: float
    low_source: str
    high_source: str


@cache
def _all_ranges() -> Mapping[str, Mapping[str, Range]]:
    found: dict[str, dict[str, Range]] = {}
    for row in load.rows("ranges.csv"):
        found.setdefault(row["food"], {})[row["tag"]] = Range(
            float(row["low"]),
            float(row["high"]),
            f"{row['low_source']} {row['low_code']}",
            f"{row['high_source']} {row['high_code']}",
        )
    return found


def ranges_of(food_id: str) -> Mapping[str, Range]:
    """Components of a food whose sources disagree by more than half, by tag."""
    return _all_ranges().get(food_id, {})
