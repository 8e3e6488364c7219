"""Signatures: who has read one language's words over, when, and which words those were."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping
from datetime import date
from typing import Annotated, Any

from pydantic import PlainValidator, WithJsonSchema

from cards.source.fields import fault
from cards.source.recipe import Signature

HOW = "write it with cards words sign, or like {role: teacher, date: 2026-11-25, words: 1a2b3c4d}"


DRAFT = Signature("", "", "")
"""What stands for ``draft``: the author herself does not stand by her words yet."""


def words_digest(pairs: Iterable[tuple[str, str]]) -> str:
    """Eight hex digits of the SHA-256 of texts with what they were made from, in any order."""
    whole = "\f".join(f"{one}\v{other}" for one, other in sorted(set(pairs)))
    return hashlib.sha256(whole.encode("utf-8")).hexdigest()[:8]


def is_date(text: str) -> bool:
    """Whether a text is a day, as 2026-11-25."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def parse_signature(value: Any) -> Signature:
    """A signature as it stands in a file. Raises our fault."""
    if value == "draft":
        return DRAFT
    if not isinstance(value, Mapping) or set(value) != {"role", "date", "words"}:
        raise fault("value-wrong", "this is no signature of three parts", HOW)
    role, day, words = (" ".join(str(value[key]).split()) for key in ("role", "date", "words"))
    if not 3 <= len(role) <= 160 or not any(c.isalpha() for c in role):
        raise fault("value-wrong", "a signature names a role in 3 to 160 letters", HOW)
    if not is_date(day):
        raise fault("value-wrong", f'"{day[:20]}" is not a date', "write it like 2026-11-25")
    if not re.fullmatch("[0-9a-f]{8}", words):
        raise fault("value-wrong", f'"{words[:20]}" does not say which words were read', HOW)
    return Signature(role, day, words)


_MAPPING = {
    "type": "object",
    "properties": {key: {"type": "string"} for key in ("role", "date", "words")},
    "required": ["role", "date", "words"],
    "additionalProperties": False,
}

SignatureField = Annotated[
    Signature,
    PlainValidator(parse_signature),
    WithJsonSchema({"anyOf": [{"const": "draft"}, _MAPPING], "description": "who read it over"}),
]
