"""Is a translation one? What is held against the text it was made from."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from babel.core import get_global
from fontTools import unicodedata

from cards.diagnostics.diagnostic import Diagnostic, Place, error, warning
from cards.diagnostics.hidden import is_hidden
from cards.source.fields import LONGEST_TEXT
from cards.words.figures import figures
from cards.words.own import Own
from cards.words.phrases import template_fault, variables_of
from cards.words.plain import check_equipment, check_hard, check_sentences
from cards.words.told_twice import named, unlike
from cards.words.units import BRACES, Unit, letters
from cards.words.wordlists import WordLists, no_lists


@dataclass(frozen=True)
class Reader:
    """What the language and its source bring for reading a translation over."""

    code: str
    lists: WordLists | None
    """None where the language has no words file yet, or no lists in it."""
    source_lists: WordLists | None
    kitchen: Collection[str] = ()


def check_translation(unit: Unit, text: str, reader: Reader, at: Place) -> Iterator[Diagnostic]:
    """What is wrong with one text. Errors: values and numbers that are others, hidden
    characters, letters of another script, stars lost, far too long. Warnings: no room, not plain.
    """
    hidden = next((c for c in text if is_hidden(c) and c != "\n"), None)
    if hidden is not None:
        yield error(
            at,
            "translation-hidden",
            f"there is a character here that prints nothing, U+{ord(hidden):04X}",
            "type the text anew, without copying; marks of direction are set by the program",
        )
        return
    fault = _values(unit, text)
    if fault:
        yield error(at, "translation-values", *fault)
        return
    yield from _numbers(unit, text, reader, at)
    yield from _script(unit, text, reader.code, at)
    length = letters(text)
    if length > unit.limit and not unit.measured:
        yield warning(
            at,
            "translation-long",
            f"this has {length} letters, and there is room for about {unit.limit}",
            "say it in fewer words",
        )
    if reader.lists is not None and not unit.key.startswith(("sheets/", "name", "foods/")):
        own = Own(text, reader.code, at, unit.step)
        yield from check_hard(own, reader.lists)
        if unit.step is not None:
            yield from check_equipment(own, reader.lists, reader.kitchen)
            yield from check_sentences(own, reader.lists)


def _values(unit: Unit, text: str) -> tuple[str, str] | None:
    """What is wrong with braces, stars and length, and its cure."""
    if not unit.variables:
        if "{" in text or "}" in text:
            return "there are braces here, and nothing is filled in", "leave the braces out"
        if len(text) > LONGEST_TEXT and len(unit.text) <= LONGEST_TEXT:
            return f"this text has {len(text)} letters", "shorten it"
        return _stars(unit, text)
    told = template_fault(text, unit.variables)
    if told is not None:
        return told
    wanted, given = variables_of(unit.text), variables_of(text)
    # which form goes with a number is grammar, and some languages have but one
    lost = {name for name in wanted if _is_printed(name, unit.text)} - given - {"count"}
    extra = given - wanted - {"count"}
    for names, what in ((lost, "is not filled in here"), (extra, "is not filled in in the source")):
        for name in sorted(names):
            braces = "{{ " + name + " }}"
            return f"{braces} {what}", f"use the values of the source, and all: {unit.text}"
    return _stars(unit, text)


def _is_printed(name: str, text: str) -> bool:
    """Whether a value is filled in; what only chooses a form may not be needed elsewhere."""
    return any(re.search(rf"\b{name}\b", shown) for shown in re.findall(r"{{.*?}}", text))


def _stars(unit: Unit, text: str) -> tuple[str, str] | None:
    if text.count("*") != unit.text.count("*"):
        return "the stars are not those of the source", "set *stars* round the same words only"
    return None


def _numbers(unit: Unit, text: str, reader: Reader, at: Place) -> Iterator[Diagnostic]:
    """An amount must not change on the way."""
    lists, own = reader.source_lists, reader.lists
    if lists is None or own is None:  # words for numbers are known of one side only
        lists = own = no_lists()
    one, two = unlike(figures(_said(unit.text), lists), figures(_said(text), own))
    if one or two:
        yield error(
            at,
            "translation-numbers",
            f"the numbers differ: {unit.code} says {named(one)}, {reader.code} says {named(two)}",
            "say the same number, in digits",
        )


def _said(text: str) -> str:
    """What a phrase says itself, without what is filled in."""
    return BRACES.sub(" ", text)


def scripts_of(code: str) -> frozenset[str]:
    """The script (ISO 15924) a language is written in, by the likely subtags of Unicode CLDR."""
    likely = str(get_global("likely_subtags").get(code, ""))
    return frozenset(part for part in likely.split("_") if len(part) == 4)


def _script(unit: Unit, text: str, code: str, at: Place) -> Iterator[Diagnostic]:
    """Letters of another script than the language's, but for words that the source has too."""
    own = scripts_of(code)
    said = _said(text)
    known = set(re.findall(r"\w+", _said(unit.text)))
    for word in re.findall(r"[^\W\d_][\w\u200c\u200d]*", said):
        scripts = {unicodedata.script(c) for c in word} - {"Zyyy", "Zinh", "Zzzz"}
        if own and scripts - own and not (word in known and len(scripts) == 1):
            mixed = len(scripts) > 1
            yield error(
                at,
                "translation-script",
                f'"{word}" mixes two scripts' if mixed else f'"{word}" is in another script',
                f"write it in the letters of {code}",
            )
            return
