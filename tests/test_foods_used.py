"""A change to a food makes the cards anew that use it, and they come out as from scratch."""

from __future__ import annotations

import random
import shutil
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from cards.batch.about import about
from cards.batch.basis import basis_of, foods_of, foods_used, naming, rests_on
from cards.batch.kit import Kit
from cards.batch.run import Run
from cards.batch.stages import run_text, sheet_of
from cards.card import sheet as sheet_words
from cards.cli import command
from cards.foods.table import Food, FoodTable, Range, ranges_of
from tests.conftest import DEMO_FILES, PLAIN, ROOT

HEAD = "food,ENERC_kcal,FE_mg,density_g_ml,note\n"


class Broken(Mapping[str, object]):
    """Whoever looks into it fails."""

    def __getitem__(self, key: str) -> object:
        raise AssertionError(f"{key} was read of a food that is not used")

    def __iter__(self) -> Iterator[str]:
        raise AssertionError("a food was read that is not used")

    def __len__(self) -> int:
        raise AssertionError("a food was read that is not used")


def only_named(food: Food) -> Food:
    """A food of which only what stands in ``NAMING`` can be read."""
    broken: Mapping[str, object] = Broken()
    return replace(
        food,
        allergens=("spoilt",),
        match="spoilt",
        note="spoilt",
        state="spoilt",
        retention="spoilt",
        picture="spoilt",
        figures=broken,
        measures=broken,
    )


@pytest.mark.parametrize(
    "text",
    [
        *(pytest.param(path.read_text("utf-8"), id=path.stem) for path in DEMO_FILES),
        pytest.param(PLAIN.replace("6 tbsp rice", "6 tbsp rise"), id="misspelt"),
        pytest.param(PLAIN.replace("6 tbsp rice", "6 tsbp rice"), id="measure-misspelt"),
        pytest.param(
            PLAIN.replace("    flame: low", "    en: Boil it with ghee, carrot, salt and fish."),
            id="spoken-of",
        ),
        pytest.param(
            PLAIN.replace("1 tbsp ghee", "1 tbsp ghee or groundnut oil or sesame oil"), id="or"
        ),
    ],
)
def test_nothing_but_names_is_read_of_a_food_not_used(
    text: str, kit: Kit, monkeypatch: pytest.MonkeyPatch
) -> None:
    sides = sides_beside(text)
    whole = run_text(text, "recipes/x.yaml", kit, sides)
    used = set(foods_used(whole.recipe, kit.table))
    table = FoodTable(
        food if food.id in used else only_named(food) for food in kit.table.foods.values()
    )

    def ranges_used(food_id: str) -> Mapping[str, Range]:
        assert food_id in used
        return ranges_of(food_id)

    monkeypatch.setattr(sheet_words, "ranges_of", ranges_used)
    bare = replace(kit, table=table)
    run = run_text(text, "recipes/x.yaml", bare, sides)
    assert outcome(run, bare) == outcome(whole, kit)
    assert whole.recipe is not None
    assert used
    assert len(used) < len(table.foods)


def sides_beside(text: str) -> dict[str, str]:
    """The Hindi side file of a demo recipe, where it has one: the card needs it."""
    for path in DEMO_FILES:
        beside = path.with_suffix(".hi.yaml")
        if path.read_text("utf-8") == text and beside.is_file():
            return {"recipes/x.hi.yaml": beside.read_text("utf-8")}
    return {}


def outcome(run: Run, kit: Kit) -> tuple[object, ...]:
    return run.diagnostics, run.pages, run.findings, sheet_of(run, kit), about(run, kit)


