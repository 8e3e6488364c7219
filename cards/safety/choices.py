"""The dish with each food that may be taken instead: what is wrong with that one alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Set
from dataclasses import replace

from cards.diagnostics.diagnostic import Diagnostic, Result, Severity
from cards.foods.table import FoodTable
from cards.foods.units import Measures
from cards.nutrition.total import total
from cards.safety.judge import Findings, acceptances, judge
from cards.source.programme import Programme
from cards.source.recipe import Instead, Recipe, variants


def judge_choices(
    recipe: Recipe,
    findings: Findings,
    known: Iterable[Diagnostic],
    table: FoodTable,
    measures: Measures,
    programme: Programme,
) -> Result[Findings]:
    """The findings with the cautions of every choice; what is found with a choice alone is told.

    ``known`` are the diagnostics of the recipe as it stands, which are not told again.
    """
    before = {(d.kind, d.message) for d in known}
    faults: list[Diagnostic] = []
    broken = {f.rule.name for f in findings.findings}
    shown = {caution.name: caution for caution in findings.cautions}
    for instead, other in variants(recipe):
        totals = total(other, table, measures, programme.bands)
        found = list(totals.diagnostics)
        if totals.value is not None:
            judged = judge(other, totals.value, programme)
            found += judged.diagnostics
            if judged.value is not None:
                shown |= {c.name: c for c in judged.value.cautions if c.name not in shown}
                broken |= {f.rule.name for f in judged.value.findings}
        faults += _new(found, before, instead, {a.finding for a in recipe.accepted})
    faults += acceptances(recipe, broken)
    cautions = findings.in_order(shown.values())
    return Result(replace(findings, cautions=cautions), tuple(faults))


def _new(
    found: Iterable[Diagnostic],
    before: Set[tuple[str, str]],
    instead: Instead,
    accepted: Set[str],
) -> Iterator[Diagnostic]:
    for diagnostic in found:
        told = (diagnostic.kind, diagnostic.message) in before
        remark = diagnostic.severity is Severity.NOTE and diagnostic.kind not in accepted
        # what the whole dish weighs shifts a little with any choice; the recipe's own is judged
        if told or remark or diagnostic.kind.startswith("makes-"):
            continue
        yield replace(
            diagnostic,
            place=instead.ingredient.at,
            message=f"with {instead.ingredient.food} instead: {diagnostic.message}",
        )
