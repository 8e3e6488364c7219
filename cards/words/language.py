"""One language's words, checked on loading, with nothing missing when a card is made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import chain
from typing import Any

from babel import Locale, UnknownLocaleError
from pydantic_core import PydanticCustomError

from cards.data import load
from cards.diagnostics.blanks import UNBREAKABLE, single_blanks
from cards.diagnostics.diagnostic import Diagnostic, Result, error, first_of, warning
from cards.diagnostics.nearest import did_you_mean
from cards.source.nodes import Tree, read_nodes
from cards.source.recipe import Signature
from cards.source.signed import parse_signature
from cards.source.vocabulary import ENDS, PREPS, actions
from cards.words import spoken
from cards.words.digits import CHOICES, digits_of
from cards.words.phrases import is_plain, template, template_fault
from cards.words.state import SOURCE, State, file_digest, lapsed, state_of
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

SESSIONS = "sessions"
"""The section for the papers of a training day; a language may do without them."""


class Language:
    """A language's words. Build with ``load_language``, which finds the faults."""

    def __init__(
        self,
        code: str,
        sections: Mapping[str, Mapping[str, Any]],
        lists: WordLists | None = None,
        digits: str = "",
        signature: Signature | None = None,
    ) -> None:
        self.code = code
        self.state = state_of(signature, file_digest(sections), own=code == SOURCE)
        """Whether somebody has read the words file over; its English is the program's own."""
        self.lists = lists
        """What an author's own words are checked by; None where the file has no such section."""
        self.locale = Locale.parse(code)
        self.digits = digits_of(self.locale, digits)
        """The ten digits from 0 in which the language prints numbers."""
        self._sections = sections
        self.has_sessions = bool(sections.get(SESSIONS))
        """Whether the papers of a training day can be written in it."""
        self._foods = {
            food_id: (forms,) if isinstance(forms, str) else tuple(forms.values())
            for food_id, forms in sections["foods"].items()
        }
        # most phrases have nothing to fill in, and are asked for again and again
        self._fixed = {k: tidy(v) for k, v in sections["phrases"].items() if "{" not in v}

    def phrase(self, name: str, **values: object) -> str:
        """A phrase with its variables filled in; to a phrase each of them is a text."""
        fixed = self._fixed.get(name)
        if fixed:
            return fixed
        return self._filled("phrases", name, values)

    def fixed(self) -> tuple[str, ...]:
        """The phrases in which nothing is filled in, in the order of the file."""
        return tuple(self._fixed.values())

    def sentence(self, action: str, **values: str) -> str:
        """The sentence of a step that has no words of its own."""
        blank = dict.fromkeys(ACTION_VARIABLES, "")
        return capital(self._filled("actions", action, {**blank, **values}))

    def icon(self, name: str) -> str:
        """What a cook should understand from an icon, however full or long it is drawn."""
        return tidy(self._sections["icons"][name])

    def sheet(self, name: str, **values: object) -> str:
        """A phrase of the sheets about icons with its variables filled in."""
        return self._filled("sheets", name, values)

    def session(self, name: str, /, **values: object) -> str:
        """A phrase of the papers of a training day with its variables filled in."""
        return self._filled(SESSIONS, name, values)

    def unit(self, name: str, number: Fraction) -> str:
        """A measure's name in the form that goes with ``number``; its own name if it has none."""
        return self._form(self._sections["units"].get(name, name), number)

    def amount(self, low: Fraction, high: Fraction, unit: str = "") -> str:
        """An amount as people say it: in words where the language has some, else in figures."""
        return spoken.spoken(self._sections.get(spoken.SECTION, {}), low, high, unit)

    def measured(self, low: Fraction, high: Fraction, unit: str) -> str:
        """An amount as people say it with its measure's name, which no line's end parts."""
        return f"{self.amount(low, high, unit)}{UNBREAKABLE}{unit}"

    def food(self, food_id: str, name: str, number: Fraction = Fraction(1)) -> str:
        """A food's name in the form for ``number``; ``name`` where the language has none."""
        return self._form(self._sections["foods"].get(food_id, name), number)

    def has_food(self, food_id: str) -> bool:
        """True when the language names the food."""
        return food_id in self._sections["foods"]

    def foods(self) -> Mapping[str, tuple[str, ...]]:
        """Every food the language names, by id, with the name in all its forms."""
        return self._foods

    def prep(self, name: str) -> str:
        """What has been done to an ingredient."""
        return str(self._sections["preps"][name]) if name else ""

    def end(self, name: str) -> str:
        """The sign that a step is done."""
        return str(self._sections["ends"][name]) if name else ""

    def allergen(self, name: str) -> str:
        """An allergen's everyday name."""
        return str(self._sections["allergens"].get(name, name))

    def listed(self, words: list[str], last: str = "and") -> str:
        """Words joined as in "rice, dal and water"; ``last`` is the phrase before the last."""
        if len(words) < 2:
            return "".join(words)
        return f"{self.enumerated(words[:-1])} {self.phrase(last)} {words[-1]}"

    def enumerated(self, words: Iterable[str]) -> str:
        """Words with nothing but the language's comma between them, which CLDR knows."""
        comma: str = self.locale.list_patterns["standard"]["start"]
        return comma.removeprefix("{0}").removesuffix("{1}").join(words)

    def _filled(self, section: str, name: str, values: Mapping[str, object]) -> str:
        text = template(self._sections[section][name])
        return tidy(text.render({k: _worded(v) for k, v in values.items()}))

    def _form(self, forms: str | Mapping[str, str], number: Fraction) -> str:
        if isinstance(forms, str):
            return forms
        # a part of one thing takes the form of one thing: "1/2 cup", not "1/2 cups"
        key = self.locale.plural_form(1 if 0 < number <= 1 else float(number))
        return forms.get(key) or forms["other"]


