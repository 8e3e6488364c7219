"""The dish as the predicates see it: foods by flag, and what heat and hands do to them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from functools import cached_property

from cards.nutrition.analysis import Analysis
from cards.nutrition.flow import Flow
from cards.nutrition.line import Line
from cards.source.programme import Programme
from cards.source.recipe import Recipe, last_smooth, texture_of
from cards.source.vocabulary import Texture, heating

COOKED_BEFORE = frozenset(("cooked", "boiled", "roasted"))
"""Preparations that count as cooking."""


_FINE = frozenset(("mashed", "ground", "powdered", "grated", "chopped fine", "juice"))
"""Preparations that leave nothing to chew."""


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
    programme: Programme

    def lines(self, flags: Iterable[str], forms: Iterable[str] = ()) -> tuple[Line, ...]:
        """Lines whose food carries one of the flags and, where given, has one of the forms."""
        wanted = tuple(forms)
        return tuple(
            line
            for line in self.analysis.lines
            if line.food.has(*flags) and (not wanted or line.food.form in wanted)
        )

    @cached_property
    def flow(self) -> Flow:
        """Which food meets which step."""
        return Flow(self.recipe, self.analysis.lines)

    def cooked(self, line: Line) -> Verdict:
        """Whether heat reaches the food."""
        before = not COOKED_BEFORE.isdisjoint(line.ingredient.preps)
        if before or self.flow.reaching(line, heating()):
            return Verdict.YES
        ever = self.flow.ever_named(line)
        hot = any(s.action in heating() for s in self.recipe.steps)
        return Verdict.NO if ever or not hot else Verdict.UNKNOWN

    @property
    def mashed(self) -> Verdict:
        """Whether the dish reaches the child mashed or smooth."""
        texture = texture_of(self.recipe)
        if texture is None:
            return Verdict.UNKNOWN
        smooth = texture is Texture.MASHED and not self.added_whole
        return Verdict.YES if smooth else Verdict.NO

    @cached_property
    def added_whole(self) -> tuple[Line, ...]:
        """Solid foods that go in after the last mashing, and are in pieces."""
        found: list[Line] = []
        for part in self.recipe.parts:
            last = last_smooth(part)
            before = part.steps[: last + 1] if last is not None else part.steps
            after = part.steps[len(before) :]
            later = {
                line
                for step in after
                if step.action in ("add", "mix") and not step.everything
                for line in self.flow.taken(step, part)
            }
            in_hand = {
                line
                for step in before
                for line in self.flow.taken(step, part)
                if not step.everything or line not in later  # all is all so far
            }
            for step in after:
                for line in self.flow.taken(step, part):
                    solid = line.food.form in ("whole", "split", "fresh") and not line.food.has(
                        "fat", "milk", "water", "spice", "salt"
                    )
                    own = line.ingredient in part.ingredients
                    if (
                        solid
                        and own
                        and line not in in_hand
                        and _FINE.isdisjoint(line.ingredient.preps)
                    ):
                        found.append(line)
        return tuple(found)
