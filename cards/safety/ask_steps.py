"""Questions about the steps: what is done, how long, in which order."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise
from typing import Any

from cards.nutrition.flow import minutes_of
from cards.safety.predicate import NO, Answer, about, predicate, told
from cards.safety.subject import COOKED_BEFORE, Subject, Verdict
from cards.source.vocabulary import heating


@predicate
def has_step(subject: Subject, action: str) -> Answer:
    """A step with this action."""
    return told(any(step.action == action for step in subject.recipe.steps))


@predicate
def steps_short(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """A food with one of the flags that the actions work on for less than so many minutes."""
    short = []
    for line in subject.lines(given["flags"]):
        if line.food.has("ready") or not COOKED_BEFORE.isdisjoint(line.ingredient.preps):
            continue
        if "soaked" in line.ingredient.preps and "soak" in given["actions"]:
            continue
        steps = subject.flow.reaching(line, given["actions"])
        weights = given.get("weights", {})
        if sum(minutes_of(s) * weights.get(s.action, 1) for s in steps) < given["minutes"]:
            short.append(line)
    return about(tuple(short))


@predicate
def never_cooked_after(subject: Subject, action: str) -> Answer:
    """A part with a step of this action and no cooking after it, there or where the part goes."""
    parts = subject.recipe.parts
    for index, part in enumerate(parts):
        # where the part goes, in later parts, it is cooked with them
        elsewhere = [
            step
            for later in parts[index + 1 :]
            for step in later.steps
            if any(subject.flow.part_called(use.name) is part for use in step.uses)
        ]
        for number, step in enumerate(part.steps):
            after = (*part.steps[number + 1 :], *elsewhere)
            if step.action == action and not any(s.action in heating() for s in after):
                return Answer(Verdict.YES, {}, step.at)
    return NO


@predicate
def waits_over_minutes(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """One step of the action lasts longer than so many minutes."""
    for step in subject.recipe.steps:
        if step.action == given["action"] and step.time and step.time.high > given["minutes"]:
            return Answer(Verdict.YES, {"time": f"{float(step.time.high) / 60:g} hours"}, step.at)
    return NO


@predicate
def keeps_over_minutes(subject: Subject, limit: int) -> Answer:
    """The recipe lets the cooked dish wait longer than the limit."""
    keep = subject.recipe.keep
    if keep is None or keep.fridge or keep.time.high <= limit:
        return NO
    hours = Fraction(keep.time.high, 60)
    told = "overnight" if keep.time.overnight else f"{float(hours):g} hours"
    return Answer(Verdict.YES, {"time": told}, subject.recipe.at_key("keep"))


@predicate
def stands_over_minutes(subject: Subject, limit: int) -> Answer:
    """After its last heat a part stands about longer than ``limit``, out of the cold."""
    for part in subject.recipe.parts:
        stood = Fraction(0)
        cooked = False
        for step in part.steps:
            if step.action in heating():
                stood, cooked = Fraction(0), True
            elif cooked and step.action in ("cool", "rest", "soak") and step.time is not None:
                stood += step.time.high
                if stood > limit:
                    hours = f"{float(stood / 60):.3g} hours"
                    return Answer(Verdict.YES, {"time": hours}, step.at)
    return NO


@predicate
def fridge_over_minutes(subject: Subject, limit: int) -> Answer:
    """The recipe keeps the cooked dish in a fridge longer than the limit."""
    keep = subject.recipe.keep
    if keep is None or not keep.fridge or keep.time.high <= limit:
        return NO
    hours = f"{float(keep.time.high / 60):g} hours"
    return Answer(Verdict.YES, {"time": hours}, subject.recipe.at_key("keep"))


@predicate
def never_heated_after(subject: Subject, action: str) -> Answer:
    """A cooked dish is done by this action, and no heat comes after it."""
    cooked = False
    for number, step in enumerate(subject.recipe.steps):
        cooked = cooked or step.action in heating()
        later = subject.recipe.steps[number + 1 :]
        hot = ("warm", *heating())
        if step.action == action and cooked and not any(s.action in hot for s in later):
            return Answer(Verdict.YES, {}, step.at)
    return NO


@predicate
def opened_at_once(subject: Subject, waits: list[str]) -> Answer:
    """What follows a pressure-cooking step is none of the waits."""
    steps = subject.recipe.steps
    for step, after in pairwise(steps):
        if step.action == "pressure-cook" and after.action not in waits:
            return Answer(Verdict.YES, {"action": after.action}, after.at)
    return NO


@predicate
def cooker_over(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """What goes into the pressure cooker takes more than its share of the cooker.

    Grams are taken as millilitres; where a food with one of ``frothing`` flags is in it,
    the smaller share holds. Water as needed cannot be reckoned.
    """
    lines = [
        line for line in subject.analysis.lines if subject.flow.reaching(line, ("pressure-cook",))
    ]
    frothing = any(line.food.has(*given["frothing"]) for line in lines)
    share = given["share_frothing"] if frothing else given["share"]
    litres = subject.programme.cooker_ml / 1000
    volume = sum(line.edible_g for line in lines) / 1000
    if volume > litres * share:
        place = next(s.at for s in subject.recipe.steps if s.action == "pressure-cook")
        facts = {
            "volume": f"{volume:.2g}",
            "most": f"{litres * share:.2g}",
            "litres": f"{litres:g}",
        }
        return Answer(Verdict.YES, facts, place)
    return NO


@predicate
def heats(subject: Subject, given: bool) -> Answer:
    """Some step heats the food."""
    return told(any(s.action in heating() for s in subject.recipe.steps) is given)


@predicate
def keeps_cold(subject: Subject, given: bool) -> Answer:
    """The recipe says that the dish is kept in a fridge."""
    return told((subject.recipe.keep is not None and subject.recipe.keep.fridge) is given)


@predicate
def ends_hot(subject: Subject, waits: list[str]) -> Answer:
    """The last step that heats, of any part, is followed by none of the waits before the end."""
    last = None
    for step in subject.recipe.steps:
        if step.action in ("warm", *heating()):
            last = step
        elif step.action in waits:
            last = None
    return NO if last is None else Answer(Verdict.YES, {"action": last.action}, last.at)
