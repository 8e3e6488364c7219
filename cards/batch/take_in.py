"""Translations become the new texts of files: words files, side files, recipes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cards.batch.kit import Kit
from cards.batch.pieces import (
    PhraseWords,
    Piece,
    RecipeWords,
    made_from_text,
)
from cards.diagnostics.diagnostic import Diagnostic, Result, has_errors
from cards.source.edit import Change, Written, edit, scalar, written
from cards.source.read import read
from cards.source.sides import TITLE
from cards.words.language import SECTIONS, SESSIONS, load_language
from cards.words.units import Forms, Unit


@dataclass(frozen=True)
class Taken:
    """Translations by unit key for one piece; ``changed`` are keys of those that are new."""

    piece: Piece
    texts: Mapping[str, Forms]
    changed: tuple[str, ...]
    missing: int


def new_files(taken: Sequence[Taken], kit: Kit) -> Result[dict[Path, bytes]]:
    """The files that change, with their new bytes. Errors: whatever the new text would have."""
    made: dict[Path, str] = {}
    faults: list[Diagnostic] = []
    for one in taken:
        if isinstance(one.piece, PhraseWords):
            result = _phrases(one.piece, one)
        else:
            result = _recipe(one.piece, one, kit)
        faults += result.diagnostics
        made |= result.value or {}
    if has_errors(faults):
        return Result(None, tuple(faults))
    return Result({path: text.encode("utf-8") for path, text in made.items()}, tuple(faults))


def as_written(forms: Forms) -> Written:
    """Forms as a words file holds them: a text, or texts by category."""
    return forms["other"] if len(forms) == 1 else forms


def _phrases(piece: PhraseWords, taken: Taken) -> Result[dict[Path, str]]:
    texts = {
        unit.key: (unit, taken.texts[unit.key]) for unit in piece.units if unit.key in taken.texts
    }
    made: dict[Path, str] = {}
    if piece.tree is None:
        new = Result(_new_words(piece.code, tuple(texts.values())))
    else:
        new = edit(
            piece.text,
            piece.name,
            [
                Change(unit.path, as_written(forms), after="language" if unit.key == "name" else "")
                for key, (unit, forms) in texts.items()
                if key in taken.changed and dict(forms) != dict(unit.target)
            ],
        )
    if new.value is None:
        return Result(None, new.diagnostics)
    if new.value != piece.text:
        loaded = load_language(new.value, piece.name, piece.code)
        if loaded.value is None:
            return Result(None, loaded.diagnostics)
        made[piece.path] = new.value
    made_from = {**piece.made_from, **{key: unit.text for key, (unit, _) in texts.items()}}
    if made_from != piece.made_from:
        made[piece.made_path] = made_from_text(piece.code, made_from)
    return Result(made)


def _new_words(code: str, texts: Sequence[tuple[Unit, Forms]]) -> str:
    """A words file from nothing, its sections in the order of the others'."""
    own = next((forms["other"] for unit, forms in texts if unit.key == "name"), code)
    rows = [
        "# Translated from templates/words/en.yaml. Between double braces stand the values that",
        "# are filled in; *stars* mark what is printed bold.",
        f"language: {code}",
        f"name: {scalar(own)}",
    ]
    for section in (*SECTIONS, SESSIONS):
        inside = [(unit, forms) for unit, forms in texts if unit.path[0] == section]
        if inside:
            rows.append(f"{section}:")
        rows += [
            f"  {scalar(str(unit.path[-1]))}: {written(as_written(forms))}"
            for unit, forms in inside
        ]
        if section == "units" and inside:
            # a whole thing is counted without a word
            rows.append('  each: ""')
    return "\n".join((*rows, ""))


def _recipe(piece: RecipeWords, taken: Taken, kit: Kit) -> Result[dict[Path, str]]:
    inline: list[Change] = []
    side: list[tuple[Unit, str]] = []
    for unit in piece.units:
        if unit.key not in taken.changed:
            continue
        text = taken.texts[unit.key]["other"]
        if unit.inline:
            inline.append(Change(unit.path, text))
        else:
            side.append((unit, text))
    made: dict[Path, str] = {}
    recipe_text, side_text = piece.text, piece.side_text
    if inline:
        new = edit(piece.text, piece.name, inline)
        if new.value is None:
            return Result(None, new.diagnostics)
        made[piece.path] = recipe_text = new.value
    if side:
        new = _side(piece, side)
        if new.value is None:
            return Result(None, new.diagnostics)
        made[piece.side_path] = side_text = new.value
    if made:
        languages = tuple(dict.fromkeys((*piece.programme.languages, piece.code)))
        programme = replace(kit.programme, languages=languages)
        sides = {piece.side_name: side_text} if side_text else {}
        reread = read(recipe_text, piece.name, programme, sides)
        if reread.value is None:
            return Result(None, tuple(d for d in reread.diagnostics if d.severity == 0))
    return Result(made)


def _side(piece: RecipeWords, texts: Sequence[tuple[Unit, str]]) -> Result[str]:
    """The side file with new lines, with lines made anew, or from nothing."""
    if piece.side is None:
        title = next((one for one in texts if one[0].path[0] == "title"), None)
        head = {title[0].code: title[0].text, piece.code: title[1]} if title else {}
        if not head:  # the recipe says its title itself
            own = piece.recipe.title
            head = {piece.recipe.author: own[piece.recipe.author], piece.code: own[piece.code]}
        rows = ["words: 1", f"title: {written(head)}"]
        lines = [one for one in texts if one is not title]
        if lines:
            rows.append("lines:")
        for unit, text in lines:
            rows.append(f"  - {unit.code}: {scalar(unit.text)}")
            rows.append(f"    {piece.code}: {scalar(text)}")
        return Result("\n".join((*rows, "")))
    tree = piece.side.tree.value
    lines_now = tree.get("lines") or []
    assert isinstance(lines_now, list)
    changes: list[Change] = []
    count = len(lines_now)
    for unit, text in texts:
        if unit.held == TITLE:
            pair = tree.get("title")
            if not isinstance(pair, dict):
                changes.append(Change(("title",), text))
                continue
            where: tuple[str | int, ...] = ("title",)
        elif unit.held:
            number = piece.side.told[unit.held][1]
            assert number is not None
            where, pair = ("lines", number), lines_now[number]
            assert isinstance(pair, dict)
        else:
            changes.append(Change(("lines", count), {unit.code: unit.text, piece.code: text}))
            count += 1
            continue
        changes.append(Change((*where, piece.code), text))
        if unit.was:
            source = next(code for code in pair if code != piece.code)
            changes.append(Change((*where, source), unit.text))
    return edit(piece.side_text, piece.side_name, changes)
