"""Names that a card prints: one for each food and part, in every language of the programme."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from cards.data import load
from cards.diagnostics.diagnostic import Diagnostic, Place, warning
from cards.nutrition.line import Choice, Line
from cards.source.recipe import Recipe
from cards.words.language import Language
from cards.words.own import printed
from cards.words.tokens import Phrase, phrase

TABLE_LANGUAGE: str = load.mapping("languages.yaml")["table"]
"""The language of the food table's names."""


def check_names(
    recipe: Recipe, lines: Sequence[Line], languages: Sequence[Language]
) -> Iterator[Diagnostic]:
    """Names and own words that are missing in a language, or that do not keep to one thing."""
    codes = [lang.code for lang in languages]
    named = printed(lines)
    for one in named:
        given = one.ingredient
        yield from _incomplete("this food has a name of its own", given.names, codes, given.at)
    for part in recipe.parts:
        yield from _incomplete("this part has a name", part.name, codes, part.at)
        for step in part.steps:
            yield from _incomplete("this step has words of its own", step.words, codes, step.at)
    for language in languages:
        yield from _unnamed(named, language)
        yield from _differing(named, language)
        yield from _same_parts(recipe, language)


def _incomplete(
    what: str, words: Mapping[str, str], codes: Sequence[str], at: Place
) -> Iterator[Diagnostic]:
    given = [code for code in codes if code in words]
    missing = [code for code in codes if code not in words]
    if given and missing:
        yield warning(
            at,
            "language-incomplete",
            f"{what} in {', '.join(given)}, but not in {', '.join(missing)}; "
            "the card would say two different things",
            f"add a line {missing[0]}: ..., or take {given[0]}: out, "
            "so that the program writes both",
        )


def _unnamed(lines: Sequence[Line | Choice], language: Language) -> Iterator[Diagnostic]:
    if language.code == TABLE_LANGUAGE:
        return
    for line in lines:
        named = line.ingredient.names or language.has_food(line.food.id)
        if not named:  # a name in another language alone is told of already
            yield warning(
                line.ingredient.at,
                "food-unnamed",
                f'there is no name for {line.food.name} in "{language.code}"; '
                "the card would print the English one",
                f"write the ingredient with keys and add {language.code}: with the name",
            )


def _differing(lines: Sequence[Line | Choice], language: Language) -> Iterator[Diagnostic]:
    by_food: dict[str, str] = {}
    by_name: dict[Phrase, Line | Choice] = {}
    for line in lines:
        name = _name(line, language)
        first = by_food.setdefault(line.food.id, name)
        if phrase(first) != phrase(name):
            yield warning(
                line.ingredient.at,
                "names-differ",
                f'{line.food.name} is called "{first}" before and "{name}" here ({language.code})',
                "call one food by one name",
            )
        other = by_name.setdefault(phrase(name), line)
        if other.food.id != line.food.id:
            yield warning(
                line.ingredient.at,
                "names-differ",
                f'"{name}" ({language.code}) is {other.food.name} before and {line.food.name} here',
                "give each food a name of its own",
            )


def _name(line: Line | Choice, language: Language) -> str:
    """The name a card prints for one of the food; an own name in another number is the same."""
    forms = [language.food(line.food.id, line.food.name, Fraction(n)) for n in (1, 2)]
    own = line.ingredient.names.get(language.code)
    if own is None or phrase(own) in map(phrase, forms):
        return forms[0]
    return own


def _same_parts(recipe: Recipe, language: Language) -> Iterator[Diagnostic]:
    seen: set[Phrase] = set()
    for part in recipe.parts:
        name = part.name.get(language.code)
        if name is None:
            continue
        if phrase(name) in seen:
            yield warning(
                part.at,
                "names-differ",
                f'two parts are called "{name}" ({language.code})',
                "give each part a name of its own",
            )
        seen.add(phrase(name))
