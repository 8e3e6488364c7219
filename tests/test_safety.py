"""Each rule shown to break, to hold, and where it can, to say that it cannot tell."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cards.batch.kit import Kit
from cards.batch.stages import run_text
from cards.diagnostics.diagnostic import Severity
from cards.safety.predicates import PREDICATES
from cards.safety.rules import cautions, rules
from tests.conftest import Bench


def dish(ingredients: str, steps: str, head: str = "ages: 6-23 months\nmakes: 500 g\n") -> str:
    rows = "".join(f"  - {i.strip()}\n" for i in ingredients.split(";"))
    acts = "".join(f"  - {{{s.strip()}}}\n" for s in steps.split(";"))
    return (
        "recipe: 1\ntitle: {en: T, hi: त}\n" + head + "ingredients:\n  - 150 g rice\n"
        "  - 300 g water\n  - 40 g ghee\n" + rows + "steps:\n" + acts
    )


BOIL = "do: boil, use: all"
MASH = "do: mash, use: all"
NO_ALL = "do: boil, use: [rice, water, ghee]"
BEANS = "do: boil, use: all, time: 40 minutes"
FROM_9 = "ages: from 9 months\nmakes: 500 g\n"
FROM_12 = "ages: from 12 months\nmakes: 500 g\n"

# rule, a dish that breaks it, a dish it has nothing to say of
CASES = [
    (
        "honey-before-one",
        dish("10 g honey", f"{BOIL}; {MASH}"),
        dish("10 g honey", f"{BOIL}; {MASH}", FROM_12),
    ),
    (
        "added-sugar",
        dish("10 g jaggery", f"{BOIL}; {MASH}"),
        dish("10 g banana", f"{BOIL}; {MASH}"),
    ),
    (
        "added-salt",
        dish("1 pinch salt", f"{BOIL}; {MASH}"),
        dish("1 pinch cumin", f"{BOIL}; {MASH}"),
    ),
    (
        "whole-nuts",
        dish("20 g peanut", f"{BOIL}; {MASH}"),
        dish("20 g peanut", f"do: grind, use: peanut; {BOIL}; {MASH}"),
    ),
    (
        "piece-size",
        dish("50 g carrot", f"do: chop, use: carrot, size: 20 mm; {BOIL}", FROM_9),
        dish("50 g carrot", f"do: chop, use: carrot, size: pea; {BOIL}", FROM_9),
    ),
    (
        "texture-for-age",
        dish("50 g carrot", BOIL, "ages: 6-23 months\nmakes: 500 g\ntexture: chopped\n"),
        dish("50 g carrot", f"{BOIL}; {MASH}"),
    ),
    (
        "raw-egg",
        dish("1 egg", f"{BOIL.replace('all', 'rice')}; do: add, use: egg; {MASH}"),
        dish("1 egg", f"do: boil, use: all, until: firm; {MASH}"),
    ),
    (
        "runny-egg",
        dish("1 egg", f"{BOIL}; {MASH}"),
        dish("1 egg", f"do: boil, use: all, until: firm; {MASH}"),
    ),
    (
        "bones",
        dish("60 g rohu", f"{BOIL}; {MASH}"),
        dish("60 g rohu", f"{BOIL}; do: debone, use: rohu; {MASH}"),
    ),
    (
        "meat-cooked-through",
        dish("60 g chicken", f"do: boil, use: rice; do: add, use: chicken; {MASH}"),
        dish("60 g chicken", f"{BOIL}; {MASH}"),
    ),
    (
        "raw-pulse",
        dish("60 g moong dal", f"do: boil, use: rice; do: beat, use: moong dal; {MASH}"),
        dish("60 g moong dal", f"{BOIL}; {MASH}"),
    ),
    (
        "liver-retinol",
        dish("100 g chicken liver", f"{BOIL}; {MASH}"),
        dish("20 g chicken liver", f"{BOIL}; {MASH}"),
    ),
    (
        "liver-retinol-week",
        dish("400 g goat liver", f"{BOIL}; {MASH}"),
        dish("100 g chicken liver", f"{BOIL}; {MASH}"),
    ),
    (
        "kept-too-long",
        dish("5 g cumin", f"{BOIL}; {MASH}", FROM_9 + "keep: 4 hours\n"),
        dish("5 g cumin", f"{BOIL}; {MASH}", FROM_9 + "keep: 2 hours\n"),
    ),
    (
        "too-thin",
        dish("1400 g water", f"{BOIL}; {MASH}", "ages: 6-23 months\nmakes: 1750 g\n"),
        dish("5 g cumin", f"{BOIL}; {MASH}"),
    ),
    (
        "far-too-thin",
        dish("3000 g water", f"{BOIL}; {MASH}", "ages: 6-23 months\nmakes: 3400 g\n"),
        dish("1400 g water", f"{BOIL}; {MASH}", "ages: 6-23 months\nmakes: 1750 g\n"),
    ),
    ("round-food", dish("50 g grapes", BOIL, FROM_9), dish("50 g grapes", f"{BOIL}; {MASH}")),
    (
        "raw-hard-food",
        dish("50 g apple", f"{NO_ALL}; do: add, use: apple", FROM_9),
        dish("50 g apple", f"{NO_ALL}; do: grate, use: apple", FROM_9),
    ),
    ("dried-fruit", dish("20 g raisins", BOIL, FROM_9), dish("20 g raisins", f"{BOIL}; {MASH}")),
    (
        "high-mercury-fish",
        dish("50 g shark", f"{BOIL}; {MASH}"),
        dish("50 g rohu", f"{BOIL}; do: debone; {MASH}"),
    ),
    (
        "kidney-beans-soaked",
        dish("50 g kidney bean", f"do: soak, use: kidney bean, time: 1 hour; {BEANS}; {MASH}"),
        dish("50 g kidney bean", f"do: soak, use: kidney bean, time: overnight; {BEANS}; {MASH}"),
    ),
    (
        "kidney-beans-boiled",
        dish("50 g kidney bean", f"do: soak, use: kidney bean, time: overnight; {BOIL}; {MASH}"),
        dish("50 g kidney bean", f"do: soak, use: kidney bean, time: overnight; {BEANS}; {MASH}"),
    ),
    (
        "grass-pea",
        dish("50 g grass pea", f"{BOIL}; {MASH}"),
        dish("50 g toor dal", f"{BOIL}; {MASH}"),
    ),
    ("cassava", dish("50 g cassava", f"{BOIL}; {MASH}"), dish("50 g potato", f"{BOIL}; {MASH}")),
    (
        "raw-milk",
        dish("50 g cow milk", f"{NO_ALL}; do: add, use: cow milk; {MASH}"),
        dish("50 g cow milk", f"{BOIL}; {MASH}"),
    ),
    (
        "sweet-drink",
        dish("50 g sugarcane juice", f"{BOIL}; {MASH}"),
        dish("50 g orange", f"{BOIL}; {MASH}"),
    ),
    ("chilli", dish("2 g green chilli", f"{BOIL}; {MASH}"), dish("2 g cumin", f"{BOIL}; {MASH}")),
    (
        "spices-taken-out",
        dish("2 curry leaves", f"{BOIL}; {MASH}"),
        dish("2 curry leaves", f"{BOIL}; do: debone, use: curry leaves; {MASH}"),
    ),
    (
        "ferment-cooked",
        dish("5 g cumin", f"{BOIL}; do: ferment, time: 8 hours; {MASH}"),
        dish("5 g cumin", f"do: ferment, use: rice, time: 8 hours; {BOIL}; {MASH}"),
    ),
    (
        "soak-too-long",
        dish("5 g cumin", f"do: soak, use: rice, time: 2 days; {BOIL}; {MASH}"),
        dish("5 g cumin", f"do: soak, use: rice, time: overnight; {BOIL}; {MASH}"),
    ),
    ("much-sodium", dish("5 g salt", f"{BOIL}; {MASH}"), dish("5 g cumin", f"{BOIL}; {MASH}")),
    (
        "one-food-group",
        dish("5 g cumin", f"{BOIL}; {MASH}"),
        dish("60 g moong dal", f"{BOIL}; {MASH}"),
    ),
    (
        "honey-in-disguise",
        dish("5 g cumin", f"{BOIL}; do: mash, use: all, en: Mash with a little honey., hi: मसलें।"),
        dish("5 g cumin", f"{BOIL}; do: mash, use: all, en: Mash it., hi: मसलें।"),
    ),
    (
        "juice-before-one",
        dish("100 g orange, juice", f"{BOIL}; {MASH}"),
        dish("10 g lemon, juice", f"{BOIL}; {MASH}"),
    ),
    (
        "much-juice",
        dish("700 ml orange juice", f"{BOIL}; {MASH}", FROM_12),
        dish("100 g orange, juice", f"{BOIL}; {MASH}", FROM_12),
    ),
    (
        "tea-coffee-cocoa",
        dish("1 cup tea", f"{BOIL}; {MASH}", FROM_12),
        dish("1 cup cow milk", f"{BOIL}; {MASH}", FROM_12),
    ),
    (
        "sweetener-without-sugar",
        dish("1 tsp stevia", f"{BOIL}; {MASH}"),
        dish("20 g banana", f"{BOIL}; {MASH}"),
    ),
    (
        "sweet-milk",
        dish("50 g condensed milk", f"{BOIL}; {MASH}"),
        dish("50 g cow milk", f"{BOIL}; {MASH}"),
    ),
    (
        "milk-if-not-breastfed",
        dish("3000 g cow milk", f"{BOIL}; {MASH}", "makes: 3300 g\n"),
        dish("3000 g cow milk", f"{BOIL}; {MASH}", "ages: from 12 months\nmakes: 3300 g\n"),
    ),
    (
        "never-for-small-children",
        dish("20 g popcorn", f"{BOIL}; {MASH}"),
        dish("20 g sweet corn", f"{BOIL}; {MASH}"),
    ),
    (
        "nut-paste-in-lumps",
        dish("20 g peanut butter", f"{NO_ALL}; do: serve, use: peanut butter", FROM_9),
        dish("20 g peanut butter", f"{NO_ALL}; do: mix, use: peanut butter", FROM_9),
    ),
    (
        "hard-cheese",
        dish("20 g cheese", f"{NO_ALL}; do: add, use: cheese", FROM_9),
        dish("20 g cheese, grated", f"{NO_ALL}; do: add, use: cheese", FROM_9),
    ),
    (
        "stones",
        dish("20 g dates", f"{BOIL}; {MASH}"),
        dish("20 g dates", f"do: take-out, use: dates; {BOIL}; {MASH}"),
    ),
    (
        "shells",
        dish("40 g prawn", f"{BOIL}; {MASH}"),
        dish("40 g prawn, peeled", f"{BOIL}; {MASH}"),
    ),
    (
        "family-food-before-one",
        dish("5 g cumin", BOIL, FROM_9 + "texture: family\n"),
        dish("5 g cumin", BOIL, FROM_12 + "texture: family\n"),
    ),
    (
        "minced-meat",
        dish("60 g minced chicken", f"{BOIL}; {MASH}"),
        dish("60 g minced chicken", f"do: boil, use: all, until: no pink; {MASH}"),
    ),
    (
        "meat-end-sign",
        dish("60 g chicken", f"{BOIL}; {MASH}"),
        dish("60 g chicken", f"do: boil, use: all, until: no pink; {MASH}"),
    ),
    (
        "stands-too-long",
        dish("5 g cumin", f"{BOIL}; {MASH}; do: cool, time: 3 hours"),
        dish("5 g cumin", f"{BOIL}; {MASH}; do: cool, time: 2 hours"),
    ),
    (
        "fridge-too-long",
        dish("5 g cumin", f"{BOIL}; {MASH}", FROM_9 + "keep: 3 days in the fridge\n"),
        dish("5 g cumin", f"{BOIL}; {MASH}", FROM_9 + "keep: 1 day in the fridge\n"),
    ),
    (
        "chilled-not-heated",
        dish("5 g cumin", f"{BOIL}; {MASH}; do: chill, time: 1 hour"),
        dish("5 g cumin", f"{BOIL}; {MASH}; do: chill, time: 1 hour; do: warm"),
    ),
    (
        "unboiled-water",
        dish("5 g cumin", f"do: boil, use: [rice, ghee]; do: add, use: water; {MASH}"),
        dish("5 g cumin", f"{BOIL}; {MASH}"),
    ),
    (
        "cooker-opened-hot",
        dish("5 g cumin", f"do: pressure-cook, use: all, whistles: 3; {MASH}"),
        dish("5 g cumin", f"do: pressure-cook, use: all, whistles: 3; do: cool; {MASH}"),
    ),
    (
        "cooker-too-full",
        dish("1400 g water", f"do: pressure-cook, use: all, whistles: 3; do: cool; {MASH}"),
        dish("700 g water", f"do: pressure-cook, use: all, whistles: 3; do: cool; {MASH}"),
    ),
    (
        "bottle",
        dish("5 g cumin", f"{BOIL}; do: mash, use: all, en: Fill the bottle., hi: बोतल भरें।"),
        dish("5 g cumin", f"{BOIL}; {MASH}"),
    ),
    (
        "raw-starch",
        dish("50 g ragi flour", f"{NO_ALL}; do: add, use: ragi flour; {MASH}"),
        dish("50 g ragi flour", f"{BOIL}; {MASH}"),
    ),
    (
        "flesh-hardly-heated",
        dish("60 g chicken", f"do: boil, use: all, time: 2 minutes, until: no pink; {MASH}"),
        dish("60 g chicken", f"do: boil, use: all, until: no pink; {MASH}"),
    ),
    (
        "gram-flour-origin",
        dish("20 g besan", f"{BOIL}; {MASH}"),
        dish("20 g wheat flour", f"{BOIL}; {MASH}"),
    ),
    (
        "fish-portion",
        dish("300 g rohu", f"{BOIL}; do: debone; {MASH}"),
        dish("60 g rohu", f"{BOIL}; do: debone; {MASH}"),
    ),
    (
        "many-new-foods",
        dish("1 egg; 30 g wheat flour", f"do: boil, use: all, until: firm; {MASH}"),
        dish("1 egg", f"do: boil, use: all, until: firm; {MASH}"),
    ),
    (
        "ferments-too-long",
        dish("5 g cumin", f"do: ferment, use: rice, time: 2 days; {BOIL}; {MASH}"),
        dish("5 g cumin", f"do: ferment, use: rice, time: 1 day; {BOIL}; {MASH}"),
    ),
    (
        "sprouts-too-long",
        dish("5 g cumin", f"do: sprout, use: rice, time: 4 days; {BOIL}; {MASH}"),
        dish("5 g cumin", f"do: sprout, use: rice, time: 2 days; {BOIL}; {MASH}"),
    ),
    (
        "hard-fat",
        dish("5 g vanaspati", f"{BOIL}; {MASH}"),
        dish("5 g butter", f"{BOIL}; {MASH}"),
    ),
    (
        "salty-food",
        dish("5 g pickle", f"{BOIL}; {MASH}"),
        dish("5 g salt", f"{BOIL}; {MASH}"),
    ),
    (
        "plant-drink",
        dish("50 g rice drink", f"{BOIL}; {MASH}"),
        dish("50 g cow milk", f"{BOIL}; {MASH}"),
    ),
    (
        "alcohol",
        dish("50 g toddy", f"{BOIL}; {MASH}"),
        dish("50 g water", f"{BOIL}; {MASH}"),
    ),
    (
        "tonic",
        dish("5 g gripe water", f"{BOIL}; {MASH}"),
        dish("5 g water", f"{BOIL}; {MASH}"),
    ),
    (
        "formula",
        dish("20 g infant formula", f"{BOIL}; {MASH}"),
        dish("20 g cow milk", f"{BOIL}; {MASH}"),
    ),
    (
        "sodium-of-day",
        dish("8 g salt", f"{BOIL}; {MASH}"),
        dish("1 g salt", f"{BOIL}; {MASH}"),
    ),
]

# a dish whose rule speaks only in a programme that follows other advice
ADVICE = dish("3000 g cow milk", f"{BOIL}; {MASH}", "makes: 3300 g\n")

# rule, a dish of which it cannot be told
UNKNOWN = [
    ("texture-for-age", dish("50 g carrot", BOIL)),
    ("piece-size", dish("50 g carrot", f"do: chop, use: carrot; {BOIL}", FROM_9)),
    (
        "meat-cooked-through",
        dish("60 g chicken", f"do: boil, use: rice; {MASH.replace('all', 'rice')}"),
    ),
]


@pytest.mark.parametrize(("rule", "bad", "good"), CASES, ids=[c[0] for c in CASES])
def test_rule(bench: Bench, rule: str, bad: str, good: str) -> None:
    broken = [d for d in bench.said(bad) if d.kind == rule]
    assert len(broken) == 1
    assert broken[0].severity is rules()[rule].severity
    assert not broken[0].message.startswith("cannot tell")
    assert broken[0].hint
    assert rules()[rule].source in broken[0].source
    assert rule not in bench.kinds(good)


@pytest.mark.parametrize(("rule", "text"), UNKNOWN, ids=[c[0] for c in UNKNOWN])
def test_what_cannot_be_told_is_never_a_pass(bench: Bench, rule: str, text: str) -> None:
    found = [d for d in bench.said(text) if d.kind == rule]
    assert len(found) == 1
    assert found[0].message.startswith("cannot tell")
    assert found[0].severity is Severity.WARNING


@pytest.mark.parametrize(
    ("steps", "told"),
    [
        (f"{BOIL}; do: debone, use: rohu; {MASH}", False),
        (f"{BOIL}; do: debone, use: cumin; {MASH}", True),  # bones are taken out of the fish
        (f"{BOIL}; {MASH}; do: debone, use: rohu", True),  # and before it is mashed in
    ],
)
def test_bones_come_out_of_the_fish_and_in_time(bench: Bench, steps: str, told: bool) -> None:
    assert ("bones" in bench.kinds(dish("60 g rohu; 5 g cumin", steps))) is told


def test_two_fishes_are_two(bench: Bench) -> None:
    text = dish("60 g rohu; 60 g catla", f"{BOIL}; do: debone, use: rohu; {MASH}")
    assert [d.message for d in bench.said(text) if d.kind == "bones"] != []


@pytest.mark.parametrize(
    "steps",
    [
        f"{BOIL}; {MASH}; do: add, use: grapes",
        f"{BOIL}; {MASH}; do: chop, use: rice, size: finger",
        "do: mash, use: grapes; do: griddle, use: all; do: chop, use: rice, size: finger",
    ],
)
def test_what_goes_in_whole_is_not_mashed(bench: Bench, steps: str) -> None:
    """One mashing does not make smooth what comes after it, or is set and cut."""
    assert "texture-for-age" in bench.kinds(dish("50 g grapes", steps))


def test_warming_is_not_cooking(bench: Bench) -> None:
    text = dish("1 egg", f"{NO_ALL}; do: add, use: egg; do: warm, until: firm; {MASH}")
    assert "raw-egg" in bench.kinds(text)


def test_batter_that_rests_before_it_is_cooked_is_no_leftover(bench: Bench) -> None:
    rest = "do: rest, use: rice, time: 3 hours"
    assert "stands-too-long" not in bench.kinds(dish("5 g cumin", f"{rest}; {BOIL}; {MASH}"))
    assert "stands-too-long" in bench.kinds(dish("5 g cumin", f"{BOIL}; {rest}; {MASH}"))


def test_beans_under_pressure_need_half_the_time(bench: Bench) -> None:
    soaked = "do: soak, use: kidney bean, time: overnight"
    cooker = f"{soaked}; do: pressure-cook, use: all, whistles: 6; do: cool; {MASH}"
    assert "kidney-beans-boiled" not in bench.kinds(dish("50 g kidney bean", cooker))


def test_pieces_cut_small_are_small(bench: Bench) -> None:
    """A dish that comes in pieces and is cut to pea size at the end needs no more said."""
    head = "ages: from 9 months\nmakes: 6 pieces (500 g)\n"
    assert "piece-size" in bench.kinds(dish("5 g cumin", BOIL, head))
    assert "piece-size" not in bench.kinds(
        dish("5 g cumin", f"{BOIL}; do: chop, use: rice, size: pea", head)
    )


def test_every_rule_is_shown() -> None:
    assert {c[0] for c in CASES} | {"milk-as-drink"} == set(rules())
    assert len(rules()) >= 40


def test_national_advice_on_milk_is_a_switch(kit: Kit, bench: Bench) -> None:
    """WHO (2023) lets milk be given from 6 months to those not breastfed, the US CDC does not."""
    other = replace(kit, programme=replace(kit.programme, milk="from-12-months"))
    told = {d.kind: d.severity for d in run_text(ADVICE, "recipes/x.yaml", other).diagnostics}
    assert told["milk-as-drink"] is Severity.WARNING
    assert "milk-if-not-breastfed" not in told
    assert "milk-as-drink" not in bench.kinds(ADVICE)


@pytest.mark.parametrize(
    ("text", "worse", "silent"),
    [
        (dish("10 g honey", f"{BOIL}; {MASH}"), "honey-before-one", "added-sugar"),
        (dish("5 g pickle", f"{BOIL}; {MASH}"), "salty-food", "added-salt"),
        (dish("50 g condensed milk", f"{BOIL}; {MASH}"), "sweet-milk", "added-sugar"),
    ],
)
def test_one_slip_one_message(bench: Bench, text: str, worse: str, silent: str) -> None:
    kinds = bench.kinds(text)
    assert worse in kinds
    assert silent not in kinds


def test_every_rule_has_a_source_and_how_it_is_known() -> None:
    for rule in rules().values():
        assert rule.source
        assert rule.known in ("seen", "memory", "computed")


BEYOND_DOUBT = ("far-too-thin", "alcohol")
"""Rules that block though no document was seen: arithmetic, and what nobody disputes."""


def test_what_is_only_half_remembered_does_not_block() -> None:
    for rule in rules().values():
        if rule.severity is Severity.ERROR:
            assert rule.known != "memory" or rule.name in BEYOND_DOUBT, rule.name


def test_an_error_stops_the_card_and_an_acceptance_lets_it_pass(bench: Bench) -> None:
    text = CASES[0][1]
    stopped = bench.run(text)
    assert stopped.stopped
    accepted = bench.run(
        text
        + (
            "accept:\n  - finding: honey-before-one\n    reason: for the clinic's wall\n"
            "    role: nutrition officer\n"
        )
    )
    assert not accepted.stopped
    told = [d for d in accepted.diagnostics if d.kind == "honey-before-one"]
    assert told[0].severity is Severity.NOTE
    assert "nutrition officer" in told[0].message
    assert "clinic" in told[0].message


def test_liver_message_does_the_sum(bench: Bench) -> None:
    """100 g chicken liver at 3290 ug retinol per 100 g, 40 g ghee at 824 (USDA SR28 05027, 01003).

    Simmered liver keeps 80 % (USDA retention factors, Release 6, 1153). In 500 g, of
    which the child of 12 months eats 125 g: 740 ug. Upper level
    600 ug a day (IOM 2001), 4200 a week: 4 times.
    """
    text = dish("100 g chicken liver", f"{BOIL}; {MASH}", "ages: from 12 months\nmakes: 500 g\n")
    told = next(d for d in bench.said(text) if d.kind == "liver-retinol")
    analysis = bench.run(text).analysis
    assert analysis is not None
    assert [p.grams_high for p in analysis.portions] == [125]
    retinol = (3290 * 0.80 + 0.4 * 824) * 125 / 500
    assert f"{retinol:.0f} ug" in told.message
    assert f"at most {int(4200 // retinol)} times" in told.message


def test_caution_icons_and_words_exist(bench: Bench) -> None:
    from cards.icons import catalogue

    for caution in cautions():
        assert caution.icon in catalogue.names()
        assert caution.rule in ("", *rules())


def test_the_dishs_own_cautions_come_first(bench: Bench) -> None:
    run = bench.run(dish("1 egg", f"do: boil, use: all, until: firm; {MASH}"))
    assert run.card is not None
    own = [item.icon.name for item in run.card.safety.own]
    assert "egg-firm" in own
    assert "eat-soon" in own
    general = [item.icon.name for item in run.card.safety.general]
    assert general[:2] == ["watch", "no-honey"]  # the first of those that hold for every dish
    assert "egg-firm" not in general


@pytest.mark.parametrize(
    ("steps", "own"),
    [
        (BOIL, True),
        (f"{BOIL}; {MASH}", True),
        (f"{BOIL}; do: cool", False),
        (f"{BOIL}; do: rest, time: 10 minutes; {MASH}", False),
        (f"{BOIL}; do: cool; do: warm", True),
    ],
)
def test_a_dish_that_nothing_cools_says_so_itself(bench: Bench, steps: str, own: bool) -> None:
    card = bench.run(dish("5 g cumin", steps, FROM_9)).card
    assert card is not None
    assert ("cool" in [item.icon.name for item in card.safety.own]) is own
    assert ("cool" in [item.icon.name for item in card.safety.general]) is not own


def test_predicates_are_a_closed_list() -> None:
    asked = {name for r in (*rules().values(), *cautions()) for name, _ in r.when}
    asked |= {name for c in cautions() for name, _ in c.own}
    assert asked == set(PREDICATES)


def pot(*steps: str) -> str:
    return dish("60 g chicken", "; ".join((*steps, MASH)))


@pytest.mark.parametrize(
    ("steps", "cooked"),
    [
        # what was added to the pot is cooked by a later step that names other food
        (("do: boil, use: rice", "do: add, use: chicken", "do: simmer, use: ghee"), True),
        # what was only made ready beside the pot is not
        (
            ("do: boil, use: rice", "do: chop, use: chicken, size: pea", "do: simmer, use: ghee"),
            False,
        ),
        # a step that names nothing works on all that is in hand
        (("do: boil, use: rice", "do: chop, use: chicken, size: pea", "do: simmer"), True),
        # once mixed, what is in hand is in the pot
        (("do: grind, use: chicken", "do: mix, use: rice", "do: fry, use: ghee"), True),
        # added after the last heat
        (("do: boil, use: rice", "do: add, use: chicken"), False),
        (("do: boil, use: [all, rice]",), True),
    ],
)
def test_which_food_the_heat_reaches(bench: Bench, steps: tuple[str, ...], cooked: bool) -> None:
    assert ("meat-cooked-through" not in bench.kinds(pot(*steps))) is cooked


def test_a_liver_dish_does_not_say_four_times_a_day(bench: Bench) -> None:
    run = bench.run(dish("20 g chicken liver", f"{BOIL}; {MASH}"))
    assert run.card is not None
    for column in run.card.portions.columns:
        assert [icon.name for icon in column.seldom] == ["once-a-week"]
        assert column.meals[0].text == "at most once a week"
        # of the day's meals only the first is of this dish
        sure = [dict(icon.params) for icon in column.meal_icons if dict(icon.params)["fill"]]
        others = [params.get("other", 0) for params in sure]
        assert others == [0, *[1] * (len(others) - 1)]
        assert len(others) > 1


def test_the_texture_is_never_rougher_than_the_dish(bench: Bench) -> None:
    smooth = bench.run(dish("5 g cumin", f"{BOIL}; {MASH}")).analysis
    rough = bench.run(dish("5 g cumin", BOIL, FROM_9 + "texture: family\n")).analysis
    assert smooth is not None
    assert rough is not None
    assert [p.texture for p in smooth.portions] == ["mashed", "mashed", "mashed"]
    assert [p.texture for p in rough.portions] == ["chopped", "family"]


def test_a_smooth_dip_does_not_make_the_cakes_smooth(bench: Bench) -> None:
    text = """\
