"""The words files that the program ships, opened for the tests of one language."""

from __future__ import annotations

from functools import cache

from cards.words.language import Language, load_language
from cards.words.wordlists import WordLists
from tests.conftest import ROOT


@cache
def language(code: str) -> Language:
    text = (ROOT / "templates" / "words" / f"{code}.yaml").read_text(encoding="utf-8")
    result = load_language(text, f"{code}.yaml", code)
    assert result.value is not None, result.diagnostics
    return result.value


def lists(code: str) -> WordLists:
    found = language(code).lists
    assert found is not None
    return found
