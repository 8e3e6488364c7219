"""How long before eating to begin."""

from __future__ import annotations

import pytest

from cards.method.lead import lead_time
from cards.source.programme import Programme
from cards.source.read import read


def lead_of(*steps: str) -> tuple[int, int, bool, int]:
    text = "recipe: 1\ntitle: T\ningredients:\n  - 1 cup rice\nsteps:\n" + "".join(
        f"  - {{{s}}}\n" for s in steps
    )
    recipe = read(text, "x.yaml", Programme(languages=("en",))).value
    assert recipe is not None
    time = lead_time(recipe)
    return time.work, time.days, time.evening, time.hours


@pytest.mark.parametrize(
    ("steps", "work", "days", "evening", "hours"),
    [
        (("do: boil, time: 10-12 minutes",), 15, 0, False, 0),
        (("do: soak, time: 30 minutes", "do: boil, time: 20 minutes"), 50, 0, False, 0),
        (("do: soak, time: overnight", "do: boil, time: 20 minutes"), 20, 0, True, 0),
        (("do: soak, time: 5 hours", "do: boil, time: 20 minutes"), 20, 0, False, 5),
        (("do: soak, time: overnight", "do: ferment, time: 7 hours"), 0, 0, True, 0),
        (("do: soak, time: overnight", "do: sprout, time: 1 day"), 0, 2, False, 0),
        (("do: soak, time: 6 hours", "do: ferment, time: overnight"), 0, 1, False, 0),
        (("do: pressure-cook, whistles: 4",), 20, 0, False, 0),
        (("do: sprout, time: 2 days", "do: steam"), 15, 2, False, 0),
    ],
)
def test_lead(steps: tuple[str, ...], work: int, days: int, evening: bool, hours: int) -> None:
    assert lead_of(*steps) == (work, days, evening, hours)


def test_waits_of_two_parts_run_side_by_side() -> None:
    text = """\
recipe: 1
title: T
parts:
  - part: A
    ingredients: [1 cup rice]
    steps: [{do: soak, time: 6 hours}]
  - part: B
    ingredients: [1 cup rice]
    steps: [{do: soak, time: 5 hours}, {do: boil, time: 10 minutes}]
"""
    recipe = read(text, "x.yaml", Programme(languages=("en",))).value
    assert recipe is not None
    assert (lead_time(recipe).wait, lead_time(recipe).work) == (360, 10)
