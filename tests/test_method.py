"""Does it add up: the steps against the list, parts, promises, kitchens."""

from __future__ import annotations

import pytest

from cards.batch.kit import Kit
from cards.batch.stages import run_text
from cards.source.amounts import SHARE
from cards.source.programme import read_programme
from cards.source.recipe import Use
from tests.conftest import PLAIN, Bench

GHEE = "  - 1 tbsp ghee\n"
BOIL = "    use: rice, moong dal, water, ghee\n"
MASH = "  - do: mash\n    use: all\n"

# what the boil takes, what a last step takes, the kind that is told and its line
TAKEN = [
    ("1 tsp ghee", "2 tsp ghee", "", 0),
    ("1 tbsp ghee", "1 tsp ghee", "used-more-than-listed", 17),
    ("half of the ghee", "half of the ghee", "", 0),
    ("half of the ghee", "the rest of the ghee", "", 0),
    ("1 tsp ghee", "rest of ghee", "", 0),
    ("1/2 tbsp ghee", "1/4 tbsp ghee", "left-over", 9),
    ("1 tsp ghee", "1 tsp ghee", "left-over", 9),
    ("ghee", "1 tsp ghee", "used-more-than-listed", 17),
    ("1 tsp ghee", "ghee", "", 0),
    ("water", "the rest of the ghee", "rest-of-nothing", 17),
    ("5 g ghee", "8 g ghee", "", 0),
    ("10 g ghee", "10 g ghee", "used-more-than-listed", 17),
]


def dish(boil: str, last: str) -> str:
    text = PLAIN.replace(BOIL, f"    use: [rice, moong dal, water, {boil}]\n")
    return text.replace(MASH, f"  - do: mash\n  - do: mix\n    use: [{last}]\n")


@pytest.mark.parametrize(("boil", "last", "kind", "line"), TAKEN)
def test_what_steps_take(bench: Bench, boil: str, last: str, kind: str, line: int) -> None:
    """Spoons reckoned by hand: 1 tbsp is 3 tsp; of ghee 13.65 g by its density of 0.91."""
    found = [(d.kind, d.place.line) for d in bench.said(dish(boil, last))]
    assert found == ([(kind, line)] if kind else [])


def test_whole_things_may_be_named_again(bench: Bench) -> None:
    text = PLAIN.replace(GHEE, GHEE + "  - 2 medium potatoes\n").replace(
        MASH,
        "  - {do: boil, use: 2 medium potatoes}\n  - {do: peel, use: 2 medium potatoes}\n"
        "  - {do: mash}\n",
    )
    assert bench.kinds(text) == []


@pytest.mark.parametrize(
    ("text", "name", "number", "unit"),
    [
        ("1/2 tsp ghee", "ghee", "1/2", "teaspoon"),
        ("half of the milk", "milk", "1/2", SHARE),
        ("a quarter of the milk", "milk", "1/4", SHARE),
        ("half the milk", "milk", "1/2", SHARE),
        ("2 eggs", "eggs", "2", "each"),
        ("pinch of cumin", "cumin", "1", "pinch"),
        ("small onion", "small onion", "", ""),
        ("rice", "rice", "", ""),
    ],
)
def test_uses_are_read(bench: Bench, text: str, name: str, number: str, unit: str) -> None:
    recipe = bench.run(
        PLAIN.replace("use: all", f"use: {text}").replace("water, ghee", "water")
    ).recipe
    assert recipe is not None
    use = recipe.steps[-1].uses[0]
    assert isinstance(use, Use)
    assert (use.name, str(use.amount.low) if use.amount else "") == (name, number)
    assert (use.amount.unit if use.amount else "") == unit


def test_a_step_says_how_much_it_takes(bench: Bench) -> None:
    card = bench.run(dish("1 tsp ghee", "the rest of the ghee")).card
    assert card is not None
    rows = [row.said[0].text for section in card.steps.sections for row in section.rows]
    assert rows[0].startswith("Boil rice, moong dal, water and 1\u00a0small spoon ghee")
    assert rows[-1] == "Mix the rest of ghee."


