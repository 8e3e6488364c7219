"""How the words of each file stand in each language."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cards.batch.kit import Kit
from cards.batch.pieces import Piece, RecipeWords, open_phrases, open_recipe
from cards.diagnostics.diagnostic import Diagnostic
from cards.source.model import LANGUAGES
from cards.source.workspace import Workspace
from cards.words.language import load_language
from cards.words.own import spoken
from cards.words.state import SOURCE, recipe_state


@dataclass(frozen=True, slots=True)
class Standing:
    """One language of one file. ``texts`` are all that it should say."""

    file: str
    language: str
    texts: int
    missing: int
    stale: int
    state: str
    """As ``State`` has it; empty where nothing is translated."""

    @property
    def told(self) -> str:
        """What is still to be done, in words."""
        left = [(self.missing, "missing"), (self.stale, "stale")]
        return ", ".join(f"{count} {what}" for count, what in left if count) or "complete"


def standings(workspace: Workspace, kit: Kit) -> Iterator[Standing | Diagnostic]:
    """Words files first, then recipes; a file that cannot be read gives its errors instead."""
    programme = kit.programme.languages
    known = [c for c in LANGUAGES if workspace.template("words", f"{c}.yaml")]
    for code in dict.fromkeys((*programme, *known)):
        if code != SOURCE:
            words = open_phrases(code, workspace, kit)
            if words.value is None:
                yield from words.diagnostics
            else:
                stale = {unit.key: unit.was for unit in words.value.units if unit.was}
                loaded = load_language(words.value.text, words.value.name, code, stale).value
                yield _standing(words.value, str(loaded.state) if loaded else "not whole")
    for path in workspace.recipe_files():
        for code in dict.fromkeys((*programme, *known)):
            opened = open_recipe(path, code, workspace, kit)
            if opened.value is None:
                yield from opened.diagnostics
                break
            piece: RecipeWords = opened.value
            told = any(unit.target for unit in piece.units)
            whole = piece.whole()
            if code == piece.recipe.author and whole is not None:
                own = str(recipe_state(whole, code))
                texts = sum(code in one.words for one in spoken(whole))
                yield Standing(piece.name, code, texts, 0, 0, own)
            elif told or code in programme:
                state = str(recipe_state(whole, code)) if whole and told else ""
                yield _standing(piece, state)


def _standing(piece: Piece, state: str) -> Standing:
    return Standing(
        piece.name,
        piece.code,
        len(piece.units),
        sum(not unit.target for unit in piece.units),
        sum(bool(unit.was) for unit in piece.units),
        state,
    )
