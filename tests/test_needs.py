"""Needs, desired densities and ratios against published tables and worked arithmetic."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cards.data import load
from cards.foods.components import components
from cards.nutrition import adequacy, needs
from cards.nutrition.adequacy import Standing
from cards.nutrition.equivalents import niacin_equivalent_mg, retinol_equivalent_ug
from tests.conftest import PLAIN, Bench

BANDS = ("6-8", "9-11", "12-23")

# Dewey and Brown (2003) Update on technical issues concerning complementary feeding:
# desired nutrient densities per 100 kcal at average breast-milk intake, as printed
DEWEY_BROWN = {
    "PROCNT": (1.0, 1.0, 0.9),
    "VITA_RE": (31, 30, 23),
    "THIA": (0.08, 0.06, 0.07),
    "RIBF": (0.08, 0.06, 0.06),
    "NIA": (1.5, 1.0, 0.9),
    "VITB6A": (0.12, 0.08, 0.08),
    "FOL": (11, 9, 21),
    "VITC": (1.5, 1.7, 1.5),
    "CA": (105, 74, 63),
    "FE": (4.5, 3.0, 1.0),
    "ZN": (1.6, 1.1, 0.6),
}


@pytest.mark.parametrize("tag", DEWEY_BROWN)
def test_desired_densities_all_33_cells(tag: str) -> None:
    for band, printed in zip(BANDS, DEWEY_BROWN[tag], strict=True):
        places = len(str(printed).partition(".")[2])
        computed = needs.desired_density(tag, band)
        assert round(computed + 1e-9, places) == pytest.approx(printed), band


def test_every_desired_component_is_covered() -> None:
    assert set(needs.desired_tags()) == set(DEWEY_BROWN)


# PAHO/WHO (2003) Guiding principles, Table 3: percent of food energy from fat, by target,
# breast-milk intake (low, average, high) and band; within one point, as the breast milk's
# own fat share is fitted
MEAN_ENERGY = dict(zip(BANDS, (615, 686, 894), strict=True))
MILK_ENERGY = {
    "low": dict(zip(BANDS, (217, 157, 90), strict=True)),
    "average": dict(zip(BANDS, (413, 379, 346), strict=True)),
    "high": dict(zip(BANDS, (609, 601, 602), strict=True)),
}
PAHO_TABLE_3 = {
    (30, "low"): (19, 24, 28),
    (30, "average"): (0, 5, 17),
    (30, "high"): (0, 0, 0),
    (45, "low"): (42, 43, 44),
    (45, "average"): (34, 38, 42),
    (45, "high"): (0, 7, 34),
}


@pytest.mark.parametrize("key", PAHO_TABLE_3, ids=str)
def test_paho_table_3(key: tuple[int, str]) -> None:
    target, milk = key
    for band, printed in zip(BANDS, PAHO_TABLE_3[key], strict=True):
        computed = needs.fat_share_needed(target, MEAN_ENERGY[band], MILK_ENERGY[milk][band])
        assert computed == pytest.approx(printed, abs=1)


def test_equivalents_worked() -> None:
    """60 mg tryptophan count as 1 mg niacin; 6 ug beta-carotene as 1 ug RE (WHO/FAO 2004)."""
    assert niacin_equivalent_mg(2.0, 120) == 4.0
    assert retinol_equivalent_ug(10, 60, 24) == 22


def test_phytate_ratio_worked() -> None:
    """660 mg phytate are 1 mmol, 5.585 mg iron 0.1 mmol: ratio 10."""
    assert adequacy.phytate_ratio(660.04, 5.5845, adequacy.IRON_G_PER_MOL) == pytest.approx(10)
    assert adequacy.phytate_ratio(660.04, 65.38, adequacy.ZINC_G_PER_MOL) == pytest.approx(1)


def test_every_need_names_its_source() -> None:
    data = load.mapping("needs.yaml")
    figures = [
        facts for profile in data["profiles"].values() for facts in profile["needs"].values()
    ] + [*data["upper"].values(), data["sodium_mg"]]
    for facts in figures:
        assert facts["source"] in data["sources"]
        assert facts["known"] in ("seen", "memory", "computed")
        assert {"6-8", "9-11", "12-23"} <= set(facts)


def test_needs_speak_of_components_we_have() -> None:
    for key in needs.profile_keys():
        assert set(needs.profile(key).needs) <= set(components())


def test_protein_need_is_the_mean_of_boys_and_girls() -> None:
    """WHO/FAO/UNU (2007) safe level, g a day at reference weight: 0.5 y 10.2 and 9.4,
    1 y 11.6 and 10.8, 1.5 y 11.8 and 11.1."""
    need = needs.profile("who").needs["PROCNT"].by_band
    assert need["6-8"] == pytest.approx((10.2 + 9.4) / 2)
    assert need["9-11"] == pytest.approx(((10.2 + 9.4) / 2 + (11.6 + 10.8) / 2) / 2)
    assert need["12-23"] == pytest.approx((11.8 + 11.1) / 2)


def test_standing_enough_short_and_unknown(bench: Bench) -> None:
    analysis = bench.run(PLAIN).analysis
    assert analysis is not None
    assert adequacy.density(analysis, "PROCNT", "6-8").standing is Standing.ENOUGH
    assert adequacy.density(analysis, "FE", "6-8").standing is Standing.SHORT
    # with iron known for half the dish only, "short" is more than one can say
    half = replace(analysis.totals["FE"], known_share=0.5, missing=("rice",))
    unsure = replace(analysis, totals={**analysis.totals, "FE": half})
    assert adequacy.density(unsure, "FE", "6-8").standing is Standing.UNKNOWN
    # but an amount that is enough with half of it known stays enough
    much = replace(half, value=1000.0)
    sure = replace(analysis, totals={**analysis.totals, "FE": much})
    assert adequacy.density(sure, "FE", "6-8").standing is Standing.ENOUGH


def test_energy_shares_add_up(bench: Bench) -> None:
    analysis = bench.run(PLAIN).analysis
    assert analysis is not None
    shares = adequacy.energy_shares(analysis)
    assert shares is not None
    assert sum(shares.values()) == pytest.approx(100)


def test_energy_gap_worked(bench: Bench) -> None:
    """The larger portion's energy times the least meals, over 200, 300 and 550 kcal (WHO 2009)."""
    analysis = bench.run(PLAIN).analysis
    assert analysis is not None
    for gap, portion, need in zip(
        adequacy.energy_gap(analysis), analysis.portions, (200, 300, 550), strict=True
    ):
        meal = analysis.per_100_g("ENERC") * portion.grams_high / 100
        assert gap.kcal_a_meal == pytest.approx(meal)
        assert gap.share == pytest.approx(meal * portion.meals[0] / need)
