"""A file of a day's or a week's meals: its shape, and what comes out of reading it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, PlainValidator, ValidationInfo, field_validator

from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error, has_errors
from cards.source import amounts
from cards.source.faults import validate
from cards.source.fields import WordsField, check_length, fault, one_of
from cards.source.model import LANGUAGES, SeasonName, Strict
from cards.source.nodes import Tree, read_nodes
from cards.source.programme import BANDS, Programme
from cards.source.read import digest_of
from cards.source.recipe import Words
from cards.source.vocabulary import vocabulary

MAIN = ("morning", "midday", "evening")
"""The meals of a day."""

BETWEEN = ("forenoon", "afternoon")
"""What may be given between them: one or two, as the child's appetite asks (WHO 2009)."""

SLOTS = ("morning", "forenoon", "midday", "afternoon", "evening")
"""All of them from sunrise to night."""

MILK = ("average", "low", "none")
"""How much breast milk the child takes."""

MOST_FEEDS = 5
"""Cups of milk a day that a plan may have."""

MOST_DAYS = 7
"""A plan is for a week at most."""

PriceUnit = Literal["kilogram", "litre", "piece"]


@dataclass(frozen=True, slots=True)
class Price:
    """What a food costs: an amount of the programme's money a kilogram, litre or piece."""

    food: str
    value: float
    unit: PriceUnit
    at: Place


@dataclass(frozen=True, slots=True)
class Planned:
    """A dish written down for a meal; without ``number`` each child has its usual portion."""

    dish: str
    number: Fraction | None
    unit: str
    at: Place


@dataclass(frozen=True, slots=True)
class MilkFeeds:
    """Cups of milk a day for a child who is not breastfed, each with so much in it."""

    times: int
    cups: Fraction
    food: str
    at: Place


@dataclass(frozen=True, slots=True)
class DayFile:
    """What a plan asks for. ``days`` holds, for each day, the dishes written down by meal."""

    path: str
    title: Words
    bands: tuple[str, ...]
    milk: str
    feeds: MilkFeeds | None
    season: str
    days: tuple[Mapping[str, Planned], ...]
    propose: bool
    """True where meals that are not written down are to be found."""
    dishes: tuple[tuple[str, Place], ...]
    """Recipes on hand; empty means every recipe of the folder."""
    without: tuple[tuple[str, Place], ...]
    """Foods that are not to be had."""
    most_times: int
    """How often a dish may come in a week."""
    prices: tuple[Price, ...]
    money: str
    revised: str
    at: Place
    places: Mapping[str, Place]
    digest: str = ""
    """Ten hex digits over the file's text; of a plan with its dishes, over all it rests on."""
    drafts: tuple[str, ...] = ()
    """Languages in which words of its chart are a draft."""

    @property
    def is_week(self) -> bool:
        """True for more than one day."""
        return len(self.days) > 1

    def at_key(self, key: str) -> Place:
        """The place of a top-level value, or of the file where it is not written."""
        return self.places.get(key, self.at)


def _dish(value: Any, info: ValidationInfo) -> tuple[str, Fraction | None, str]:
    """``rice-and-dal``, or with an amount before it, ``1/2 cup rice-and-dal``."""
    text = " ".join(check_length(value).split()) if isinstance(value, str) else ""
    how = "write the name of its file without .yaml, as in midday: pumpkin-rice-moong"
    number, unit = None, ""
    if re.match(r"[0-9½¼¾]", text):
        try:
            amount, text = amounts.read_amount(text, (info.context or {})["measures"])
        except amounts.Unreadable as trouble:
            raise fault(trouble.kind, str(trouble), trouble.hint or how) from None
        if amount.low != amount.high or amount.low <= 0:
            raise fault("value-wrong", f'"{value}" is not one amount', "write one: 1/2 cup ...")
        number, unit = amount.low, amount.unit
    if not re.fullmatch(r"[\w][\w-]{0,119}", text):
        raise fault("value-wrong", f'"{str(value)[:40]}" does not name a recipe', how)
    return text, number, unit