PARTS = """\
recipe: 1
title: {en: Cakes and dip, hi: टिक्की}
ages: from 9 months
texture: chopped
makes: 3 cups (700 g)
parts:
  - part: {en: Cakes, hi: टिक्की}
    ingredients:
      - 1 cup rice flour
      - 2 cups water
    steps:
      - {do: steam, use: all}
  - part: {en: Dip, hi: चटनी}
    ingredients:
      - 2 medium tomatoes, chopped fine
    steps:
      - {do: simmer, use: tomatoes}
"""


def test_parts_come_together(bench: Bench) -> None:
    assert [(d.kind, d.place.line) for d in bench.said(PARTS) if d.severity < 2] == [
        ("part-unjoined", 7)
    ]
    for end in ("{do: serve, use: [Cakes, Dip]}", "{do: serve, use: all}"):
        assert "part-unjoined" not in bench.kinds(PARTS + f"      - {end}\n")


@pytest.mark.parametrize(
    ("ready", "soak", "told"),
    [
        ("25 minutes", "", False),
        ("15 minutes", "", True),
        ("30 minutes", "  - {do: soak, use: rice, time: overnight}\n", True),
        ("9 hours", "  - {do: soak, use: rice, time: overnight}\n", False),
    ],
)
def test_a_promise_of_time_is_kept(bench: Bench, ready: str, soak: str, told: bool) -> None:
    """Boiling 20 minutes and mashing 3 make 25, rounded up to five; a night is eight hours."""
    text = PLAIN.replace("makes:", f"ready: {ready}\nmakes:").replace("steps:\n", "steps:\n" + soak)
    found = [(d.kind, d.place.line) for d in bench.said(text)]
    assert found == ([("ready-too-soon", 4)] if told else [])


@pytest.mark.parametrize(("portions", "told"), [(3, False), (4, False), (6, True)])
def test_portions_promised_are_there(bench: Bench, portions: int, told: bool) -> None:
    """500 g are four meals of half a 250 ml cup, the smallest meal at 6-8 months."""
    text = PLAIN.replace("2 cups (500 g)", f"2 cups (500 g), {portions} portions")
    found = [(d.kind, d.place.line) for d in bench.said(text)]
    assert found == ([("makes-less-than-promised", 4)] if told else [])


def test_kitchens_without_a_fridge(bench: Bench, kit: Kit) -> None:
    text = PLAIN + "  - {do: chill, time: 1 hour}\n"
    assert [d.place.line for d in bench.said(text) if d.kind == "equipment-missing"] == [17]
    programme = read_programme(
        "programme: 1\nname: X\nkitchen: [pot, fridge]\ncooker: 5 l\nmilk: from-12-months\n", "p"
    ).value
    assert programme is not None
    assert programme.kitchen == {"pot", "fridge"}
    assert programme.cooker_ml == 5000
    from dataclasses import replace

    own = replace(kit, programme=replace(kit.programme, kitchen=programme.kitchen))
    assert "equipment-missing" not in [
        d.kind for d in run_text(text, "recipes/x.yaml", own).diagnostics
    ]


@pytest.mark.parametrize(
    "line", ["kitchen: [spaceship]", "cooker: 3", "cooker: 30 ml", "milk: never", "kitchen: pot"]
)
def test_kitchens_of_another_kind_are_refused(line: str) -> None:
    result = read_programme(f"programme: 1\nname: X\n{line}\n", "p")
    assert result.value is None
    assert [d.kind for d in result.diagnostics] == ["value-wrong"]


@pytest.mark.parametrize(
    "line",
    ["  - salt to taste\n", "  - salt, to taste\n", "  - {food: salt, amount: to taste}\n"],
)
def test_salt_to_taste(bench: Bench, line: str) -> None:
    assert [(d.kind, d.place.line) for d in bench.said(PLAIN.replace(GHEE, GHEE + line))] == [
        ("amount-to-taste", 10)
    ]


