"""An author's own words in a recipe: which text stands where, in which language."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from cards.diagnostics.diagnostic import Place
from cards.nutrition.line import Choice, Line
from cards.source.nodes import Path
from cards.source.recipe import Recipe, Step, Words


@dataclass(frozen=True, slots=True)
class Own:
    """A text of the author's; ``step`` where it tells a step."""

    text: str
    code: str
    at: Place
    step: Step | None = None


@dataclass(frozen=True)
class Spoken:
    """A text of the author's in all its languages; ``path`` is where it stands in the file."""

    path: Path
    what: str
    """What it is, for whoever translates it."""
    words: Words
    at: Place
    picture: str = ""
    step: Step | None = None


def spoken(recipe: Recipe) -> Iterator[Spoken]:
    """All texts of the author's that may be printed, in their order; each has a text."""
    yield Spoken(("title",), "title of the dish", recipe.title, recipe.at_key("title"))
    if recipe.piece:
        what = "what the pieces of the dish are called"
        yield Spoken(("piece",), what, recipe.piece, recipe.at_key("piece"))
    for number, part in enumerate(recipe.parts):
        # a recipe without parts has one without a name
        base: Path = ("parts", number) if part.name else ()
        if part.name:
            yield Spoken((*base, "part"), "name of a part of the dish", part.name, part.at)
        for n, line in enumerate(part.ingredients):
            path: Path = (*base, "ingredients", n)
            if line.names:
                yield Spoken(path, "name of an ingredient", line.names, line.at)
            for choice, instead in enumerate(line.instead):
                inner = ("seasons", instead.season) if instead.season else ("or", choice)
                one = instead.ingredient
                if one.names:
                    what = "name of what may be taken instead"
                    yield Spoken((*path, *inner), what, one.names, one.at)
        for n, step in enumerate(part.steps):
            if step.words:
                path = (*base, "steps", n)
                yield Spoken(path, "a step", step.words, step.at, step.action, step)


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
