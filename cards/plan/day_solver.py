"""propose: dishes and amounts for the meals that are not written down, found by a solver.

First what must be (energy within its band, food groups, meals, upper levels),
then as much of every need as the dishes reach, then the cheapest or simplest
of those. Every demand has slack, so that what cannot be met is told and not
refused.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from cards.nutrition.needs import Profile
from cards.plan.day_model import Model, Wish, alike
from cards.plan.day_program import Effort, Found
from cards.plan.day_sums import Meal

DAY_EFFORT, WEEK_EFFORT = Effort(), Effort(nodes=10, gap=0.01, near=0.02)
LAST_EFFORT = Effort(nodes=20, gap=0.05)
"""For a day, for a week, and for a week's last wish, which only makes a good plan handier. For a
week an answer is near enough within two hundredths of one need."""

TOGETHER, ONE_DAY = Effort(nodes=500), Effort(nodes=20)
"""For a week's days taken together, and for one day of a week while the others stay."""

ROUNDS, BRIEF = 3, 2
"""How often the days of a week are gone through, one after the other, while it gets better."""

ROUGH = 0.05
"""How near the best a day is found the first time, when the days after it are still to change."""

CLOSE = 0.002
"""How near the best what must be has to be."""

NEAR = 0.004
"""Part of a need within which it is told how far dishes reach."""


@dataclass(frozen=True, slots=True)
class Reach:
    """The most of a need that the dishes on hand can bring within all that must be."""

    band: str
    tag: str
    share: float
    proven: bool


@dataclass(frozen=True, slots=True)
class Proposal:
    """Meals found, with those written down; what binds; whether the search came to its end."""

    meals: tuple[Meal, ...]
    reaches: tuple[Reach, ...]
    proven: bool


Objective = Callable[[Model], Mapping[int, float]]
"""What is asked of a model, by its columns."""

Told = Callable[[str], None]
"""Is told what is looked for, for whoever waits."""


def silent(_: str) -> None:
    """Tells nobody."""


def propose(wish: Wish, profile: Profile, tell: Told = silent) -> Proposal:
    """The best plan, the same for the same dishes in whatever order they come."""
    search = _Search(wish, profile)
    effort = DAY_EFFORT if wish.days == 1 else WEEK_EFFORT
    tell("energy, food groups, upper levels")
    must = search.least(_must, replace(effort, near=min(effort.near, CLOSE)))
    search.hold(_must, must.objective)
    tell("all needs")
    reached = search.least(_short, effort, must)
    reaches = []
    for (band, tag), slack in search.model.slack.items():
        if reached.values[slack] > 0.005:
            tell(f"{tag} at {band} months alone")
            one, near = _one_need(band, tag), replace(effort, near=NEAR)
            best = search.least(one, near, reached, brief=True)
            reaches.append(Reach(band, tag, 1 - best.objective, best.proven))
    search.hold(_short, reached.objective)
    tell("the cheapest of these" if wish.cheapest else "the simplest of these")
    if wish.days > 1 and not wish.cheapest:
        effort = LAST_EFFORT
    last = search.least(_last, effort, reached, brief=not wish.cheapest)
    proven = must.proven and reached.proven and (last.proven or not wish.cheapest)
    return Proposal(search.model.meals(last), tuple(reaches), proven)


def _must(model: Model) -> Mapping[int, float]:
    return model.must


def _short(model: Model) -> Mapping[int, float]:
    return model.short


def _last(model: Model) -> Mapping[int, float]:
    return model.simple()


def _one_need(band: str, tag: str) -> Objective:
    return lambda model: {model.slack[band, tag]: 1.0}


