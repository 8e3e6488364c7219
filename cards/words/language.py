"""One language's words, checked on loading, with nothing missing when a card is made."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import chain
from typing import Any

from babel import Locale, UnknownLocaleError
from jinja2 import StrictUndefined, TemplateSyntaxError, meta, nodes
from jinja2.sandbox import SandboxedEnvironment

from cards.data import load
from cards.diagnostics.diagnostic import Diagnostic, Result, error
from cards.diagnostics.nearest import did_you_mean
from cards.source.nodes import Tree, read_nodes
from cards.source.vocabulary import ENDS, PREPS, actions
from cards.words.wordlists import SECTION, WordLists, load_wordlists

ACTION_VARIABLES = ("foods", "time", "until", "whistles", "size")
"""What every action's sentence may use; each is an empty text where the step says nothing."""

SECTIONS = (
    "phrases",
    "actions",
    "units",
    "preps",
    "ends",
    "foods",
    "allergens",
    "icons",
    "sheets",
)

LONGEST_PHRASE = 400
"""Characters of a phrase with its conditions; ten times what a card has room for."""

_ENVIRONMENT = SandboxedEnvironment(undefined=StrictUndefined, autoescape=False)


class Language:
    """A language's words. Build with ``load_language``, which finds the faults."""

    def __init__(
        self,
        code: str,
        sections: Mapping[str, Mapping[str, Any]],
        lists: WordLists | None = None,
    ) -> None:
        self.code = code
        self.lists = lists
        """What an author's own words are checked by; None where the file has no such section."""
        self.locale = Locale.parse(code)
        self._sections = sections
        self._phrases = {k: _ENVIRONMENT.from_string(v) for k, v in sections["phrases"].items()}
        variables = load.mapping("phrases.yaml")
        # most phrases have nothing to fill in, and are asked for again and again
        self._fixed = {k: tidy(v.render()) for k, v in self._phrases.items() if not variables[k]}
        self._actions = {k: _ENVIRONMENT.from_string(v) for k, v in sections["actions"].items()}

    def phrase(self, name: str, **values: object) -> str:
        """A phrase with its variables filled in."""
        return self._fixed.get(name) or tidy(self._phrases[name].render(**values))

    def sentence(self, action: str, **values: str) -> str:
        """The sentence of a step that has no words of its own."""
        blank = dict.fromkeys(ACTION_VARIABLES, "")
        return capital(tidy(self._actions[action].render(**{**blank, **values})))

    def icon(self, name: str) -> str:
        """What a cook should understand from an icon, however full or long it is drawn."""
        return tidy(self._sections["icons"][name])

    def sheet(self, name: str, **values: object) -> str:
        """A phrase of the sheets about icons with its variables filled in."""
        return tidy(_ENVIRONMENT.from_string(self._sections["sheets"][name]).render(**values))

    def unit(self, name: str, number: Fraction) -> str:
        """A measure's name in the form that goes with ``number``; its own name if it has none."""
        return self._form(self._sections["units"].get(name, name), number)

    def food(self, food_id: str, name: str, number: Fraction = Fraction(1)) -> str:
        """A food's name in the form for ``number``; ``name`` where the language has none."""
        return self._form(self._sections["foods"].get(food_id, name), number)

    def has_food(self, food_id: str) -> bool:
        """True when the language names the food."""
        return food_id in self._sections["foods"]

    def foods(self) -> Mapping[str, tuple[str, ...]]:
        """Every food the language names, by id, with the name in all its forms."""
        return {
            food_id: (forms,) if isinstance(forms, str) else tuple(forms.values())
            for food_id, forms in self._sections["foods"].items()
        }

    def prep(self, name: str) -> str:
        """What has been done to an ingredient."""
        return str(self._sections["preps"][name]) if name else ""

    def end(self, name: str) -> str:
        """The sign that a step is done."""
        return str(self._sections["ends"][name]) if name else ""

    def allergen(self, name: str) -> str:
        """An allergen's everyday name."""
        return str(self._sections["allergens"].get(name, name))

    def listed(self, words: list[str]) -> str:
        """Words joined as in "rice, dal and water"."""
        if len(words) < 2:
            return "".join(words)
        return f"{', '.join(words[:-1])} {self.phrase('and')} {words[-1]}"

    def _form(self, forms: str | Mapping[str, str], number: Fraction) -> str:
        if isinstance(forms, str):
            return forms
        # a part of one thing takes the form of one thing: "1/2 cup", not "1/2 cups"
        key = self.locale.plural_form(1 if 0 < number <= 1 else float(number))
        return forms.get(key) or forms["other"]


def tidy(text: str) -> str:
    """Single spaces, none before a stop or comma."""
    text = " ".join(text.split())
    for stop in ".,:;!?।":
        text = text.replace(f" {stop}", stop)
    return text


def capital(text: str) -> str:
    """The first letter large, where the script knows large letters."""
    return text[:1].upper() + text[1:]


def load_language(text: str, file: str, code: str) -> Result[Language]:
    """A words file's text as a ``Language``; every missing or wrong phrase is told."""
    read = read_nodes(text, file)
    if read.value is None:
        return Result(None, read.diagnostics)
    tree = read.value
    lists, list_faults = load_wordlists(tree)
    faults = [*read.diagnostics, *_faults(tree, code), *list_faults]
    if faults:
        return Result(None, tuple(faults))
    sections: dict[str, Any] = {name: tree.value.get(name) or {} for name in SECTIONS}
    return Result(Language(code, sections, lists))


