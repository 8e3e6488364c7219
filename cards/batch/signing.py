"""Signing words that somebody has read over, and refusing those that nobody has."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from pydantic_core import PydanticCustomError

from cards.batch.kit import Kit
from cards.batch.pieces import (
    PhraseWords,
    RecipeWords,
    made_from_text,
    open_phrases,
    open_recipe,
)
from cards.batch.write import write_all
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error
from cards.source.edit import Change, edit
from cards.source.recipe import Recipe
from cards.source.signed import parse_signature
from cards.source.workspace import Workspace
from cards.words.language import Language, load_language, sections_of
from cards.words.state import State, file_digest, recipe_digest, recipe_state


def sign(
    path: Path, code: str, role: str, day: str, workspace: Workspace, kit: Kit
) -> Result[tuple[Path, ...]]:
    """Write down that ``role`` has read over the words of a recipe or words file on ``day``.

    Errors: ``sign-unready`` where something is not translated, those of reading and writing.
    """
    words = workspace.root / "templates" / "words" / f"{code}.yaml"
    if path.absolute().parent == words.parent:
        return _sign_phrases(path, code, role, day, workspace, kit)
    opened = open_recipe(workspace.recipe_of(path), code, workspace, kit)
    if opened.value is None:
        return Result(None, opened.diagnostics)
    piece = opened.value
    whole = piece.whole()
    left = [unit for unit in piece.units if not unit.told] if code != piece.recipe.author else []
    if whole is None or left or code not in whole.title:
        what = f'"{left[0].text}"' if left else "the title"
        return _unready(piece.name, f"{what} is not said in {code}, or was changed since")
    value = {"role": role, "date": day, "words": recipe_digest(whole, code)}
    return _written(piece, value, workspace)


def _written(
    piece: RecipeWords, value: dict[str, str], workspace: Workspace
) -> Result[tuple[Path, ...]]:
    wrong = _wrong(value, piece.name)
    if wrong:
        return Result(None, (wrong,))
    if piece.side is not None:
        made = edit(piece.side_text, piece.side_name, [Change(("signed",), value, after="title")])
        target = piece.side_path
    else:
        made = edit(piece.text, piece.name, [Change(("signed", piece.code), value)])
        target = piece.path
    if made.value is None:
        return Result(None, made.diagnostics)
    return write_all({target: made.value.encode("utf-8")}, workspace.name)


def _sign_phrases(
    path: Path, code: str, role: str, day: str, workspace: Workspace, kit: Kit
) -> Result[tuple[Path, ...]]:
    name = workspace.name(path)
    opened = open_phrases(code, workspace, kit)
    if opened.value is None:
        return Result(None, opened.diagnostics)
    piece: PhraseWords = opened.value
    if piece.tree is None or path.absolute() != piece.path:
        return _unready(name, f"this is not the words file of {code}")
    loaded = load_language(piece.text, piece.name, code)
    if loaded.value is None:
        return Result(None, loaded.diagnostics)
    value = {"role": role, "date": day, "words": file_digest(sections_of(piece.tree))}
    wrong = _wrong(value, name)
    if wrong:
        return Result(None, (wrong,))
    made = edit(piece.text, piece.name, [Change(("signed",), value, after="name")])
    if made.value is None:
        return Result(None, made.diagnostics)
    # whoever signs has read each text beside the English of today
    made_from = {unit.key: unit.text for unit in piece.units if unit.target}
    return write_all(
        {
            piece.path: made.value.encode("utf-8"),
            piece.made_path: made_from_text(code, made_from).encode("utf-8"),
        },
        workspace.name,
    )


def _wrong(value: dict[str, str], name: str) -> Diagnostic | None:
    try:
        parse_signature(value)
    except PydanticCustomError as trouble:
        told = trouble.context or {}
        return error(Place(name), told["kind"], told["message"], told["hint"])
    return None


def _unready(name: str, why: str) -> Result[tuple[Path, ...]]:
    trouble = error(
        Place(name),
        "sign-unready",
        f"this cannot be signed for: {why}",
        "see cards words status; translate what is missing first",
    )
    return Result(None, (trouble,))


def refused_drafts(recipe: Recipe, languages: Iterable[str]) -> Iterator[Diagnostic]:
    """An error for each language in which the recipe's own words are a draft."""
    for code in languages:
        state = recipe_state(recipe, code)
        if state.is_draft:
            yield _refused(recipe.at_key("title"), recipe.path, code, state)


def refused_files(languages: Iterable[Language]) -> tuple[Diagnostic, ...]:
    """An error for each words file that is a draft."""
    found = []
    for lang in languages:
        if lang.state.is_draft:
            name = f"templates/words/{lang.code}.yaml"
            found.append(_refused(Place(name), name, lang.code, lang.state))
    return tuple(found)


def _refused(at: Place, name: str, code: str, state: State) -> Diagnostic:
    return error(
        at,
        "words-draft",
        f"the words in {code} are a draft ({state})"
        if state is State.LAPSED
        else f"the words in {code} are a draft: nobody has signed for them",
        f'have them read over, then: cards words sign {name} --in {code} --role "..."',
    )
