"""One recipe through the stages, as far as it goes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from cards.batch.kit import Kit
from cards.batch.run import Run
from cards.card.compose import card_meta, compose
from cards.card.drafts import drafts_of
from cards.card.sheet import compose_sheet
from cards.diagnostics.diagnostic import Diagnostic, in_order
from cards.layout.checks import check_pages
from cards.layout.layoutfile import TURNED
from cards.layout.pages import Pages
from cards.layout.place import place
from cards.layout.trainer.sheet_pages import place_sheet
from cards.method.check import check
from cards.nutrition.statements import check_statements
from cards.nutrition.total import total
from cards.safety.choices import judge_choices
from cards.safety.judge import judge
from cards.source.read import card_digest, read
from cards.source.workspace import Workspace, read_text
from cards.words.reading import check_words
from cards.words.state import check_signatures


def run_file(path: Path, workspace: Workspace, kit: Kit) -> Run:
    """Read a file and take it as far as it goes."""
    name = workspace.name(path)
    text = read_text(path, name)
    if text.value is None:
        return Run(name, "", None, None, None, None, None, text.diagnostics)
    sides: dict[str, str] = {}
    faults: list[Diagnostic] = []
    for side in workspace.sides_of(path, kit.programme.printed):
        side_name = workspace.name(side)
        side_text = read_text(side, side_name)
        faults += side_text.diagnostics
        if side_text.value is not None:
            sides[side_name] = side_text.value
    if faults:
        return Run(name, text.value, None, None, None, None, None, tuple(faults))
    return run_text(text.value, name, kit, sides)


def run_text(text: str, name: str, kit: Kit, sides: Mapping[str, str] | None = None) -> Run:
    """Take a recipe's text through read, total, check, judge, compose and place.

    ``sides`` are the texts of its side files, by name.
    """
    found: list[Diagnostic] = []
    recipe = analysis = findings = card = pages = None

    def done() -> Run:
        return Run(
            name, text, recipe, analysis, findings, card, pages, in_order(found), sides or {}
        )

    read_result = read(text, name, kit.programme, sides)
    found += read_result.diagnostics
    recipe = read_result.value
    if recipe is None:
        return done()
    found += check_signatures(recipe, kit.programme.printed)
    drafts = [lang.code for lang in drafts_of(recipe, kit.languages)]
    recipe = replace(recipe, digest=card_digest(text, (sides or {}).values(), drafts))
    totals = total(recipe, kit.table, kit.measures, kit.programme.bands)
    found += totals.diagnostics
    analysis = totals.value
    if analysis is None:
        return done()
    found += check_statements(recipe, analysis, kit.programme.claims)
    found += check(recipe, analysis, kit.measures, kit.programme)
    judged = judge(recipe, analysis, kit.programme)
    found += judged.diagnostics
    if judged.value is None:
        return done()
    chosen = judge_choices(recipe, judged.value, found, kit.table, kit.measures, kit.programme)
    found += chosen.diagnostics
    findings = chosen.value
    assert findings is not None
    found += check_words(
        recipe, analysis, kit.languages, kit.table, kit.measures, kit.programme.kitchen
    )
    composed = compose(recipe, analysis, findings, kit.programme, kit.languages)
    found += composed.diagnostics
    card = composed.value
    if card is None:
        return done()
    turned = None
    if kit.layout.languages == TURNED and len(kit.languages) > 1:
        turned = compose(recipe, analysis, findings, kit.programme, kit.languages[::-1]).value
    placed = place(card, kit.layout, kit.book, turned)
    found += placed.diagnostics
    pages = placed.value
    if pages is not None:
        found += check_pages(pages, kit.layout)
    return done()


def sheet_of(run: Run, kit: Kit) -> Pages | None:
    """The trainer's sheet of a recipe that was summed; None where the sums failed."""
    if run.recipe is None or run.analysis is None:
        return None
    meta = card_meta(run.recipe, kit.programme)
    sheet = compose_sheet(run.recipe, run.analysis, run.diagnostics, kit.needs, kit.programme, meta)
    return place_sheet(sheet, kit.book)