def test_all_leaves_what_a_later_step_takes(bench: Bench) -> None:
    """All is all so far: ghee that a later step names is still to come."""
    text = PLAIN.replace(BOIL, "    use: [rice, moong dal, water, 1 tsp ghee]\n")
    text += "  - {do: mix, use: 2 tsp ghee}\n"
    assert bench.kinds(text) == []
    assert bench.kinds(text.replace("2 tsp ghee", "1 tsp ghee")) == ["left-over"]


def test_a_part_may_be_called_like_its_food(bench: Bench) -> None:
    text = PARTS.replace("{en: Dip, hi: चटनी}", "{en: Tomatoes, hi: टमाटर}").replace(
        "      - 2 medium tomatoes, chopped fine\n",
        "      - 2 medium tomatoes, chopped fine\n      - 1 tsp mustard oil\n",
    )
    text += "      - {do: serve, use: [Cakes, Tomatoes]}\n"
    assert [(d.kind, d.place.line) for d in bench.said(text) if d.severity < 2] == [
        ("ingredient-unused", 16)
    ]


def test_a_word_is_enough_where_one_food_has_it(bench: Bench) -> None:
    text = PLAIN.replace("3 tbsp moong dal", "3 tbsp masoor dal").replace("moong dal", "dal")
    assert bench.kinds(text) == []
    two = text.replace("  - 3 tbsp masoor dal\n", "  - 2 tbsp masoor dal\n  - 1 tbsp toor dal\n")
    assert bench.kinds(two) == ["use-unknown"]


def test_a_pan_beside_the_pot(bench: Bench) -> None:
    """What is fried after boiling is fried in another pan, and the rice in the pot is not."""
    text = PLAIN.replace("water, ghee", "water").replace(
        MASH, "  - {do: saute, use: ghee, time: 2 minutes}\n  - {do: mix}\n  - {do: mash}\n"
    )
    analysis = bench.run(text).analysis
    assert analysis is not None
    ways = {line.food.name: line.retention.cooking for line in analysis.lines if line.retention}
    plain = bench.run(PLAIN).analysis
    assert plain is not None
    assert ways["rice"] in {line.retention.cooking for line in plain.lines if line.retention}
    same = bench.run(text.replace("use: ghee, time", "use: [ghee, rice], time")).analysis
    assert same is not None
    fried = {line.food.name: line.retention.cooking for line in same.lines if line.retention}
    assert fried["rice"] != ways["rice"]


def test_small_handfuls_are_handfuls(bench: Bench) -> None:
    recipe = bench.run(PLAIN.replace(GHEE, GHEE + "  - 1 small handful spinach\n")).recipe
    assert recipe is not None
    assert (recipe.ingredients[-1].food, str(recipe.ingredients[-1].amount)) == (
        "spinach",
        "1 handful",
    )


def test_all_hides_nothing_beside_it(bench: Bench) -> None:
    """all, salt: the salt is not among the ingredients, and says so."""
    assert bench.kinds(PLAIN.replace("use: all", "use: all, salt")) == ["use-unknown"]


def test_everything_leaves_out_what_is_still_to_come(bench: Bench) -> None:
    """Four foods taken and one not: all but that one, in the words of each language."""
    text = PLAIN.replace(GHEE, GHEE + "  - 1 pinch turmeric\n").replace(
        BOIL, "    use: rice, moong dal, water, turmeric\n"
    )
    text += "  - {do: mix, use: ghee}\n"
    card = bench.run(text).card
    assert card is not None
    said = card.steps.sections[0].rows[0].said
    assert said[0].text.startswith("Boil all but the ghee for 20 minutes")
    assert said[1].text.startswith("घी के सिवा सब")


def test_a_mashed_dish_is_given_by_the_cup(bench: Bench) -> None:
    analysis = bench.run(PLAIN.replace("2 cups (500 g)", "6 pieces (500 g)")).analysis
    assert analysis is not None
    assert {p.unit for p in analysis.portions} == {"cup"}


def test_the_card_calls_a_food_as_the_author_does(bench: Bench) -> None:
    card = bench.run(PLAIN.replace(GHEE, GHEE + "  - 1 pinch jeera\n")).card
    assert card is not None
    assert "jeera" in card.needs.sections[0].rows[-1].said[0].text
