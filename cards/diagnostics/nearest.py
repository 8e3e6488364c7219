"""Nearest name: what a misspelt word was meant to be."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


def nearest(word: str, known: Iterable[str], alike: float = 0.6) -> str:
    """The most alike known word, or an empty string when none is alike enough."""
    by_fold = {k.casefold(): k for k in known}
    found = difflib.get_close_matches(word.casefold(), by_fold, n=1, cutoff=alike)
    return by_fold[found[0]] if found else ""


def did_you_mean(word: str, known: Iterable[str], otherwise: str = "") -> str:
    """A hint naming the nearest known word, else ``otherwise``."""
    found = nearest(word, known)
    return f'did you mean "{found}"?' if found else otherwise
