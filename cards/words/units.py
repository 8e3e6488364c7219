"""Units: each text that has to be said in another language, with what a translator must know."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from babel import Locale

from cards.data import load
from cards.diagnostics.diagnostic import Place
from cards.safety.rules import cautions
from cards.source.nodes import Path, Tree
from cards.source.recipe import Recipe, Step
from cards.source.sides import TITLE, Side
from cards.words.language import ACTION_VARIABLES, PLURALS, SESSIONS, sections_of
from cards.words.own import Spoken, spoken
from cards.words.state import SOURCE

Forms = Mapping[str, str]
"""A text by plural category; a text without plurals under ``other`` alone, none where empty."""

ROOM = 1.25
"""How much longer than the longest other language a text may be (common practice)."""

SHORTEST = 12
"""Letters for which there is room wherever a text stands."""

BRACES = re.compile(r"\{%.*?%\}|\{\{.*?\}\}", re.DOTALL)
"""What is filled in, and conditions."""
_VALUE_LETTERS = 4
"""Letters that a value is reckoned to fill, as a number with its unit."""


@dataclass(frozen=True)
class Unit:
    """One text. ``file`` and ``key`` name it for good; ``source`` is what is translated."""

    file: str
    key: str
    what: str
    code: str
    """Language of the source."""
    source: Forms
    target: Forms
    limit: int
    """Letters there is room for, reckoned from other languages if not ``measured``."""
    at: Place
    variables: tuple[str, ...] = ()
    plural: bool = False
    """Whether it has a form for each plural category, in whichever language."""
    picture: str = ""
    was: str = ""
    """What the target was made from, where the source is another by now."""
    path: Path = ()
    """Where the target stands, or would: in the words file, or inline in the recipe."""
    inline: bool = False
    """True where the recipe itself holds the target."""
    held: str = ""
    """What the side file's line with the target is found by; empty where it has none."""
    needed: bool = True
    step: Step | None = None
    measured: bool = False
    """Whether ``limit`` was found by setting texts in their place on the paper."""

    @property
    def context(self) -> str:
        """The name that binds a translation to its place."""
        return f"{self.file}: {self.key}"

    @property
    def text(self) -> str:
        """The source as one text."""
        return self.source["other"]

    @property
    def told(self) -> bool:
        """Whether there is a translation, and one of the present source."""
        return bool(self.target) and not self.was


def letters(text: str) -> int:
    """How many letters a text prints: signs that sit on another take no room."""
    plain = BRACES.sub(lambda m: "x" * _VALUE_LETTERS if m[0][1] == "{" else "", text)
    return sum(unicodedata.category(c) not in ("Mn", "Me", "Cf") and c != "*" for c in plain)


def limit_of(texts: Iterable[str]) -> int:
    """Letters there is room for, from what other languages print in the same place."""
    longest = max((letters(text) for text in texts), default=0)
    return max(SHORTEST, math.ceil(longest * ROOM))


def recipe_units(recipe: Recipe, code: str, side: Side | None) -> tuple[Unit, ...]:
    """The recipe's own texts for the language ``code``; a text said twice is one unit.

    The recipe is read without ``side``, the side file of that language.
    """
    texts = [(one, *found) for one in spoken(recipe) if (found := _source(one, recipe, code))]
    told = side.told if side else {}
    wanting = [
        text
        for one, _, text in texts
        if code not in one.words and not told.keys() & set(one.words.values())
    ]
    every = {text for one, _, _ in texts for text in one.words.values()}
    moved = side.moved(every, wanting) if side else {}
    units: dict[str, Unit] = {}
    for one, language, text in texts:
        titled = one.path == ("title",)
        inline = code in one.words
        target, was, held = one.words.get(code, ""), "", ""
        if side and titled and not inline:
            held, target = TITLE, told[TITLE][0]
            was = "" if side.title(one.words.values()) else side.titled
        elif not inline:
            given = next((t for t in one.words.values() if t in told), "")
            was = "" if given else moved.get(text, "")
            held = given or was
            target = told[held][0] if held else ""
        key = "/".join(map(str, one.path))
        units.setdefault(
            key if inline or titled else text,
            Unit(
                file=recipe.path,
                key=key,
                what=one.what,
                code=language,
                source={"other": text},
                target={"other": target} if target else {},
                limit=limit_of(t for c, t in one.words.items() if c != code),
                at=one.at,
                picture=one.picture,
                was=was,
                path=(*one.path, code),
                inline=inline,
                held=held,
                step=one.step,
            ),
        )
    return tuple(units.values())


