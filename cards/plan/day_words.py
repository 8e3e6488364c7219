"""judge_days: what a plan's sums say to a trainer, each finding in one sentence."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from cards.diagnostics.diagnostic import Diagnostic, Place, note, warning
from cards.foods.components import components
from cards.foods.table import GROUPS
from cards.nutrition import breast_milk
from cards.nutrition.feeding import bands, documents, variety
from cards.nutrition.needs import Need, source_title
from cards.plan.day_milk_words import judge_milk
from cards.plan.day_model import LIVER_A_WEEK
from cards.plan.day_solver import Proposal, Reach
from cards.plan.day_sums import MILK_SLOT, BandSums, Limit, Meal
from cards.source.day import DayFile

ALMOST = 0.995
"""What rounds to a hundred per cent is not told as short."""


def judge_days(
    day: DayFile,
    meals: Sequence[Meal],
    sums: Sequence[BandSums],
    proposal: Proposal | None,
    advice: str,
) -> tuple[Diagnostic, ...]:
    """Warnings where a need is not met or a level passed, notes where it cannot be told.

    ``advice`` is whose advice on animal milk before 12 months the programme follows.
    """
    found: list[Diagnostic] = []
    for band in sums:
        reaches = [r for r in proposal.reaches if r.band == band.band] if proposal else []
        found += _days_of(band, day)
        found += _short(band, reaches, day.at)
        found += _over(band, day)
        found += _unknown(band, day.at)
    found += judge_milk(day, meals, sums, advice)
    found += _liver(day, meals)
    found += _often(day, meals)
    if proposal is not None and not proposal.proven:
        found.append(
            note(
                day.at,
                "plan-unproven",
                "the search was ended before every plan was looked at; a better one may exist",
                "name fewer dishes: under dishes:, or write down some meals yourself",
            )
        )
    return tuple(found)


def _name(tag: str) -> str:
    return components()[tag].name


def _percent(share: float) -> str:
    return f"{100 * share:.0f} %"


def _where(day: DayFile, number: int) -> str:
    return f"day {number + 1}: " if day.is_week else ""


def _days_of(band: BandSums, day: DayFile) -> Iterable[Diagnostic]:
    """Energy, meals and variety of each day."""
    facts = bands()[band.band]
    low, high = band.energy_need
    least, groups = variety()
    one = "" if band.milk == "none" else "breast milk is one; "
    sources = ("who2005",) if band.milk == "none" else ("who2009",)
    for number, total in enumerate(band.days):
        begin = f"{_where(day, number)}at {band.band} months, "
        if total.energy is None:
            what = f"{begin}energy cannot be told: too many foods have no figure"
            yield note(day.at, "plan-unknown", what, "see cards show --stage analysis")
        elif total.energy < ALMOST * low:
            what = f"{begin}food brings {total.energy:.0f} kcal, and {low:.0f} are needed"
            how = "add a meal, or a denser dish"
            if day.propose:
                how = "write recipes that are denser, or let dishes come more often with times:"
            yield _published(warning(day.at, "plan-short", what, how), *sources, "paho2003")
        elif total.energy > high / ALMOST:
            what = (
                f"{begin}food brings {total.energy:.0f} kcal; {high:.0f} cover nearly every child"
            )
            how = "never press a child to eat; leave out a meal, or milk is pushed away"
            yield _published(note(day.at, "plan-over", what, how), "paho2003")
        fed_least = facts.fed_least(band.milk)
        if total.meals < fed_least:
            what = f"{begin}{total.meals} times fed, and {fed_least} are the least"
            how = "write more recipes for this age" if day.propose else "add a meal"
            yield _published(warning(day.at, "plan-short", what, how), "unicef2021meals")
        if not total.diverse:
            missing = ", ".join(g for g in GROUPS if g not in total.groups)
            what = f"{begin}{total.variety} of {groups} food groups, and {least} are wanted"
            how = f"{one}choose a dish with one of: {missing}"
            yield _published(warning(day.at, "plan-short", what, how), "unicef2021")


def _short(band: BandSums, reaches: Sequence[Reach], at: Place) -> Iterable[Diagnostic]:
    """Needs that are not met, the weakest first, and how far the dishes on hand reach at all."""
    reach = {r.tag: r for r in reaches}
    with_milk = "" if band.milk == "none" else " with breast milk"
    for intake in band.weakest:
        if intake.share >= ALMOST:
            continue
        what = f"at {band.band} months, {_name(intake.tag)}: "
        best = reach.get(intake.tag)
        if best is not None and best.share < ALMOST:
            how_far = "the best these dishes reach is" if best.proven else "these dishes reach"
            what += f"{how_far} {_percent(best.share)} of the need"
            if intake.share < best.share - 0.01:
                what += f"; this plan, which looks at all needs, {_percent(intake.share)}"
        else:
            what += f"{_percent(intake.share)} of the need{with_milk}"
        least = "at least " if intake.least else ""
        told = f"{least}{intake.food:.3g} from food"
        if band.milk != "none":
            told += f", {intake.milk or 0:.3g} from milk"
        what += f" ({told}, of {intake.wanted:g} {components()[intake.tag].unit})"
        yield _resting(warning(at, "plan-short", what, _cure(intake.tag)), intake.need)


def _resting(found: Diagnostic, need: Need) -> Diagnostic:
    """A finding with the document its figure is from."""
    return replace(found, source=f"{source_title(need.source)} ({need.known})")


def _published(found: Diagnostic, *names: str) -> Diagnostic:
    return replace(found, source="; ".join(documents(*names)))


def _cure(tag: str) -> str:
    if tag == "FE":
        return (
            "food at home seldom brings enough iron at this age; ask the health worker about "
            "iron drops or powders, and give meat, fish, egg or pulses daily"
        )
    return "add a dish that is rich in it: cards show FILE --stage analysis tells what each brings"


def _over(band: BandSums, day: DayFile) -> Iterable[Diagnostic]:
    for upper in band.uppers:
        name, unit = _name(upper.tag), components()[upper.tag].unit
        begin = f"at {band.band} months, {name}"
        known = breast_milk.holds(upper.tag, band.band, band.milk) is not None
        known = known and band.milk != "none"
        whence = "with breast milk" if known else "from food alone"
        if upper.limit is Limit.OVER:
            what = (
                f"{_where(day, upper.most_day)}{begin} comes to {upper.most:.0f} {unit} {whence}; "
                f"the level not to go beyond is {upper.level:g}"
            )
            how = "choose another dish, or give less of it"
            yield _resting(warning(day.at, "plan-over", what, how), upper.need)
        elif upper.limit is Limit.NOT_DAILY:
            what = (
                f"{begin} comes to {upper.mean:.0f} {unit} a day {whence}; "
                f"the level for a child's every day is {upper.level:g}"
            )
            how = "do not give these dishes day after day; liver once a week at most"
            tell = warning if day.is_week else note
            yield _resting(tell(day.at, "plan-over", what, how), upper.need)
        elif upper.limit is Limit.UNKNOWN:
            what = f"{begin}: whether it stays under {upper.level:g} {unit} cannot be told"
            how = "too many foods have no figure for it"
            yield _resting(note(day.at, "plan-unknown", what, how), upper.need)


def _unknown(band: BandSums, at: Place) -> Iterable[Diagnostic]:
    if band.unknown:
        names = ", ".join(_name(tag) for tag in band.unknown)
        what = f"at {band.band} months it cannot be told whether there is enough of: {names}"
        how = "breast milk or too many of the foods have no figure here; a blank is not nothing"
        yield note(at, "plan-unknown", what, how)


def _liver(day: DayFile, meals: Sequence[Meal]) -> Iterable[Diagnostic]:
    livers = [meal for meal in meals if meal.dish.liver]
    if len(livers) > LIVER_A_WEEK:
        at = _place(day, livers[LIVER_A_WEEK])
        what = f"liver comes {len(livers)} times, and once a week is the most"
        yield warning(at, "plan-over", what, "put another dish in its place")


def _often(day: DayFile, meals: Sequence[Meal]) -> Iterable[Diagnostic]:
    """Dishes that come more often than the file itself allows."""
    dishes = Counter(meal.dish.id for meal in meals if meal.slot != MILK_SLOT)
    for name, times in dishes.items():
        if times > day.most_times:
            last = [meal for meal in meals if meal.dish.id == name][-1]
            what = f'"{name}" comes {times} times; this plan allows {day.most_times}'
            how = f"put another dish in its place, or write times: {times}"
            yield warning(_place(day, last), "plan-often", what, how)


def _place(day: DayFile, meal: Meal) -> Place:
    planned = day.days[meal.day].get(meal.slot)
    return planned.at if planned else day.at
