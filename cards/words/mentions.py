"""Foods that a step's words speak of, and whether they are among the ingredients."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from cards.diagnostics.diagnostic import Diagnostic, warning
from cards.foods.table import Food, FoodTable
from cards.nutrition.line import Line
from cards.source.recipe import Recipe
from cards.words.language import Language
from cards.words.own import Own, printed
from cards.words.tokens import Phrase, Token, holds, phrase, sentences, words_of, written
from cards.words.wordlists import WordLists

LONGEST_NAME = 5
"""Words of the longest name of a food."""

_UNLISTED = ("water", "breast-milk")
"""Flags of foods that may be spoken of without being listed."""

_HIDDEN = ("salt", "sweetener", "honey")
"""Flags of foods that matter most when they are hidden: only their own listing excuses them."""


_PRESSED = frozenset(("juice", "sweet-drink", "name-only"))
"""Flags that a fruit's juice carries."""


@dataclass(frozen=True, slots=True)
class Mention:
    """Words that name a food: where they stand in their text, and the foods they may mean."""

    at: int
    end: int
    words: tuple[Token, ...]
    foods: tuple[Food, ...]
    kinds: tuple[str, ...] = ()
    """Flags, groups or forms, where the words name a kind of food."""


@lru_cache(maxsize=16)
def food_names(language: Language, table: FoodTable) -> Mapping[Phrase, tuple[Food, ...]]:
    """The foods of the table by what the language calls them, with simple endings."""
    endings = language.lists.endings if language.lists else {}
    found: dict[Phrase, list[Food]] = {}
    for food_id, forms in language.foods().items():
        food = table.foods.get(food_id)
        if food is None:
            continue
        for form in forms:
            for name in with_endings(phrase(form), endings):
                meant = found.setdefault(name, [])
                if food not in meant:
                    meant.append(food)
    return {name: tuple(foods) for name, foods in found.items()}


def with_endings(name: Phrase, endings: Mapping[str, tuple[str, ...]]) -> Iterator[Phrase]:
    """A name, and the same with each ending that it takes in a sentence."""
    yield name
    for end, others in endings.items():
        if name[-1].endswith(end):
            for other in others:
                yield (*name[:-1], name[-1].removesuffix(end) + other)


class Listed:
    """What a recipe lists, by everything it may be called."""

    def __init__(
        self,
        recipe: Recipe,
        lines: Sequence[Line],
        languages: Sequence[Language],
        table: FoodTable,
    ) -> None:
        self.table = table
        named = printed(lines)
        self.foods = {one.food.id: one.food for one in named}
        own = [name for one in named for name in one.ingredient.names.values()]
        own += [name for part in recipe.parts for name in part.name.values()]
        self.own = {phrase(name) for name in own}
        self.called = {
            food.id: {phrase(name) for name in (food.name, *food.also)}
            for food in self.foods.values()
        }
        for language in languages:
            endings = language.lists.endings if language.lists else {}
            for food_id, forms in language.foods().items():
                if food_id in self.called:
                    for form in forms:
                        self.called[food_id].update(with_endings(phrase(form), endings))
        self.names = self.own.union(*self.called.values())
        self.longest = max(LONGEST_NAME, *(len(name) for name in self.names))

    def mentions(self, row: Sequence[Token], language: Language) -> Iterator[Mention]:
        """The foods a row of words names, longest names first; the author's own names are none."""
        folded = [token.folded for token in row]
        lists = language.lists
        at = 0
        while at < len(row):
            end = at + 1
            for size in range(min(self.longest, len(row) - at), 0, -1):
                key = tuple(folded[at : at + size])
                if key in self.own or (lists is not None and key in lists.everyday):
                    end = at + size
                    break
                meant = self._meant(key, language)
                if meant is not None:
                    end = at + size
                    yield Mention(at, end, tuple(row[at:end]), *meant)
                    break
            at = end

    def _meant(
        self, key: Phrase, language: Language
    ) -> tuple[tuple[Food, ...], tuple[str, ...]] | None:
        lists = language.lists
        kinds = lists.general.get(key) if lists is not None else None
        if kinds:
            return (), kinds
        foods = food_names(language, self.table).get(key)
        if foods:
            return foods, ()
        found = self.table.find(" ".join(key))
        return ((found,), ()) if found else None

    def excuses(self, mention: Mention) -> bool:
        """Whether what is mentioned is listed, is of a listed kind, or is made of what is."""
        kinds = set(mention.kinds)
        if any(kinds & {*f.flags, f.group, f.form} for f in self.foods.values()):
            return True
        words = tuple(token.folded for token in mention.words)
        if any(food.has(*_HIDDEN) for food in mention.foods):
            return any(holds(name, words) for name in self.own) or any(
                self._is_that(food, words) for food in mention.foods
            )
        return any(holds(name, words) for name in self.names) or any(
            food.id in self.foods or food.has(*_UNLISTED) or self._made_of_listed(food)
            for food in mention.foods
        )

    def _is_that(self, food: Food, words: Phrase) -> bool:
        """Whether the very food is listed, or one of its flags that is called so: salt is rock
        salt, but salt is not salt fish."""
        return food.id in self.foods or any(
            name[-len(words) :] == words or words[-len(name) :] == name
            for listed in self.foods.values()
            if listed.has(*food.flags.intersection(_HIDDEN))
            for name in self.called[listed.id]
        )

    def _made_of_listed(self, food: Food) -> bool:
        """True for a food whose name is a listed one's with more words: boiled potato, of potato.

        Oil, seeds and leaves are foods of their own, whatever plant they are of, and so is what
        is in no food group, as rice beer; but juice may be pressed of what is listed.
        """
        apart = food.group == "none" and food.flags - _PRESSED
        if food.form in ("fat", "leaf") or apart or food.has("seed"):
            return False
        return any(
            holds(phrase(name), phrase(of))
            for name in (food.name, *food.also)
            for listed in self.foods.values()
            for of in (listed.name, *listed.also)
        )


def check_mentions(own: Own, language: Language, listed: Listed) -> Iterator[Diagnostic]:
    """Foods that the words of a step speak of and the recipe does not list."""
    lists = language.lists
    if lists is None:
        return
    told: set[tuple[str, ...]] = set()
    for sentence in sentences(own.text):
        row = words_of(sentence)
        if not lists.negations.isdisjoint(token.folded for token in row):
            continue  # "no salt" puts no salt in
        for mention in listed.mentions(row, language):
            meant = tuple(food.id for food in mention.foods) or mention.kinds
            if meant in told or _is_likeness(mention, row, lists) or listed.excuses(mention):
                continue
            told.add(meant)
            yield warning(
                own.at,
                "word-not-listed",
                f'the words ({own.code}) speak of "{written(mention.words)}", '
                "which is not among the ingredients",
                "list it with its amount, so that it is counted and judged, "
                "or take it out of the words",
            )


def _is_likeness(mention: Mention, row: Sequence[Token], lists: WordLists) -> bool:
    """True for "like curd", "the size of a lemon" and "pea size"."""
    before = {token.folded for token in row[max(0, mention.at - 3) : mention.at]}
    after = {token.folded for token in row[mention.end : mention.end + 1]}
    return not lists.like.isdisjoint(before | after)


def food_places(row: Sequence[Token], language: Language, listed: Listed) -> frozenset[int]:
    """Where in a row of words foods are named."""
    return frozenset(
        at
        for mention in listed.mentions(row, language)
        if mention.foods
        for at in range(mention.at, mention.end)
    )
