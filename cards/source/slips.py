"""What most likely went wrong in a line that YAML cannot read: the slips of writing by hand."""

from __future__ import annotations

import re
from collections.abc import Sequence

from cards.diagnostics.diagnostic import Diagnostic, Place, error

_KEYS = (
    "recipe|title|ages|makes|piece|texture|keep|ready|ingredients|steps|parts|part|food|amount|grams|prep|"
    "do|use|time|flame|whistles|lid|until|size|water|optional|accept|finding|reason|role|en|hi"
)
_ODD_BLANK = re.compile("[\u00a0\u2000-\u200b\u202f\u2060\u3000\ufeff]")
_ODD_DASH = re.compile(r"\s*([–—−•·*])\s*\S")
_BARE_DASH = re.compile(r"\s*-(?=[^\s-])")
_TIGHT_COLON = re.compile(rf"\s*(?:- )?({_KEYS}):(?=[^\s/])")
_NO_COLON = re.compile(rf"\s*(?:- )?({_KEYS})\s+[^\s:][^:]*$")


def likely_slip(rows: Sequence[str], line: int, file: str) -> Diagnostic | None:
    """The slip in the line a reader stopped at, or in one of the two above; lines count from 1."""
    for number in (line, line - 1, line - 2):
        if 1 <= number <= len(rows):
            found = _in_row(rows[number - 1], number, file)
            found = found or _no_dash(rows, number, file)
            if found:
                return found
    return None


def _in_row(row: str, number: int, file: str) -> Diagnostic | None:
    blank = _ODD_BLANK.search(row)
    if blank:
        return error(
            Place(file, number, blank.start() + 1),
            "yaml-blank",
            f"there is a blank here that is none, U+{ord(blank[0]):04X}; it came with copying",
            "delete it and type a plain blank",
        )
    odd = _ODD_DASH.match(row)
    if odd:
        return error(
            Place(file, number, odd.start(1) + 1),
            "yaml-dash",
            f'"{odd[1]}" does not begin a line of a list',
            "begin it with a plain dash and a blank: - ",
        )
    bare = _BARE_DASH.match(row)
    if bare:
        return error(
            Place(file, number, bare.end()),
            "yaml-dash",
            "there is no blank after this dash",
            "begin a line of a list with a dash and a blank: - ",
        )
    tight = _TIGHT_COLON.match(row)
    if tight:
        return error(
            Place(file, number, tight.end()),
            "yaml-key",
            f'there is no blank after the colon of "{tight[1]}"',
            f"write {tight[1]}: with a blank after the colon",
        )
    without = _NO_COLON.match(row)
    if without:
        return error(
            Place(file, number, without.start(1) + 1),
            "yaml-key",
            f'there is no colon after "{without[1]}"',
            f"write {without[1]}: with a colon and a blank",
        )
    return None


def _no_dash(rows: Sequence[str], number: int, file: str) -> Diagnostic | None:
    """A line without a dash and without a colon among the lines of a list."""
    row = rows[number - 1]
    indent = len(row) - len(row.lstrip())
    if not row.strip() or row.lstrip().startswith(("-", "#")) or ":" in row:
        return None
    before = next((r for r in reversed(rows[: number - 1]) if r.strip()), "")
    if before.lstrip().startswith("- ") and len(before) - len(before.lstrip()) == indent:
        return error(
            Place(file, number, indent + 1),
            "yaml-dash",
            "this line stands in a list and has no dash",
            "begin it with a dash and a blank: - ",
        )
    return None
