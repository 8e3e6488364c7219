"""Hidden characters: those that print nothing."""

from __future__ import annotations

import unicodedata

_CATEGORIES = ("Cc", "Cf", "Cs", "Co", "Zl", "Zp")
_JOINERS = "\u200c\u200d"
"""Invisible, but part of how Indic words are written."""


def is_hidden(character: str) -> bool:
    """Whether a character prints nothing and has no part in how a word is written."""
    return unicodedata.category(character) in _CATEGORIES and character not in _JOINERS
