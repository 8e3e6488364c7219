"""Pieces: the files that hold words of one language, opened for whoever translates."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cards.batch.kit import Kit
from cards.data import load
from cards.diagnostics.diagnostic import Place, Result, error
from cards.source.edit import scalar
from cards.source.model import LANGUAGES
from cards.source.nodes import Tree, read_nodes
from cards.source.programme import Programme
from cards.source.read import read
from cards.source.recipe import Recipe
from cards.source.sides import Side, read_side
from cards.source.workspace import MADE_FROM, Workspace, read_text
from cards.words.state import SOURCE
from cards.words.units import Unit, phrase_units, recipe_units


@dataclass(frozen=True)
class RecipeWords:
    """One recipe's words in one language. ``side`` is None where there is no side file yet."""

    path: Path
    name: str
    text: str
    recipe: Recipe
    programme: Programme
    """As it was read with: the author's language alone."""
    code: str
    side_path: Path
    side_name: str
    side_text: str
    side: Side | None
    units: tuple[Unit, ...]

    def whole(self) -> Recipe | None:
        """The recipe as it is read with its side file; None where that has an error."""
        sides = {self.side_name: self.side_text} if self.side else {}
        return read(self.text, self.name, self.programme, sides).value


@dataclass(frozen=True)
class PhraseWords:
    """One words file. ``tree`` is None where there is none yet; ``path`` is the programme's own."""

    path: Path
    name: str
    code: str
    text: str
    tree: Tree | None
    made_path: Path
    made_from: Mapping[str, str]
    units: tuple[Unit, ...]


Piece = RecipeWords | PhraseWords


def open_recipe(path: Path, code: str, workspace: Workspace, kit: Kit) -> Result[RecipeWords]:
    """A recipe with its words in the language ``code``. Errors: those of reading it."""
    name = workspace.name(path)
    text = read_text(path, name, keep_mark=True)
    if text.value is None:
        return Result(None, text.diagnostics)
    tree = read_nodes(text.value, name)
    if tree.value is None or tree.failed:
        return Result(None, tree.diagnostics)
    title = tree.value.value.get("title")
    author = kit.programme.languages[0]
    if isinstance(title, dict) and title:
        author = next(iter(title))
    # read for its author alone: what it says to others is what is to be found out
    programme = replace(kit.programme, languages=(author,))
    recipe = read(text.value, name, programme)
    if recipe.value is None:
        return Result(None, recipe.diagnostics)
    found = workspace.sides_of(path, (code,))
    side_path = found[0] if found else path.with_name(f"{path.stem}.{code}{path.suffix}")
    side_name, side_text, side = workspace.name(side_path), "", None
    if found:
        side_read = read_text(side_path, side_name, keep_mark=True)
        side_text = side_read.value or ""
        if side_read.value is None:
            return Result(None, side_read.diagnostics)
        made = read_side(side_text, side_name)
        if made.value is None or made.failed:
            return Result(None, made.diagnostics)
        side = made.value
    units = recipe_units(recipe.value, code, side)
    return Result(
        RecipeWords(
            path,
            name,
            text.value,
            recipe.value,
            programme,
            code,
            side_path,
            side_name,
            side_text,
            side,
            units,
        )
    )


def open_phrases(code: str, workspace: Workspace, kit: Kit) -> Result[PhraseWords]:
    """The words file of a language, the programme's own before the shipped one."""
    trees: dict[str, Tree] = {}
    texts: dict[str, str] = {}
    for one in dict.fromkeys((SOURCE, code, *LANGUAGES)):
        path = workspace.template("words", f"{one}.yaml")
        if path is None:
            continue
        name = workspace.name(path)
        text = read_text(path, name, keep_mark=True)
        tree = read_nodes(text.value, name) if text.value is not None else Result[Tree](None)
        if tree.value is None or tree.failed:
            return Result(None, (*text.diagnostics, *tree.diagnostics))
        trees[one], texts[one] = tree.value, text.value or ""
    if SOURCE not in trees:
        trouble = error(
            Place(f"templates/words/{SOURCE}.yaml"),
            "file-missing",
            "the words that all others are translated from are not there",
            "install the program anew",
        )
        return Result(None, (trouble,))
    own = workspace.root / "templates" / "words"
    made = _made_from(code, workspace)
    if made.value is None:
        return Result(None, made.diagnostics)
    others = [tree for one, tree in trees.items() if one not in (SOURCE, code)]
    target = trees.get(code)
    path = own / f"{code}.yaml"
    return Result(
        PhraseWords(
            path,
            workspace.name(path),
            code,
            texts.get(code, ""),
            target,
            own / MADE_FROM / f"{code}.yaml",
            made.value,
            phrase_units(
                workspace.name(path),
                code,
                trees[SOURCE],
                target,
                others,
                _foods(kit, target),
                made.value,
            ),
        )
    )


def _foods(kit: Kit, target: Tree | None) -> dict[str, str]:
    """Foods that every language should name, and those this one names, by their English names."""
    given = (target.value.get("foods") if target else None) or {}
    ids = dict.fromkeys((*load.mapping("everyday_foods.yaml")["foods"], *given))
    return {food_id: food.name for food_id in ids if (food := kit.table.foods.get(food_id))}


def _made_from(code: str, workspace: Workspace) -> Result[dict[str, str]]:
    path = workspace.made_from(code)
    if path is None:
        return Result({})
    name = workspace.name(path)
    text = read_text(path, name)
    tree = read_nodes(text.value, name) if text.value is not None else Result[Tree](None)
    if tree.value is None or tree.failed:
        return Result(None, (*text.diagnostics, *tree.diagnostics))
    return Result({key: said for key, said in tree.value.value.items() if isinstance(said, str)})


def made_from_text(code: str, made_from: Mapping[str, str]) -> str:
    """The text of the file that says what each phrase of a language was translated from."""
    rows = [f"{scalar(key)}: {scalar(text)}" for key, text in made_from.items()]
    return "\n".join(
        (
            f"# The English that each text of ../{code}.yaml was made from. It is written by",
            "# cards words import and cards words sign, so that a changed text is seen.",
            *rows,
            "",
        )
    )


def open_all(
    code: str, recipes: Sequence[Path], phrases: bool, workspace: Workspace, kit: Kit
) -> Result[tuple[Piece, ...]]:
    """Recipes, and the words file where it is wanted. Errors: those of every file."""
    pieces: list[Piece] = []
    opened: Iterable[Result[RecipeWords] | Result[PhraseWords]] = [
        open_recipe(path, code, workspace, kit) for path in recipes
    ]
    if phrases:
        opened = (*opened, open_phrases(code, workspace, kit))
    faults = [fault for one in opened if one.value is None for fault in one.diagnostics]
    pieces = [one.value for one in opened if one.value is not None]
    return Result(None if faults else tuple(pieces), tuple(faults))
