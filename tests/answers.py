"""What every answer of the program owes a person, whatever was in the file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from cards.data import load
from cards.diagnostics.diagnostic import Diagnostic
from cards.diagnostics.render import as_json, as_text
from cards.safety.rules import rules

LONGEST = 1000
"""Characters of a message or a cure that a person still reads."""

MOST = 150
"""Messages about one file that a person still works through."""


def rows_of(text: str) -> int:
    """Lines of a text as the YAML standard counts them (1.1, section 4.2)."""
    for end in ("\r\n", "\r", "\x85", "\u2028", "\u2029"):
        text = text.replace(end, "\n")
    return text.count("\n") + 1


def owed(diagnostics: Iterable[Diagnostic], texts: Mapping[str, str]) -> list[str]:
    """What the messages lack; empty where each has a kind, words and a place in its file."""
    kinds = {*load.mapping("kinds.yaml"), *rules()}
    lacking: list[str] = []
    told = list(diagnostics)
    if len(told) > MOST:
        lacking.append(f"{len(told)} messages")
    for d in told[:MOST]:
        where = f"{d.kind} at {d.place}: "
        if d.kind not in kinds:
            lacking.append(where + "not explained anywhere")
        if not d.message.strip() or not 0 < len(as_text(d, texts)) < 4 * LONGEST:
            lacking.append(where + f"message of {len(d.message)} characters")
        if max(len(d.message), len(d.hint)) > LONGEST:
            lacking.append(where + "longer than anybody reads")
        text = texts.get(d.place.file)
        if text is None:
            lacking.append(where + "no such file was read")
        elif not 0 <= d.place.line <= rows_of(text) or d.place.column < 0:
            lacking.append(where + f"outside a file of {rows_of(text)} lines")
        as_json(d).encode("utf-8")
    return lacking
