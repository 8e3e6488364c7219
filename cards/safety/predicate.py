"""What a predicate is: a question about a dish, with three answers."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from cards.diagnostics.diagnostic import Place
from cards.nutrition.line import Line
from cards.safety.subject import Subject, Verdict


@dataclass(frozen=True, slots=True)
class Answer:
    """A verdict, the facts a message may name, and where in the file it stands."""

    verdict: Verdict
    facts: Mapping[str, str] = field(default_factory=dict)
    place: Place | None = None
    unknown: str = ""
    """What would have to be known, when the verdict is "cannot tell"."""


NO = Answer(Verdict.NO)

Predicate = Callable[[Subject, Any], Answer]
PREDICATES: dict[str, Predicate] = {}


def predicate(function: Predicate) -> Predicate:
    """Enter a function in the list under its own name."""
    PREDICATES[function.__name__] = function
    return function


def told(holds: bool, **facts: str) -> Answer:
    """Yes or no, with facts."""
    return Answer(Verdict.YES if holds else Verdict.NO, facts)


def about(lines: tuple[Line, ...], verdict: Verdict = Verdict.YES, unknown: str = "") -> Answer:
    """The verdict about some foods, at the first of them; no where there are none."""
    if not lines:
        return NO
    foods = " and ".join(dict.fromkeys(line.food.name for line in lines))
    return Answer(verdict, {"foods": foods}, lines[0].ingredient.at, unknown)