recipe: 1
title: {en: T, hi: त}
ages: from 12 months
makes: 8 pieces (400 g)
parts:
  - part: A
    ingredients: [150 g rice, 200 g water, 30 g ghee]
    steps: [{do: grind, use: rice}, {do: fry, use: all}]
  - part: B
    ingredients: [100 g curd]
    steps: [{do: grind, use: curd}]
"""
    analysis = bench.run(text).analysis
    assert analysis is not None
    assert [p.texture for p in analysis.portions] == ["family"]


def back(bench: Bench, text: str) -> list[str]:
    run = bench.run(text)
    assert run.card is not None
    safety = run.card.safety
    return [item.said[0].text for item in (*safety.own, *safety.general)]


def test_how_long_it_keeps_is_what_the_recipe_says(bench: Bench) -> None:
    plain = dish("5 g cumin", f"{BOIL}; {MASH}")
    assert "Eat within 2 hours of cooking" in back(bench, plain)
    assert "Eat within 30 minutes of cooking" in back(
        bench, plain.replace("makes:", "keep: 30 minutes\nmakes:")
    )


def test_flesh_is_drawn_as_what_it_is(bench: Bench) -> None:
    def icons(food: str) -> list[str]:
        run = bench.run(dish(food, f"{BOIL}; do: debone; {MASH}"))
        assert run.card is not None
        return [mark.icon.name for mark in run.card.foot.groups]

    assert "fish" in icons("60 g rohu")
    assert "group-meat" in icons("60 g chicken")


def test_one_month_is_one_month(bench: Bench) -> None:
    run = bench.run(dish("5 g cumin", f"{BOIL}; {MASH}", "ages: from 8 months\nmakes: 500 g\n"))
    assert run.card is not None
    assert [c.ages for c in run.card.portions.columns] == ["8", "9–11", "12–23"]


def test_sizes_are_said(bench: Bench) -> None:
    run = bench.run(dish("50 g carrot", f"do: chop, use: carrot, size: pea; {BOIL}", FROM_9))
    assert run.card is not None
    assert run.card.steps.sections[0].rows[0].said[0].text == "Chop carrot to pea size."


def test_a_cooker_that_cools_stays_shut(bench: Bench) -> None:
    run = bench.run(
        dish("5 g cumin", f"do: pressure-cook, use: all, whistles: 3; do: cool; {MASH}")
    )
    assert run.card is not None
    assert [row.icon.name for row in run.card.steps.sections[0].rows] == [
        "pressure-cook",
        "steam-out",
        "mash",
    ]


def test_pieces_for_the_youngest_say_how_soft(bench: Bench) -> None:
    text = dish(
        "50 g egg",
        "do: griddle, use: all, until: firm",
        "ages: from 9 months\nmakes: 6 pieces (400 g)\n",
    )
    found = [d for d in bench.said(text) if d.kind == "piece-size"]
    assert found
    assert found[0].message.startswith("cannot tell")