def _source(one: Spoken, recipe: Recipe, code: str) -> tuple[str, str] | None:
    """Language and text that a text is translated from; None where it says only ``code``."""
    others = {c: t for c, t in one.words.items() if c != code}
    if recipe.author in others:
        return recipe.author, others[recipe.author]
    return next(iter(others.items()), None)


_SAID = {
    "phrases": "phrase on the card",
    "actions": "sentence of a step",
    "units": "measure",
    "preps": "what was done to an ingredient before",
    "ends": "sign that a step is done",
    "foods": "name of a food",
    "allergens": "what may cause allergy",
    "icons": "what a picture says",
    "sheets": "text on the pages about the pictures",
    SESSIONS: "text on the papers of a training day",
}


def phrase_units(
    file: str,
    code: str,
    english: Tree,
    target: Tree | None,
    others: Sequence[Tree],
    foods: Mapping[str, str],
    made_from: Mapping[str, str],
) -> tuple[Unit, ...]:
    """The texts of a words file for the language ``code``.

    ``foods`` are names of foods by id that the language should have, ``made_from`` the
    English by key that the present texts were made from, as far as is known.
    """
    given = sections_of(target) if target else {}
    rest = [sections_of(tree) for tree in others]
    variables = {
        "phrases": load.mapping("phrases.yaml"),
        "sheets": load.mapping("sheets.yaml"),
        SESSIONS: load.mapping("session_words.yaml"),
    }
    icons = {caution.name: caution.icon for caution in cautions()}
    units = [_name_unit(file, code, english, target)]
    for section, key, source in _english(english, foods, given.get("foods", {})):
        forms = as_forms(source)
        known = as_forms(given.get(section, {}).get(key))
        if not forms["other"]:
            continue
        name = f"{section}/{key}"
        was = made_from.get(name, "")
        same = [as_forms(other.get(section, {}).get(key)) for other in rest]
        picture = icons.get(key, "") if section == "phrases" else ""
        if section in ("icons", "actions"):
            picture = key
        units.append(
            Unit(
                file=file,
                key=name,
                what="caution" if section == "phrases" and picture else _SAID[section],
                code=SOURCE,
                source=forms,
                target=known,
                limit=limit_of(t for one in (forms, *same) for t in one.values()),
                at=english.place((section, key)),
                variables=ACTION_VARIABLES
                if section == "actions"
                else tuple(variables.get(section, {}).get(key, ())),
                plural=any(len(one) > 1 for one in (forms, known, *same)),
                picture=picture,
                was=was if known and was and was != forms["other"] else "",
                path=(section, key),
                needed=section != "foods" and (section != SESSIONS or bool(given.get(SESSIONS))),
            )
        )
    return tuple(units)


def _name_unit(file: str, code: str, english: Tree, target: Tree | None) -> Unit:
    own = str((target.value.get("name") if target else "") or "")
    return Unit(
        file=file,
        key="name",
        what=f"name of the language {code}, in the language itself",
        code=SOURCE,
        source={"other": str(english.value.get("name"))},
        target={"other": own} if own else {},
        limit=40,
        at=english.place(("name",)),
        path=("name",),
    )


def _english(
    english: Tree, foods: Mapping[str, str], known: Mapping[str, Any]
) -> Iterator[tuple[str, str, Any]]:
    """Every text to be translated, by section and key; foods under their English names."""
    sections = sections_of(english)
    own = sections.pop("foods")
    for section, texts in sections.items():
        yield from ((section, key, text) for key, text in texts.items())
    for food_id, name in foods.items():
        yield "foods", food_id, own.get(food_id, name)


def as_forms(value: Any) -> dict[str, str]:
    """A text, or texts by plural category, as forms in the order of the categories."""
    if isinstance(value, Mapping):
        return {form: str(value[form]) for form in PLURALS if form in value}
    return {"other": str(value)} if value is not None else {}


def plural_forms(code: str) -> tuple[str, ...]:
    """The plural categories of a language (Unicode CLDR), in gettext's order of them."""
    rule = Locale.parse(code).plural_form
    return tuple(form for form in PLURALS if form in rule.tags or form == "other")
