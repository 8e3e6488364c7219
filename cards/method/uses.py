"""Do the steps use what is listed, all of it, and no more?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from cards.diagnostics.diagnostic import Diagnostic, error, warning
from cards.diagnostics.nearest import did_you_mean
from cards.foods.mass import grams_of
from cards.foods.units import Measures
from cards.nutrition.flow import Flow
from cards.nutrition.line import Line
from cards.source.amounts import EACH, SHARE, SIZED, Amount
from cards.source.recipe import Step, Use

ROUGHLY = Fraction(1, 10)
"""How far sums of unlike measures may miss the listed amount (common practice)."""

_WHOLE_THINGS = (EACH, *SIZED, "piece", "leaf", "slice", "clove")
"""Measures of things that a later step can name again: two eggs boiled are two eggs peeled."""


def unknown_uses(flow: Flow) -> Iterator[Diagnostic]:
    """Foods and parts that a step takes and nothing lists."""
    names = [line.ingredient.food for line in flow.lines]
    names += [name for part in flow.recipe.parts for name in part.name.values()]
    for step in flow.recipe.steps:
        for use in step.uses:
            if not flow.part_called(use.name) and not flow.named(use.name):
                yield error(
                    step.use_at,
                    "use-unknown",
                    f'this step takes "{use.name}", which is not among the ingredients',
                    did_you_mean(use.name, names, f"listed: {', '.join(dict.fromkeys(names))}"),
                )


_TAKE_NOTHING_UP = (
    "cool",
    "rest",
    "chill",
    "warm",
    "ferment",
    "sprout",
    "drain",
    "strain",
    "debone",
    "take-out",
    "serve",
)
"""Actions that, where a step names no food, go on with what is in hand and add nothing to it."""


def unused(flow: Flow) -> Iterator[Diagnostic]:
    """Foods that are listed and go nowhere: no step names them or takes all there is."""
    for part in flow.recipe.parts:
        sweeping = any(
            s.everything or (not s.uses and s.action not in _TAKE_NOTHING_UP) for s in part.steps
        )
        for line in flow.of_part(part):
            if not sweeping and not flow.ever_named(line) and not line.food.has("water"):
                yield warning(
                    line.ingredient.at,
                    "ingredient-unused",
                    f"no step takes the {line.food.name}",
                    "name it in use: of the step that it goes into",
                )


@dataclass
class _Taken:
    """How much of a line its steps have taken so far, as a share of what is listed."""

    share: Fraction = Fraction(0)
    first: Use | None = None
    exact: bool = True
    told: bool = False


def over_and_under(flow: Flow, measures: Measures) -> Iterator[Diagnostic]:
    """More of a food taken than is listed, or some of it left over."""
    taken: dict[Line, _Taken] = {}
    steps = [(step, part) for part in flow.recipe.parts for step in part.steps]
    last = {
        line: number
        for number, (step, _) in enumerate(steps)
        for use in step.uses
        for line in flow.named(use.name)
    }
    for number, (step, part) in enumerate(steps):
        if step.everything:  # takes what is left, unless a later step says that it takes it
            for line, state in taken.items():
                if last[line] < number:
                    state.share = max(state.share, Fraction(1))
        for use in step.uses:
            lines = () if flow.part_meant(use.name, part) else flow.named(use.name)
            if len(lines) == 1:
                yield from _take(
                    taken.setdefault(lines[0], _Taken()), lines[0], use, step, measures
                )
    for line, state in taken.items():
        if state.exact and state.share < 1 - ROUGHLY and not state.told:
            yield warning(
                line.ingredient.at,
                "left-over",
                f"the steps take {_percent(state.share)} of the {line.food.name} listed here",
                "say in which step the rest goes in: use: the rest of "
                f"{line.ingredient.food}; or list less",
            )


def _take(
    state: _Taken, line: Line, use: Use, step: Step, measures: Measures
) -> Iterator[Diagnostic]:
    if use.amount is None:
        # named without an amount it is all there is, or what is left of it
        if use.rest and state.first is None:
            yield warning(
                step.use_at,
                "rest-of-nothing",
                f"this step takes the rest of the {line.food.name}, but no step took any before",
                "say how much the earlier step takes, as in use: 1 tsp ghee",
            )
        state.first = state.first or use
        state.share = max(state.share, Fraction(1))
        return
    share = _share(use.amount, line, measures)
    if share is None:
        state.exact = False
        state.first = state.first or use
        return
    again = share == 1 and _listed_in(line, _WHOLE_THINGS)
    state.first = state.first or use
    if again:
        state.share = max(state.share, Fraction(1))
        return
    state.share += share
    slack = Fraction(0) if _same_measure(use.amount, line) else ROUGHLY
    if state.share > 1 + slack and not state.told:
        state.told = True
        listed = line.amount or line.ingredient.grams
        yield error(
            step.use_at,
            "used-more-than-listed",
            f"with this step {_percent(state.share)} of the {line.food.name} is used up; "
            f"{listed} {'is' if listed and listed.high <= 1 else 'are'} listed",
            f"list more {line.ingredient.food}, or take less in the steps",
        )


def _percent(share: Fraction) -> str:
    return f"{round(float(share) * 100)} %"


def _listed_in(line: Line, units: tuple[str, ...]) -> bool:
    return line.amount is not None and line.amount.unit in units


def _same_measure(amount: Amount, line: Line) -> bool:
    return amount.unit == SHARE or (line.amount is not None and amount.unit == line.amount.unit)


def _share(amount: Amount, line: Line, measures: Measures) -> Fraction | None:
    """The part of the line's amount that ``amount`` is; None where it cannot be reckoned."""
    listed = line.amount
    if amount.unit == SHARE:
        return amount.high
    if amount.unit == EACH and amount.high < 1 and not _listed_in(line, _WHOLE_THINGS):
        return amount.high  # "1/2 ghee" is half of it
    if listed is not None and listed.unit == amount.unit and listed.high:
        return amount.high / listed.high
    grams = grams_of(amount, line.food, measures)
    whole = line.edible_g
    return Fraction(grams / whole).limit_denominator(1000) if grams and whole else None