def _faults(tree: Tree, code: str) -> list[Diagnostic]:
    found: list[Diagnostic] = []
    try:
        Locale.parse(code)
    except (UnknownLocaleError, ValueError):
        return [
            error(
                tree.place(("language",)),
                "language-unknown",
                f'"{code}" is not a language that plurals are known of',
                "use a code of ISO 639, such as bn",
            )
        ]
    if tree.value.get("language") != code:
        found.append(
            error(
                tree.place(("language",)),
                "words-language",
                f"this file should say language: {code}",
            )
        )
    for key in tree.value:
        if key not in (*SECTIONS, SECTION, "language", "name", "notes"):
            found.append(
                error(
                    tree.key((key,)),
                    "key-unknown",
                    f'"{key}" is not a key here',
                    did_you_mean(key, SECTIONS),
                )
            )
    declared = {
        "phrases": {k: tuple(v) for k, v in load.mapping("phrases.yaml").items()},
        "actions": dict.fromkeys(actions(), ACTION_VARIABLES),
        "preps": dict.fromkeys(PREPS, ()),
        "ends": dict.fromkeys(ENDS, ()),
        "icons": dict.fromkeys(icon_names(), ()),
        "sheets": {k: tuple(v) for k, v in load.mapping("sheets.yaml").items()},
    }
    for section, names in declared.items():
        given = tree.value.get(section)
        if not isinstance(given, dict):
            found.append(error(tree.place(()), "words-missing", f'there is no section "{section}"'))
            continue
        for name in names:
            if not isinstance(given.get(name), str):
                found.append(
                    error(
                        tree.key((section,)),
                        "words-missing",
                        f'{section} has no text for "{name}"',
                        f"add a line {name}: ...",
                    )
                )
        for name, text in given.items():
            place = tree.key((section, name))
            if name not in names:
                found.append(
                    error(
                        place,
                        "words-unknown",
                        f'"{name}" is not used by any card',
                        did_you_mean(name, names),
                    )
                )
            elif isinstance(text, str):
                found += _template_faults(text, names[name], tree, (section, name))
    for section in ("units", "foods", "allergens"):
        found += _form_faults(section, tree)
    return found


def icon_names() -> tuple[str, ...]:
    """Every icon's name, in the order of the sheet of icons."""
    return tuple(chain.from_iterable(load.mapping("icons.yaml")["groups"].values()))


PLURALS = ("zero", "one", "two", "few", "many", "other")
"""Plural categories of Unicode CLDR."""


def _form_faults(section: str, tree: Tree) -> list[Diagnostic]:
    """A name is a text, or a text for each plural form; allergens are plain texts."""
    found: list[Diagnostic] = []
    given = tree.value.get(section) or {}
    if not isinstance(given, dict):
        return [error(tree.place((section,)), "words-missing", f'"{section}" should hold names')]
    for name, forms in given.items():
        if isinstance(forms, dict) and section != "allergens":
            sound = "other" in forms and all(
                key in PLURALS and isinstance(text, str) for key, text in forms.items()
            )
        else:
            sound = isinstance(forms, str)
        if not sound:
            found.append(
                error(
                    tree.key((section, name)),
                    "words-form",
                    f'"{name}" should be a text, or a text for each plural form',
                    "write a word, or {one: ..., other: ...}",
                )
            )
    return found


_ALLOWED = (
    nodes.Template,
    nodes.Output,
    nodes.TemplateData,
    nodes.Name,
    nodes.Const,
    nodes.If,
    nodes.CondExpr,
    nodes.Compare,
    nodes.Operand,
    nodes.And,
    nodes.Or,
    nodes.Not,
    nodes.Concat,
    nodes.Tuple,
    nodes.List,
    nodes.Getitem,
    nodes.Slice,
    nodes.Neg,
)
"""What a phrase may be made of: values, choices and pieces of text. No loops, calls or sums."""


def _template_faults(
    text: str, variables: tuple[str, ...], tree: Tree, path: tuple[str, str]
) -> list[Diagnostic]:
    def fail(message: str, hint: str) -> list[Diagnostic]:
        return [error(tree.place(path), "words-template", message, hint)]

    if not any(c.isalnum() for c in text) or len(text) > LONGEST_PHRASE:
        return fail("this phrase is empty or far too long", "write it in a few words")
    if "{" not in text:
        return []
    try:
        parsed = _ENVIRONMENT.parse(text)
    except TemplateSyntaxError as fault:
        return fail(f"this phrase cannot be read: {fault}", "check the double braces {{ }}")
    for node in parsed.find_all(nodes.Node):
        if not isinstance(node, _ALLOWED):
            return fail(
                "this phrase does more than fill in values",
                "use only {{ name }} and {% if name %} ... {% endif %}",
            )
    for name in sorted(meta.find_undeclared_variables(parsed) - set(variables)):
        return fail(
            f'"{name}" is not known in this phrase',
            did_you_mean(name, variables, f"known: {', '.join(variables) or 'none'}"),
        )
    try:
        _ENVIRONMENT.from_string(text).render(dict.fromkeys(variables, "2"))
    except Exception as fault:  # whatever a phrase may do wrong, it does it here and not on a card
        return fail(f"this phrase cannot be filled in: {fault}", "compare it with the shipped one")
    return []
