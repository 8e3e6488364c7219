"""An author's own words in a recipe: which text stands where, in which language."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from cards.diagnostics.diagnostic import Place
from cards.nutrition.line import Choice, Line
from cards.source.recipe import Recipe, Step


@dataclass(frozen=True, slots=True)
class Own:
    """A text of the author's; ``step`` where it tells a step."""

    text: str
    code: str
    at: Place
    step: Step | None = None


def own_words(recipe: Recipe, code: str) -> Iterator[Own]:
    """Title, part names, ingredient names and step words in one language, in their order."""
    if code in recipe.title:
        yield Own(recipe.title[code], code, recipe.at_key("title"))
    for part in recipe.parts:
        if code in part.name:
            yield Own(part.name[code], code, part.at)
        for line in part.ingredients:
            for one in (line, *(choice.ingredient for choice in line.instead)):
                if code in one.names:
                    yield Own(one.names[code], code, one.at)
        yield from (Own(s.words[code], code, s.at, s) for s in part.steps if code in s.words)


def printed(lines: Iterable[Line]) -> tuple[Line | Choice, ...]:
    """Everything a card names among what is needed: each line, then what may be taken instead."""
    found: list[Line | Choice] = []
    for line in lines:
        found += (line, *line.instead)
    return tuple(found)
