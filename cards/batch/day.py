"""A day or a week of meals: read, filled, summed and judged."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from cards.batch.day_kitchen import OnHand, dishes_for
from cards.batch.kit import Kit
from cards.card.origin import draft_codes
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error, note
from cards.plan.day_dishes import STEP, Dish
from cards.plan.day_model import Wish
from cards.plan.day_solver import Proposal, Told, propose, silent
from cards.plan.day_sums import BandSums, Meal, sum_days
from cards.plan.day_words import judge_days
from cards.source.day import BETWEEN, DayFile, Planned, read_day
from cards.source.grounds import day_grounds
from cards.source.workspace import Workspace, read_text

MOST_STEPS = 40
"""Steps of an amount that is written down: ten cups."""


@dataclass(frozen=True, slots=True)
class DayPlan:
    """A plan with its meals and sums."""

    file: DayFile
    carried: Mapping[str, str]
    """Texts that its chart carries, of what it rests on."""
    meals: tuple[Meal, ...]
    sums: tuple[BandSums, ...]
    proposal: Proposal | None
    cheapest: bool


def plan_day(path: Path, workspace: Workspace, kit: Kit, tell: Told = silent) -> Result[DayPlan]:
    """A plan's file taken as far as it goes; ``tell`` hears what is searched for."""
    name = workspace.name(path)
    text = read_text(path, name)
    if text.value is None:
        return Result(None, text.diagnostics)
    read = read_day(text.value, name, kit.programme)
    if read.value is None:
        return Result(None, read.diagnostics)
    day = read.value
    told = list(read.diagnostics)
    hand = dishes_for(day, workspace, kit)
    told += hand.diagnostics
    if hand.value is None:
        return Result(None, tuple(told))
    fixed = written_meals(day, hand.value.by_id)
    told += fixed.diagnostics
    if fixed.value is None:
        return Result(None, tuple(told))
    meals, proposal, cheapest = fixed.value, None, False
    if day.propose:
        if not hand.value.proposable:
            return Result(None, (*told, _nothing_on_hand(day)))
        cheapest = bool(day.prices)
        told += _unpriced(day, hand.value)
        cheapest = cheapest and all(d.per_g is not None for d in hand.value.proposable)
        proposal = propose(
            Wish(
                dishes=hand.value.proposable,
                bands=day.bands,
                milk=day.milk,
                days=len(day.days),
                most_times=day.most_times,
                fixed=meals,
                cheapest=cheapest,
                cups=hand.value.cups,
            ),
            kit.needs,
            tell,
        )
        meals = proposal.meals
    cups = [replace(cup, day=n) for n in range(len(day.days)) for cup in hand.value.cups]
    meals = (*meals, *cups)
    sums = tuple(sum_days(meals, len(day.days), band, day.milk, kit.needs) for band in day.bands)
    told += judge_days(day, meals, sums, proposal, kit.programme.milk)
    codes = [lang.code for lang in kit.languages]
    grounds = day_grounds(day, text.value, kit.shelf, codes)
    unread = {code for meal in meals for code in hand.value.drafts.get(meal.dish.id, ())}
    unread.update(draft_codes(kit.languages))
    drafts = tuple(code for code in codes if code in unread)
    day = replace(day, digest=grounds.digest(drafts), drafts=drafts)
    return Result(DayPlan(day, grounds.carried, meals, sums, proposal, cheapest), tuple(told))


def written_meals(day: DayFile, dishes: Mapping[str, Dish]) -> Result[tuple[Meal, ...]]:
    """The meals a file writes down, with the usual portion where it gives no amount."""
    faults: list[Diagnostic] = []
    meals: list[Meal] = []
    for number, planned in enumerate(day.days):
        for slot, one in planned.items():
            dish = dishes[one.dish]
            steps: dict[str, int] = {}
            for band in day.bands:
                found = _steps(one, slot, dish, band)
                if isinstance(found, int):
                    steps[band] = found
                else:
                    faults.append(found)
                    break
            meals.append(Meal(number, slot, dish, steps))
    return Result(None if faults else tuple(meals), tuple(faults))


def _steps(one: Planned, slot: str, dish: Dish, band: str) -> int | Diagnostic:
    serving = dish.servings[band]
    if one.number is None:
        return (serving.between if slot in BETWEEN else serving.main)[1]
    steps = one.number / STEP[serving.unit]
    if one.unit == serving.unit and steps.denominator == 1 and steps <= MOST_STEPS:
        return int(steps)
    usual = f"{serving.number(serving.main[1])} {serving.unit}"
    what = f'at {band} months an amount of "{dish.id}" is told in steps of '
    what += f"{STEP[serving.unit]} {serving.unit}"
    return error(one.at, "dish-amount", what, f"write it like {usual} {dish.id}")


def _nothing_on_hand(day: DayFile) -> Diagnostic:
    ages = ", ".join(day.bands)
    at: Place = day.at_key("dishes") if day.dishes else day.at_key("propose")
    return error(
        at,
        "dishes-none",
        f"there is no dish on hand for {ages} months that could be proposed",
        "write recipes for this age, name more under dishes:, or shorten without:",
    )


def _unpriced(day: DayFile, hand: OnHand) -> tuple[Diagnostic, ...]:
    """Dishes whose cost cannot be told; then the cheapest plan is not looked for."""
    lacking = [dish for dish in hand.proposable if dish.per_g is None]
    if not day.prices or not lacking:
        return ()
    foods = list(dict.fromkeys(food for dish in lacking for food in dish.unpriced))
    return (
        note(
            day.at_key("prices"),
            "price-missing",
            f"the cheapest plan is not looked for: no price for {', '.join(foods[:12])}",
            "add their prices, or name under dishes: only those that you know the prices of",
        ),
    )
