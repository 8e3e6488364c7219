"""check: does what the steps do add up with what is listed and promised?"""

from __future__ import annotations

from cards.diagnostics.diagnostic import Diagnostic
from cards.foods.units import Measures
from cards.method import promises, uses
from cards.nutrition.analysis import Analysis
from cards.nutrition.flow import Flow
from cards.source.programme import Programme
from cards.source.recipe import Recipe


def check(
    recipe: Recipe, analysis: Analysis, measures: Measures, programme: Programme
) -> tuple[Diagnostic, ...]:
    """Everything that does not add up, in the order of the file's parts and steps."""
    flow = Flow(recipe, analysis.lines)
    return (
        *uses.unknown_uses(flow),
        *uses.unused(flow),
        *uses.over_and_under(flow, measures),
        *promises.unjoined_parts(recipe),
        *promises.late(recipe),
        *promises.too_few(recipe, analysis),
        *promises.ill_equipped(recipe, programme.kitchen),
    )