def _feeds(value: Any, info: ValidationInfo) -> tuple[int, Fraction, str]:
    """``2 of 3/4 cup cow milk``: how often, how much each time, of which milk."""
    text = " ".join(check_length(value).split()) if isinstance(value, str) else ""
    how = "write how often, how much and which: 2 of 3/4 cup cow milk"
    found = re.fullmatch(rf"([1-{MOST_FEEDS}]) of (.+)", text)
    if not found:
        what = f'"{str(value)[:40]}" does not say how often a day, 1 to {MOST_FEEDS}'
        raise fault("value-wrong", what, how)
    try:
        amount, food = amounts.read_amount(found[2], (info.context or {})["measures"])
    except amounts.Unreadable as trouble:
        raise fault(trouble.kind, str(trouble), trouble.hint or how) from None
    quarters = amount.low * 4
    if amount.unit != "cup" or amount.low != amount.high or quarters.denominator != 1 or not food:
        raise fault("value-wrong", f'"{found[2][:40]}" is not in quarters of a cup', how)
    if not 1 <= quarters <= 4:
        raise fault("value-wrong", f'"{found[2][:40]}" is no cup for a small child', how)
    return int(found[1]), amount.low, food


_PRICE = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?(?:/|a|per) ?(kg|kilogram|litre|l|piece|each)")
_UNITS: Mapping[str, PriceUnit] = {
    "kg": "kilogram",
    "kilogram": "kilogram",
    "l": "litre",
    "litre": "litre",
    "piece": "piece",
    "each": "piece",
}


def _price(value: Any) -> tuple[float, PriceUnit]:
    text = " ".join(str(value).split()) if isinstance(value, str) else ""
    how = "write it like 60 per kg, 55 per litre or 7 per piece; leave out what is not known"
    if text.startswith("-"):
        raise fault("price-wrong", f'"{text[:40]}" is a price under nothing', how)
    found = _PRICE.fullmatch(text)
    if not found or not 0 < float(found[1]) < 1e6:
        raise fault("price-wrong", f'"{text[:40]}" is not a price', how)
    return float(found[1]), _UNITS[found[2]]


def _ages(value: Any) -> Any:
    return [part.strip() for part in value.split(",")] if isinstance(value, str) else value


def _names(value: Any) -> Any:
    return [part.strip() for part in value.split(",")] if isinstance(value, str) else value


BandName = Annotated[str, one_of(BANDS, "value-wrong", "an age band")]
DishField = Annotated[tuple[str, Fraction | None, str], PlainValidator(_dish)]
FeedsField = Annotated[tuple[int, Fraction, str], PlainValidator(_feeds)]
PriceField = Annotated[tuple[float, PriceUnit], PlainValidator(_price)]
Name = Annotated[str, Field(min_length=1, max_length=120)]
Names = Annotated[list[Name], BeforeValidator(_names), Field(max_length=200)]


class MealsIn(Strict):
    """The dishes of one day."""

    morning: DishField | None = None
    forenoon: DishField | None = None
    midday: DishField | None = None
    afternoon: DishField | None = None
    evening: DishField | None = None


class DayIn(Strict):
    """A plan of a day or a week."""

    day: str
    title: WordsField
    ages: Annotated[list[BandName], BeforeValidator(_ages), Field(min_length=1, max_length=3)]
    milk: Annotated[str, one_of(MILK, "value-wrong", "how much breast milk")] = "average"
    feeds: FeedsField | None = Field(default=None, alias="milk feeds")
    season: SeasonName | None = None
    propose: Annotated[str, one_of(("yes", "no", "week"), "value-wrong", "a wish")] = "no"
    meals: MealsIn | None = None
    days: list[MealsIn] = Field(default_factory=list)
    dishes: Names = Field(default_factory=list)
    without: Names = Field(default_factory=list)
    times: str = "4"
    prices: dict[Name, PriceField] = Field(default_factory=dict, max_length=400)
    money: Annotated[str, Field(max_length=8)] = ""
    revised: Annotated[str, Field(pattern=r"[0-9]{4}-[0-9]{2}-[0-9]{2}")] = ""
    notes: str = ""

    @field_validator("day")
    @classmethod
    def _format(cls, value: str) -> str:
        if value != "1":
            raise fault("format-unknown", f'"{value}" is no format version', "write day: 1")
        return value

    @field_validator("times")
    @classmethod
    def _times(cls, value: str) -> str:
        if not re.fullmatch("[1-7]", value):
            raise fault("value-wrong", f'a dish cannot come "{value}" times a week', "write 1 to 7")
        return value

    @field_validator("days")
    @classmethod
    def _week(cls, value: list[MealsIn]) -> list[MealsIn]:
        if len(value) > MOST_DAYS:
            raise fault(
                "week-too-long",
                f"there are {len(value)} days here, and a week has {MOST_DAYS}",
                "take some out, or make a second file",
            )
        return value


