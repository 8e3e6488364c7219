"""Foods that a step takes while its own words keep silent about them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cards.diagnostics.diagnostic import Diagnostic, warning
from cards.nutrition.flow import Flow
from cards.nutrition.line import Line
from cards.source.amounts import EACH, SHARE
from cards.source.recipe import Part, Step, Use
from cards.source.vocabulary import heating
from cards.words.figures import figures
from cards.words.language import Language
from cards.words.mentions import with_endings
from cards.words.tokens import phrase
from cards.words.wordlists import WordLists

SHORTEST = 3
"""Letters of a word by which a food can be known: shorter ones join others, as का and of."""


def check_unspoken(flow: Flow, languages: Sequence[Language]) -> Iterator[Diagnostic]:
    """Where no step on the card tells a cook to take a food, or how much of it.

    Steps in the program's words name what they take. Told once a food, at the first
    step that takes it.
    """
    steps = [(step, part) for part in flow.recipe.parts for step in part.steps]
    for language in languages:
        lists = language.lists
        if lists is None:
            continue
        silent: dict[Line, Step] = {}
        spoken: set[Line] = set()
        for number, (step, part) in enumerate(steps):
            taken = set(flow.taken(step, part))
            if step.everything:  # all so far: not what a later step says that it takes
                taken -= {
                    li for other, own in steps[number + 1 :] for li in _added(other, own, flow)
                }
            said = {line for line in taken if _taken_up(step, language, lists)}
            # a step may speak of what it does not take, as of the turmeric rubbed in before
            said |= {line for line in flow.lines if _said(line, step, flow, language, lists)}
            spoken |= said
            for line in flow.lines:
                if line in taken and line not in said:
                    silent.setdefault(line, step)
        for line, step in silent.items():
            if line not in spoken and not line.ingredient.optional:
                yield warning(
                    step.at,
                    "food-unspoken",
                    f"the words ({language.code}) never say when the {line.food.name} goes in",
                    "name it in the words of the step that takes it, "
                    "or leave your words out: then the program names it",
                )
    for step, _ in steps:
        yield from _amounts(step, flow, languages)


def _added(step: Step, part: Part, flow: Flow) -> tuple[Line, ...]:
    """What a step names and puts in, rather than works on."""
    puts_in = step.action in ("add", "mix", *heating())
    return () if step.everything or not puts_in else flow.taken(step, part)


def _taken_up(step: Step, language: Language, lists: WordLists) -> bool:
    """Whether the card names whatever the step takes: in the program's words, or as all."""
    own = step.words.get(language.code)
    return own is None or not lists.everything.isdisjoint(phrase(own))


def _said(line: Line, step: Step, flow: Flow, language: Language, lists: WordLists) -> bool:
    """Whether the step's own words name the food, a kind it is of, or the part it is in."""
    row = phrase(step.words.get(language.code, ""))
    if any(
        _holds_one(row, name)
        for part in flow.recipe.parts
        for name in part.name.values()
        if line in flow.of_part(part)
    ):
        return True
    kinds = {*line.food.flags, line.food.group, line.food.form}
    if any(kinds.intersection(lists.general.get((word,), ())) for word in row):
        return True
    names = [*line.ingredient.names.values(), line.ingredient.food, line.food.name]
    forms = [
        form
        for food in (line.food, *(choice.food for choice in line.instead))
        for form in language.foods().get(food.id, ())
    ]
    names += [*line.food.also, *(choice.food.name for choice in line.instead), *forms]
    return any(_holds_one(row, name) for name in names) or any(
        name == (word,)
        for form in forms
        for name in with_endings(phrase(form), lists.endings)
        for word in row
    )


def _holds_one(row: Sequence[str], name: str) -> bool:
    """Whether one of the words of a name stands in the row, whatever its ending."""
    words = phrase(name)
    if len(words) == 1 and words[0] in row:
        return True
    return any(
        word == said or (min(len(word), len(said)) >= SHORTEST and _alike(word, said))
        for word in words
        if len(word) >= SHORTEST
        for said in row
    )


def _alike(word: str, said: str) -> bool:
    return said.startswith(word[:-1]) or word.startswith(said[:-1])


def _amounts(step: Step, flow: Flow, languages: Sequence[Language]) -> Iterator[Diagnostic]:
    """An amount that a step takes of a food and that its own words tell in no language.

    Where one language tells it and another does not, the numbers differ, which is told.
    """
    told: set[Fraction] = set()
    codes = [lang.code for lang in languages if lang.code in step.words and lang.lists]
    for language in languages:
        own, lists = step.words.get(language.code), language.lists
        if own is not None and lists is not None:
            if not lists.everything.isdisjoint(phrase(own)):
                return
            found = figures(own, lists)
            told |= {*found.digits, *(n for n in found.spoken if n != 1)}
            told |= {Fraction(1)} if not _ONE.isdisjoint(phrase(own)) else set()
    for use in step.uses if codes else ():
        amount_hidden = use.amount is not None and use.amount.high not in told
        rest_hidden = use.rest and not any(
            _said(line, step, flow, language, language.lists)
            for language in languages
            if language.lists is not None and language.code in step.words
            for line in flow.named(use.name)
        )
        if (amount_hidden and not _whole(use, flow)) or rest_hidden:
            yield warning(
                step.use_at,
                "amount-unspoken",
                f"this step takes {'the rest' if use.rest else 'a part'} of the {use.name}, "
                f"and its words ({', '.join(codes)}) do not say how much",
                "tell the amount in the words, or leave your words out: then the program tells it",
            )


_ONE = frozenset(("one", "एक"))
"""Words that mean the number one; "a" may mean "a little"."""


def _whole(use: Use, flow: Flow) -> bool:
    """True where a step takes all that is listed, whose amount stands on the front."""
    if use.amount is None or use.amount.unit == SHARE:
        return False
    lines = flow.named(use.name)
    return any(
        line.amount is not None
        and line.amount.high == use.amount.high
        and (line.amount.unit == use.amount.unit or use.amount.unit == EACH)
        for line in lines
    )
