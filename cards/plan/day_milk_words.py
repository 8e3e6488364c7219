"""judge_milk: what is said of the milk of a child who is not breastfed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from cards.diagnostics.diagnostic import Diagnostic, note, warning
from cards.nutrition.feeding import bands, documents, without_milk
from cards.plan.day_sums import MILK_SLOT, BandSums, Meal
from cards.source.day import DayFile

OF_ANIMALS = frozenset(("flesh", "eggs"))
"""Food groups of animals besides milk."""

REGULARLY = 0.5
"""Part of the days from which on food of animals is eaten regularly (our own choice)."""

FOLLOWS_WHO = "WHO (2023) guideline for complementary feeding, recommendation on milks"
FOLLOWS_CDC = "US CDC, Foods and drinks to avoid or limit (cow milk as main drink)"


def judge_milk(
    day: DayFile, meals: Sequence[Meal], sums: Sequence[BandSums], advice: str
) -> Iterable[Diagnostic]:
    """Milk feeds, how much milk, and whether it may be given at this age."""
    if day.milk != "none":
        return
    at = day.feeds.at if day.feeds else day.at_key("milk")
    yield _health_worker(day)
    facts = without_milk()
    feeds = day.feeds.times if day.feeds else 0
    if feeds < facts.least_feeds:
        what = f"{feeds} milk feeds a day, and {facts.least_feeds} are the least"
        how = "write milk feeds: 2 of 3/4 cup cow milk; a bowl of plain curd is one too"
        yield _from(warning(at, "milk-short", what, how), "unicef2021feeds")
    eaten = [
        any(OF_ANIMALS & set(m.dish.groups) for m in meals if m.day == n)
        for n in range(len(day.days))
    ]
    regularly = sum(eaten) > REGULARLY * len(eaten)
    low, high = facts.beside_animal_foods_ml if regularly else facts.alone_ml
    beside = "beside egg, meat or fish" if regularly else "where egg, meat or fish are seldom eaten"
    for band in sums:
        mean = sum(total.milk_ml for total in band.days) / len(band.days)
        begin = f"at {band.band} months, cups and dishes hold {mean:.0f} ml of milk a day; "
        if mean < low:
            what = f"{begin}{low:g} to {high:g} are wanted {beside}"
            how = "write larger or more cups under milk feeds:, or add dishes with milk or curd"
            yield _from(warning(at, "milk-short", what, how), "who2005")
        elif mean > high:
            what = f"{begin}{low:g} to {high:g} are enough {beside}"
            how = "give less: milk has little iron, and leaves no room for food"
            yield _from(note(at, "milk-over", what, how), "who2005")
    young = [name for name in day.bands if bands()[name].last_month < 12]
    if young and any(m.slot == MILK_SLOT for m in meals):
        what = f"animal milk to drink at {', '.join(young)} months: "
        if advice == "from-12-months":
            what += "the programme follows advice that gives none before 12"
            how = "ask the health worker about infant formula, or change milk: in programme.yaml"
            yield replace(warning(at, "milk-too-young", what, how), source=FOLLOWS_CDC)
        else:
            what += "WHO allows it where a child is not breastfed, other advice not before 12"
            how = "follow national advice; milk: from-12-months in programme.yaml tells it louder"
            yield replace(note(at, "milk-too-young", what, how), source=FOLLOWS_WHO)


def _health_worker(day: DayFile) -> Diagnostic:
    what = "a child who is not breastfed needs the health worker's advice before this plan"
    how = (
        "ask whether breastfeeding can go on or begin again, about iron and vitamins, and about "
        "milk; give boiled milk and water from a cup, never from a bottle"
    )
    return note(day.at_key("milk"), "not-breastfed", what, how)


def _from(found: Diagnostic, name: str) -> Diagnostic:
    return replace(found, source="; ".join(documents(name)))
