"""Amounts as people say them, where a language has words of its own: "ढाई", not 2½.

A words file gives them under ``fractions:``. ``n 1/2`` is any half over a whole number, with
{{ whole }} and {{ next }} to fill in; {{ unit }} is the measure's name, for languages that
bend the word to it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from cards.diagnostics.blanks import UNBREAKABLE
from cards.diagnostics.diagnostic import Diagnostic, error
from cards.source.nodes import Tree
from cards.words.numbers import number_range
from cards.words.phrases import template, template_fault

SECTION = "fractions"

_PARTS = ("1/4", "1/2", "3/4")
KEYS = tuple(f"{whole}{part}" for whole in ("", "1 ", "2 ", "n ") for part in _PARTS)
VARIABLES = ("whole", "next", "unit")


def spoken(texts: Mapping[str, str], low: Fraction, high: Fraction, unit: str) -> str:
    """One amount in words where the language has some; else figures, as a range always."""
    whole, rest = divmod(low, 1)
    part = str(rest)
    told = texts.get(f"{whole} {part}" if whole else part) or (
        texts.get(f"n {part}") if whole > 1 else None
    )
    if low != high or told is None or part not in _PARTS:
        return number_range(low, high)
    filled = {"whole": str(whole), "next": str(whole + 1), "unit": unit}
    return UNBREAKABLE.join(template(told).render(filled).split())


def spoken_faults(tree: Tree) -> Iterator[Diagnostic]:
    """What is wrong with the section; it may be left out, and any of its keys."""
    given = tree.value.get(SECTION)
    if given is None:
        return
    if not isinstance(given, dict):
        yield error(
            tree.place((SECTION,)),
            "words-missing",
            f'"{SECTION}" should hold words for amounts',
            f'write a line such as "1/2": ...; known are {", ".join(KEYS)}',
        )
        return
    for key, text in given.items():
        if key not in KEYS:
            yield error(
                tree.key((SECTION, key)),
                "words-unknown",
                f'"{key}" is no amount that has words',
                f"known are {', '.join(KEYS)}",
            )
            continue
        told = template_fault(str(text), VARIABLES)
        if told is not None:
            yield error(tree.place((SECTION, key)), "words-template", *told)
