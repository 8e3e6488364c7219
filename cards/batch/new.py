"""Begin a recipe file: a commented text with the title in it."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Sequence


def file_name(title: str) -> str:
    """A file name for a title: its letters and digits in any script, with hyphens."""
    plain = unicodedata.normalize("NFC", title.casefold())
    kept = "".join(c if unicodedata.category(c)[0] in "LNM" else "-" for c in plain)
    return re.sub("-+", "-", kept).strip("-")[:60].rstrip("-")


def new_recipe(template: str, title: str, languages: Sequence[str]) -> str:
    """The text of a new recipe; titles in further languages are left to be filled in."""
    lines = [f"  {languages[0]}: {json.dumps(title, ensure_ascii=False)}"]
    lines += [f"  {code}:                      # the title in {code}" for code in languages[1:]]
    return template.replace("{{ titles }}", "\n".join(lines))
