"""Split a text into runs of one script each, since a shaper works in one script at a time."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from fontTools import unicodedata

_JOINERS = ("Zyyy", "Zinh", "Zzzz")
"""Common, inherited and unknown: take the script of their neighbour."""


@dataclass(frozen=True, slots=True)
class ScriptRun:
    """A stretch of text in one script (ISO 15924 code)."""

    script: str
    text: str


@lru_cache(maxsize=4_000)
def _script(character: str) -> str:
    return str(unicodedata.script(character))


def is_shared(character: str) -> bool:
    """Whether a character belongs to no one script, as a digit, a dash or ½."""
    return _script(character) in _JOINERS


@lru_cache(maxsize=20_000)
def split_scripts(text: str, default: str = "Latn") -> tuple[ScriptRun, ...]:
    """Runs that join up to ``text``; digits, spaces and marks go with what precedes them.

    A text of digits and marks alone is in the ``default`` script.
    """
    scripts: list[str] = []
    current = ""
    for character in text:
        script = _script(character)
        if script in _JOINERS:
            # the danda and its kin are shared by Indic scripts and belong to the text around them
            script = current
        current = script
        scripts.append(script)
    following = default
    for index in range(len(scripts) - 1, -1, -1):
        if scripts[index]:
            following = scripts[index]
        else:
            scripts[index] = following
    runs: list[ScriptRun] = []
    start = 0
    for index in range(1, len(text) + 1):
        if index == len(text) or scripts[index] != scripts[start]:
            runs.append(ScriptRun(scripts[start], text[start:index]))
            start = index
    return tuple(runs)


@lru_cache(maxsize=20_000)
def main_script(text: str, default: str = "Latn") -> str:
    """The script most of the text's letters are in."""
    counts: dict[str, int] = {}
    for run in split_scripts(text, default):
        counts[run.script] = counts.get(run.script, 0) + len(run.text)
    return max(counts, key=lambda s: counts[s]) if counts else default
