"""Step words: the author's own where given, else the language's sentence for the action."""

from __future__ import annotations

from fractions import Fraction

from cards.card.need_words import own_word
from cards.nutrition.analysis import Analysis
from cards.nutrition.flow import Flow
from cards.nutrition.line import Line
from cards.source.amounts import EACH, SHARE, SIZED, Duration
from cards.source.recipe import Recipe, Step, Use
from cards.source.vocabulary import SIZES_MM
from cards.words.language import Language
from cards.words.numbers import number_range

_NAMED_AT_MOST = 3
"""More foods than this in a sentence nobody remembers; then it says "everything"."""


def step_sentence(step: Step, recipe: Recipe, analysis: Analysis, language: Language) -> str:
    """The sentence of a step in a language."""
    own = step.words.get(language.code)
    if own:
        return own
    return f"{_sentence(step, recipe, analysis, language)} {water_words(step, language)}".strip()


def water_words(step: Step, language: Language) -> str:
    """What becomes of the step's water, in words; empty where the recipe does not say."""
    if step.water_kept is None:
        return ""
    return language.phrase("water-kept" if step.water_kept else "water-thrown")


def _sentence(step: Step, recipe: Recipe, analysis: Analysis, language: Language) -> str:
    return language.sentence(
        step.action,
        foods=_foods(step, recipe, analysis, language),
        time=time_words(step.time, language),
        until=language.end(step.until),
        whistles=whistle_words(step, language),
        size=size_words(step.size_mm, language),
    )


def _foods(step: Step, recipe: Recipe, analysis: Analysis, language: Language) -> str:
    # where only some of a food goes in, "everything" would be wrong
    partly = any(use.amount or use.rest for use in step.uses)
    if step.everything:
        return language.phrase("everything")
    if len(step.uses) > _NAMED_AT_MOST and not partly:
        left = _left_out(step, recipe, analysis)
        if not left:
            return language.phrase("everything")
        if len(left) < _NAMED_AT_MOST:
            names = [use_name(line.ingredient.food, recipe, analysis, language) for line in left]
            return language.phrase("all-but", foods=language.listed(names))
    if not step.uses:
        return language.phrase("it")
    return language.listed([_taken(use, recipe, analysis, language) for use in step.uses])


def _left_out(step: Step, recipe: Recipe, analysis: Analysis) -> list[Line]:
    """Foods of the step's part that neither it nor a step before it takes."""
    flow = Flow(recipe, analysis.lines)
    part = next(part for part in recipe.parts if step in part.steps)
    so_far = part.steps[: part.steps.index(step) + 1]
    taken = {line for each in so_far for line in flow.taken(each, part)}
    return [line for line in flow.of_part(part) if line not in taken]


def _taken(use: Use, recipe: Recipe, analysis: Analysis, language: Language) -> str:
    """A food with as much of it as the step takes."""
    name = use_name(use.name, recipe, analysis, language)
    if use.rest:
        return language.phrase("rest-of", food=name)
    if use.amount is None:
        return name
    number = number_range(use.amount.low, use.amount.high)
    if use.amount.unit == SHARE:
        return language.phrase("share-of", number=number, food=name)
    if use.amount.unit == EACH:
        return f"{number} {name}"
    unit = language.unit(use.amount.unit, use.amount.high)
    return f"{language.measured(use.amount.low, use.amount.high, unit)} {name}"


def use_name(use: str, recipe: Recipe, analysis: Analysis, language: Language) -> str:
    """What a step calls a food or part, in a language."""
    for part in recipe.parts:
        if use.casefold() in (name.casefold() for name in part.name.values()):
            # a heading begins large; in the middle of a sentence the same word does not
            name = part.name.get(language.code, use)
            return name[:1].lower() + name[1:]
    for line in Flow(recipe, analysis.lines).named(use):
        own = line.ingredient.names.get(language.code) or own_word(line, language)
        amount = line.ingredient.amount
        counted = amount is not None and amount.unit in (EACH, *SIZED)
        number = amount.high if amount is not None and counted else Fraction(1)
        return own or language.food(line.food.id, line.food.name, number)
    return use


def time_words(time: Duration | None, language: Language) -> str:
    """A step's time in words: "for 10–12 minutes", "overnight"."""
    if time is None:
        return ""
    if time.overnight:
        return language.phrase("overnight")
    for name, minutes in (("for-days", 1440), ("for-hours", 60)):
        low, high = time.low / minutes, time.high / minutes
        if low >= 1 and low.denominator <= 2 and high.denominator <= 2:
            return _counted(name, low, high, language)
    return _counted("for-minutes", time.low, time.high, language)


def size_words(size_mm: float | None, language: Language) -> str:
    """How small the pieces, in words; empty where the step does not say."""
    if size_mm is None:
        return ""
    for name, millimetres in SIZES_MM.items():
        if millimetres == size_mm:
            return language.phrase(f"size-{name}")
    return f"{size_mm:g} mm"


def whistle_words(step: Step, language: Language) -> str:
    """Whistles in words; empty where the step counts none."""
    if step.whistles is None:
        return ""
    low, high = (Fraction(n) for n in step.whistles)
    return _counted("for-whistles", low, high, language)


def minutes_words(minutes: int, language: Language) -> str:
    """A plain stretch of time in words."""
    if minutes >= 100 and minutes % 30 == 0:
        hours = Fraction(minutes, 60)
        return _counted("hours", hours, hours, language)
    return _counted("minutes", Fraction(minutes), Fraction(minutes), language)


def _counted(phrase: str, low: Fraction, high: Fraction, language: Language) -> str:
    count = language.locale.plural_form(float(high))
    return language.phrase(phrase, number=number_range(low, high), count=count)