def read_day(text: str, path: str, programme: Programme) -> Result[DayFile]:
    """A plan's text as a ``DayFile``. ``path`` is the file's path below the folder."""
    nodes = read_nodes(text, path)
    if nodes.value is None:
        return Result(None, nodes.diagnostics)
    tree = nodes.value
    context = {
        "measures": vocabulary(tuple(programme.measures_ml)).measures,
        "languages": (*LANGUAGES, *programme.languages),
    }
    model, faults = validate(DayIn, tree, context)
    told = [*nodes.diagnostics, *faults]
    if model is not None:
        told += [*_asked(model, tree), *_served(model, tree, programme)]
    if model is None or has_errors(told):
        return Result(None, tuple(told))
    day = _day_file(model, tree, path, programme)
    return Result(replace(day, digest=digest_of(text)), tuple(told))


def _asked(model: DayIn, tree: Tree) -> list[Diagnostic]:
    """What only the whole file shows: meals said twice, or none at all."""
    if model.meals and model.days:
        how = "write meals: for one day, or days: for more"
        return [error(tree.key(("days",)), "plan-empty", "meals stand beside days", how)]
    if model.feeds and model.milk != "none":
        what = "milk feeds are for a child who is not breastfed"
        how = "write milk: none, or leave them out"
        return [error(tree.key(("milk feeds",)), "value-wrong", what, how)]
    if model.propose == "no" and not model.meals and not model.days:
        how = "write meals: with a dish for each, or propose: yes or propose: week"
        return [error(tree.place(()), "plan-empty", "this plan names no meals", how)]
    if model.propose == "week" and model.meals:
        how = "write days: with a line for each day that you fix, or propose: yes"
        return [error(tree.key(("propose",)), "plan-empty", "meals: is one day, no week", how)]
    return []


def _served(model: DayIn, tree: Tree, programme: Programme) -> list[Diagnostic]:
    """Ages that the programme does not serve."""
    missing = [band for band in model.ages if band not in programme.bands]
    if not missing:
        return []
    what = f"this programme is not for {', '.join(missing)} months"
    how = f"choose from {', '.join(programme.bands)}, or add the age in programme.yaml"
    return [error(tree.place(("ages",)), "value-wrong", what, how)]


def _day_file(model: DayIn, tree: Tree, path: str, programme: Programme) -> DayFile:
    def planned(meals: MealsIn, at: tuple[str | int, ...]) -> Mapping[str, Planned]:
        found: dict[str, Planned] = {}
        for slot in SLOTS:
            if getattr(meals, slot):
                dish, number, unit = getattr(meals, slot)
                found[slot] = Planned(dish, number, unit, tree.place((*at, slot)))
        return found

    days = [planned(meals, ("days", n)) for n, meals in enumerate(model.days)]
    if model.meals:
        days = [planned(model.meals, ("meals",))]
    count = MOST_DAYS if model.propose == "week" else max(1, len(days))
    days += [{}] * (count - len(days))
    return DayFile(
        path=path,
        title={code or programme.languages[0]: line for code, line in model.title.items()},
        bands=tuple(band for band in BANDS if band in model.ages),
        milk=model.milk,
        feeds=MilkFeeds(*model.feeds, tree.place(("milk feeds",))) if model.feeds else None,
        season=model.season or "",
        days=tuple(days),
        propose=model.propose != "no",
        dishes=tuple((name, tree.place(("dishes",))) for name in model.dishes),
        without=tuple((name, tree.place(("without",))) for name in model.without),
        most_times=int(model.times),
        prices=tuple(
            Price(food, value, unit, tree.place(("prices", food)))
            for food, (value, unit) in model.prices.items()
        ),
        money=model.money,
        revised=model.revised,
        at=tree.place(()),
        places={key: tree.place((key,)) for key in tree.value},
    )
