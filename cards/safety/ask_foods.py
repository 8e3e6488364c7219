"""Questions about the foods of a dish, and what is done to them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from cards.nutrition.line import Line
from cards.safety.predicate import NO, Answer, about, predicate, told
from cards.safety.subject import Subject, Verdict
from cards.source.vocabulary import heating


@predicate
def always(subject: Subject, given: bool) -> Answer:
    """Holds for every dish."""
    return told(bool(given))


@predicate
def feeds_below(subject: Subject, months: int) -> Answer:
    """The dish is for children younger than so many months."""
    return told(subject.recipe.age_from < months, age=str(subject.recipe.age_from))


@predicate
def has_food(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """A food with one of the flags, in one of the forms where forms are given."""
    return about(subject.lines(given["flags"], given.get("forms", ())))


@predicate
def has_allergen(subject: Subject, given: bool) -> Answer:
    """A food that commonly causes allergy."""
    return about(tuple(line for line in subject.analysis.lines if line.food.allergens))


@predicate
def untouched(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """A food with one of the flags and forms that none of the actions reaches.

    ``preps`` name what may have been done before the recipe begins instead;
    ``or_heat`` lets any cooking count, ``or_mashed`` a dish that is mashed whole.
    """
    names = [*given["actions"]]
    if given.get("or_heat"):
        names += heating()
    if given.get("or_mashed") and subject.mashed is Verdict.YES:
        return NO
    return about(
        tuple(
            line
            for line in subject.lines(given["flags"], given.get("forms", ()))
            if set(given["preps"]).isdisjoint(line.ingredient.preps)
            and not _reached(subject, line, names, given)
        )
    )


def _reached(subject: Subject, line: Line, names: Iterable[str], given: Mapping[str, Any]) -> bool:
    """Whether one of the actions reaches the food.

    With ``by_name`` a step that names foods is done to those alone, as bones are taken
    out of one fish; with ``before`` it has to come before any of those actions.
    """
    order = subject.recipe.steps
    before = given.get("before", ())
    steps = subject.flow.reaching(line, names)
    if given.get("by_name"):
        own = {id(s): p for p in subject.recipe.parts for s in p.steps}
        steps = tuple(s for s in steps if not s.uses or line in subject.flow.taken(s, own[id(s)]))
    ends = [order.index(step) for step in subject.flow.reaching(line, before)] if before else []
    return any(order.index(step) < min(ends, default=len(order)) for step in steps)


@predicate
def not_cooked(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """A food with one of the flags that no heat reaches."""
    lines = [line for line in subject.lines(given.get("flags", ())) if not line.food.has("ready")]
    lines += [
        line
        for line in subject.analysis.lines
        if line.food.group in given.get("groups", ())
        and line.food.form in given["forms"]
        and not line.food.has("ready")
    ]
    verdicts = {line: subject.cooked(line) for line in lines}
    raw = tuple(line for line, verdict in verdicts.items() if verdict is Verdict.NO)
    if raw:
        return about(raw)
    unsure = tuple(line for line, verdict in verdicts.items() if verdict is Verdict.UNKNOWN)
    return about(
        unsure,
        Verdict.UNKNOWN,
        "no step says it takes this food; name it in use: of the step that cooks it",
    )


@predicate
def no_end_sign(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """A food with one of the flags that is cooked, but no cooking step has one of the end signs."""
    open_ended = []
    for line in subject.lines(given["flags"]):
        steps = subject.flow.reaching(line, heating())
        if steps and not any(step.until in given["until"] for step in steps):
            open_ended.append(line)
    return about(tuple(open_ended))


@predicate
def share_over(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """Foods with one of the flags make more than a share of the cooked dish by weight."""
    lines = subject.lines(given["flags"])
    share = min(1.0, sum(line.edible_g for line in lines) / subject.analysis.cooked_g)
    if share <= given["share"]:
        return NO
    found = about(lines)
    return Answer(found.verdict, {**found.facts, "share": f"{share:.0%}"}, found.place)


@predicate
def juice_over(subject: Subject, portion_g: float) -> Answer:
    """The largest portion holds more juice than ``portion_g``, bought or pressed."""
    lines = tuple(
        line
        for line in subject.analysis.lines
        if line.food.has("juice") or "juice" in line.ingredient.preps
    )
    return _a_portion_over(subject, lines, portion_g)


@predicate
def grams_a_portion_over(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """The largest portion holds more grams of foods with one of the flags than ``grams``."""
    return _a_portion_over(subject, subject.lines(given["flags"]), given["grams"])


def _a_portion_over(subject: Subject, lines: tuple[Line, ...], most_g: float) -> Answer:
    """Whether the largest portion holds more than ``most_g`` of the foods, before cooking."""
    largest = max((p.grams_high for p in subject.analysis.portions), default=0.0)
    grams = sum(line.edible_g for line in lines) * largest / subject.analysis.cooked_g
    if grams <= most_g:
        return NO
    found = about(lines)
    return Answer(found.verdict, {**found.facts, "amount": f"{grams:.0f}"}, found.place)


@predicate
def allergens_over(subject: Subject, most: int) -> Answer:
    """The dish holds more than so many foods that commonly cause allergy."""
    names = dict.fromkeys(a for line in subject.analysis.lines for a in line.food.allergens)
    return told(len(names) > most, allergens=", ".join(names))


@predicate
def speaks_of(subject: Subject, words: Mapping[str, list[str]]) -> Answer:
    """The recipe's own words, in any language, hold one of the words, whole."""
    recipe = subject.recipe
    texts = [(recipe.title, recipe.at_key("title"))]
    texts += [(part.name, part.at) for part in recipe.parts]
    texts += [(line.names, line.at) for line in recipe.ingredients]
    texts += [(step.words, step.at) for step in recipe.steps]
    for said, place in texts:
        for language, text in said.items():
            for word in words.get(language, ()):
                if re.search(rf"(?<!\w){re.escape(word)}(?!\w)", text, re.IGNORECASE):
                    return Answer(Verdict.YES, {"word": word}, place)
    return NO


@predicate
def follows_advice(subject: Subject, milk: str) -> Answer:
    """The programme follows this advice on animal milk."""
    return told(subject.programme.milk == milk)
