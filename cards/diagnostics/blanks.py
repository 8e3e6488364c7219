"""Blanks: runs of them become one, and one at which no line may break stays what it is."""

from __future__ import annotations

import re

UNBREAKABLE = "\u00a0"
"""The no-break space: class GL of UAX #14, no line breaks before or after it."""

_RUN = re.compile(r"\s+")
_KEPT = re.compile("[\u00a0\u2007\u202f]")
"""Blanks of class GL. They differ in width alone, and print as a plain blank here."""


def single_blanks(text: str) -> str:
    """The text without blanks at its ends, and one for each run of them inside.

    A run with a no-break space in it becomes a no-break space.
    """
    if not _KEPT.search(text):
        return " ".join(text.split())
    return _RUN.sub(lambda run: UNBREAKABLE if _KEPT.search(run[0]) else " ", text.strip())