def test_a_food_that_is_used_would_be_noticed(kit: Kit) -> None:
    """The control: what the test above breaks is read of foods that are used."""
    whole = run_text(PLAIN, "recipes/x.yaml", kit)
    for used in foods_used(whole.recipe, kit.table):
        table = FoodTable(
            only_named(food) if food.id == used else food for food in kit.table.foods.values()
        )
        with pytest.raises((AssertionError, KeyError)):
            run_text(PLAIN, "recipes/x.yaml", replace(kit, table=table))


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("name", "another"),
        ("also", ("another",)),
        ("group", "eggs"),
        ("form", "paste"),
        ("flags", frozenset(("honey",))),
    ],
)
def test_how_foods_are_named_is_shared_by_all(field: str, value: object, kit: Kit) -> None:
    other = changed(kit, "rice-raw", **{field: value})
    assert naming(other.table) != naming(kit.table)
    assert foods_of(other.table) == foods_of(kit.table)
    assert basis_of(other).shared != basis_of(kit).shared


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("figures", {}),
        ("measures", {}),
        ("note", "another"),
        ("match", "proxy"),
        ("state", "cooked"),
        ("retention", "none"),
        ("allergens", ("milk",)),
        ("picture", "egg"),
    ],
)
def test_what_else_is_known_belongs_to_the_food(field: str, value: object, kit: Kit) -> None:
    other = changed(kit, "moong-dal", **{field: value})
    before, after = basis_of(kit), basis_of(other)
    assert after.shared == before.shared
    differ = {one for one in before.foods if before.foods[one] != after.foods[one]}
    assert differ == {"moong-dal"}
    assert rests_on(other) != rests_on(kit)


def changed(kit: Kit, food_id: str, **fields: object) -> Kit:
    foods = kit.table.foods
    assert food_id in foods
    other = {**foods, food_id: replace(foods[food_id], **fields)}
    return replace(kit, table=FoodTable(other.values()))


def test_order_of_foods_is_shared(kit: Kit) -> None:
    """Of two foods of one name the first is meant."""
    turned = FoodTable(reversed(kit.table.foods.values()))
    assert naming(turned) != naming(kit.table)


# real builds


def run(*args: str) -> list[str]:
    """Names of the recipes that were made."""
    done = CliRunner(env={"COLUMNS": "200"}).invoke(command, ["make", *args])
    assert done.exit_code == 0, done.output
    lines = [line for line in done.output.splitlines() if " -> " in line]
    return [line.split(" -> ")[0] for line in lines if "as before" not in line]


def bytes_of(out: Path) -> dict[str, bytes]:
    return {
        path.relative_to(out).as_posix(): path.read_bytes()
        for path in out.rglob("[!.]*")
        if path.is_file()
    }


def test_a_changed_food_makes_its_cards_anew_as_from_scratch(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, demos: dict[str, Run], kit: Kit
) -> None:
    recipes = tmp_path / "recipes"
    recipes.mkdir()
    few = DEMO_FILES[:4]
    for path in (*few, ROOT / "recipes" / "programme.yaml"):
        shutil.copy(path, recipes)
    monkeypatch.chdir(tmp_path)
    own = recipes / "foods.csv"
    own.write_text(HEAD, encoding="utf-8")
    assert len(run()) == len(few)
    uses = {path.name: set(foods_used(demos[path.stem].recipe, kit.table)) for path in few}
    chance = random.Random(7)
    met = sorted(set.union(*uses.values()))
    foods = chance.sample([one for one in met if one != "water"], 4)
    assert any(0 < sum(food in used for used in uses.values()) < len(few) for food in foods)
    rows: list[str] = []
    for food in foods:
        figure = round(chance.uniform(0.1, 9), 2)
        rows.append(f"{food},,{figure},,our own figure {figure}\n")
        own.write_text(HEAD + "".join(rows), encoding="utf-8")
        using = {f"recipes/{name}" for name, used in uses.items() if food in used}
        assert set(run()) == using, food
        assert run() == []
    partly = bytes_of(tmp_path / "out")
    shutil.rmtree(tmp_path / "out")
    assert len(run()) == len(few)
    assert bytes_of(tmp_path / "out") == partly
    # a name can change how any recipe is read
    own.write_text(HEAD.replace("note", "note,also") + "rice-raw,,,,,chawal\n", encoding="utf-8")
    assert len(run()) == len(few)
