"""Which way text runs: the Unicode bidirectional algorithm (UAX #9), with numbers kept whole."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from babel import Locale, UnknownLocaleError
from bidi import algorithm

_LEFTWARD = re.compile(r"[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff\U00010800-\U00010fff]")
"""Blocks of the scripts written from right to left."""

_NUMBER = re.compile(r"[\d¼-¾⅐-⅞]+(?:(?: (?=\d+/\d)|[–/.,-])[\d¼-¾⅐-⅞]+)*")
"""A number as it is printed: 12, 1½, 2–3, 1 1/3, 0.5, 2026-11-25."""


@lru_cache(maxsize=200)
def reads_leftward(language: str) -> bool:
    """Whether a language (ISO 639 code) is written from right to left; "und" is not."""
    try:
        return str(Locale.parse(language).text_direction) == "rtl"
    except (UnknownLocaleError, ValueError):
        return False


@lru_cache(maxsize=8_000)
def levels_of(text: str, leftward: bool) -> tuple[int, ...]:
    """The embedding level of each character of a paragraph; odd ones run from right to left.

    ``leftward`` is the way of the paragraph. Empty where all is level 0. Differs from UAX #9, as
    its rules HL allow, in that a number is kept whole: by the letter, 1½ would be set as ½1 among
    Urdu, and 2–3 as 3–2, another sight than the same number in the line above.
    """
    if not leftward and not _LEFTWARD.search(text):
        return ()
    storage = algorithm.get_empty_storage()
    storage["base_level"] = int(leftward)
    storage["base_dir"] = "R" if leftward else "L"
    algorithm.get_embedding_levels(text, storage)
    for character in storage["chars"]:
        if character["type"] == "BN":
            # joiners are not taken out: they belong to the word they stand in
            character["type"] = "NSM"
    for number in _NUMBER.finditer(text):
        for character in storage["chars"][number.start() : number.end()]:
            character["type"] = "EN"
    algorithm.explicit_embed_and_overrides(storage)
    algorithm.resolve_weak_types(storage)
    algorithm.resolve_neutral_types(storage, False)
    algorithm.resolve_implicit_levels(storage, False)
    return tuple(character["level"] for character in storage["chars"])


def seen_order(levels: Sequence[int]) -> list[int]:
    """Indexes of a line's pieces from left to right, by their levels (rule L2)."""
    order = list(range(len(levels)))
    for level in range(max(levels, default=0), 0, -1):
        start = 0
        while start < len(order):
            end = start
            while end < len(order) and levels[order[end]] >= level:
                end += 1
            order[start:end] = reversed(order[start:end])
            start = end + 1
    return order
