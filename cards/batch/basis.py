"""What a card or a check rests on besides the recipe's own files, taken from an opened kit."""

from __future__ import annotations

import dataclasses
import platform
from importlib.metadata import version
from pathlib import Path

import cards
from cards.batch.kit import Kit
from cards.batch.opened import Basis, digest_of
from cards.foods.table import Food, FoodTable, ranges_of
from cards.source.recipe import Recipe
from cards.source.workspace import digest, package_files

_MOST_BYTES = 100_000_000
"""A larger file of the program or a font is not ours."""

_LIBRARIES = (
    "babel",
    "fonttools",
    "jinja2",
    "pint",
    "pydantic",
    "pypdf",
    "python-bidi",
    "pyyaml",
    "qrcode",
    "uharfbuzz",
)
"""Libraries that a message or a page may turn on."""

_FOOD_FILES = frozenset(("foods.csv", "composition.csv", "measures.csv", "ranges.csv"))
"""Data of the program that is nothing but the food table, which is held food by food."""

NAMING = ("id", "name", "also", "group", "form", "flags")
"""What is read off foods that a recipe does not use: names are looked up and offered among all
foods, and kinds of food among those that an author's words speak of."""


def basis_of(kit: Kit) -> Basis:
    """What a build with this kit rests on, apart for what all cards share and for each food.

    A change to a food makes only the cards anew that use it. This is sound because of how the
    food table is read on the way from a recipe to a card and its sheet:

    - A card gets hold of a food in two ways: by ``FoodTable.find`` with a name of its own
      ingredients or of what may be taken instead (also in a season), which are the foods of
      ``foods_used``; and by the words of its steps (``words/mentions.py``). Rules, portions,
      statements and the trainer's sheet, with ``ranges_of``, know only the first.
    - Which food a name finds, and which names are offered for an unknown one, hangs on
      ``NAMING`` of all foods and their order; so does all that ``mentions.py`` reads.
      These are among what all cards share.
    - Everything else of a food (figures, measures, note, state, retention group, allergens,
      picture, ranges) is read off the first kind alone, and is digested for each food.

    So where the shared digest and those of the foods used are as before, the making reads
    nothing that has changed, and comes out as before. ``tests/test_foods_used.py`` has all demo
    cards made with a table in which whatever else is read breaks the run.
    """
    texts = sorted(item for item in kit.sources.items() if item[0] != kit.own_foods)
    program = [path for path in package_files() if not _is_food_file(path)]
    parts = [cards.__version__, platform.python_version(), *kit.programme.printed]
    parts += [f"{name} {version(name)}" for name in _LIBRARIES]
    parts += [str(digest(program, _MOST_BYTES)), str(digest(kit.book.files, _MOST_BYTES))]
    parts += [naming(kit.table), *(part for item in texts for part in item)]
    usual = kit.layout.layout == kit.programme.layout
    return Basis(
        digest_of(parts),
        foods_of(kit.table),
        f"{'' if usual else f'-{kit.layout.layout}'}{kit.programme.suffix}",
        tuple(kit.programme.printed),
    )


def rests_on(kit: Kit) -> str:
    """SHA-256 of all that a check rests on besides the recipe's own files, all foods together."""
    basis = basis_of(kit)
    return digest_of([basis.shared, *(part for item in basis.foods.items() for part in item)])


def naming(table: FoodTable) -> str:
    """Digest of ``NAMING`` of all foods, in their order."""
    return digest_of(
        str(sorted(value) if isinstance(value := getattr(food, name), frozenset) else value)
        for food in table.foods.values()
        for name in NAMING
    )


def foods_of(table: FoodTable) -> dict[str, str]:
    """By food id, the digest of what the table knows of it besides ``NAMING``, with its ranges."""
    rest = [field.name for field in dataclasses.fields(Food) if field.name not in NAMING]
    return {
        food.id: digest_of(
            [*(repr(getattr(food, name)) for name in rest), repr(ranges_of(food.id))]
        )
        for food in table.foods.values()
    }


def foods_used(recipe: Recipe | None, table: FoodTable) -> tuple[str, ...]:
    """Ids of the foods a recipe takes, or that may be taken instead, sorted."""
    if recipe is None:
        return ()
    taken = [one.food for one in recipe.ingredients]
    taken += [other.ingredient.food for one in recipe.ingredients for other in one.instead]
    return tuple(sorted({food.id for name in taken if (food := table.find(name))}))


def _is_food_file(path: Path) -> bool:
    return path.parent.name == "data" and path.name in _FOOD_FILES