def _worded(value: object) -> str:
    """A value as a text: yes or no becomes a text or none."""
    if value is None or isinstance(value, bool):
        return "yes" if value else ""
    return str(value)


def tidy(text: str) -> str:
    """Single spaces, none before a stop or comma."""
    text = single_blanks(text)
    for stop in ".,:;!?।،؛؟۔":
        text = text.replace(f" {stop}", stop)
    return text


def capital(text: str) -> str:
    """The first letter large, where the script knows large letters."""
    return text[:1].upper() + text[1:]


def load_language(
    text: str, file: str, code: str, stale: Mapping[str, str] | None = None
) -> Result[Language]:
    """A words file's text as a ``Language``; every missing or wrong phrase is told.

    ``stale`` are texts, as phrases/months, made from an English that is another now, with
    that English. They are used, since a card needs them, but told of, and the file is a draft.
    """
    read = read_nodes(text, file)
    if read.value is None:
        return Result(None, read.diagnostics)
    tree = read.value
    lists, list_faults = load_wordlists(tree)
    faults = first_of(chain(read.diagnostics, _faults(tree, code), list_faults))
    if faults:
        return Result(None, faults)
    sections = sections_of(tree)
    signature = None
    if "signed" in tree.value:
        try:
            signature = replace(parse_signature(tree.value["signed"]), at=tree.place(("signed",)))
        except PydanticCustomError as trouble:
            told = trouble.context or {}
            at = tree.place(("signed",))
            return Result(None, (error(at, told["kind"], told["message"], told["hint"]),))
    digits = str(tree.value.get("digits", ""))
    language = Language(code, sections, lists, digits, signature)
    if stale:
        if language.state is State.CHECKED:
            language.state = State.LAPSED
        return Result(language, (_stale(tree, stale),))
    if signature is not None and language.state is State.LAPSED:
        return Result(language, (lapsed(signature, code),))
    return Result(language)


def _stale(tree: Tree, stale: Mapping[str, str]) -> Diagnostic:
    key, english = next(iter(stale.items()))
    more = f", and {len(stale) - 1} more with it" if len(stale) > 1 else ""
    return warning(
        tree.key(tuple(key.split("/", 1))),
        "words-stale",
        f'{key} was made from "{english}", which is no longer said{more}',
        "translate anew: cards words export, then cards words import",
    )


def sections_of(tree: Tree) -> dict[str, dict[str, Any]]:
    """What a words file prints, by section."""
    found: dict[str, dict[str, Any]] = {}
    for name in (*SECTIONS, SESSIONS, spoken.SECTION):
        section = tree.value.get(name)
        found[name] = section if isinstance(section, dict) else {}
    return found


