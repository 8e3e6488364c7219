"""The house order of keys: that in which the models name them, then a line for each language."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from pydantic import BaseModel

from cards.source.faults import inner_model, written_fields
from cards.source.model import LANGUAGES


@cache
def key_ranks(model: type[BaseModel] | None) -> Mapping[str, int]:
    """Each key a mapping may have with its rank; without a model, the languages alone."""
    keys = written_fields(model) if model else ()
    return {key: rank for rank, key in enumerate(dict.fromkeys((*keys, *LANGUAGES)))}


def model_below(model: type[BaseModel] | None, key: str) -> type[BaseModel] | None:
    """The model of what stands under a key, be it one mapping or a list of them."""
    field = written_fields(model).get(key) if model else None
    return inner_model(field.annotation) if field else None
