"""A programme's own foods and needs: added, overridden, and checked."""

from __future__ import annotations

from pathlib import Path

import pytest

from cards.batch.analysis_text import analysis_text, why_text
from cards.batch.kit import open_kit
from cards.batch.stages import run_text
from cards.foods.own import energy_bounds, own_table
from cards.foods.table import NAME_ONLY, shipped_table
from cards.nutrition.own_needs import read_needs
from cards.source.workspace import open_workspace
from tests.conftest import PLAIN, ROOT

HEAD = (
    "food,name,also,group,form,flags,allergens,source,density_g_ml,piece_g,edible_share,"
    "ENERC_kcal,WATER_g,PROCNT_g,FAT_g,CHOAVL_g,FIBTG_g,FE_mg\n"
)
SOUND = (
    "mola,mola fish,small fish,flesh,whole,fish,fish,our laboratory 2025,,4,0.9,"
    "106,76,17,4,0,0,5.7\n"
)


def kinds(text: str) -> list[tuple[str, int]]:
    result = own_table(text, "recipes/foods.csv", shipped_table())
    return [(d.kind, d.place.line) for d in result.diagnostics]


def test_a_new_food_joins_the_table() -> None:
    result = own_table(HEAD + SOUND, "foods.csv", shipped_table())
    assert result.diagnostics == ()
    assert result.value is not None
    food = result.value.find("small fish")
    assert food is not None
    assert food.figures["FE"].value == 5.7
    assert food.figures["FE"].source == "our laboratory 2025"
    assert food.measures["piece"].basis == "bought"
    assert "CA" not in food.figures  # no column, no figure
    assert len(result.value.foods) == len(shipped_table().foods) + 1


def test_an_override_keeps_what_it_does_not_give() -> None:
    text = "food,source,FE_mg,VITC_mg\npumpkin,our laboratory,0.9,\n"
    table = own_table(text, "foods.csv", shipped_table()).value
    assert table is not None
    pumpkin = table.foods["pumpkin"]
    assert (pumpkin.figures["FE"].value, pumpkin.figures["FE"].source) == (0.9, "our laboratory")
    assert pumpkin.figures["VITC"] == shipped_table().foods["pumpkin"].figures["VITC"]
    assert shipped_table().foods["pumpkin"].figures["FE"].value != 0.9


@pytest.mark.parametrize(
    ("text", "kind", "line"),
    [
        (HEAD.replace("FE_mg", "FE_g") + SOUND, "table-column", 1),
        (HEAD.replace("FE_mg", "IRON") + SOUND, "table-column", 1),
        (HEAD.replace("food,", "", 1), "table-column", 1),
        (HEAD + SOUND.replace("mola,mola fish", ",mola fish"), "table-row", 2),
        (HEAD + SOUND.replace("mola,mola fish", "mola,"), "table-row", 2),
        (HEAD + SOUND.replace("flesh", "meaty"), "table-row", 2),
        (HEAD + SOUND + SOUND, "table-row", 3),
        (HEAD + SOUND.replace("5.7", "-5.7"), "table-value", 2),
        (HEAD + SOUND.replace("5.7", "much"), "table-value", 2),
        (HEAD + SOUND.replace(",17,", ",170,"), "table-value", 2),
        (HEAD + SOUND.replace(",106,", ",444,"), "table-energy", 2),
        (HEAD + SOUND.replace(",76,", ",46,"), "table-sum", 2),
        ("food,PROCNT_g\nrice-raw,7.9\n", "table-mixed", 2),
    ],
)
def test_faults_are_told_with_their_line(text: str, kind: str, line: int) -> None:
    assert kinds(text) == [(kind, line)]


def test_kilojoules_are_guessed_at() -> None:
    text = HEAD + SOUND.replace(",106,", ",444,")
    message = own_table(text, "foods.csv", shipped_table()).diagnostics[0].message
    assert "kJ" in message


