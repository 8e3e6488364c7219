"""Questions about what one portion, one day or the whole dish holds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from cards.nutrition import feeding
from cards.nutrition.analysis import Portion
from cards.nutrition.feeding import Band
from cards.safety.predicate import NO, Answer, predicate, told
from cards.safety.subject import Subject, Verdict


@predicate
def portion_over_share(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """The larger portion holds more than a share of the day's limit of its age band."""
    return _eaten_over(subject, given["tag"], given["limits"], given["share"], lambda portion: 1)


@predicate
def day_over(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """Eaten at every meal of the day the dish holds more of a component than the day's limit."""
    return _eaten_over(subject, given["tag"], given["limits"], 1, lambda portion: portion.meals[1])


def _eaten_over(
    subject: Subject,
    tag: str,
    limits: Mapping[str, float],
    share: float,
    meals_of: Callable[[Portion], int],
) -> Answer:
    """Whether so many meals hold more of a component than a share of their band's limit."""
    for portion in subject.analysis.portions:
        if portion.band not in limits:
            continue
        meals, limit = meals_of(portion), limits[portion.band] * share
        amount = portion.per_portion[tag] * meals
        if amount > limit:
            facts = {
                "amount": f"{amount:.0f}",
                "limit": f"{limit:g}",
                "band": portion.band,
                "meals": str(meals),
            }
            return Answer(Verdict.YES, facts)
    total = subject.analysis.totals[tag]
    if not total.judgeable:
        return Answer(Verdict.UNKNOWN, {}, None, f"no figure for {', '.join(total.missing)}")
    return NO


@predicate
def groups_under(subject: Subject, least: int) -> Answer:
    """The dish brings fewer food groups than ``least``."""
    groups = subject.analysis.groups
    return told(len(groups) < least, groups=", ".join(groups) or "none")


@predicate
def portion_over(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """The largest portion holds more of a component than the limit, in the component's unit."""
    tag, limit = given["tag"], given["limit"]
    total = subject.analysis.totals[tag]
    most = max((p.per_portion[tag] for p in subject.analysis.portions), default=0.0)
    if most > given.get("unless_over", float("inf")):
        return NO
    if most > limit:
        source = max(
            subject.analysis.lines,
            key=lambda li: (
                li.edible_g * (li.food.figures[tag].value if tag in li.food.figures else 0.0)
            ),
        )
        times = int(7 * 600 // most)
        word = "once" if times == 1 else f"{times} times"
        return Answer(
            Verdict.YES,
            {"amount": f"{most:.0f}", "times": word, "foods": source.food.name},
            source.ingredient.at,
        )
    if total.missing and subject.lines(("liver",)):
        return Answer(Verdict.UNKNOWN, {}, None, f"no figure for {', '.join(total.missing)}")
    return NO


@predicate
def meals_over(subject: Subject, most: int) -> Answer:
    """The dish is so thin that a band would need more than ``most`` meals a day.

    Where the density is not known, ``meals_over_published`` says so once for both.
    """
    if subject.analysis.energy_density is None:
        return NO
    return _thin(subject, lambda band, needed: needed > most)


@predicate
def meals_over_published(subject: Subject, unless_over: int) -> Answer:
    """A band would need more meals than the published most, but not over ``unless_over``."""
    if meals_over(subject, unless_over).verdict is Verdict.YES:
        return NO
    return _thin(subject, lambda band, needed: needed > band.meals[1])


def _thin(subject: Subject, too_many: Callable[[Band, int], bool]) -> Answer:
    if subject.analysis.cooked_doubted:
        return NO  # the weight has been spoken of already
    density = subject.analysis.energy_density
    if density is None:
        return Answer(Verdict.UNKNOWN, {}, None, "too little of the dish has a known energy")
    for portion in subject.analysis.portions:
        band = feeding.bands()[portion.band]
        if density <= 0 or too_many(band, band.whole_meals(density)):
            meals = f"{band.meals_needed(density):.1f}" if density > 0 else "endless"
            facts = {"density": f"{density:.2f}", "band": portion.band, "meals": meals}
            return Answer(Verdict.YES, facts, subject.recipe.at_key("makes"))
    return NO
