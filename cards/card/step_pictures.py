"""A step in pictures: what is done, with which food, out of which part, and the marks beside it."""

from __future__ import annotations

from fractions import Fraction

from cards.card import sentences
from cards.card.measure_icons import held_as, picture_of
from cards.card.model import IconUse
from cards.foods.table import Food
from cards.nutrition.flow import Flow
from cards.nutrition.line import Line
from cards.source.recipe import Part, Recipe, Step
from cards.words.language import Language
from cards.words.numbers import number_range

HANDLED = ("peel", "chop", "grate", "mash")
"""Actions drawn with the food they are done to, where it has a picture."""

COOKED = ("roast", "saute", "fry", "boil", "simmer", "mix")
"""Actions drawn with one food in the vessel or two, by their pictures or as measures hold them."""

UNMARKED = ("plain", "water")
"""What has no marks that would be known outside a measure."""

MOST_PARTS = 6
"""Parts whose dots are seen at a glance, as on a die."""


def part_mark(recipe: Recipe, part: Part) -> IconUse | None:
    """As many dots as the part has for its number; None where there is no other part."""
    if len(recipe.parts) < 2 or len(recipe.parts) > MOST_PARTS:
        return None
    number = recipe.parts.index(part) + 1
    return IconUse("part", (("number", float(number)),), alt=str(number))


def parts_taken(step: Step, flow: Flow) -> tuple[IconUse, ...]:
    """The marks of the parts that a step names."""
    parts = [part for use in step.uses if (part := flow.part_called(use.name))]
    return tuple(mark for part in parts if (mark := part_mark(flow.recipe, part)))


def step_picture(step: Step, before: Step | None, flow: Flow, alt: str) -> IconUse:
    """The action's icon, with the food in it where it is drawn so."""
    name = _name(step, before)
    if name in COOKED:
        return IconUse(
            name, tuple(zip(("of", "also"), _foods_in(step, flow), strict=False)), alt=alt
        )
    of = _food_handled(step, flow) if name in HANDLED else ""
    return IconUse(name, (("of", of),) if of else (), alt=alt)


def _foods_in(step: Step, flow: Flow) -> tuple[str, ...]:
    """What the one food or two of a step look like; none for more, or for a whole dish.

    What only goes with them, fat, water and spice, is left out unless it is all there is.
    """
    named = [flow.named(use.name) for use in step.uses]
    if step.everything or not all(named):
        return ()
    lines = [line for found in named for line in found]
    main = [line for line in lines if not _goes_with(line.food)] or lines
    looks = dict.fromkeys(_seen(line) for line in main)
    shown = tuple(look for look in looks if look not in UNMARKED)
    return shown if len(shown) <= 2 else ()


def _goes_with(food: Food) -> bool:
    return food.form == "fat" or food.has("water") or food.has("spice")


def _seen(line: Line) -> str:
    """A food by its picture, else as a measure holds it; leaves stay leaves, however cut."""
    preps = () if line.food.form == "leaf" else line.ingredient.preps
    return picture_of(line.food) or held_as(line.food, preps)


def _food_handled(step: Step, flow: Flow) -> str:
    """The picture of the one food a step works on; empty for several, or without a picture."""
    foods = [line.food for use in step.uses for line in flow.named(use.name)]
    names = {picture_of(food) or ("leaf" if food.form == "leaf" else "") for food in foods}
    return names.pop() if len(names) == 1 and not step.everything else ""


def step_marks(step: Step, first: Language) -> tuple[IconUse, ...]:
    """What a step has to show beside its words; the layout gives each kind a column."""
    found: list[IconUse] = []
    if step.flame:
        found.append(IconUse(f"flame-{step.flame}", alt=first.phrase(f"flame-{step.flame}")))
    if step.whistles:
        alt = sentences.whistle_words(step, first)
        found += [IconUse("whistle", alt=alt)] * step.whistles[1]
    if step.time:
        found += _time_marks(step, sentences.time_words(step.time, first))
    if step.lid:
        found.append(IconUse("cover", alt=first.phrase("lid-on")))
    return tuple(found)


def _name(step: Step, before: Step | None) -> str:
    """The action's icon; a pot that simmers open is drawn open, a cooker that cools stays shut."""
    if step.action == "simmer" and step.lid is not True:
        return "boil"
    waits = step.action in ("cool", "rest") and not step.uses
    if waits and before is not None and before.action == "pressure-cook":
        return "steam-out"
    return step.action


def hours_label(minutes: int) -> str:
    """Minutes as a number of hours, for the middle of a picture."""
    hours = Fraction(minutes, 60)
    return number_range(hours, hours)


def _time_marks(step: Step, alt: str) -> list[IconUse]:
    time = step.time
    assert time is not None
    if time.overnight:
        return [IconUse("moon", alt=alt)]
    if time.low >= 24 * 60:
        day = [IconUse("sun", alt=alt), IconUse("moon", alt=alt)]
        return day * min(3, int(time.high // (24 * 60)))
    if time.low >= 120:
        hours = (("hours", float(time.high / 60)),)
        return [IconUse("hours", hours, _clock_label(time.low / 60, time.high / 60), alt)]
    return [
        IconUse(
            "clock",
            (("minutes", min(float(time.high), 60.0)),),
            _clock_label(time.low, time.high),
            alt,
        )
    ]


def _clock_label(low: Fraction, high: Fraction) -> str:
    """What fits into a clock: the range if short, else its larger number; the words tell all."""
    label = number_range(low, high)
    return label if len(label) <= 3 else number_range(high, high)
