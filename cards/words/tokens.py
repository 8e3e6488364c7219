"""Texts as words and sentences, in any script."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TypeVar

from cards.source.amounts import Unreadable, read_number

V = TypeVar("V")
Phrase = tuple[str, ...]
"""Words as they are compared."""

_FIGURE = re.compile(
    r"[0-9]+\s+[0-9]+\s*[/⁄]\s*[0-9]+|[0-9]+\s*[/⁄]\s*[0-9]+"
    r"|[0-9]*\s?[¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]|[0-9]+(?:\.[0-9]+)?"
)
_STOP = re.compile(r"[.!?:।॥۔؟]+(?:\s+|$)")
_INNER = "'’\u200c\u200d"
_URDU = str.maketrans(
    {"ي": "ی", "ى": "ی", "ك": "ک", "ه": "ہ", "ٰ": None} | dict.fromkeys(range(0x64B, 0x653))
)
"""Letters of Arabic keyboards that look like those of Urdu; vowel signs, which writers skip."""
_NUKTA, _CANDRABINDU, _ANUSVARA = "\u093c", "\u0901", "\u0902"


@dataclass(frozen=True, slots=True)
class Token:
    """A word, a number or a mark. ``folded`` is the word as it is compared, empty for a mark."""

    text: str
    folded: str
    value: Fraction | None = None


def fold_word(word: str) -> str:
    """A word as it is compared: small letters; one way of writing where writers differ."""
    plain = unicodedata.normalize("NFC", word).casefold().replace("’", "'")
    plain = plain.replace(_NUKTA, "").replace(_CANDRABINDU, _ANUSVARA)
    return plain.translate(_URDU)


def tokens(text: str) -> tuple[Token, ...]:
    """Words, numbers and marks in order; digits of every script are read."""
    text = _western_digits(unicodedata.normalize("NFC", text))
    found: list[Token] = []
    at = 0
    while at < len(text):
        figure = _FIGURE.match(text, at)
        if figure:
            found.append(_figure(figure[0]))
            at = figure.end()
            continue
        end = at
        while end < len(text) and _of_word(text[end]):
            end += 1
        if end > at:
            found.append(Token(text[at:end], fold_word(text[at:end])))
        elif not text[at].isspace():
            found.append(Token(text[at], ""))
        at = max(end, at + 1)
    return tuple(found)


@lru_cache(maxsize=1024)
def words_of(text: str) -> tuple[Token, ...]:
    """Words and numbers in order, without marks."""
    return tuple(token for token in tokens(text) if token.folded)


@lru_cache(maxsize=4096)
def phrase(text: str) -> Phrase:
    """The words of a text as they are compared."""
    return tuple(token.folded for token in words_of(text))


def written(row: Iterable[Token]) -> str:
    """Words as they are written, with blanks between."""
    return " ".join(token.text for token in row)


def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a text; they end at a stop, a danda, an Urdu stop or a colon."""
    return tuple(part.strip() for part in _STOP.split(text) if part.strip())


def count_words(text: str) -> int:
    """Words between blanks; marks that stand alone are none."""
    return sum(any(c.isalnum() for c in word) for word in text.split())


def longest(
    row: Sequence[str], at: int, known: Mapping[Phrase, V], most: int = 4
) -> tuple[int, V] | None:
    """The longest known phrase that begins at ``at``: its length and what it stands for."""
    for length in range(min(most, len(row) - at), 0, -1):
        key = tuple(row[at : at + length])
        if key in known:
            return length, known[key]
    return None


def holds(outer: Sequence[str], inner: Sequence[str]) -> bool:
    """Whether ``inner`` stands in ``outer``, its words side by side."""
    size = len(inner)
    return size > 0 and any(
        tuple(outer[n : n + size]) == tuple(inner) for n in range(len(outer) - size + 1)
    )


def _of_word(character: str) -> bool:
    return unicodedata.category(character)[0] in "LMN" or character in _INNER


def _western_digits(text: str) -> str:
    return "".join(
        str(unicodedata.decimal(c)) if unicodedata.category(c) == "Nd" else c for c in text
    )


def _figure(text: str) -> Token:
    try:
        return Token(text, text, read_number(text)[0])
    except Unreadable:  # such as a division by zero
        return Token(text, text)
