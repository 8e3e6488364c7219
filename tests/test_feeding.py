"""Meals, densities and portions against the published tables."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cards.nutrition.feeding import bands
from cards.nutrition.portions import adjusted_ml, in_household, in_pieces, meal_ml

BANDS = ("6-8", "9-11", "12-23")

# PAHO/WHO (2003) Guiding principles for complementary feeding of the breastfed
# child, Table 1: least meals a day by energy density, low / average breast milk
PAHO_TABLE_1 = {
    0.6: [(3.7, 2.4), (4.1, 2.8), (5.0, 3.7)],
    0.8: [(2.8, 1.8), (3.1, 2.1), (3.7, 2.8)],
    1.0: [(2.2, 1.4), (2.5, 1.7), (3.0, 2.2)],
}

# the same, Table 2: least energy density (kcal/g) by meals a day; two printed
# cells are known to be rounded the other way, hence a tolerance of 0.01
PAHO_TABLE_2 = {
    2: [(1.11, 0.71), (1.23, 0.84), (1.49, 1.12)],
    3: [(0.74, 0.48), (0.82, 0.56), (0.99, 0.75)],
    4: [(0.55, 0.36), (0.61, 0.42), (0.74, 0.56)],
    5: [(0.44, 0.29), (0.49, 0.34), (0.60, 0.45)],
}


@pytest.mark.parametrize("density", PAHO_TABLE_1)
def test_paho_table_1(density: float) -> None:
    computed = [
        tuple(round(bands()[name].meals_needed(density, milk), 1) for milk in ("low", "average"))
        for name in BANDS
    ]
    assert computed == PAHO_TABLE_1[density]


@pytest.mark.parametrize("meals", PAHO_TABLE_2)
def test_paho_table_2(meals: int) -> None:
    for name, (low, average) in zip(BANDS, PAHO_TABLE_2[meals], strict=True):
        band = bands()[name]
        assert band.density_needed(meals, "low") == pytest.approx(low, abs=0.01)
        assert band.density_needed(meals) == pytest.approx(average, abs=0.01)


# WHO (2009) Infant and young child feeding, Model Chapter, Table 1
WHO_TABLE = {
    # band: energy, meals, ml a meal at 0.8-1.0 kcal/g, ml where food has only 0.6 kcal/g
    "6-8": (200, (2, 3), (125, 125), 250 * 2 / 3),
    "9-11": (300, (3, 4), (125, 125), 250 * 3 / 4),
    "12-23": (550, (3, 4), (250 * 3 / 4, 250), 250),
}


@pytest.mark.parametrize("name", BANDS)
def test_who_portions(name: str) -> None:
    band = bands()[name]
    energy, meals, volume, thin = WHO_TABLE[name]
    assert (band.energy_from_food, band.meals, band.meal_ml) == (energy, meals, volume)
    assert band.thin_ml == pytest.approx(thin, abs=0.05)
    # a dish of the assumed density gets the published amount, whatever the density in the range
    for density in (0.8, 0.9, 1.0):
        assert meal_ml(band, density, 1.0) == volume
    # the thin row follows from the arithmetic, to the quarter cup it is printed in
    small, _ = meal_ml(band, 0.6, 1.0)
    assert small in (pytest.approx(thin, abs=0.1), pytest.approx(166.7, abs=0.1))
    printed = in_household(small, band.stomach_g, 250, 15)
    assert printed.unit == "cup"
    assert abs(float(printed.number) * 250 - thin) <= 250 / 8


def test_who_first_weeks_are_two_to_three_spoons() -> None:
    assert bands()["6-8"].start_ml == (2 * 15, 3 * 15)


def test_stomach_capacity_is_thirty_grams_a_kilogram() -> None:
    """PAHO/WHO (2003): 30 g per kg; reference weights 8.3, 9.5 and 11.5 kg."""
    for name, weight in zip(BANDS, (8.3, 9.5, 11.5), strict=True):
        assert bands()[name].stomach_g == pytest.approx(30 * weight)


def test_energy_requirements_plus_two_deviations() -> None:
    """US longitudinal energy requirements 615, 686, 894 kcal a day, times 1.25, rounded half up."""
    for name, mean in zip(BANDS, (615, 686, 894), strict=True):
        assert bands()[name].energy_plus_2sd == math.floor(mean * 1.25 + 0.5)


@given(st.sampled_from(BANDS), st.floats(0.15, 4.0))
def test_a_portion_never_exceeds_the_stomach(name: str, density: float) -> None:
    band = bands()[name]
    for ml in meal_ml(band, density, 1.0):
        amount = in_household(ml, band.stomach_g, 250, 15)
        grams = float(amount.number) * (250 if amount.unit == "cup" else 15)
        assert 0 < grams <= band.stomach_g


@given(st.sampled_from(BANDS), st.floats(0.15, 4.0))
def test_whole_meals_round_up_and_never_fall_below_the_guideline(name: str, density: float) -> None:
    band = bands()[name]
    assert band.whole_meals(density) >= max(band.meals[0], band.meals_needed(density) - 1e-6)


@given(st.floats(0.2, 4.0), st.floats(1.0, 1.5))
def test_thicker_food_never_needs_more(density: float, factor: float) -> None:
    assert adjusted_ml(125, density * factor) <= adjusted_ml(125, density) + 1e-9


def test_amounts_people_can_measure() -> None:
    assert str(in_household(125, 249, 250, 15).number) == "1/2"
    assert in_household(40, 249, 250, 15).unit == "tablespoon"
    assert str(in_household(240, 200, 250, 15).number) == "3/4"  # capped, not rounded up
    assert str(in_pieces(62, 25).number) == "5/2"
