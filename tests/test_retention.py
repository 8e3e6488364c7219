"""Retention factors: published rows, the right row for the right cooking, and no row twice."""

from __future__ import annotations

import pytest

from cards.data import load
from cards.foods.retention import Cooking, retention_row, ways
from cards.foods.table import shipped_table
from tests.conftest import PLAIN, Bench

# USDA Table of Nutrient Retention Factors, Release 6 (2007), percent, as printed
PRINTED = [
    ("3005", "VITC", 55),  # vegetables, greens, boiled, water covers, drained
    ("3006", "VITC", 70),  # the same, water used
    ("3456", "FOL", 80),  # roots, boiled, water used
    ("0502", "FE", 90),  # legumes cooked 15 to 20 minutes, water used
    ("0522", "FOL", 50),  # legumes cooked 45 to 75 minutes, water used
    ("1153", "RETOL", 80),  # liver, simmered, drippings kept
    ("0432", "THIA", 80),  # rice, cooked, water used
    ("0103", "RIBF", 95),  # eggs, fried or scrambled
    ("0856", "THIA", 75),  # chicken, simmered, drippings kept
]


@pytest.mark.parametrize(("code", "tag", "percent"), PRINTED)
def test_printed_factors(code: str, tag: str, percent: int) -> None:
    row = next(r for r in load.rows("retention.csv") if r["code"] == code)
    assert float(row[tag]) == percent


def test_every_chosen_row_exists() -> None:
    codes = {row["code"] for row in load.rows("retention.csv")}
    for group, choices in load.mapping("retention_groups.yaml").items():
        assert set(choices) <= {c.value for c in Cooking}, group
        assert set(choices.values()) <= codes, group


def test_groups_of_the_table_are_known() -> None:
    known = {name.partition("-")[0] for name in load.mapping("retention_groups.yaml")}
    for food in shipped_table().foods.values():
        assert food.retention in (*known, "fat", "sugar", "spice", "none"), food.id


def test_ways_of_cooking() -> None:
    assert ways(["saute", "simmer"], drained=False) == (Cooking.FRIED, Cooking.USED)
    assert ways(["boil"], drained=True) == (Cooking.DRAINED,)
    assert ways(["chop", "mash"], drained=False) == ()


def test_the_harder_cooking_counts() -> None:
    spinach = shipped_table().foods["spinach"]
    row = retention_row(spinach, (Cooking.FRIED, Cooking.DRAINED))
    assert row is not None
    assert row.code == "3005"


def test_never_on_cooked_figures() -> None:
    cooked = [f for f in shipped_table().foods.values() if f.state == "cooked"]
    assert cooked
    for food in cooked:
        assert retention_row(food, (Cooking.USED,)) is None


def test_macronutrients_and_water_keep_all(bench: Bench) -> None:
    analysis = bench.run(PLAIN).analysis
    assert analysis is not None
    for line in analysis.lines:
        for tag in ("ENERC", "PROCNT", "FAT", "CHOAVL", "FIBTG"):
            assert line.retention is None or line.retention.share(tag) == 1


def test_a_dish_worked_by_hand(bench: Bench) -> None:
    """Folate of 6 tbsp rice and 3 tbsp moong dal, boiled, water kept.

    70.4 g rice x 9.32 ug (IFCT 2017 A015) x 0.70 (row 0432)
    + moong dal x its folate x 0.65 (row 0502).
    """
    analysis = bench.run(PLAIN).analysis
    assert analysis is not None
    rice, dal = analysis.lines[:2]
    assert rice.retention is not None
    assert dal.retention is not None
    assert (rice.retention.code, dal.retention.code) == ("0432", "0502")
    expected = (
        rice.edible_g / 100 * rice.food.figures["FOL"].value * 0.70
        + dal.edible_g / 100 * dal.food.figures["FOL"].value * 0.65
    )
    assert analysis.totals["FOL"].value == pytest.approx(expected, rel=0.01)


def test_water_thrown_away_takes_more(bench: Bench) -> None:
    kept = PLAIN.replace("  - 3 tbsp moong dal\n", "  - 100 g spinach\n").replace(
        "rice, moong dal, water", "rice, spinach, water"
    )
    thrown = kept.replace("  - do: mash", "  - do: drain\n  - do: mash")
    first, second = bench.run(kept).analysis, bench.run(thrown).analysis
    assert first is not None
    assert second is not None
    assert second.totals["VITC"].value < first.totals["VITC"].value


def test_raw_food_loses_nothing(bench: Bench) -> None:
    text = (
        PLAIN.replace("use: rice, moong dal, water, ghee", "use: rice, moong dal, water")
        .replace("  - 1 tbsp ghee\n", "  - 1 tbsp ghee\n  - 1 banana\n")
        .replace("  - do: mash", "  - do: mix\n    use: banana\n  - do: mash")
    )
    analysis = bench.run(text).analysis
    assert analysis is not None
    banana = next(li for li in analysis.lines if li.food.id == "banana")
    assert banana.retention is None
