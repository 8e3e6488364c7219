"""What a language needs for reading an author's own words: section ``reading`` of a words file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated

from pydantic import BeforeValidator, Field

from cards.data import load
from cards.diagnostics.diagnostic import Diagnostic, error
from cards.diagnostics.nearest import did_you_mean
from cards.source.amounts import Unreadable, read_number
from cards.source.faults import validate
from cards.source.fields import fault
from cards.source.model import Strict
from cards.source.nodes import Tree
from cards.words.tokens import Phrase, fold_word, phrase

SECTION = "reading"

MOST_WORDS = 40
"""A longer sentence is not worth a limit."""


def _count(value: object) -> object:
    if not (isinstance(value, str) and value.isdecimal() and 1 <= int(value) <= MOST_WORDS):
        raise fault("value-wrong", f'"{value}" is not a number of words', "write it like 10")
    return int(value)


Words = list[str]
"""Forms of a word, or words, as they are written."""


class SentenceIn(Strict):
    """How long a sentence may be, and who says so."""

    words: Annotated[int, BeforeValidator(_count)]
    source: str = Field(min_length=3)


class ReadingIn(Strict):
    """The section; a language may leave out what it does not know."""

    sentence: SentenceIn | None = None
    verbs: Words = Field(default_factory=list)
    starting: Words = Field(default_factory=list)
    joins: Words = Field(default_factory=list)
    either: Words = Field(default_factory=list)
    negations: Words = Field(default_factory=list)
    hard: dict[str, Words] = Field(default_factory=dict)
    equipment: dict[str, Words] = Field(default_factory=dict)
    numbers: dict[str, str] = Field(default_factory=dict)
    and_half: Words = Field(default_factory=list, alias="and-half")
    to: Words = Field(default_factory=list)
    between: Words = Field(default_factory=list)
    each: Words = Field(default_factory=list)
    seconds: Words = Field(default_factory=list)
    minutes: Words = Field(default_factory=list)
    hours: Words = Field(default_factory=list)
    days: Words = Field(default_factory=list)
    overnight: Words = Field(default_factory=list)
    whistles: Words = Field(default_factory=list)
    general: dict[str, Words] = Field(default_factory=dict)
    everyday: Words = Field(default_factory=list)
    like: Words = Field(default_factory=list)
    endings: dict[str, Words] = Field(default_factory=dict)
    everything: Words = Field(default_factory=list)


@dataclass(frozen=True, slots=True)
class WordLists:
    """A language's lists, folded for comparing. Single words are texts, others phrases."""

    most_words: int | None
    most_words_source: str
    verbs: frozenset[str]
    """Orders such as "chop", in all forms."""
    starting: frozenset[str]
    """Orders that are also nouns or adjectives; they count only at a sentence's head."""
    joins: frozenset[str]
    """Words after which an order can stand; empty where an order shows by its form."""
    either: frozenset[str]
    negations: frozenset[str]
    hard: Mapping[Phrase, str]
    """Hard words, each with the plainer one."""
    equipment: Mapping[Phrase, str]
    """Words for equipment, each with its name in equipment.yaml."""
    numbers: Mapping[Phrase, Fraction]
    and_half: frozenset[str]
    to: frozenset[str]
    between: frozenset[str]
    each: frozenset[str]
    time_units: Mapping[str, Fraction]
    """Minutes in one, by word."""
    overnight: Mapping[Phrase, bool]
    whistles: frozenset[str]
    general: Mapping[Phrase, tuple[str, ...]]
    """Words for a kind of food: flags, groups or forms of foods that are of the kind."""
    everyday: frozenset[Phrase]
    """Names of foods that also mean something else."""
    like: frozenset[str]
    endings: Mapping[str, tuple[str, ...]]
    """Endings of a name, with those it takes in a sentence."""
    everything: frozenset[str]
    """Words such as "all" and "the rest", which name whatever a step takes."""


