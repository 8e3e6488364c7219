"""Sums: worked by hand, and properties that hold for any dish."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cards.batch.analysis_text import analysis_text
from cards.foods.table import FoodTable, build_table
from cards.foods.units import Measures
from cards.nutrition.analysis import Analysis
from cards.nutrition.total import total
from cards.source.programme import BANDS, Programme
from cards.source.read import read
from cards.words.numbers import two
from tests.conftest import PLAIN, Bench


def toy_table() -> FoodTable:
    """Invented foods with round figures, to reckon with in the head."""

    def food(name: str, flags: str = "") -> dict[str, str]:
        return {
            "food": name,
            "name": name,
            "also": "",
            "group": "grains-roots",
            "form": "whole",
            "flags": flags,
            "allergens": "",
            "match": "direct",
            "note": "",
        }

    def figure(name: str, tag: str, value: str, unit: str) -> dict[str, str]:
        return {
            "food": name,
            "tag": tag,
            "value": value,
            "unit": unit,
            "source": "computed",
            "code": "",
            "known": "computed",
            "note": "invented",
        }

    def measure(name: str, kind: str, value: str, unit: str, basis: str) -> dict[str, str]:
        return {
            "food": name,
            "measure": kind,
            "value": value,
            "unit": unit,
            "basis": basis,
            "source": "computed",
            "code": "",
            "known": "computed",
            "note": "invented",
        }

    return build_table(
        [food("alpha"), food("beta"), food("gamma"), food("water", "water")],
        [
            figure("alpha", "ENERC", "400", "kcal"),
            figure("alpha", "FE", "5", "mg"),
            figure("beta", "ENERC", "50", "kcal"),
            figure("gamma", "ENERC", "100", "kcal"),
            figure("gamma", "FE", "1", "mg"),
            figure("water", "ENERC", "0", "kcal"),
        ],
        [
            measure("alpha", "density", "0.8", "g/ml", "edible"),
            measure("gamma", "medium", "50", "g", "bought"),
            measure("gamma", "edible_share", "0.6", "share", "edible"),
            measure("water", "density", "1", "g/ml", "edible"),
        ],
    )


def analyse(ingredients: list[str], makes: str = "300 g") -> Analysis:
    text = (
        "recipe: 1\ntitle: {en: T}\nmakes: "
        + makes
        + "\ningredients:\n"
        + "".join(f"  - {line}\n" for line in ingredients)
        + "steps:\n  - do: mix\n"
    )
    recipe = read(text, "x.yaml", Programme(languages=("en",))).value
    assert recipe is not None
    result = total(recipe, toy_table(), Measures(), BANDS)
    assert result.value is not None, result.diagnostics
    return result.value


def test_a_dish_worked_by_hand() -> None:
    # 5 tbsp alpha = 75 ml x 0.8 = 60 g: 240 kcal, 3 mg iron
    # 2 gamma = 100 g bought x 0.6 = 60 g edible: 60 kcal, 0.6 mg iron
    dish = analyse(["5 tbsp alpha", "2 gamma", "1 cup water"])
    assert [round(li.edible_g, 6) for li in dish.lines] == [60, 60, 250]
    assert dish.totals["ENERC"].value == pytest.approx(300)
    assert dish.totals["FE"].value == pytest.approx(3.6)
    assert dish.per_100_g("ENERC") == pytest.approx(100)
    assert dish.per_100_kcal("FE") == pytest.approx(1.2)
    assert dish.energy_density == pytest.approx(1.0)
    # 9-11 months, half a cup of 250 ml at 1 g per ml: 125 of 300 g
    portion = next(p for p in dish.portions if p.band == "9-11")
    assert portion.grams_high == pytest.approx(125)
    assert portion.per_portion["FE"] == pytest.approx(3.6 * 125 / 300)


def test_water_is_what_the_cooked_weight_leaves(bench: Bench) -> None:
    """Water boils away: 70.4 g rice at 9.93 % water (IFCT 2017 A015) in 500 g of cooked rice.

    Dry matter 63.4 g, so 436.6 g of water, whatever was poured in.
    """
    text = PLAIN.replace("  - 3 tbsp moong dal\n", "").replace("  - 1 tbsp ghee\n", "")
    text = text.replace("rice, moong dal, water, ghee", "rice, water")
    analysis = bench.run(text).analysis
    assert analysis is not None
    assert analysis.totals["WATER"].value == pytest.approx(500 - 90 * 0.782 * (1 - 0.0993), abs=0.1)


def test_blank_is_not_nothing() -> None:
    """beta has no iron figure: the sum says "at least", and how much of the dish is known."""
    dish = analyse(["30 g alpha", "70 g beta", "200 g water"])
    iron = dish.totals["FE"]
    assert iron.value == pytest.approx(1.5)
    assert iron.missing == ("beta",)
    assert iron.known_share == pytest.approx(0.3)
    assert not iron.judgeable
    assert dish.totals["ENERC"].complete
    assert ">=1.5" in analysis_text(dish)
    assert "30%" in analysis_text(dish)
    assert "no figures" in analysis_text(dish)  # zinc: nobody has one


def test_grams_win_over_spoons() -> None:
    assert analyse(["5 tbsp (61 g) alpha"]).lines[0].edible_g == 61


def test_water_left_out_of_the_share_known() -> None:
    dish = analyse(["50 g alpha", "500 g water"], "500 g")
    assert dish.totals["FE"].known_share == 1


def test_optional_is_not_counted() -> None:
    counted = analyse(["100 g alpha"])
    more = analyse(["100 g alpha", "{food: beta, grams: 50, optional: yes}"])
    assert more.totals["ENERC"].value == counted.totals["ENERC"].value


AMOUNTS = st.lists(
    st.tuples(st.sampled_from(["alpha", "beta", "gamma"]), st.integers(1, 400)),
    min_size=1,
    max_size=6,
)


def lines(given_amounts: list[tuple[str, int]], factor: int = 1) -> list[str]:
    return [f"{grams * factor} g {name}" for name, grams in given_amounts]


@given(AMOUNTS)
@settings(deadline=None)
def test_doubling_amounts_doubles_sums(amounts: list[tuple[str, int]]) -> None:
    once, twice = analyse(lines(amounts)), analyse(lines(amounts, 2))
    for tag in ("ENERC", "FE"):
        assert twice.totals[tag].value == pytest.approx(2 * once.totals[tag].value)
        assert twice.totals[tag].known_share == pytest.approx(once.totals[tag].known_share)


@given(AMOUNTS, st.randoms())
@settings(deadline=None)
def test_order_does_not_matter(amounts: list[tuple[str, int]], random: object) -> None:
    shuffled = list(amounts)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    a, b = analyse(lines(amounts)), analyse(lines(shuffled))
    assert a.totals["FE"].value == pytest.approx(b.totals["FE"].value)


@given(AMOUNTS, st.sampled_from(["alpha", "beta", "gamma"]), st.integers(1, 300))
@settings(deadline=None)
def test_adding_never_lowers_a_sum(amounts: list[tuple[str, int]], name: str, grams: int) -> None:
    before, after = analyse(lines(amounts)), analyse([*lines(amounts), f"{grams} g {name}"])
    for tag in ("ENERC", "FE"):
        assert after.totals[tag].value >= before.totals[tag].value - 1e-9


@given(AMOUNTS)
@settings(deadline=None)
def test_per_hundred_grams_times_mass_is_the_sum(amounts: list[tuple[str, int]]) -> None:
    dish = analyse(lines(amounts))
    assert dish.per_100_g("ENERC") * dish.cooked_g / 100 == pytest.approx(
        dish.totals["ENERC"].value
    )


def test_a_real_dish_against_its_table(bench: Bench) -> None:
    """Energy of the plain dish from the table's rows, added up here a second way."""
    run = bench.run(PLAIN)
    assert run.analysis is not None
    by_hand = sum(li.edible_g / 100 * li.food.figures["ENERC"].value for li in run.analysis.lines)
    assert run.analysis.totals["ENERC"].value == pytest.approx(by_hand)
    # 6 tbsp rice: 90 ml x 0.782 g/ml = 70.4 g x 3.564 kcal = 251 kcal (IFCT 2017 A015)
    assert run.analysis.lines[0].edible_g / 100 * 356.4 == pytest.approx(251, abs=1)


def test_two_significant_figures() -> None:
    assert [two(v) for v in (0, 0.0123, 0.45, 4.56, 45.6, 456.7, 1234)] == [
        "0",
        "0.012",
        "0.45",
        "4.6",
        "46",
        "457",
        "1234",
    ]


def test_unknown_food_and_weightless_measure_stop_the_sums(bench: Bench) -> None:
    run = bench.run(PLAIN.replace("rice\n", "rize\n", 1))
    assert run.analysis is None


def test_ages_outside_the_programme(bench: Bench) -> None:
    from dataclasses import replace

    narrow = replace(bench.kit, programme=replace(bench.kit.programme, bands=("6-8",)))
    said = Bench(narrow).said(PLAIN.replace("6-23 months", "from 12 months"))
    assert "ages-outside" in [d.kind for d in said]
