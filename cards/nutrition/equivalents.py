"""Vitamin equivalents: several substances counted as one."""

from __future__ import annotations


def retinol_activity_ug(
    retinol: float, beta_carotene: float, alpha_carotene: float = 0.0, cryptoxanthin: float = 0.0
) -> float:
    """Vitamin A in ug RAE from ug of each; carotenoids of food (IOM 2001, from memory)."""
    return retinol + beta_carotene / 12 + (alpha_carotene + cryptoxanthin) / 24


def retinol_equivalent_ug(retinol: float, beta_carotene: float, others: float = 0.0) -> float:
    """Vitamin A in ug RE, the older unit WHO/FAO needs are in (1988; from memory)."""
    return retinol + beta_carotene / 6 + others / 12


def niacin_equivalent_mg(niacin: float, tryptophan: float) -> float:
    """Niacin in mg NE from mg of niacin and of tryptophan (WHO/FAO 2004, from memory)."""
    return niacin + tryptophan / 60


def folate_equivalent_ug(food_folate: float, folic_acid: float) -> float:
    """Folate in ug DFE from folate of food and added folic acid (IOM 1998, from memory)."""
    return food_folate + 1.7 * folic_acid


def carbohydrate_by_difference_g(
    water: float, protein: float, fat: float, ash: float, alcohol: float = 0.0
) -> float:
    """Total carbohydrate per 100 g, fibre within it (FAO Food and Nutrition Paper 77, memory)."""
    return 100 - (water + protein + fat + ash + alcohol)


def energy_kcal(
    protein: float, fat: float, carbohydrate: float, factors: tuple[float, float, float] = (4, 9, 4)
) -> float:
    """Energy from grams by Atwater factors, the general ones unless a food's own are given."""
    return protein * factors[0] + fat * factors[1] + carbohydrate * factors[2]