def _faults(tree: Tree, code: str) -> Iterator[Diagnostic]:
    try:
        Locale.parse(code)
    except (UnknownLocaleError, ValueError):
        yield error(
            tree.place(("language",)),
            "language-unknown",
            f'"{code}" is not a language that plurals are known of',
            "use a code of ISO 639, such as bn",
        )
        return
    if tree.value.get("language") != code:
        yield error(
            tree.place(("language",)),
            "words-language",
            f"this file should say language: {code}",
        )
    if tree.value.get("digits", CHOICES[0]) not in CHOICES:
        yield error(
            tree.place(("digits",)),
            "value-wrong",
            "digits are native or latin",
            "write digits: native, or digits: latin",
        )
    for key in tree.value:
        if key not in (
            *SECTIONS,
            SESSIONS,
            SECTION,
            "language",
            "name",
            "notes",
            "digits",
            "signed",
            spoken.SECTION,
        ):
            yield error(
                tree.key((key,)),
                "key-unknown",
                f'"{key}" is not a key here',
                did_you_mean(key, SECTIONS),
            )
    declared = {
        "phrases": {k: tuple(v) for k, v in load.mapping("phrases.yaml").items()},
        "actions": dict.fromkeys(actions(), ACTION_VARIABLES),
        "preps": dict.fromkeys(PREPS, ()),
        "ends": dict.fromkeys(ENDS, ()),
        "icons": dict.fromkeys(icon_names(), ()),
        "sheets": {k: tuple(v) for k, v in load.mapping("sheets.yaml").items()},
    }
    if SESSIONS in tree.value:
        declared[SESSIONS] = {k: tuple(v) for k, v in load.mapping("session_words.yaml").items()}
    for section, names in declared.items():
        yield from _section_faults(section, names, tree)
    for section in ("units", "foods", "allergens"):
        yield from _form_faults(section, tree)
    yield from spoken.spoken_faults(tree)


def _section_faults(
    section: str, names: Mapping[str, tuple[str, ...]], tree: Tree
) -> Iterator[Diagnostic]:
    """Phrases that are missing, wrong or not used; ``names`` are phrases with their variables."""
    given = tree.value.get(section)
    if not isinstance(given, dict):
        yield error(tree.place(()), "words-missing", f'there is no section "{section}"')
        return
    for name in names:
        if not isinstance(given.get(name), str):
            yield error(
                tree.key((section,)),
                "words-missing",
                f'{section} has no text for "{name}"',
                f"add a line {name}: ...",
            )
    for name, text in given.items():
        if name not in names:
            yield error(
                tree.key((section, name)),
                "words-unknown",
                f'"{name}" is not used by any card',
                did_you_mean(name, names),
            )
        elif isinstance(text, str):
            told = template_fault(text, names[name])
            if told is not None:
                yield error(tree.place((section, name)), "words-template", *told)


def icon_names() -> tuple[str, ...]:
    """Every icon's name, in the order of the sheet of icons."""
    return tuple(chain.from_iterable(load.mapping("icons.yaml")["groups"].values()))


PLURALS = ("zero", "one", "two", "few", "many", "other")
"""Plural categories of Unicode CLDR."""


def _form_faults(section: str, tree: Tree) -> Iterator[Diagnostic]:
    """A name is a text, or a text for each plural form; allergens are plain texts."""
    given = tree.value.get(section) or {}
    if not isinstance(given, dict):
        yield error(tree.place((section,)), "words-missing", f'"{section}" should hold names')
        return
    for name, forms in given.items():
        texts = forms if isinstance(forms, dict) and section != "allergens" else {"other": forms}
        sound = "other" in texts and all(
            key in PLURALS
            and isinstance(text, str)
            and is_plain(text)
            and (section == "units" or any(c.isalnum() for c in text))
            for key, text in texts.items()
        )
        if not sound:
            yield error(
                tree.key((section, name)),
                "words-form",
                f'"{name}" should be a text, or a text for each plural form',
                "write a word, or {one: ..., other: ...}",
            )
