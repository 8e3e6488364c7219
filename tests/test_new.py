"""Beginning a recipe file, and the schema editors read."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
import yaml
from click.testing import CliRunner

from cards.batch.new import file_name, new_recipe
from cards.cli import command
from cards.source.schema import recipe_schema
from tests.conftest import DEMO_FILES, PLAIN, ROOT, Bench

SCHEMA = json.loads(recipe_schema())
RECIPES = DEMO_FILES


def faults(text: str) -> list[str]:
    """What a validator that knows nothing of us says of a recipe, read as an editor reads it."""
    validator = jsonschema.Draft202012Validator(SCHEMA)
    return [e.message for e in validator.iter_errors(yaml.load(text, Loader=yaml.BaseLoader))]


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("path", RECIPES, ids=lambda p: p.stem)
def test_the_demos_pass(path: Path) -> None:
    assert faults(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("do: boil", "do: boyl"),
        ("flame: low", "flam: low"),
        ("flame: low", "flame: lowest"),
        ("title:", "titel:"),
        ("  - 1 tbsp ghee", "  - {food: ghee, amount: 1 tbsp, seasons: {monsoon: oil}}"),
        ("  - 1 tbsp ghee", "  - {food: ghee, amount: 1 tbsp, or: {fod: oil}}"),
        ("flame: low", "water: away"),
        ("makes: 2 cups (500 g)", "makes: [2]"),
    ],
)
def test_slips_are_seen_while_typing(old: str, new: str) -> None:
    assert faults(PLAIN) == []
    assert faults(PLAIN.replace(old, new)) != []


def test_numbers_may_be_numbers() -> None:
    document = yaml.safe_load(PLAIN.replace("recipe: 1", "recipe: 1\nversion: 2"))
    assert list(jsonschema.Draft202012Validator(SCHEMA).iter_errors(document)) == []


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Ragi: porridge", "ragi-porridge"),
        ("नरम चावल", "नरम-चावल"),
        ("  A / B  ", "a-b"),
        ("!!", ""),
    ],
)
def test_file_names(title: str, name: str) -> None:
    assert file_name(title) == name


def test_a_new_recipe_lacks_only_what_is_to_be_filled_in(bench: Bench) -> None:
    template = (ROOT / "templates" / "new-recipe.yaml").read_text(encoding="utf-8")
    text = new_recipe(template, 'Rice "soft": new', ["en", "hi"])
    assert [(d.kind, d.place.line) for d in bench.said(text)] == [
        ("value-missing", 7),
        ("value-missing", 9),
    ]
    filled = text.replace("  hi:      ", "  hi: नरम  ").replace("makes:       ", "makes: 500 g  ")
    run = bench.run(filled)
    assert not run.stopped
    assert run.recipe is not None
    assert run.recipe.title["en"] == 'Rice "soft": new'


def test_new_never_overwrites(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    first = CliRunner().invoke(command, ["new", "Soft rice"])
    assert first.exit_code == 0, first.output
    path = tmp_path / "soft-rice.yaml"
    path.write_text("mine", encoding="utf-8")
    second = CliRunner().invoke(command, ["new", "Soft rice"])
    assert second.exit_code == 1
    assert path.read_text(encoding="utf-8") == "mine"


def test_schema_is_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert CliRunner().invoke(command, ["schema"]).exit_code == 0
    assert json.loads((tmp_path / "recipe.schema.json").read_text(encoding="utf-8")) == SCHEMA
