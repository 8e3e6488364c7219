"""The timeline: what is begun before the session, reckoned backwards from its hour."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, time, timedelta

from cards.nutrition.flow import minutes_of
from cards.source.recipe import Part, Recipe, Step
from cards.source.vocabulary import actions

PLANNED = 60
"""Minutes from which a wait is done before the session and not in it (common practice)."""

EVENING, MORNING = time(21), time(5)
"""Between these nobody begins anything; what would be is begun the evening before (common
practice)."""

NIGHT = 8 * 60
"""Minutes of a wait written "overnight", as the card's lead time has it."""

SHOWN = 5
"""Work of fewer minutes is done but has no row of its own."""

LONGER = 60
"""A wait that lasts so many minutes more than the recipe says is marked."""


@dataclass(frozen=True, slots=True)
class Task:
    """Something to do or to wait for before the session."""

    dish: str
    part: Part
    step: Step
    begins: datetime
    ends: datetime
    waits: bool
    longer: bool
    """True for a wait that is longer than in the recipe, since nobody gets up at night."""


@dataclass(frozen=True, slots=True)
class Cooking:
    """What is left to do in the session, in minutes, all parts one after the other."""

    dish: str
    minutes: int


@dataclass(frozen=True, slots=True)
class Timeline:
    """All tasks, dish by dish, each dish in order of time."""

    starts: datetime
    tasks: tuple[Task, ...]
    cooking: tuple[Cooking, ...]

    @property
    def first(self) -> datetime:
        """When the first thing is begun; the session itself where nothing is before it."""
        return min((task.begins for task in self.tasks), default=self.starts)


def plan_hours(recipes: Sequence[Recipe], starts: datetime) -> Timeline:
    """When to begin what, so that the last long wait of each part ends with the session's hour."""
    tasks: list[Task] = []
    cooking: list[Cooking] = []
    for recipe in recipes:
        own: list[Task] = []
        left = 0
        for part in recipe.parts:
            last = max((n for n, step in enumerate(part.steps) if _planned(step)), default=-1)
            own += _backwards(recipe.id, part, part.steps[: last + 1], starts)
            left += sum(minutes_of(step) for step in part.steps[last + 1 :])
        tasks += sorted(own, key=lambda task: task.begins)
        cooking.append(Cooking(recipe.id, 5 * math.ceil(left / 5)))
    return Timeline(starts, tuple(tasks), tuple(cooking))


def _planned(step: Step) -> bool:
    return actions()[step.action].wait and _minutes(step) >= PLANNED


def _minutes(step: Step) -> int:
    return NIGHT if step.time and step.time.overnight else minutes_of(step)


def _backwards(dish: str, part: Part, steps: Sequence[Step], starts: datetime) -> list[Task]:
    """Tasks up to a part's last long wait, the last first. What is worked on goes straight into
    the wait that follows: ground batter does not stand about.
    """
    found: list[Task] = []
    until = starts
    last = len(steps) - 1
    while last >= 0:
        first = last
        while first and not _planned(steps[first - 1]):
            first -= 1
        work = [(step, 5 * math.ceil(minutes_of(step) / 5)) for step in steps[first:last]]
        minutes = _minutes(steps[last])
        busy = timedelta(minutes=sum(each for _, each in work))
        begins = _by_day(until - timedelta(minutes=minutes), busy)
        longer = until - begins > timedelta(minutes=minutes + LONGER)
        found.append(Task(dish, part, steps[last], begins, until, True, longer))
        until = begins
        for step, each in reversed(work):
            begins = until - timedelta(minutes=each)
            if minutes_of(step) >= SHOWN:
                found.append(Task(dish, part, step, begins, until, False, False))
            until = begins
        last = first - 1
    return found


def _by_day(moment: datetime, busy: timedelta) -> datetime:
    """The moment itself, or the evening before where it, or the work before it, is at night."""
    if moment.time() > EVENING:
        return datetime.combine(moment.date(), EVENING)
    if (moment - busy).time() < MORNING or (moment - busy).date() < moment.date():
        return datetime.combine(moment.date() - timedelta(days=1), EVENING)
    return moment