def equipment_names() -> Mapping[str, str]:
    """Equipment a village kitchen may lack, each with what to do instead."""
    return {name: facts["instead"] for name, facts in load.mapping("equipment.yaml").items()}


def no_lists() -> WordLists:
    """The lists of a language that brings none: digits alone are read."""
    return _lists(ReadingIn(), {})


def load_wordlists(tree: Tree) -> tuple[WordLists | None, list[Diagnostic]]:
    """The section of a words file, None where there is none; every fault with its place."""
    if tree.value.get(SECTION) is None:
        return None, []
    if not isinstance(tree.value[SECTION], dict):
        return None, [
            error(
                tree.place((SECTION,)),
                "value-wrong",
                f"{SECTION} should hold lists of words",
                "compare it with the shipped words",
            )
        ]
    branch = _branch(tree)
    model, faults = validate(ReadingIn, branch)
    if model is None:
        return None, faults
    faults += _unknown_equipment(model, branch)
    numbers, wrong = _numbers(model, branch)
    faults += wrong
    return (None if faults else _lists(model, numbers)), faults


def _branch(tree: Tree) -> Tree:
    """The section as a tree of its own, with the places of the file."""
    value = tree.value[SECTION]
    assert isinstance(value, dict)
    return Tree(
        tree.file,
        value,
        {p[1:]: at for p, at in tree.places.items() if p[:1] == (SECTION,)},
        {p[1:]: at for p, at in tree.keys.items() if p[:1] == (SECTION,) and len(p) > 1},
    )


def _unknown_equipment(model: ReadingIn, tree: Tree) -> list[Diagnostic]:
    known = equipment_names()
    return [
        error(
            tree.key(("equipment", name)),
            "key-unknown",
            f'"{name}" is not in the list of equipment',
            did_you_mean(name, known, f"choose from: {', '.join(known)}"),
        )
        for name in model.equipment
        if name not in known
    ]


def _numbers(model: ReadingIn, tree: Tree) -> tuple[dict[Phrase, Fraction], list[Diagnostic]]:
    found: dict[Phrase, Fraction] = {}
    faults: list[Diagnostic] = []
    for word, text in model.numbers.items():
        try:
            found[phrase(word)] = read_number(text)[0]
        except Unreadable as trouble:
            at = tree.place(("numbers", word))
            faults.append(error(at, "value-wrong", str(trouble), trouble.hint))
    return found, faults


def _lists(model: ReadingIn, numbers: Mapping[Phrase, Fraction]) -> WordLists:
    minutes = {"seconds": Fraction(1, 60), "minutes": Fraction(1)}
    minutes |= {"hours": Fraction(60), "days": Fraction(1440)}
    return WordLists(
        most_words=model.sentence.words if model.sentence else None,
        most_words_source=model.sentence.source if model.sentence else "",
        verbs=_folded(model.verbs),
        starting=_folded(model.starting),
        joins=_folded(model.joins),
        either=_folded(model.either),
        negations=_folded(model.negations),
        hard=_turned(model.hard),
        equipment=_turned(model.equipment),
        numbers=numbers,
        and_half=_folded(model.and_half),
        to=_folded(model.to),
        between=_folded(model.between),
        each=_folded(model.each),
        time_units={
            fold_word(word): size for unit, size in minutes.items() for word in getattr(model, unit)
        },
        overnight={phrase(words): True for words in model.overnight},
        whistles=_folded(model.whistles),
        general={phrase(word): tuple(kinds) for word, kinds in model.general.items()},
        everyday=frozenset(phrase(words) for words in model.everyday),
        like=_folded(model.like),
        everything=_folded(model.everything),
        endings={
            fold_word(end): tuple(map(fold_word, others)) for end, others in model.endings.items()
        },
    )


def _folded(words: Iterable[str]) -> frozenset[str]:
    return frozenset(fold_word(word) for word in words)


def _turned(groups: Mapping[str, Words]) -> dict[Phrase, str]:
    """From "plain word: hard words" to each hard word's plain one."""
    return {phrase(words): plain for plain, group in groups.items() for words in group}
