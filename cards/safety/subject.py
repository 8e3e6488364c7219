"""The dish as the predicates see it: which food meets which step, and when."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from cards.foods.table import fold
from cards.nutrition.analysis import Analysis, Line
from cards.source.recipe import Part, Recipe, Step
from cards.source.vocabulary import actions


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

        A step that names foods works on those; one that names none works on
        all that earlier steps have taken up. A food no step ever names is
        taken to be in every such step.
        """
        wanted = set(names)
        hits: list[Step] = []
        ever = any(line in self.taken(s, p) for p in self.recipe.parts for s in p.steps)
        for part in self.recipe.parts:
            in_hand: set[Line] = set()
            for step in part.steps:
                named = self.taken(step, part)
                in_hand.update(named)
                if step.action not in wanted:
                    continue
                silent = not step.uses and not step.everything
                unsaid = not ever and line.ingredient in part.ingredients
                if line in named or (silent and (line in in_hand or unsaid)):
                    hits.append(step)
        return tuple(hits)

    def cooked(self, line: Line) -> Verdict:
        """Whether heat reaches the food."""
        heat = [name for name, action in actions().items() if action.heat]
        if line.ingredient.prep in ("cooked", "boiled") or self.reaching(line, heat):
            return Verdict.YES
        ever = any(line in self.taken(s, p) for p in self.recipe.parts for s in p.steps)
        hot = any(actions()[s.action].heat for s in self.recipe.steps)
        return Verdict.NO if ever or not hot else Verdict.UNKNOWN

    @property
    def mashed(self) -> Verdict:
        """Whether the dish reaches the child mashed or smooth."""
        if self.recipe.texture is not None:
            return Verdict.YES if self.recipe.texture == "mashed" else Verdict.NO
        steps = self.recipe.steps
        last_heat = max((n for n, s in enumerate(steps) if actions()[s.action].heat), default=-1)
        if any(
            s.action == "mash" or (s.action == "grind" and n > last_heat)
            for n, s in enumerate(steps)
        ):
            return Verdict.YES
        return Verdict.UNKNOWN
