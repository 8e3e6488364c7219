"""What may be taken instead, seasons, side files, keeping: read, checked and said on the card."""

from __future__ import annotations

import pytest

from cards.batch.kit import Kit
from cards.batch.stages import run_text
from cards.source.read import digest_of
from tests.conftest import PLAIN, Bench

GHEE = "  - 1 tbsp ghee\n"


def needs(bench: Bench, line: str) -> list[str]:
    run = bench.run(PLAIN.replace(GHEE, line))
    assert run.card is not None, run.diagnostics
    row = run.card.needs.sections[0].rows[3]
    return [text.text for text in row.said]


def test_a_line_offers_other_foods(bench: Bench) -> None:
    assert needs(bench, "  - 1 tbsp ghee or groundnut oil or mustard oil\n") == [
        "big spoon *ghee* or groundnut oil or mustard oil",
        "बड़ा चम्मच *घी* या मूँगफली का तेल या सरसों का तेल",
    ]


def test_a_name_for_them_all_is_followed_by_the_list(bench: Bench) -> None:
    line = "  - {food: ghee, amount: 1 tbsp, or: groundnut oil, en: any fat, hi: कोई भी तेल}\n"
    assert needs(bench, line)[0] == "big spoon *any fat*: ghee or groundnut oil"


def test_a_season_has_its_own(bench: Bench) -> None:
    line = "  - {food: ghee, amount: 1 tbsp, seasons: {winter: 2 tsp groundnut oil}}\n"
    assert needs(bench, line) == [
        "big spoon *ghee*; or in winter: 2 small spoons groundnut oil",
        "बड़ा चम्मच *घी*; या सर्दी में: 2 छोटे चम्मच मूँगफली का तेल",
    ]


def test_steps_may_name_any_of_them(bench: Bench) -> None:
    for name in ("ghee", "groundnut oil", "any fat"):
        text = PLAIN.replace(
            GHEE, "  - {food: ghee, amount: 1 tbsp, or: groundnut oil, en: any fat, hi: तेल}\n"
        )
        assert bench.kinds(text.replace("water, ghee", f"water, {name}")) == []


@pytest.mark.parametrize(
    ("line", "kind", "place"),
    [
        ("  - 1 tbsp ghee or peanut\n", "whole-nuts", 9),
        (
            "  - {food: ghee, amount: 1 tbsp, seasons: {summer: 1 tbsp honey}}\n",
            "honey-before-one",
            9,
        ),
        (
            "  - food: ghee\n    amount: 1 tbsp\n    or:\n      - 1 tbsp shark\n",
            "high-mercury-fish",
            12,
        ),
    ],
)
def test_each_choice_is_judged(bench: Bench, line: str, kind: str, place: int) -> None:
    text = PLAIN.replace(GHEE, line)
    found = [d for d in bench.said(text) if d.kind == kind]
    assert [d.place.line for d in found] == [place]
    assert "instead: " in found[0].message
    assert kind not in bench.kinds(PLAIN)


def test_a_finding_on_a_choice_can_be_accepted(bench: Bench) -> None:
    text = PLAIN.replace(GHEE, "  - 1 tbsp ghee or jaggery\n")
    assert [d.severity for d in bench.said(text) if d.kind == "added-sugar"] == [1]
    text += "accept:\n  - {finding: added-sugar, reason: only in the famine, role: nurse}\n"
    found = [d for d in bench.said(text) if d.severity < 3]
    assert [(d.kind, d.severity) for d in found] == [("added-sugar", 2)]
    assert "with jaggery instead" in found[0].message
    assert "accepted by nurse" in found[0].message
    assert "accept-unused" in bench.kinds(text.replace("ghee or jaggery", "ghee"))


def test_a_choice_brings_its_cautions(bench: Bench) -> None:
    """A choice of egg puts the egg caution on the card of a dish without one."""
    text = PLAIN.replace(GHEE, GHEE + "  - 1/2 cup moong dal or 1 egg\n").replace(
        "time: 20 minutes", "time: 20 minutes\n    until: firm"
    )
    for words, own in ((text, True), (PLAIN, False)):
        card = bench.run(words).card
        assert card is not None
        assert ("egg-firm" in [m.icon.name for m in card.safety.own]) is own


