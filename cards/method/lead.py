"""How long before eating to begin: waits and work, from the steps."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cards.nutrition.flow import minutes_of
from cards.source.recipe import Part, Recipe
from cards.source.vocabulary import actions

LONG_WAIT = 240
"""Minutes from which a wait is planned for and not stood through (common practice)."""

NIGHT = 16 * 60
"""A wait of up to so many minutes fits between an evening and the next day (common practice)."""

SHORT_WAIT = 120
"""Minutes of waiting that an evening has room for, before the night (common practice)."""

_A_NIGHT = 8 * 60
"""Minutes from evening to morning (common practice)."""

PART_OF_DAY = 8 * 60
"""A wait of up to so many minutes fits into one day (common practice)."""


@dataclass(frozen=True, slots=True)
class LeadTime:
    """``work`` in minutes, rounded up to five; ``wait`` the longest chain of long waits."""

    work: int
    wait: int
    overnight: bool
    before_night: int = 0
    """Minutes of long waits that lie before a night."""

    @property
    def days(self) -> int:
        """Days before to begin, for waits longer than a night."""
        # hours of waiting before the night are more than an evening
        early = self.before_night > SHORT_WAIT
        return math.ceil(self.wait / 1440) if self.wait > NIGHT or early else 0

    @property
    def evening(self) -> bool:
        """Begin the evening before: a night's wait, or more than part of a day."""
        return not self.days and (self.overnight or self.wait > PART_OF_DAY)

    @property
    def late(self) -> bool:
        """Ready in the afternoon only: another long wait follows the night."""
        return self.evening and self.overnight and self.wait >= _A_NIGHT + LONG_WAIT

    @property
    def hours(self) -> int:
        """Hours before to begin, for waits of part of a day."""
        return 0 if self.days or self.evening else math.ceil(self.wait / 60)


def lead_time(recipe: Recipe) -> LeadTime:
    """Waits of different parts run side by side; work is done by one pair of hands."""
    work = 0
    waits: list[int] = []
    overnight = False
    early = 0
    for part in recipe.parts:
        wait, busy, night, before = _of_part(part)
        early = max(early, before)
        waits.append(wait)
        work += busy
        overnight = overnight or night
    return LeadTime(5 * math.ceil(work / 5), max(waits, default=0), overnight, early)


def _of_part(part: Part) -> tuple[int, int, bool, int]:
    wait = busy = before = 0
    night = False
    for step in part.steps:
        overnight = bool(step.time and step.time.overnight)
        # a night is as long as it is: from evening to morning, eight hours
        minutes = _A_NIGHT if overnight else minutes_of(step)
        if actions()[step.action].wait and minutes >= LONG_WAIT:
            before = wait if overnight and not night else before
            wait += minutes
            night = night or overnight
        else:
            busy += minutes
    return wait, busy, night, before
