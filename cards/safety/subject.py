"""The dish as the predicates see it: which food meets which step, and when."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from cards.foods.table import fold
from cards.nutrition.analysis import Analysis, Line
from cards.source.recipe import Part, Recipe, Step, texture_of
from cards.source.vocabulary import Texture, actions

COOKED_BEFORE = frozenset(("cooked", "boiled", "roasted"))
"""Preparations that count as cooking."""


class Verdict(Enum):
    """Three outcomes; a missing figure or an unsaid step is never a pass."""

    YES = "yes"
    NO = "no"
    UNKNOWN = "cannot tell"


@dataclass(frozen=True)
class Subject:
    """A recipe with its sums."""

    recipe: Recipe
    analysis: Analysis

    def lines(self, flags: Iterable[str], forms: Iterable[str] = ()) -> tuple[Line, ...]:
        """Lines whose food carries one of the flags and, where given, has one of the forms."""
        wanted = tuple(forms)
        return tuple(
            line
            for line in self.analysis.lines
            if line.food.has(*flags) and (not wanted or line.food.form in wanted)
        )

    def taken(self, step: Step, part: Part) -> tuple[Line, ...]:
        """The lines a step names, through parts to their ingredients."""
        found: list[Line] = []
        if step.everything:
            found += self.of_part(part)
        for use in step.uses:
            other = self.part_called(use)
            found += self.of_part(other) if other else self.analysis.named(use)
        return tuple(dict.fromkeys(found))

    def part_called(self, use: str) -> Part | None:
        """The part a step means, by its name in any language."""
        for part in self.recipe.parts:
            if any(fold(name) == fold(use) for name in part.name.values()):
                return part
        return None

    def of_part(self, part: Part) -> tuple[Line, ...]:
        """The lines of one part."""
        return tuple(li for li in self.analysis.lines if li.ingredient in part.ingredients)

    def reaching(self, line: Line, names: Iterable[str]) -> tuple[Step, ...]:
        """Steps of the named actions that work on ``line``, in order.

        A step works on the foods it names and on what is in the pot: what
        earlier steps have heated or added, and all that is in hand once it is
        mixed. A step that names none works on all that has been taken up, in
        the pot or not. A food no step
        ever names is taken to be in every such step.
        """
        wanted = set(names)
        hits: list[Step] = []
        ever = self.ever_named(line)
        for part in self.recipe.parts:
            taken_up: set[Line] = set()
            pot: set[Line] = set()
            for step in part.steps:
                named = self.taken(step, part)
                silent = not step.uses and not step.everything
                taken_up.update(named)
                works_on = taken_up if silent else {*named, *pot}
                unsaid = silent and not ever and line.ingredient in part.ingredients
                if step.action in wanted and (line in works_on or unsaid):
                    hits.append(step)
                if step.action == "mix":
                    pot.update(taken_up)
                elif actions()[step.action].heat or step.action == "add":
                    pot.update(works_on)
        return tuple(hits)

    def ever_named(self, line: Line) -> bool:
        """True when some step says that it takes the food."""
        return any(line in self.taken(s, p) for p in self.recipe.parts for s in p.steps)

    def cooked(self, line: Line) -> Verdict:
        """Whether heat reaches the food."""
        heat = [name for name, action in actions().items() if action.heat]
        if not COOKED_BEFORE.isdisjoint(line.ingredient.preps) or self.reaching(line, heat):
            return Verdict.YES
        ever = self.ever_named(line)
        hot = any(actions()[s.action].heat for s in self.recipe.steps)
        return Verdict.NO if ever or not hot else Verdict.UNKNOWN

    @property
    def mashed(self) -> Verdict:
        """Whether the dish reaches the child mashed or smooth."""
        texture = texture_of(self.recipe)
        if texture is None:
            return Verdict.UNKNOWN
        return Verdict.YES if texture is Texture.MASHED else Verdict.NO
