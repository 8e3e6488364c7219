"""JSON Schemas (draft 2020-12) of recipe and session files, for editors that help."""

from __future__ import annotations

import json
from typing import Any

from cards.source.model import LANGUAGES, RecipeIn
from cards.source.session import SessionIn
from cards.source.vocabulary import SEASONS


def recipe_schema() -> str:
    """The schema as JSON text."""
    schema: dict[str, Any] = RecipeIn.model_json_schema(by_alias=True)
    for model in (schema, *schema.get("$defs", {}).values()):
        own = model.get("properties", {})
        if " words" in own:
            # words come as a line for each language, not under a key of their own
            own.pop(" words")
            own.pop(" as needed", None)
            for code in LANGUAGES:
                own[code] = {"type": "string", "description": f"the words in {code}"}
    for name in ("recipe", "version", "revised"):
        # an editor reads 1 as a number and 2026-11-25 as a date; to us all scalars are text
        schema["properties"][name]["type"] = ["string", "number"]
    seasons = schema["$defs"]["IngredientIn"]["properties"]["seasons"]
    seasons["propertyNames"] = {"enum": list(SEASONS)}
    for name, example in (
        ("IngredientIn", "2 tbsp (30 g) moong dal, washed"),
        ("InsteadIn", "groundnut oil; or with its own amount, 2 tsp groundnut oil"),
    ):
        keys = schema["$defs"][name]
        schema["$defs"][name] = {"anyOf": [{"type": "string", "description": example}, keys]}
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "recipe"
    return json.dumps(schema, ensure_ascii=False, indent=1) + "\n"


def session_schema() -> str:
    """The schema of a session file as JSON text."""
    schema: dict[str, Any] = SessionIn.model_json_schema()
    schema["properties"]["session"]["type"] = ["string", "number"]
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "session"
    return json.dumps(schema, ensure_ascii=False, indent=1) + "\n"
