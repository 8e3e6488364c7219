"""A plan as a table for people, and as JSON for other programs."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any

from cards.batch.day import DayPlan
from cards.diagnostics.diagnostic import Diagnostic
from cards.foods.components import components
from cards.nutrition import breast_milk, feeding
from cards.nutrition.needs import Need, source_title
from cards.plan.day_sums import PARTLY, BandSums, DayTotal, Intake, Meal
from cards.source.amounts import Amount

CAVEAT = (
    "The needs are those of groups of healthy children. This guides; national guidance and the\n"
    "health worker come first, above all for a child who is ill, very thin or not breastfed."
)


def day_text(plan: DayPlan, language: str) -> str:
    """Meals by day with amounts by age, then the sums of each age and where they are from."""
    day = plan.file
    ages = ", ".join(f"{band} months" for band in day.bands)
    season = f", {day.season}" if day.season else ""
    milk = f"{_milk(day.milk)}{season}"
    lines = [f"{day.title.get(language, '')}: {ages}, {milk}", ""]
    for number in range(len(day.days)):
        if day.is_week:
            lines.append(f"day {number + 1}")
        for meal in plan.meals:
            if meal.day == number:
                lines.append(_meal_line(meal, day.bands, language))
    for sums in plan.sums:
        lines += ["", *_band_lines(sums, plan)]
    if plan.proposal is not None:
        end = "no better plan was left" if plan.proposal.proven else "the search was ended early"
        wish = "the cheapest of them" if plan.cheapest else "the simplest of them"
        lines += ["", f"proposed: what must be, then the needs, then {wish}; {end}"]
    of = ", ".join(part for part in (day.path, day.revised, day.digest) if part)
    return "\n".join((*lines, "", *_sources(plan), "", CAVEAT, of)) + "\n"


def _meal_line(meal: Meal, bands: Sequence[str], language: str) -> str:
    amounts = "; ".join(f"{band}: {_amount(meal, band)}" for band in bands)
    title = meal.dish.title.get(language, meal.dish.id)
    return f"  {meal.slot:10} {title} [{meal.dish.id}]  {amounts}"


def _amount(meal: Meal, band: str) -> str:
    serving = meal.serving(band)
    number = serving.number(meal.steps[band])
    return str(Amount(number, number, serving.unit))


def _band_lines(sums: BandSums, plan: DayPlan) -> Iterable[str]:
    low, high = sums.energy_need
    milk = breast_milk.litres(sums.band, sums.milk)
    much = f" ({1000 * milk:.0f} ml a day)" if milk else ""
    yield f"{sums.band} months, {_milk(sums.milk)}{much}"
    yield f"  energy from food, wanted {low:.0f} to {high:.0f} kcal a day"
    least, groups = feeding.variety()
    for number, total in enumerate(sums.days):
        energy = "cannot tell" if total.energy is None else f"{total.energy:.0f} kcal"
        cost = f", costs {total.cost:.2f} {plan.file.money}".rstrip() if plan.file.prices else ""
        if plan.file.prices and total.cost is None:
            cost = ", cost cannot be told"
        yield (
            f"    day {number + 1}: {energy}, fed {total.meals} times, "
            f"{total.variety} of {groups} food groups ({least} wanted){_cups(sums, total)}{cost}"
        )
    yield "  a day" + (", the mean of all days" if plan.file.is_week else "")
    yield _row("", "unit", "food", "milk", "need", "met")
    for intake in sums.intakes:
        yield _intake_row(intake)
    yield "  not to go beyond" + _row("", "", "a day", "most", "level", "")[18:].rstrip()
    for upper in sums.uppers:
        part = components()[upper.tag]
        cells = (_figure(upper.mean), _figure(upper.most), _figure(upper.level))
        yield _row(part.name, part.unit, *cells, "") + f"  {upper.limit.value}"


def _milk(milk: str) -> str:
    return "not breastfed" if milk == "none" else f"{milk} breast milk"


def _cups(sums: BandSums, total: DayTotal) -> str:
    if sums.milk != "none":
        return ""
    return f", {total.feeds} milk feeds, {total.milk_ml:.0f} ml of milk in all"


def _intake_row(intake: Intake) -> str:
    part = components()[intake.tag]
    least = ">=" if intake.least else ""
    milk = "?" if intake.milk is None else _figure(intake.milk)
    share = (
        f"{'>=' if intake.milk is None or intake.tag in PARTLY else ''}{100 * intake.share:.0f} %"
    )
    row = _row(
        part.name, part.unit, least + _figure(intake.food), milk, _figure(intake.wanted), share
    )
    return f"{row}  {intake.standing.value}"


def _row(name: str, unit: str, *cells: str) -> str:
    return f"    {name:22} {unit:5}" + "".join(f"{cell:>10}" for cell in cells)


def _figure(value: float) -> str:
    return f"{value:.0f}" if value >= 100 else f"{value:.3g}"


def _sources(plan: DayPlan) -> Iterable[str]:
    yield "sources"
    seen: dict[str, list[str]] = {}
    for sums in plan.sums:
        for need in (*(i.need for i in sums.intakes), *(u.need for u in sums.uppers)):
            told = seen.setdefault(_source(need), [])
            name = components()[need.tag].name
            if name not in told:
                told.append(name)
    for source, names in seen.items():
        yield f"  {source}: {', '.join(names)}"
    names = ["who2009", "paho2003", "unicef2021", "unicef2021meals", "dewey2003"]
    if plan.file.milk == "none":
        names = ["who2005", "paho2003", "unicef2021", "unicef2021meals", "unicef2021feeds"]
    yield from (f"  {document}" for document in feeding.documents(*names))
    if plan.file.milk == "low":
        yield "  low breast milk: litres computed from its energy (PAHO/WHO 2003, memory)"


def _source(need: Need) -> str:
    return f"{source_title(need.source)} ({need.known})"


def day_json(plan: DayPlan, told: Iterable[Diagnostic]) -> str:
    """One JSON document: the plan, its meals and sums, sources, messages."""
    day = plan.file
    document: dict[str, Any] = {
        "file": day.path,
        "ages": list(day.bands),
        "milk": day.milk,
        "season": day.season,
        "days": len(day.days),
        "proposed": plan.proposal is not None,
        "proven": plan.proposal.proven if plan.proposal else None,
        "meals": [_meal_json(meal, day.bands) for meal in plan.meals],
        "sums": {sums.band: _sums_json(sums) for sums in plan.sums},
        "messages": [
            {"line": d.place.line, "severity": d.severity.word, "kind": d.kind,
             "message": d.message, "hint": d.hint, "source": d.source}
            for d in told
        ],
    }  # fmt: skip
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def _meal_json(meal: Meal, bands: Iterable[str]) -> dict[str, Any]:
    return {
        "day": meal.day + 1,
        "meal": meal.slot,
        "recipe": meal.dish.id,
        "digest": meal.dish.digest,
        "amounts": {
            band: {
                "number": float(meal.serving(band).number(meal.steps[band])),
                "unit": meal.serving(band).unit,
                "grams": round(meal.grams(band), 1),
            }
            for band in bands
        },
    }


def _sums_json(sums: BandSums) -> dict[str, Any]:
    return {
        "energy_from_food_kcal": {"least": sums.energy_need[0], "most": sums.energy_need[1]},
        "days": [
            {"kcal": t.energy, "fed": t.meals, "groups": list(t.groups), "cost": t.cost,
             "milk_feeds": t.feeds, "milk_ml": round(t.milk_ml, 1)}
            for t in sums.days
        ],
        "needs": {
            i.tag: {"unit": components()[i.tag].unit, "food": i.food, "milk": i.milk,
                    "need": i.wanted, "standing": i.standing.value, "at_least": i.least,
                    "source": source_title(i.need.source), "known": i.need.known}
            for i in sums.intakes
        },
        "not_beyond": {
            u.tag: {"unit": components()[u.tag].unit, "mean": u.mean, "most": u.most,
                    "level": u.level, "standing": u.limit.value,
                    "source": source_title(u.need.source), "known": u.need.known}
            for u in sums.uppers
        },
    }  # fmt: skip
