"""check_words: can people cook by the author's own words, and read them?"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from cards.diagnostics.diagnostic import Diagnostic
from cards.foods.table import FoodTable
from cards.foods.units import Measures
from cards.nutrition.analysis import Analysis
from cards.nutrition.flow import Flow
from cards.source.recipe import Recipe
from cards.words.household import check_amounts
from cards.words.language import Language
from cards.words.mentions import Listed, check_mentions, food_places
from cards.words.names import check_names
from cards.words.own import own_words
from cards.words.plain import check_count, check_equipment, check_hard, check_sentences
from cards.words.tokens import words_of
from cards.words.told_twice import check_numbers
from cards.words.unspoken import check_unspoken


def check_words(
    recipe: Recipe,
    analysis: Analysis,
    languages: Sequence[Language],
    table: FoodTable,
    measures: Measures,
    kitchen: Collection[str] = frozenset(),
) -> tuple[Diagnostic, ...]:
    """What is hard to read, to measure or to believe in the author's own words.

    ``kitchen`` names what every kitchen of the programme has. Errors:
    numbers that differ between two languages of a step. All else are warnings.
    A language without lists gets the checks that need none.
    """
    return (
        *check_count(recipe),
        *check_names(recipe, analysis.lines, languages),
        *check_amounts(analysis.lines, measures),
        *check_numbers(recipe.steps, languages),
        *check_unspoken(Flow(recipe, analysis.lines), languages),
        *_read_over(recipe, analysis, languages, table, kitchen),
    )


def _read_over(
    recipe: Recipe,
    analysis: Analysis,
    languages: Sequence[Language],
    table: FoodTable,
    kitchen: Collection[str],
) -> Iterator[Diagnostic]:
    listed = Listed(recipe, analysis.lines, languages, table)
    for language in languages:
        lists = language.lists
        if lists is None:
            continue
        for own in own_words(recipe, language.code):
            row = words_of(own.text)
            yield from check_hard(own, lists, food_places(row, language, listed))
            yield from check_equipment(own, lists, kitchen)
            if own.step is not None:
                yield from check_sentences(own, lists)
                yield from check_mentions(own, language, listed)
