"""Which food meets which step, and when: the recipe as it is cooked."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from cards.diagnostics.nearest import nearest
from cards.foods.retention import Cooking, ways
from cards.foods.table import fold
from cards.nutrition.line import Line
from cards.source.recipe import Part, Recipe, Step
from cards.source.vocabulary import actions, heating

TO_PRESSURE, PER_WHISTLE = 8, 3
"""Minutes a cooker needs to come to pressure, and from whistle to whistle (common practice)."""


TOGETHER = ("knead", "grind", "mash", "mix", "beat", "ferment", "shape")
"""Actions after which the foods they name are one mass."""


DRY_HEAT = ("saute", "fry", "roast", "griddle")
WET_HEAT = ("boil", "simmer", "steam", "pressure-cook")


def minutes_of(step: Step) -> int:
    """Minutes a step takes at most; its action's usual time where it names none."""
    if step.time is not None:
        return math.ceil(step.time.high)
    if step.whistles is not None:
        return TO_PRESSURE + PER_WHISTLE * step.whistles[1]
    return actions()[step.action].minutes


@dataclass(frozen=True)
class Flow:
    """A recipe with its ingredient lines."""

    recipe: Recipe
    lines: tuple[Line, ...]

    def named(self, use: str) -> tuple[Line, ...]:
        """The lines a step means by ``use``: by the word written there, else by any name.

        A name the card prints will do, and so will a food that may be taken instead.
        """
        if use not in self._named:
            self._named[use] = self._lines_called(use)
        return self._named[use]

    @cached_property
    def _named(self) -> dict[str, tuple[Line, ...]]:
        """What was asked for already: each step is looked at once for every line."""
        return {}

    def _lines_called(self, use: str) -> tuple[Line, ...]:
        word = fold(use)
        same = tuple(li for li in self.lines if fold(li.ingredient.food) == word)
        same = same or tuple(
            li
            for li in self.lines
            if word in {fold(name) for name in (*li.ingredient.names.values(), *li.ingredient.aka)}
        )
        same = same or tuple(li for li in self.lines if li.food.called(use))
        if not same:  # "moong", where only one food listed is some moong
            said = {part.rstrip("s") for part in word.split()}
            holding = tuple(li for li in self.lines if said <= _words_of(li))
            same = holding if len(holding) == 1 else ()
        return same

    def meant(self, use: str) -> tuple[Line, ...]:
        """The lines a step means, be its word misspelt.

        So that one slip of the pen does not make a food raw or unused as well; that the
        word is not known is told by the check of the method.
        """
        found = self.named(use)
        if not found:  # "dal", where two are listed
            said = {part.rstrip("s") for part in fold(use).split()}
            found = tuple(li for li in self.lines if said <= _words_of(li))
        if not found:
            names = {name: li for li in self.lines for name in (li.ingredient.food, li.food.name)}
            near = nearest(use, names)
            found = (names[near],) if near else ()
        return found

    def taken(self, step: Step, part: Part) -> tuple[Line, ...]:
        """The lines a step names, through parts to their ingredients."""
        found: list[Line] = []
        if step.everything:
            found += self.of_part(part)
        for use in step.uses:
            other = self.part_meant(use.name, part)
            found += self.of_part(other) if other else self.meant(use.name)
        return tuple(dict.fromkeys(found))

    @cached_property
    def _takes(self) -> tuple[tuple[tuple[Line, ...], ...], ...]:
        """What each step of each part takes: asked for by every line and every way of cooking."""
        return tuple(tuple(self.taken(s, part) for s in part.steps) for part in self.recipe.parts)

    def part_meant(self, use: str, where: Part) -> Part | None:
        """The part a step of ``where`` means; its own part's foods come before its own name."""
        other = self.part_called(use)
        return None if other is where and self.named(use) else other

    def part_called(self, use: str) -> Part | None:
        """The part a step means, by its name in any language."""
        for part in self.recipe.parts:
            if any(fold(name) == fold(use) for name in part.name.values()):
                return part
        return None

    def of_part(self, part: Part) -> tuple[Line, ...]:
        """The lines of one part."""
        return self._of_parts[self.recipe.parts.index(part)]

    @cached_property
    def _of_parts(self) -> tuple[tuple[Line, ...], ...]:
        return tuple(
            tuple(li for li in self.lines if li.ingredient in part.ingredients)
            for part in self.recipe.parts
        )

    @cached_property
    def _takings(self) -> tuple[tuple[tuple[Step, frozenset[Line]], ...], ...]:
        """For each part its steps, each with the lines it names."""
        return tuple(
            tuple((step, frozenset(self.taken(step, part))) for step in part.steps)
            for part in self.recipe.parts
        )

    def reaching(self, line: Line, names: Iterable[str]) -> tuple[Step, ...]:
        """Steps of the named actions that work on ``line``, in order.

        A step works on the foods it names and on what is in the pot: what
        earlier steps have heated or added, and all that is in hand once it is
        mixed. Foods kneaded, ground, mashed or beaten together are one from then
        on, and a step that names one of them works on them all. A step that
        names none works on all that has been taken up, in the pot or not. A
        food no step ever names is taken to be in every such step.
        """
        wanted = set(names)
        hits: list[Step] = []
        ever = self.ever_named(line)
        for own, takings in zip(self._of_parts, self._takings, strict=True):
            taken_up: set[Line] = set()
            pot: set[Line] = set()
            masses: list[set[Line]] = []
            aside: set[Line] = set()
            wet = False
            for step, takes in takings:
                named = set(takes)
                for mass in masses:
                    if not mass.isdisjoint(named):
                        named |= mass
                silent = not step.uses and not step.everything
                taken_up.update(named)
                if step.action in DRY_HEAT and wet and named and pot.isdisjoint(named):
                    # nobody fries in a pot of water: this is another pan beside it
                    aside |= pot
                    pot, wet = set(), False
                elif aside and (step.action not in heating() or not aside.isdisjoint(named)):
                    pot |= aside
                    aside = set()
                works_on = taken_up if silent else {*named, *pot}
                unsaid = silent and not ever and line in own
                if step.action in wanted and (line in works_on or unsaid):
                    hits.append(step)
                if step.action in TOGETHER and len(named) > 1:
                    masses.append(named)
                if step.action == "mix":
                    pot.update(taken_up)
                elif step.action in heating() or step.action == "add":
                    pot.update(works_on)
                wet = wet or step.action in WET_HEAT
        return tuple(hits)

    def ever_named(self, line: Line) -> bool:
        """True when some step says that it takes the food."""
        return any(line in takes for takings in self._takings for _, takes in takings)

    def cooking(self, line: Line) -> tuple[Cooking, ...]:
        """The ways a food is cooked, before the recipe or in its steps, each once."""
        steps = self.reaching(line, heating())
        drains = [d for d in self.reaching(line, ("drain",)) if d.water_kept is not True]
        order = self.recipe.steps
        drained = any(order.index(d) > order.index(s) for d in drains for s in steps)
        drained = drained or any(s.water_kept is False for s in steps)
        before = [_BEFORE[name] for name in line.ingredient.preps if name in _BEFORE]
        return (*before, *ways((s.action for s in steps), drained=drained))


def _words_of(line: Line) -> set[str]:
    """The words of the names a line goes by."""
    names = (line.ingredient.food, line.food.name, *line.ingredient.names.values())
    return {word.rstrip("s") for name in names for word in fold(name).split()}


_BEFORE = {"boiled": Cooking.DRAINED, "cooked": Cooking.DRAINED, "roasted": Cooking.ROASTED}
"""What was done before the recipe begins; boiling water is taken to be thrown away."""
