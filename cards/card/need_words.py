"""Words of a row of what is needed: measure, food, how prepared, what may be taken instead."""

from __future__ import annotations

from fractions import Fraction

from cards.foods.table import Food, fold
from cards.nutrition.line import Line
from cards.source.amounts import EACH, SIZED, Amount
from cards.source.recipe import Ingredient
from cards.words.language import Language
from cards.words.names import TABLE_LANGUAGE
from cards.words.numbers import number_range


def need_words(line: Line, language: Language) -> str:
    """The row in a language, without its number, which stands in a column of its own."""
    given = line.ingredient
    words = _row(line, language)
    any_time = [
        _choice(choice.food, choice.ingredient, given, language)
        for choice in line.instead
        if not choice.season
    ]
    if any_time and given.names.get(language.code):
        # the card's own name covers them all, as in "any green leaves": so the list begins
        # with the food that the sums are made with
        any_time.insert(0, language.food(line.food.id, line.food.name))
        words = language.phrase("line-one-of", line=words, foods=language.listed(any_time, "or"))
    elif any_time:
        words = language.phrase("line-or", line=words, foods=language.listed(any_time, "or"))
    for choice in line.instead:
        if choice.season:
            season = language.phrase(f"season-{choice.season}")
            food = _choice(choice.food, choice.ingredient, given, language)
            words = language.phrase("line-season", line=words, season=season, food=food)
    return words


def _row(line: Line, language: Language) -> str:
    given = line.ingredient
    amount = line.amount or given.grams
    own = given.names.get(language.code) or own_word(line, language)
    if amount is None:
        return language.phrase(
            "line-as-needed", food=own or language.food(line.food.id, line.food.name)
        )
    counted = amount.unit == EACH
    food = own or _name(line.food, amount, language)
    prep = language.enumerated(language.prep(name) for name in given.preps)
    if counted:
        return language.phrase("line-counted", food=food, prep=prep)
    if amount.unit == "leaf" and line.food.form == "leaf":
        return language.phrase("line-leaf", food=food, prep=prep)
    unit = language.unit(amount.unit, amount.high)
    return language.phrase("line", unit=unit, food=food, prep=prep)


def own_word(line: Line, language: Language) -> str:
    """The name the author wrote, where it is another of the food's names; English has them.

    The words of the steps are most likely to use it too.
    """
    word = line.ingredient.food
    written = language.code == TABLE_LANGUAGE and fold(word) in {
        fold(name) for name in line.food.also
    }
    return word if written else ""


def _name(food: Food, amount: Amount | None, language: Language) -> str:
    counted = amount is not None and amount.unit in (EACH, *SIZED)
    return language.food(
        food.id, food.name, amount.high if amount is not None and counted else Fraction(1)
    )


def _choice(food: Food, one: Ingredient, given: Ingredient, language: Language) -> str:
    """A food to take instead, with its amount and preparation where they differ."""
    amount = one.amount or one.grams
    name = one.names.get(language.code) or _name(food, amount, language)
    told = ""
    if amount is not None and amount not in (given.amount, given.grams):
        number = number_range(amount.low, amount.high)
        unit = language.unit(amount.unit, amount.high)
        # a language may bend the measure to the food, as छोटी गाजर
        name = language.phrase("line", unit=unit, food=name, prep="").replace("*", "")
        told = number
    differing = one.preps if one.preps != given.preps else ()
    preps = language.enumerated(language.prep(name) for name in differing)
    return f"{told} {name}{f' ({preps})' if preps else ''}".strip()