class _Search:
    """A plan's single days, and the same days taken together, asked one thing after another.

    What days together reach bounds what single days can, and is known in a
    fraction of the time; a plan that is near enough to it is proven at once.
    """

    def __init__(self, wish: Wish, profile: Profile) -> None:
        self.model = Model(wish, profile, [(day,) for day in range(wish.days)])
        self.kinds = alike(wish)
        self.days = wish.days
        self.columns = [self.model.columns_of(day) for day in range(wish.days)]
        self.together = Model(wish, profile, self.kinds) if len(self.kinds) < wish.days else None

    def hold(self, objective: Objective, value: float) -> None:
        """Keep what was reached."""
        for model in (self.model, self.together):
            if model is not None:
                model.hold(objective(model), value)

    def least(
        self,
        objective: Objective,
        effort: Effort,
        start: Found | None = None,
        *,
        brief: bool = False,
    ) -> Found:
        """The least of an objective; there is always a plan, if only an empty one.

        A week is bettered day by day from ``start``; unless ``brief`` it is then
        searched as a whole, where it is not yet proven.
        """
        if self.together is not None:
            # a quarter of what is allowed for the bound, the rest for the plan
            fine = replace(TOGETHER, gap=effort.gap / 4, near=effort.near / 4)
            counted = self._ask(self.together, objective, fine)
            room = max(effort.near, effort.gap * abs(counted.bound))
            effort = replace(effort, enough=counted.bound + room)
            if start is not None and brief:
                start = self._set_apart(self.together, counted, objective, effort, start)
        if start is None:
            return self._proven(self._ask(self.model, objective, effort), effort)
        if self.days > 1:
            start = self._by_days(objective, effort, start, BRIEF if brief else ROUNDS)
            if start.proven or brief:
                return start
            effort = replace(effort, bare=True)
        return self._proven(self._ask(self.model, objective, effort, start), effort)

    def _by_days(self, objective: Objective, effort: Effort, start: Found, rounds: int) -> Found:
        """One day after the other found anew, while the others stay as they are."""
        best = self._proven(self._valued(start, objective), effort)
        for turn in range(rounds):
            before, fine = best, effort.gap / 4 if turn else ROUGH
            one = replace(ONE_DAY, near=effort.near / 4, gap=fine, enough=effort.enough)
            for day in range(self.days):
                if best.proven:
                    return best
                others = [n for d in range(self.days) if d != day for n in self.columns[d]]
                held = {n: round(best.values[n]) for n in others}
                found = self._ask(self.model, objective, one, best, held)
                if found.objective < best.objective:
                    best = self._proven(replace(found, proven=False), effort)
            if turn and best is before:
                break
        return best

    def _set_apart(
        self,
        together: Model,
        counted: Found,
        objective: Objective,
        effort: Effort,
        start: Found,
    ) -> Found:
        """A plan that chooses each dish as often as days together do, if that is a better start."""
        program = self.model.program
        kept = len(program.rows)
        for days in self.kinds:
            for role, dish in together.roles:
                times = round(counted.values[together.chosen[days[0], role, dish]])
                each = {self.model.chosen[day, role, dish]: 1.0 for day in days}
                program.row(each, low=times, high=times)
        found = program.least(objective(self.model), replace(effort, nodes=ONE_DAY.nodes))
        del program.rows[kept:]
        start = self._valued(start, objective)
        return start if found is None or found.objective >= start.objective else found

    def _valued(self, found: Found, objective: Objective) -> Found:
        """A plan by what another objective makes of it."""
        terms = objective(self.model)
        value = sum(weight * found.values[n] for n, weight in terms.items())
        return replace(found, objective=value, proven=False)

    def _ask(
        self,
        model: Model,
        objective: Objective,
        effort: Effort,
        start: Found | None = None,
        held: Mapping[int, float] | None = None,
    ) -> Found:
        values = start.values if start else ()
        found = model.program.least(objective(model), effort, values, held or {})
        if found is None:
            raise RuntimeError("the search ended before its first plan")
        return found

    def _proven(self, found: Found, effort: Effort) -> Found:
        return replace(found, proven=found.proven or found.objective <= effort.enough)
