"""Numbers in the digits of the language they are printed in: the last step of composing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from cards.card.model import CardMeta, Heading, Text
from cards.words.digits import LATIN
from cards.words.language import Language

T = TypeVar("T")

_FIGURES = ("number", "ages", "start", "label", "alt", "value", "figure", "clock")
"""Fields that hold figures or words of no named language: they are in the first language's."""

_LEFT = ("trace", "qr", "one_of", "cited")
"""What leads back to a file or names a document stays as it is; ``one_of`` is filled in by the
layout."""


def in_digits(whole: T, languages: Sequence[Language]) -> T:
    """A card, chart or sheet with every number in the digits of its language.

    A number that belongs to no language, such as a step's, is in the first language's.
    """
    tables = {lang.code: str.maketrans(LATIN, lang.digits) for lang in languages}
    if all(lang.digits == LATIN for lang in languages):
        return whole
    return _changed(whole, tables, tables[languages[0].code])  # type: ignore[no-any-return]


def _changed(part: Any, tables: Mapping[str, Mapping[int, int]], first: Mapping[int, int]) -> Any:
    if isinstance(part, Text):
        return replace(part, text=part.text.translate(tables.get(part.language, {})))
    if isinstance(part, tuple):
        return tuple(_changed(inner, tables, first) for inner in part)
    if not is_dataclass(part) or isinstance(part, type | CardMeta):
        return part
    found: dict[str, Any] = {}
    for field in fields(part):
        value = getattr(part, field.name)
        if field.name in _LEFT:
            continue
        if isinstance(value, str):
            if field.name in _FIGURES:
                found[field.name] = value.translate(first)
        else:
            found[field.name] = _changed(value, tables, first)
    if isinstance(part, Heading):
        found["digits"] = tuple(
            LATIN.translate(tables.get(text.language, {})) for text in part.one_of
        )
    return replace(part, **found)
