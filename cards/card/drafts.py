"""Which languages of a card are a draft, and how the card says so."""

from __future__ import annotations

from collections.abc import Iterable

from cards.card.model import Said, Text
from cards.diagnostics.diagnostic import Place
from cards.source.recipe import Recipe
from cards.words.language import Language
from cards.words.state import recipe_state


def drafts_of(recipe: Recipe, languages: Iterable[Language]) -> tuple[Language, ...]:
    """Languages in which nobody has read over the recipe's words, or those of the words file."""
    return tuple(
        lang
        for lang in languages
        if lang.state.is_draft or recipe_state(recipe, lang.code).is_draft
    )


def draft_marks(languages: Iterable[Language]) -> Said:
    """The mark of a draft in each of the languages."""
    return tuple(
        Text(lang.code, lang.phrase("draft-mark"), Place(f"templates/words/{lang.code}.yaml"))
        for lang in languages
    )
