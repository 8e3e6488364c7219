"""What a card is found by when many are browsed."""

from __future__ import annotations

from cards.batch.entry import About
from cards.batch.kit import Kit
from cards.batch.run import Run
from cards.nutrition.feeding import bands
from cards.source.recipe import Recipe
from cards.words.state import recipe_state


def about(run: Run, kit: Kit) -> About:
    """What a run came to; empty where there is no card."""
    recipe, analysis, card = run.recipe, run.analysis, run.card
    if recipe is None or analysis is None or card is None:
        return About()
    return About(
        titles=tuple((text.language, text.text) for text in card.heading.title),
        ages=tuple(
            band.name
            for band in bands().values()
            if recipe.age_from <= band.last_month and band.first_month <= recipe.age_to
        ),
        groups=analysis.groups,
        layout=kit.layout.layout,
        states=_states(recipe, kit),
        version=recipe.version,
        revised=recipe.revised,
        digest=recipe.digest,
        shape=round(run.pages.height / run.pages.width, 4) if run.pages else 1.0,
        cautions=tuple(
            (one.icon.name, one.said[0].text.replace("*", "")) for one in card.safety.own
        ),
    )


def _states(recipe: Recipe, kit: Kit) -> tuple[str, ...]:
    """``draft`` where words of any of its languages are one, else ``checked``."""
    drafts = any(
        language.state.is_draft or recipe_state(recipe, language.code).is_draft
        for language in kit.languages
    )
    return ("draft" if drafts else "checked",)