def test_energy_bounds_hold_for_a_published_row() -> None:
    """Rice, IFCT 2017 A015: 7.94 g protein, 0.52 fat, 78.24 carbohydrate, 2.81 fibre, 356 kcal."""
    least, most = energy_bounds(7.94, 0.52, 78.24, 2.81)
    assert least <= 356.4 <= most
    assert not least <= 1491 <= most


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "programme.yaml").write_text(
        "programme: 1\nname: Us\nlanguages: [en, hi]\nneeds: national\n", encoding="utf-8"
    )
    return tmp_path


NEEDS = """\
needs: 1
profiles:
  national:
    name: our ministry 2024 (invented)
    needs:
      FE: {"6-8": 8, "9-11": 8, "12-23": 7, source: invented for this test}
"""


def test_a_programmes_needs_and_foods_are_used_and_shown(folder: Path) -> None:
    (folder / "recipes" / "needs.yaml").write_text(NEEDS, encoding="utf-8")
    (folder / "recipes" / "foods.csv").write_text(
        "food,source,FE_mg\nrice-raw,our laboratory,9.9\n", encoding="utf-8"
    )
    kit = open_kit(open_workspace(folder)).value
    assert kit is not None
    assert kit.needs.needs["FE"].by_band["6-8"] == 8
    run = run_text(PLAIN, "recipes/x.yaml", kit)
    assert run.analysis is not None
    assert "our laboratory" in analysis_text(run.analysis)
    assert "our laboratory" in why_text(run.analysis, "FE")


def test_needs_that_are_not_there(folder: Path) -> None:
    result = open_kit(open_workspace(folder))
    assert [d.kind for d in result.diagnostics] == ["needs-unknown"]
    assert "who" in result.diagnostics[0].hint


@pytest.mark.parametrize(
    ("old", "new", "kind"),
    [
        ("FE:", "IRON:", "value-wrong"),
        ('"6-8": 8', '"6-8": some', "value-wrong"),
        (', "9-11": 8', "", "key-missing"),
    ],
)
def test_needs_files_are_checked(old: str, new: str, kind: str) -> None:
    result = read_needs(NEEDS.replace(old, new), "needs.yaml")
    assert [d.kind for d in result.diagnostics] == [kind]


def test_the_empty_form_says_what_is_missing() -> None:
    text = (ROOT / "templates" / "needs-form.yaml").read_text(encoding="utf-8")
    result = read_needs(text, "needs.yaml")
    assert result.value is None
    assert all(d.place.line > 8 for d in result.diagnostics)


def test_own_figures_make_a_food_known_by_name_a_whole_food() -> None:
    shipped = shipped_table()
    assert shipped.foods["biscuit"].has(NAME_ONLY)
    result = own_table("food,source,FE_mg\nbiscuit,printed label,2.5\n", "foods.csv", shipped)
    assert result.diagnostics == ()  # nothing of it came from elsewhere
    assert result.value is not None
    biscuit = result.value.foods["biscuit"]
    assert {tag: figure.value for tag, figure in biscuit.figures.items()} == {"FE": 2.5}
    assert not biscuit.has(NAME_ONLY)
    assert biscuit.has("sweetener")
    assert (biscuit.match, biscuit.note) == ("direct", "")
    assert biscuit.measures == shipped.foods["biscuit"].measures


def test_an_own_food_comes_before_one_known_by_name() -> None:
    text = "food,name,also,source,FE_mg\nour-cake,millet cake,cake,our kitchen,3\n"
    table = own_table(text, "foods.csv", shipped_table()).value
    assert table is not None
    found = table.find("cakes")
    assert found is not None
    assert found.id == "our-cake"
    assert found.figures["FE"].value == 3


def test_a_weight_of_its_own_leaves_a_food_known_by_name() -> None:
    text = "food,piece_g\nbiscuit,11\n"
    table = own_table(text, "foods.csv", shipped_table()).value
    assert table is not None
    biscuit = table.foods["biscuit"]
    assert (biscuit.has(NAME_ONLY), biscuit.figures) == (True, {})
    assert biscuit.measures["piece"].value == 11
