"""The house order of keys: that in which the models name them, then a line for each language."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from pydantic import BaseModel

from cards.source.faults import inner_model
from cards.source.model import LANGUAGES


@cache
def key_ranks(model: type[BaseModel] | None) -> Mapping[str, int]:
    """Each key a mapping may have with its rank; without a model, the languages alone."""
    fields = model.model_fields if model else {}
    # a field with an alias is filled from other lines, and nobody writes it
    keys = [name for name, field in fields.items() if field.alias is None]
    return {key: rank for rank, key in enumerate(dict.fromkeys((*keys, *LANGUAGES)))}


def model_below(model: type[BaseModel] | None, key: str) -> type[BaseModel] | None:
    """The model of what stands under a key, be it one mapping or a list of them."""
    field = model.model_fields.get(key) if model else None
    return inner_model(field.annotation) if field else None
