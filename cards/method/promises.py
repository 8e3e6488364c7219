"""Does the recipe keep its promises: parts that come together, ready in time, enough for all?"""

from __future__ import annotations

from collections.abc import Iterator

from cards.diagnostics.diagnostic import Diagnostic, warning
from cards.foods.table import fold
from cards.method.lead import LONG_WAIT, lead_time
from cards.nutrition.analysis import Analysis
from cards.nutrition.flow import minutes_of
from cards.source.amounts import PORTION, Duration
from cards.source.recipe import Recipe, Step
from cards.source.vocabulary import actions


def unjoined_parts(recipe: Recipe) -> Iterator[Diagnostic]:
    """Parts that no step of another part brings to the rest of the dish."""
    cooked = [part for part in recipe.parts if part.steps]
    for part in cooked[:-1]:
        names = {fold(name) for name in part.name.values()}
        others = [step for other in recipe.parts if other is not part for step in other.steps]
        named = any(fold(use.name) in names for step in others for use in step.uses)
        served = any(step.action == "serve" and step.everything for step in others)
        if not named and not served:
            name = next(iter(part.name.values()), "the first part")
            last = next(iter(cooked[-1].name.values()), "the last part")
            yield warning(
                part.at,
                "part-unjoined",
                f'no later step takes the part "{name}" to the rest of the dish',
                f"name it where it goes in, or end with do: serve and use: {name}, {last}",
            )


def late(recipe: Recipe) -> Iterator[Diagnostic]:
    """A dish promised sooner than its steps allow."""
    if recipe.ready is None:
        return
    lead = lead_time(recipe)
    needed = lead.wait + lead.work
    if needed <= recipe.ready.high * 11 / 10:
        return
    slowest = max(recipe.steps, key=_minutes)
    long_wait = actions()[slowest.action].wait and _minutes(slowest) >= LONG_WAIT
    cause = f"; {slowest.action} alone takes {_told(_minutes(slowest))}" if long_wait else ""
    yield warning(
        recipe.at_key("ready"),
        "ready-too-soon",
        f"promised in {_told(int(recipe.ready.high))}, but the steps take {_told(needed)}{cause}",
        "write the whole time, waits and all, or take the line out: the card reckons it itself",
    )


def _minutes(step: Step) -> int:
    return _night(step.time) or minutes_of(step)


def _night(time: Duration | None) -> int:
    return int(time.low) if time is not None and time.overnight else 0


def _told(minutes: int) -> str:
    return f"{minutes} minutes" if minutes < 120 else f"{minutes / 60:.3g} hours"


def ill_equipped(recipe: Recipe, kitchen: frozenset[str]) -> Iterator[Diagnostic]:
    """Steps that need what the programme's kitchens do not have."""
    for step in recipe.steps:
        needed = actions()[step.action].needs
        if needed and needed not in kitchen:
            yield warning(
                step.at,
                "equipment-missing",
                f"this step needs a {needed}, and not every kitchen here has one",
                "cook it another way, or name it under kitchen: in programme.yaml",
            )


def too_few(recipe: Recipe, analysis: Analysis) -> Iterator[Diagnostic]:
    """More portions promised than the dish makes, at the smallest meal it is for."""
    promised = next((a for a in recipe.makes if a.unit == PORTION), None)
    if promised is None or not analysis.portions or len(recipe.makes) < 2:
        return
    least = min(analysis.portions, key=lambda p: p.grams_high)
    made = analysis.cooked_g / least.grams_high
    if made < float(promised.high) * 0.9:
        yield warning(
            recipe.at_key("makes"),
            "makes-less-than-promised",
            f"{promised} are promised, but the dish is {analysis.cooked_g:.0f} g: "
            f"{made:.1f} meals of {least.grams_high:.0f} g at {least.band} months",
            "cook more, or promise fewer",
        )
