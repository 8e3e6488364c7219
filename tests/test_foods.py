"""The food table: every figure has a source, and the figures hold together."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from cards.data import load
from cards.foods.components import components
from cards.foods.table import (
    FORMS,
    GROUPS,
    NAME_ONLY,
    NAME_ONLY_NOTE,
    Food,
    build_table,
    shipped_table,
    sources,
)
from cards.nutrition.equivalents import retinol_activity_ug

FOODS = sorted(shipped_table().foods.values(), key=lambda f: f.id)
FIGURED = [food for food in FOODS if not food.has(NAME_ONLY)]
NAMED = [food for food in FOODS if food.has(NAME_ONLY)]
KNOWN = ("seen", "memory", "computed")
MACROS = ("ENERC", "WATER", "PROCNT", "FAT", "CHOAVL", "FIBTG")


def value(food: Food, tag: str) -> float:
    figure = food.figures.get(tag)
    return figure.value if figure else 0.0


WARNINGS = [
    "alcohol",
    "cassava",
    "formula",
    "gram-flour",
    "herbal",
    "honey",
    "juice",
    "liver",
    "mercury",
    "never",
    "non-sugar-sweetener",
    "nut-paste",
    "raw-milk",
    "rice-drink",
    "round-firm",
    "salt",
    "shell",
    "sprout",
    "sweet-drink",
    "sweet-milk",
    "sweetener",
    "tea",
    "trans-fat",
]
"""Flags a food may be listed for without figures."""


def test_the_table_is_wide_enough_for_the_demos() -> None:
    assert len(FOODS) >= 280


@pytest.mark.parametrize("food", FOODS, ids=lambda f: f.id)
def test_every_figure_names_its_source(food: Food) -> None:
    assert bool(food.figures) != food.has(NAME_ONLY)
    for figure in (*food.figures.values(), *food.measures.values()):
        assert figure.source in sources()
        assert figure.known in KNOWN
        assert figure.value >= 0
        if figure.known == "seen":
            assert figure.code
        if figure.known == "computed" and figure.source not in ("assumed0",):
            assert figure.note, (food.id, figure)


@pytest.mark.parametrize("food", FOODS, ids=lambda f: f.id)
def test_kinds_come_from_closed_lists(food: Food) -> None:
    assert food.form in FORMS
    assert food.group in (*GROUPS, "none")
    assert food.match in ("direct", "proxy", "none")
    assert food.match == "direct" or food.note
    assert (food.match == "none") == food.has(NAME_ONLY)


@pytest.mark.parametrize("food", FIGURED, ids=lambda f: f.id)
def test_energy_agrees_with_the_macronutrients(food: Food) -> None:
    """Bounds that fit the published tables, whose energy factors differ by food.

    General Atwater factors 4, 9, 4 (FAO Food and Nutrition Paper 77, chapter 3, from memory);
    the lower bound leaves out fibre and 15 %, the upper counts fibre as carbohydrate and 5 %.
    A kilojoule passed for a kilocalorie (4.184 times too much) fails.
    """
    protein, fat, carbohydrate, fibre = (
        value(food, t) for t in ("PROCNT", "FAT", "CHOAVL", "FIBTG")
    )
    energy = value(food, "ENERC")
    least = 0.85 * (4 * protein + 9 * fat + 4 * carbohydrate) - 5
    most = 1.05 * (4 * protein + 9 * fat + 4 * (carbohydrate + fibre)) + 5
    assert least <= energy <= most


@pytest.mark.parametrize("food", FIGURED, ids=lambda f: f.id)
def test_proximates_make_about_a_hundred_grams(food: Food) -> None:
    total = sum(value(food, t) for t in ("WATER", "PROCNT", "FAT", "CHOAVL", "FIBTG"))
    total += 2.54 * value(food, "NA") / 1000  # salt is ash, which the table does not list
    assert 90 <= total <= 104


@pytest.mark.parametrize("food", FIGURED, ids=lambda f: f.id)
def test_one_source_for_the_macronutrients(food: Food) -> None:
    used = {(food.figures[t].source, food.figures[t].code) for t in MACROS if t in food.figures}
    used = {u for u in used if u[0] not in ("computed", "assumed0")}
    assert len(used) <= 1


@pytest.mark.parametrize("food", FIGURED, ids=lambda f: f.id)
def test_vitamin_a_is_at_least_retinol_and_beta_carotene(food: Food) -> None:
    if not {"VITA_RAE", "RETOL", "CARTB"} <= food.figures.keys():
        return
    least = retinol_activity_ug(value(food, "RETOL"), value(food, "CARTB"))
    assert value(food, "VITA_RAE") >= least * 0.98 - 1


def test_plants_have_no_b12_or_retinol() -> None:
    animal = ("egg", "fish", "meat", "poultry", "liver", "milk")
    for food in FIGURED:
        if not food.has(*animal) and food.id not in ("butter", "ghee", "honey"):
            assert value(food, "VITB12") == 0, food.id
            assert value(food, "RETOL") == 0, food.id


# printed values of the named rows, typed off the documents' own tables
PRINTED = [
    ("spinach", "RETOL", 0.0),
    ("salt", "NA", 38758.0),  # USDA SR28 02047
    ("egg", "VITB12", 0.89),  # USDA SR28 01123
    ("liver-chicken", "RETOL", 3290.0),  # USDA SR28 05027
    ("ragi-flour", "CA", 364.0),  # IFCT 2017 A010
    ("ragi-flour", "FE", 4.62),  # IFCT 2017 A010
]


@pytest.mark.parametrize(("food", "tag", "printed"), PRINTED)
def test_printed_values(food: str, tag: str, printed: float) -> None:
    assert shipped_table().foods[food].figures[tag].value == printed


def test_names_find_their_food() -> None:
    table = shipped_table()
    for word, food in {
        "eggs": "egg",
        "Moong Dal": "moong-dal",
        "tomatoes": "tomato",
        "curry leaf": "curry-leaves",
        "mint leaves": "mint-leaves",
        "potatoes": "potato",
        "atta": "wheat-flour-whole",
    }.items():
        found = table.find(word)
        assert found is not None, word
        assert found.id == food
    assert table.find("unicorn") is None


def test_no_two_foods_share_a_name() -> None:
    seen: dict[str, str] = {}
    for food in FOODS:
        for name in {n.casefold() for n in (food.name, *food.also)}:
            assert seen.setdefault(name, food.id) == food.id, name


@pytest.mark.parametrize("food", NAMED, ids=lambda f: f.id)
def test_a_food_known_by_name_warns_and_can_be_weighed(food: Food) -> None:
    assert food.has(*WARNINGS)
    assert food.note.startswith(NAME_ONLY_NOTE)
    assert food.measures
    assert food.retention == "none"
    for measure in food.measures.values():
        assert (measure.source, measure.known) == ("common_practice", "memory")
        assert measure.note


@pytest.mark.parametrize("food", FOODS, ids=lambda f: f.id)
def test_every_name_finds_its_own_food(food: Food) -> None:
    """Neither a name nor the singular of one leads to another food."""
    for name in (food.id, food.name, *food.also):
        found = shipped_table().find(name)
        assert found is not None
        assert found.id == food.id, name


# what people call them in a recipe, and the flag a rule looks for
CALLED = [
    ("chai", "tea"),
    ("tea dust", "tea"),
    ("green tea", "tea"),
    ("coffee powder", "tea"),
    ("cocoa", "tea"),
    ("chocolate", "tea"),
    ("hot chocolate", "tea"),
    ("energy drink", "tea"),
    ("cola", "tea"),
    ("cola", "sweet-drink"),
    ("cold drink", "sweet-drink"),
    ("orange squash", "sweet-drink"),
    ("sharbat", "sweet-drink"),
    ("glucose powder", "sweet-drink"),
    ("malted milk powder", "sweet-drink"),
    ("lassi", "sweet-drink"),
    ("apple juice", "juice"),
    ("mango juice", "juice"),
    ("mixed fruit juice", "juice"),
    ("condensed milk", "sweet-milk"),
    ("condensed milk", "sweetener"),
    ("flavored milk", "sweet-milk"),
    ("milkshake powder", "sweet-milk"),
    ("stevia", "non-sugar-sweetener"),
    ("aspartame", "non-sugar-sweetener"),
    ("sugar-free tablets", "non-sugar-sweetener"),
    ("chyawanprash", "honey"),
    ("honey biscuits", "honey"),
    ("honey oats", "honey"),
    ("gulkand", "sweetener"),
    ("amla murabba", "sweetener"),
    ("biscuits", "sweetener"),
    ("boiled sweets", "never"),
    ("candies", "never"),
    ("toffee", "never"),
    ("lollipops", "never"),
    ("bubble gum", "never"),
    ("gummies", "never"),
    ("bhujia", "never"),
    ("supari", "never"),
    ("peanut brittle", "never"),
    ("bhujia", "salty"),
    ("chips", "salt"),
    ("hot dogs", "round-firm"),
    ("sausages", "salt"),
    ("green olives", "stone"),
    ("cherries", "stone"),
    ("masala noodles", "salty"),
    ("bouillon cube", "salty"),
    ("soy sauce", "salty"),
    ("ketchup", "salty"),
    ("achar", "salty"),
    ("soup mix", "salty"),
    ("papad", "salt"),
    ("ajinomoto", "salt"),
    ("sendha namak", "salt"),
    ("vanaspati ghee", "trans-fat"),
    ("margarine", "trans-fat"),
    ("bakery fat", "trans-fat"),
    ("rice milk", "rice-drink"),
    ("oat milk", "rice-drink"),
    ("almond milk", "rice-drink"),
    ("coconut milk drink", "rice-drink"),
    ("panchmel dal", "gram-flour"),
    ("multigrain atta", "gram-flour"),
    ("mixed sprouts", "sprout"),
    ("cassava flour", "cassava"),
    ("cashew butter", "nut-paste"),
    ("tahini", "nut-paste"),
    ("ghonghi", "shell"),
    ("dried prawns", "shell"),
    ("camel milk", "raw-milk"),
    ("pork liver", "liver"),
    ("cod liver oil", "liver"),
    ("tadi", "alcohol"),
    ("handia", "alcohol"),
    ("beer", "alcohol"),
    ("gripe water", "herbal"),
    ("janam ghutti", "herbal"),
    ("baby milk powder", "formula"),
]


@pytest.mark.parametrize(("name", "flag"), CALLED)
def test_a_name_of_the_kitchen_carries_its_warning(name: str, flag: str) -> None:
    food = shipped_table().find(name)
    assert food is not None
    assert food.has(flag)


def test_sugar_and_a_sweet_drink_are_not_the_same_warning() -> None:
    foods = shipped_table().foods
    assert not foods["sugar"].has("sweet-drink", "non-sugar-sweetener")
    assert not foods["stevia"].has("sweetener")
    assert not foods["curd"].has("sweet-milk", "sweetener")


def test_a_unit_slip_in_the_table_is_refused() -> None:
    row = {
        "food": "x",
        "tag": "FE",
        "value": "3",
        "unit": "g",
        "source": "",
        "code": "",
        "known": "",
        "note": "",
    }
    with pytest.raises(ValueError, match="FE in g"):
        build_table([], [row], [])


def test_blank_is_no_figure() -> None:
    row = {
        "food": "x",
        "tag": "FE",
        "value": "",
        "unit": "mg",
        "source": "",
        "code": "",
        "known": "",
        "note": "",
    }
    food = {
        "food": "x",
        "name": "x",
        "also": "",
        "group": "none",
        "form": "whole",
        "flags": "",
        "allergens": "",
        "match": "direct",
        "note": "",
    }
    assert "FE" not in build_table([food], [row], []).foods["x"].figures


def test_rows_are_in_the_order_of_foods_and_components() -> None:
    """So that the file diffs well."""
    foods = [row["food"] for row in load.rows("foods.csv")]
    tags = list(components())
    keys = [(foods.index(r["food"]), tags.index(r["tag"])) for r in load.rows("composition.csv")]
    assert keys == sorted(keys)
    assert len(set(keys)) == len(keys)


def test_traps_of_the_sources_are_not_carried() -> None:
    foods = shipped_table().foods
    # USDA "millet, raw" (20031) is proso: it must not stand for ragi, bajra or any other
    for food in foods.values():
        codes = {f.code for f in food.figures.values()}
        assert "20031" not in codes or "proso" in food.id, food.id
    # fortified or enriched rows of the USDA tables: rice 20044, maida 20081, semolina 20066
    used = {f.code for food in foods.values() for f in food.figures.values()}
    assert used.isdisjoint({"20044", "20081", "20066", "08156"})
    # plant vitamin D of the Indian tables is not credible and is taken as nothing
    for name in ("ragi-flour", "sesame", "curry-leaves"):
        assert value(foods[name], "VITD") == 0
    # chicken leg of the Indian tables states twice its own energy
    assert value(foods["chicken-leg"], "ENERC") < 250
    # the millet whose name and species disagree says so
    assert "setaria" in foods["millet-kodo"].note.casefold() or "foxtail" in (
        foods["millet-kodo"].note.casefold()
    )


# the fruits of the table that have one stone or large seeds (common practice)
STONE_FRUIT = [
    "amla",
    "apricot",
    "apricot-dried",
    "avocado",
    "ber",
    "custard-apple",
    "dates",
    "dates-dry",
    "jackfruit-ripe",
    "jamun",
    "litchi",
    "mango",
    "mango-green",
    "peach",
    "phalsa",
    "plum",
    "sapota",
    "tamarind",
]

# names of US FDA and EPA, Advice about eating fish, choices to avoid (seen)
FISH_TO_AVOID = (
    "king mackerel",
    "marlin",
    "orange roughy",
    "shark",
    "swordfish",
    "tilefish",
    "bigeye tuna",
)

# names of the same, best and good choices, that stay free of the warning
FISH_TO_CHOOSE = ("anchovies", "sardines", "tilapia", "salmon", "catfish", "skipjack tuna", "crab")

# names of US CDC, Choking hazards (seen), that no cutting makes fit for a small child
CHOKING_SNACKS = ("popcorn", "hard candy", "chewing gum", "marshmallows", "potato chips")

# names of US CDC, Choking hazards (seen), that name a round or firm food of the table
ROUND_OR_FIRM = (
    "grapes",
    "cherry tomatoes",
    "corn kernels",
    "sausages",
    "black beans",
    "kidney beans",
    "white beans",
    "chickpeas",
    "cowpeas",
)


def test_warnings_reach_the_foods_they_are_meant_for() -> None:
    table = shipped_table()

    def carry(flag: str, names: Iterable[str]) -> None:
        for name in names:
            food = table.find(name)
            assert food is not None, name
            assert food.has(flag), name

    carry("stone", STONE_FRUIT)
    carry("mercury", FISH_TO_AVOID)
    carry("round-firm", ROUND_OR_FIRM)
    carry("never", CHOKING_SNACKS)
    carry("juice", ("orange juice", "fresh orange juice", "sugarcane juice"))
    carry("gram-flour", ("besan", "sattu"))
    carry("grass-pea", ("khesari dal", "kesari dal", "lakh dal"))
    carry("raw-milk", ("raw milk", "milk"))
    for name in FISH_TO_CHOOSE:
        fish = table.find(name)
        assert fish is not None, name
        assert not fish.has("mercury"), name
    assert not table.foods["paneer"].has("hard-cheese")
    assert not table.foods["sago"].has("cassava")
    assert not table.foods["dates-pitted"].has("stone")


@pytest.mark.parametrize(
    ("stand_in", "of"),
    [("dates-pitted", "dates"), ("goat-minced", "goat-meat"), ("tomato-cherry", "tomato")],
)
def test_a_stand_in_has_the_figures_of_its_food(stand_in: str, of: str) -> None:
    foods = shipped_table().foods
    assert foods[stand_in].match == "proxy"
    assert foods[stand_in].figures == foods[of].figures


def test_groups_are_wide_enough() -> None:
    def count(flag: str) -> int:
        return sum(food.has(flag) for food in FOODS)

    assert sum(food.has("fish") for food in FOODS) >= 20
    assert sum(food.retention == "leaf" for food in FOODS) >= 25
    assert sum(food.retention == "fruit" for food in FOODS) >= 25
    assert count("pulse") >= 25
    assert count("grain") >= 25
    assert "breast-milk" in shipped_table().foods


def test_ranges_hold_our_own_figure() -> None:
    for row in load.rows("ranges.csv"):
        low, high = float(row["low"]), float(row["high"])
        assert low <= high
        factor = 2.0 if row["tag"] == "VITA_RAE" else 1.5
        assert low == 0 or high / low > factor * 0.95
        assert row["food"] in shipped_table().foods


def test_plain_oil_is_a_stand_in_that_says_so() -> None:
    oil, sunflower = (shipped_table().foods[name] for name in ("oil", "oil-sunflower"))
    assert oil.match == "proxy"
    assert "sunflower" in oil.note
    assert oil.figures == sunflower.figures
