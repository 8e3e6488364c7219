"""Plain words: short sentences, one action each, no hard word, no equipment a village lacks."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace

from cards.diagnostics.diagnostic import Diagnostic, warning
from cards.source.recipe import Recipe
from cards.source.vocabulary import actions
from cards.words.own import Own
from cards.words.tokens import (
    Phrase,
    Token,
    count_words,
    longest,
    sentences,
    tokens,
    words_of,
    written,
)
from cards.words.wordlists import WordLists, equipment_names

MOST_STEPS = 8
"""More steps than a card has room for, and than are remembered (common practice)."""

ONE_ACTION = "one action a sentence (common practice)"


def check_sentences(own: Own, lists: WordLists) -> Iterator[Diagnostic]:
    """Sentences of a step: not too long, and each tells one thing to do."""
    for sentence in sentences(own.text):
        words = count_words(sentence)
        if lists.most_words is not None and words > lists.most_words:
            yield replace(
                warning(
                    own.at,
                    "sentence-long",
                    f'a sentence in {own.code} has {words} words: "{sentence}"',
                    f"{lists.most_words} words at most; make two sentences of it",
                ),
                source=lists.most_words_source,
            )
        orders = told_to_do(tokens(sentence), lists)
        if len(orders) > 1:
            yield replace(
                warning(
                    own.at,
                    "two-actions",
                    f"one sentence in {own.code} tells {len(orders)} things to do: "
                    + ", ".join(f'"{order}"' for order in orders),
                    "make a sentence of each, or better a step of each",
                ),
                source=ONE_ACTION,
            )


def told_to_do(row: Sequence[Token], lists: WordLists) -> list[str]:
    """The orders of a sentence, as they are written.

    Where the language has joining words, an order stands at the head, after a
    comma or after one of them. Elsewhere it shows by its form; one that is
    denied, or is one of two to choose from, does not count.
    """
    found: list[str] = []
    for n, token in enumerate(row):
        before = row[n - 1] if n else None
        after = row[n + 1] if n + 1 < len(row) else None
        if lists.joins:
            joined = before and (before.folded in lists.joins or before.text in (",", ";", "&"))
            counts = before is None or bool(joined)
        else:
            counts = not (before and before.folded in lists.negations) and not (
                after and after.folded in lists.either
            )
        known = token.folded in lists.verbs or (before is None and token.folded in lists.starting)
        if counts and known:
            found.append(token.text)
    return found


def check_hard(own: Own, lists: WordLists, foods: Collection[int] = ()) -> Iterator[Diagnostic]:
    """Hard words, each with a plainer one; ``foods`` are places of words that name a food."""
    row = words_of(own.text)
    for at, end, plain in _matches(row, lists.hard):
        if at not in foods:
            yield warning(
                own.at,
                "word-hard",
                f'"{written(row[at:end])}" is a hard word ({own.code})',
                f'say "{plain}"',
            )


def check_equipment(own: Own, lists: WordLists, kitchen: Collection[str]) -> Iterator[Diagnostic]:
    """Equipment named that is not in ``kitchen``, nor is what the action itself needs."""
    row = words_of(own.text)
    for at, end, name in _matches(row, lists.equipment):
        told = own.step is not None and actions()[own.step.action].needs == name
        if name not in kitchen and not told:
            yield warning(
                own.at,
                "equipment-missing",
                f'"{written(row[at:end])}" ({own.code}): not every kitchen has it',
                f"{equipment_names()[name]}; where every kitchen has it, "
                f'add "{name}" to kitchen: in programme.yaml',
            )


def _matches(row: Sequence[Token], known: Mapping[Phrase, str]) -> Iterator[tuple[int, int, str]]:
    """Known phrases in a row of words: where they begin and end, and what they stand for."""
    folded = [token.folded for token in row]
    at = 0
    while at < len(row):
        match = longest(folded, at, known)
        if match:
            yield at, at + match[0], match[1]
        at += match[0] if match else 1


def check_count(recipe: Recipe) -> Iterator[Diagnostic]:
    """No part of a dish has more steps than are remembered."""
    for part in recipe.parts:
        if len(part.steps) > MOST_STEPS:
            yield replace(
                warning(
                    part.steps[MOST_STEPS].at,
                    "steps-many",
                    f"this is step {MOST_STEPS + 1} of {len(part.steps)}",
                    f"{MOST_STEPS} steps at most: join what is one action, "
                    "move washing and chopping to the ingredients, or make two parts",
                ),
                source="what a card has room for (common practice)",
            )
