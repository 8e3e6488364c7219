"""Rules and cautions, opened from data/rules.yaml."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from cards.data import load
from cards.diagnostics.diagnostic import Severity
from cards.safety.predicates import PREDICATES

Question = tuple[str, Any]


@dataclass(frozen=True, slots=True)
class Rule:
    """What must not be, why, and who says so."""

    name: str
    severity: Severity
    when: tuple[Question, ...]
    says: str
    cure: str
    source: str
    known: str
    yields_to: tuple[str, ...]
    """Rules that say worse of the same: where one has spoken of a line, this one is silent."""
    follows: tuple[str, ...]
    """Rules that tell the cause of this one: where one has spoken at all, this one is silent."""


@dataclass(frozen=True, slots=True)
class Caution:
    """Something the safety box may say; the smaller the rank, the more serious."""

    name: str
    icon: str
    rank: int
    when: tuple[Question, ...]
    rule: str
    general: bool
    """True when it holds for nearly every dish, and is printed as far as there is room."""
    own: tuple[Question, ...] = ()
    """What makes a general one the dish's own; empty if nothing does."""


@cache
def rules() -> Mapping[str, Rule]:
    """All rules by name. Raises ValueError for a predicate that is not in the list."""
    return {
        name: Rule(
            name,
            Severity[facts["severity"].upper()],
            _questions(name, facts["when"]),
            facts["says"],
            facts["cure"],
            facts["source"],
            facts["known"],
            tuple(facts.get("yields_to", ())),
            tuple(facts.get("follows", ())),
        )
        for name, facts in load.mapping("rules.yaml")["rules"].items()
    }


@cache
def cautions() -> tuple[Caution, ...]:
    """All cautions, most serious first."""
    found = [
        Caution(
            name,
            facts["icon"],
            facts["rank"],
            _questions(name, facts["when"]),
            facts.get("rule", ""),
            facts.get("general", False),
            _questions(name, facts.get("own", [])),
        )
        for name, facts in load.mapping("rules.yaml")["cautions"].items()
    ]
    return tuple(sorted(found, key=lambda c: c.rank))


def _questions(name: str, given: list[dict[str, Any]]) -> tuple[Question, ...]:
    found = tuple((key, value) for entry in given for key, value in entry.items())
    for key, _ in found:
        if key not in PREDICATES:
            raise ValueError(f"{name} asks {key!r}, which is not in the list of predicates")
    return found
