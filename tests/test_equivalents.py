"""Vitamin equivalents against published food values."""

from __future__ import annotations

import pytest

from cards.nutrition.equivalents import (
    carbohydrate_by_difference_g,
    energy_kcal,
    folate_equivalent_ug,
    retinol_activity_ug,
)

# USDA National Nutrient Database for Standard Reference, Release 28, per 100 g:
# row, retinol, beta-carotene, alpha-carotene, beta-cryptoxanthin, and the printed RAE
SR28_VITAMIN_A = [
    ("11124 carrots, raw", 0, 8285, 3477, 0, 835),
    ("11507 sweet potato, raw", 0, 8509, 7, 0, 709),
    ("11457 spinach, raw", 0, 5626, 0, 0, 469),
    ("09176 mangos, raw", 0, 640, 9, 10, 54),
    ("11052 beans, green, raw", 0, 379, 69, 0, 35),
    ("11090 broccoli, raw", 0, 361, 25, 1, 31),
    ("01211 milk, whole", 45, 7, 0, 0, 46),
    ("05027 chicken liver, raw", 3290, 56, 11, 11, 3296),
    ("13325 beef liver, raw", 4948, 232, 11, 13, 4968),
]


@pytest.mark.parametrize(("row", "retinol", "beta", "alpha", "crypto", "printed"), SR28_VITAMIN_A)
def test_vitamin_a(
    row: str, retinol: int, beta: int, alpha: int, crypto: int, printed: int
) -> None:
    assert retinol_activity_ug(retinol, beta, alpha, crypto) == pytest.approx(printed, abs=0.75)


# the same release: food folate, folic acid (total less food folate), and the printed DFE
SR28_FOLATE = [
    ("20044 rice, enriched, raw", 8, 231 - 8, 387),
    ("20081 wheat flour, enriched", 29, 183 - 29, 291),
    ("11457 spinach, raw", 194, 0, 194),
]


@pytest.mark.parametrize(("row", "food", "acid", "printed"), SR28_FOLATE)
def test_folate(row: str, food: int, acid: int, printed: int) -> None:
    assert folate_equivalent_ug(food, acid) == pytest.approx(printed, abs=1)


# USDA SR28 rows: water, protein, fat, ash, printed carbohydrate, printed kcal, and the specific
# Atwater factors of that kind of food (USDA Agriculture Handbook 74)
SR28_ENERGY = [
    ("20444 rice, white, raw", 11.62, 7.13, 0.66, 0.64, 79.95, 365, (3.82, 8.37, 4.16)),
    ("16069 lentils, raw", 8.26, 24.63, 1.06, 2.71, 63.35, 352, (3.47, 8.37, 4.07)),
    ("11352 potatoes, raw", 79.25, 2.05, 0.09, 1.11, 17.49, 77, (2.78, 8.37, 4.03)),
]


@pytest.mark.parametrize("row", SR28_ENERGY, ids=lambda r: r[0])
def test_carbohydrate_and_energy(
    row: tuple[str, float, float, float, float, float, float, tuple[float, float, float]],
) -> None:
    _, water, protein, fat, ash, printed, kcal, factors = row
    carbohydrate = carbohydrate_by_difference_g(water, protein, fat, ash)
    assert carbohydrate == pytest.approx(printed, abs=0.02)
    assert energy_kcal(protein, fat, carbohydrate, factors) == pytest.approx(kcal, rel=0.02)
    # the general factors come within a tenth
    assert energy_kcal(protein, fat, carbohydrate) == pytest.approx(kcal, rel=0.1)
