"""What may cause allergy, named as the food that a cook knows."""

from __future__ import annotations

from collections.abc import Iterator

from cards.foods.table import Food
from cards.nutrition.analysis import Analysis
from cards.source.recipe import Ingredient
from cards.words.language import Language
from cards.words.tokens import tokens

_PLAIN = {
    "milk": "dairy",
    "egg": "eggs",
    "fish": "flesh",
    "crustacea": "flesh",
    "mollusc": "flesh",
}
"""Allergens whose foods of this group need not be told what they are (common practice)."""

_HEARD = 3
"""So many letters at the head of a word are enough to hear one word in another."""


def allergen_names(analysis: Analysis, language: Language) -> list[str]:
    """Each allergen of the dish, or of what may be taken instead, as it is printed.

    Where one food alone brings it that is the food's name, so that nobody looks for peanuts
    in a dish with their oil; with the allergen in brackets where the name does not tell it.
    Where several bring it, the allergen's own name.
    """
    found: dict[str, dict[str, tuple[Food, Ingredient]]] = {}
    for food, given in _foods(analysis):
        for allergen in food.allergens:
            found.setdefault(allergen, {})[food.id] = food, given
    return [
        _named(allergen, *next(iter(foods.values())), language)
        if len(foods) == 1
        else language.allergen(allergen)
        for allergen, foods in found.items()
    ]


def _foods(analysis: Analysis) -> Iterator[tuple[Food, Ingredient]]:
    for line in analysis.lines:
        yield line.food, line.ingredient
        for choice in line.instead:
            yield choice.food, choice.ingredient


def _named(allergen: str, food: Food, given: Ingredient, language: Language) -> str:
    usual = language.food(food.id, food.name)
    name = given.names.get(language.code) or usual
    word = language.allergen(allergen)
    # an author's own name is one that people know for the same food
    plain = _PLAIN.get(allergen) == food.group or _tells(usual, word)
    return name if plain else language.phrase("allergen-in", food=name, allergen=word)


def _tells(name: str, word: str) -> bool:
    """True where a word of the allergen is heard in the name."""
    said, asked = ([t.folded for t in tokens(text) if t.folded] for text in (name, word))
    return any(
        one[:_HEARD] == other[:_HEARD] or one in other or other in one
        for one in said
        for other in asked
    )
