"""Measures: an own registry against a plain hand table."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cards.foods.units import Measures
from tests.conftest import PLAIN, Bench

# metric household measures, worked by hand: WHO portion tables use a 250 ml cup;
# 15 ml and 5 ml spoons are common practice
HAND_ML = {
    ("cup", 1): 250,
    ("cup", 0.75): 187.5,
    ("tablespoon", 16): 240,
    ("tablespoon", 3): 45,
    ("teaspoon", 3): 15,
    ("litre", 0.5): 500,
    ("millilitre", 7): 7,
    ("bowl", 2): 300,
}


@pytest.mark.parametrize(("measure", "ml"), HAND_ML.items())
def test_volumes(measure: tuple[str, float], ml: float) -> None:
    unit, number = measure
    assert Measures().millilitres(number, unit) == pytest.approx(ml)


def test_mass_never_passes_for_volume() -> None:
    measures = Measures()
    with pytest.raises(pint.DimensionalityError):
        measures.millilitres(1, "gram")
    with pytest.raises(pint.DimensionalityError):
        measures.grams(1, "cup")
    with pytest.raises(pint.DimensionalityError):
        measures.millilitres(1, "handful")


def test_a_programme_sets_its_own_sizes() -> None:
    measures = Measures({"cup": 200, "tumbler": 180})
    assert measures.millilitres(2, "cup") == 400
    assert measures.millilitres(1, "tumbler") == 180
    assert measures.dimension("tumbler") == "volume"


def test_dimensions() -> None:
    measures = Measures()
    assert [measures.dimension(u) for u in ("cup", "kilogram", "leaf", "each")] == [
        "volume",
        "mass",
        "count",
        "count",
    ]


@given(st.floats(0.01, 1000), st.sampled_from(["cup", "tablespoon", "teaspoon", "litre"]))
def test_volume_is_proportional(number: float, unit: str) -> None:
    measures = Measures()
    assert measures.millilitres(2 * number, unit) == pytest.approx(
        2 * measures.millilitres(number, unit)
    )


# facts of the trade, common practice: what trainers reckon with, against our densities
TRADE = [
    ("4 tbsp", "little millet", 60, 0.3),
    ("2 tbsp", "moong dal", 30, 0.3),
    ("3/4 cup", "spinach", 30, 0.3),
    ("3/4 cup", "amaranth leaves", 30, 0.3),
]


@pytest.mark.parametrize(("amount", "food", "grams", "tolerance"), TRADE)
def test_facts_of_the_trade(
    bench: Bench, amount: str, food: str, grams: int, tolerance: float
) -> None:
    run = bench.run(PLAIN.replace("6 tbsp rice", f"{amount} {food}"))
    assert run.analysis is not None
    assert run.analysis.lines[0].edible_g == pytest.approx(grams, rel=tolerance)


def test_a_cup_is_about_sixteen_big_spoons() -> None:
    measures = Measures()
    assert measures.millilitres(1, "cup") / measures.millilitres(1, "tablespoon") == pytest.approx(
        16, rel=0.05
    )


def test_heaped_holds_more_and_level_is_plain(bench: Bench) -> None:
    def grams(amount: str) -> float:
        analysis = bench.run(PLAIN.replace("6 tbsp rice", f"{amount} rice")).analysis
        assert analysis is not None
        return analysis.lines[0].edible_g

    assert grams("6 level tbsp") == grams("6 tbsp")
    assert grams("6 heaped tbsp") == pytest.approx(1.5 * grams("6 tbsp"))


@pytest.mark.parametrize(
    ("line", "warns"),
    [
        # liquids: 1 tbsp of oil is 13.7 g; 15 % are allowed
        ("1 tbsp (15 g) mustard oil", False),
        ("1 tbsp (18 g) mustard oil", True),
        # grains: a third
        ("6 tbsp (90 g) rice", False),
        ("6 tbsp (120 g) rice", True),
        # leaves and handfuls: a half
        ("1 cup (60 g) spinach", False),
        ("1 cup (90 g) spinach", True),
    ],
)
def test_tolerance_by_kind(bench: Bench, line: str, warns: bool) -> None:
    kinds = bench.kinds(PLAIN.replace("6 tbsp rice", line))
    assert ("spoons-against-grams" in kinds) is warns
