"""Measures: an own registry against a plain hand table."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cards.foods.units import Measures

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
