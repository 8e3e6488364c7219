"""Languages made up for tests: the English words with each letter changed into another script's.

Nobody speaks them. They have all that a language brings to a card, so that a test of a script
does not wait for somebody who writes it; what is changed is plain to see.
"""

from __future__ import annotations

import re
from pathlib import Path

import yaml

from cards.foods.table import shipped_table
from tests.conftest import ROOT

CONSONANTS = "bcdfghjklmnpqrstvwxyz"
VOWELS = "aeiou"

LETTERS = {
    "Deva": ("बचदफगहजकलमनपखरसतवभछयझ", "अएइओउ"),
    "Beng": ("বচদফগহজকলমনপখরসতভঘছযঝ", "অএইওউ"),
    "Taml": ("பசடவகஹஜஞலமநபகரஸதவயஷயள", "அஎஇஒஉ"),
    "Telu": ("బచదఫగహజకలమనపఖరసతవభఛయఝ", "అఎఇఒఉ"),
    "Arab": ("بچدفگہجکلمنپقرستوحخیز", "اےیوع"),
}
"""Consonants, then vowels, of each script in the order of ours."""

SIGNS = {
    "Deva": ("ाेिोु", "्"),
    "Beng": ("ােিোু", "্"),
    "Taml": ("ாெிொு", "்"),
    "Telu": ("ాెిొు", "్"),
    "Arab": ("ایيوو", ""),
}
"""Vowels after a consonant, and what joins two consonants."""


LONGEST = {"Deva": 5, "Beng": 5, "Taml": 3, "Telu": 4, "Arab": 6}
"""Letters of a word that are kept: other scripts write an English letter wider."""


def changed(text: str, script: str) -> str:
    """The text with its Latin letters changed; what is filled in stays as it is."""
    parts = re.split(r"(\{\{.*?\}\}|\{%.*?%\})", text)
    return "".join(p if p.startswith("{") else _changed(p, script) for p in parts)


def _changed(text: str, script: str) -> str:
    text = re.sub(r"[A-Za-z]+", lambda word: word[0][: LONGEST[script]], text)
    consonants, vowels = LETTERS[script]
    signs, joiner = SIGNS[script]
    found: list[str] = []
    after = False
    for letter in text.lower():
        if letter in CONSONANTS:
            joins = after and joiner and letter in "rylv"
            found.append((joiner if joins else "") + consonants[CONSONANTS.index(letter)])
            after = not joins
        elif letter in VOWELS:
            found.append((signs if after else vowels)[VOWELS.index(letter)])
            after = False
        else:
            found.append(letter)
            after = False
    return "".join(found)


def words(code: str, script: str) -> str:
    """A words file of a made-up language under the code of a real one."""
    english = yaml.safe_load((ROOT / "templates/words/en.yaml").read_text("utf-8"))
    found: dict[str, object] = {"language": code}
    for section, given in english.items():
        if section not in ("language", "name", "notes", "reading"):
            found[section] = {key: _deep(value, script) for key, value in given.items()}
    # English takes the foods' names from the table itself
    found["foods"] = {f.id: changed(f.name, script) for f in shipped_table().foods.values()}
    return yaml.safe_dump(found, allow_unicode=True, sort_keys=False, width=10_000)


def _deep(value: object, script: str) -> object:
    if isinstance(value, dict):
        return {"other": changed(value["other"], script)}
    return changed(str(value), script)


def folder(root: Path, script: str, languages: tuple[str, ...], code: str) -> Path:
    """A programme's folder in ``root`` that prints ``languages``, ``code`` a made-up one."""
    (root / "templates/words").mkdir(parents=True, exist_ok=True)
    (root / "templates/words" / f"{code}.yaml").write_text(words(code, script), encoding="utf-8")
    (root / "recipes").mkdir(exist_ok=True)
    programme = yaml.safe_load((ROOT / "recipes/programme.yaml").read_text("utf-8"))
    programme["programme"] = 1
    programme["languages"] = list(languages)
    for key in ("name", "place"):
        programme[key] = {"en": programme[key]["en"], code: changed(programme[key]["en"], script)}
    (root / "recipes/programme.yaml").write_text(
        yaml.safe_dump(programme, allow_unicode=True), encoding="utf-8"
    )
    return root


def recipe(text: str, script: str, code: str) -> str:
    """A recipe of ours with its English words in the made-up language beside them."""

    def beside(match: re.Match[str]) -> str:
        indent, said = match["indent"], match["said"]
        return f"{indent}en: {said}\n{indent}{code}: {changed(said, script)}"

    text = re.sub(r"(?m)^\s+hi:.*\n", "", text)
    return re.sub(r"(?m)^(?P<indent>\s+)en: (?P<said>.*)$", beside, text)