def test_allergens_of_choices_are_told(bench: Bench) -> None:
    card = bench.run(PLAIN.replace(GHEE, "  - 1 tbsp mustard oil or groundnut oil\n")).card
    assert card is not None
    assert "Has mustard oil and groundnut oil. First a little, then more" in [
        m.said[0].text for m in card.safety.own
    ]


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("  - 1 tbsp ghee or gee\n", "food-unknown"),
        ("  - {food: ghee, amount: 1 tbsp, seasons: {monsoon: oil}}\n", "season-unknown"),
        ("  - {food: ghee, amount: 1 tbsp, or: [{fod: oil}]}\n", "key-unknown"),
        ("  - {food: ghee, amount: 1 tbsp, or: 2 inches oil}\n", "measure-without-weight"),
    ],
)
def test_slips_in_choices(bench: Bench, line: str, kind: str) -> None:
    assert [d.kind for d in bench.said(PLAIN.replace(GHEE, line)) if d.severity == 0] == [kind]


SPOKEN = PLAIN.replace("title: {en: Soft rice, hi: नरम चावल}", "title: Soft rice").replace(
    "    use: all", "    use: all\n    en: Mash it well."
)
SIDE = """\
words: 1
title: नरम चावल
lines:
  - en: Mash it well.
    hi: अच्छे से मसलें।
"""


def said(kit: Kit, text: str, side: str) -> list[tuple[str, str, int | None]]:
    run = run_text(text, "recipes/x.yaml", kit, {"recipes/x.hi.yaml": side})
    return [(d.kind, d.place.file, d.place.line) for d in run.diagnostics]


def test_a_side_file_brings_a_language(kit: Kit) -> None:
    run = run_text(SPOKEN, "recipes/x.yaml", kit, {"recipes/x.hi.yaml": SIDE})
    assert run.diagnostics == ()
    assert run.card is not None
    assert [t.text for t in run.card.heading.title] == ["Soft rice", "नरम चावल"]
    assert [t.text for t in run.card.steps.sections[0].rows[1].said] == [
        "Mash it well.",
        "अच्छे से मसलें।",
    ]
    assert run.recipe is not None
    assert run.recipe.digest == digest_of(SPOKEN, SIDE, "draft: hi") != digest_of(SPOKEN)


@pytest.mark.parametrize(
    ("old", "new", "kind", "line"),
    [
        ("Mash it well.", "Mash it.", "side-line-stale", 4),
        ("Mash it well.", "Sit and wait for the noon bell.", "side-line-unused", 4),
        ("title: नरम चावल", "title: {en: Softer rice, hi: नरम चावल}", "side-line-stale", 2),
        ("    hi: अच्छे", "    bn: अच्छे", "side-line-pair", 4),
        ("words: 1", "words: 2", "format-unknown", 1),
        ("title: नरम चावल\n", "", "key-missing", 1),
        ("lines:", "line:", "key-unknown", 3),
        ("title: नरम चावल", "title: [नरम]", "value-wrong", 2),
        ("title: नरम", "title: &x नरम", "yaml-anchor", 2),
    ],
)
def test_slips_in_a_side_file(kit: Kit, old: str, new: str, kind: str, line: int) -> None:
    found = said(kit, SPOKEN, SIDE.replace(old, new))
    assert (kind, "recipes/x.hi.yaml", line) in found


@pytest.mark.parametrize(
    ("keep", "words"),
    [
        ("1 hour", "Eat within 60 minutes of cooking"),
        ("2 hours, covered", "Eat within 2 hours of cooking, keep covered"),
    ],
)
def test_keeping_is_said(bench: Bench, keep: str, words: str) -> None:
    run = bench.run(PLAIN.replace("makes:", f"keep: {keep}\nmakes:"))
    assert run.card is not None
    assert words in [m.said[0].text for m in (*run.card.safety.own, *run.card.safety.general)]


def test_water_kept_or_thrown_is_said(bench: Bench) -> None:
    for water, words in (("kept", "Keep the water."), ("thrown", "Throw that water away.")):
        run = bench.run(PLAIN.replace("    flame: low", f"    flame: low\n    water: {water}"))
        assert run.card is not None
        assert run.card.steps.sections[0].rows[0].said[0].text.endswith(words)


def test_water_thrown_takes_more_vitamins(bench: Bench) -> None:
    """USDA retention: boiled and drained keeps less thiamin than boiled in its own water."""
    kept, thrown = (
        bench.run(PLAIN.replace("    flame: low", f"    flame: low\n    water: {w}")).analysis
        for w in ("kept", "thrown")
    )
    assert kept is not None
    assert thrown is not None
    assert thrown.totals["THIA"].value < kept.totals["THIA"].value
