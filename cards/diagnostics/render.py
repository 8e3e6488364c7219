"""Diagnostics as text for the terminal, with the source line and a caret, or as JSON lines."""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Iterable, Mapping

from cards.diagnostics.diagnostic import Diagnostic
from cards.diagnostics.hidden import is_hidden

_WIDEST = 160


def as_text(diagnostic: Diagnostic, sources: Mapping[str, str]) -> str:
    """One diagnostic as a few lines: place and message, source line with caret, hint, source.

    ``sources`` maps file names to their texts, for the source line.
    """
    d = diagnostic
    lines = [visible(f"{d.place}: {d.severity.word} {d.kind}: {d.message}")]
    text = sources.get(d.place.file)
    if text is not None and d.place.line:
        rows = text.splitlines()
        if d.place.line <= len(rows):
            row = rows[d.place.line - 1].replace("\t", " ")
            if len(row) <= _WIDEST:
                lines.append(f"    {visible(row)}")
                lines.append("    " + " " * _cells(row[: max(0, d.place.column - 1)]) + "^")
    if d.hint:
        lines.append(visible(f"    hint: {d.hint}"))
    if d.source:
        lines.append(f"    rests on: {d.source}")
    return "\n".join(lines)


def visible(text: str) -> str:
    """The text with hidden and control characters shown by their numbers."""

    def shown(character: str) -> str:
        return f"<U+{ord(character):04X}>" if is_hidden(character) else character

    return "".join(map(shown, text))


def _cells(text: str) -> int:
    """Terminal cells a text takes: marks that sit on another character take none."""
    return sum(
        0 if unicodedata.combining(c) or unicodedata.category(c) == "Mn" else 1 for c in text
    )


def as_json(diagnostic: Diagnostic) -> str:
    """One diagnostic as one JSON line; half a character, which no file can hold, as a mark."""
    d = diagnostic
    line = json.dumps(
        {
            "file": d.place.file,
            "line": d.place.line,
            "column": d.place.column,
            "severity": d.severity.word,
            "kind": d.kind,
            "message": d.message,
            "hint": d.hint,
            "source": d.source,
        },
        ensure_ascii=False,
    )
    return line.encode("utf-8", errors="replace").decode("utf-8")


def tally(diagnostics: Iterable[Diagnostic]) -> str:
    """A count such as "2 errors, 1 warning"; "nothing to mend" when there is none."""
    counts: dict[str, int] = {}
    for d in diagnostics:
        counts[d.severity.word] = counts.get(d.severity.word, 0) + 1
    parts = [
        f"{counts[word]} {word}{'' if counts[word] == 1 else 's'}"
        for word in ("error", "warning", "note")
        if word in counts
    ]
    return ", ".join(parts) or "nothing to mend"
