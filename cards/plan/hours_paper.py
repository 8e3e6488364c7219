"""The timeline with its words: rows of a dish and its steps, for the page of bars."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from cards.card.digits import in_digits
from cards.card.icon_words import said, shown
from cards.card.model import CardMeta, IconUse, Said
from cards.card.origin import PageFoot
from cards.nutrition.analysis import Analysis
from cards.nutrition.flow import Flow
from cards.plan.timeline import EVENING, MORNING, Task, Timeline
from cards.plan.words import (
    Languages,
    day,
    dish_name,
    food_name,
    foot,
    heads,
    meta,
    phrase,
    weekday,
)
from cards.source.programme import Programme
from cards.source.recipe import Recipe
from cards.source.session import Session
from cards.words.language import Language

MOST_FOODS = 2
"""More foods than these a row does not name: the first of them stand for all."""


@dataclass(frozen=True, slots=True)
class Bar:
    """A row: what is done with what, from when to when."""

    icon: IconUse
    words: Said
    begins: datetime
    ends: datetime
    clock: str
    """The hour of its beginning."""
    how: str
    """work, wait or cook."""
    longer: bool


@dataclass(frozen=True, slots=True)
class DishBars:
    """A dish with its rows."""

    title: Said
    bars: tuple[Bar, ...]


@dataclass(frozen=True, slots=True)
class HoursPaper:
    """The page of bars. ``days`` names each day that it shows, by its midnight."""

    meta: CardMeta
    foot: PageFoot
    title: Said
    under: tuple[Said, ...]
    starts: datetime
    clock: str
    """The hour of its beginning."""
    begins: datetime
    ends: datetime
    days: tuple[tuple[datetime, Said], ...]
    dishes: tuple[DishBars, ...]
    notes: tuple[Said, ...]


def hours_paper(
    session: Session,
    timeline: Timeline,
    dishes: Sequence[tuple[Recipe, Analysis]],
    programme: Programme,
    languages: Languages,
) -> HoursPaper:
    """The words of the timeline, over whole sixes of hours from the first thing to the last."""
    rows: list[DishBars] = []
    for (recipe, analysis), cooking in zip(dishes, timeline.cooking, strict=True):
        flow = Flow(recipe, analysis.lines)
        bars = [
            _bar(task, flow, recipe, languages) for task in timeline.tasks if task.dish == recipe.id
        ]
        cook = Bar(
            shown("meal"),
            phrase(languages, "timeline-cook", minutes=cooking.minutes),
            timeline.starts,
            timeline.starts + timedelta(minutes=cooking.minutes),
            told_hour(timeline.starts),
            "cook",
            False,
        )
        rows.append(DishBars(dish_name(recipe, languages), (*bars, cook)))
    last = max(bar.ends for row in rows for bar in row.bars)
    begins = _whole(timeline.first - timedelta(hours=1), 3)
    ends = _whole(last + timedelta(hours=3), 3)
    midnights = [begins.replace(hour=0)]
    while midnights[-1] + timedelta(days=1) < ends:
        midnights.append(midnights[-1] + timedelta(days=1))
    told = {"evening": f"{EVENING:%H:%M}", "morning": f"{MORNING:%H:%M}"}
    notes = [phrase(languages, "timeline-night", **told)] if timeline.tasks else []
    if any(task.longer for task in timeline.tasks):
        notes.insert(0, phrase(languages, "timeline-longer"))
    how = phrase(languages, "timeline-how" if timeline.tasks else "timeline-none")
    paper = HoursPaper(
        meta(session, programme, languages, "timeline-title"),
        foot(session, programme, languages),
        phrase(languages, "timeline-title"),
        (*heads(session, languages), how),
        timeline.starts,
        told_hour(timeline.starts),
        begins,
        ends,
        tuple((at, _day(at, languages)) for at in midnights),
        tuple(rows),
        tuple(notes),
    )
    return in_digits(paper, languages)


def told_hour(moment: datetime) -> str:
    """10:00, as a clock shows it."""
    return f"{moment:%H:%M}"


def _whole(moment: datetime, hours: int) -> datetime:
    """The moment, back to a whole number of so many hours since midnight."""
    return moment.replace(hour=moment.hour // hours * hours, minute=0)


def _day(at: datetime, languages: Languages) -> Said:
    return said(languages, lambda lang: day(at, lang, short=True))


def _bar(task: Task, flow: Flow, recipe: Recipe, languages: Languages) -> Bar:
    return Bar(
        shown(task.step.action),
        said(
            languages,
            lambda lang: lang.session(
                "timeline-row",
                day=weekday(task.begins, lang),
                foods=_foods(task, flow, recipe, lang),
            ),
        ),
        task.begins,
        task.ends,
        told_hour(task.begins),
        "wait" if task.waits else "work",
        task.longer,
    )


def _foods(task: Task, flow: Flow, recipe: Recipe, language: Language) -> str:
    """What the step takes: foods by name, or the part they have become."""
    code = language.code
    named = [line for use in task.step.uses for line in flow.named(use.name)]
    lines = [line for line in dict.fromkeys(named) if not line.food.has("water")]
    parts = [
        part.name.get(code, "")
        for use in task.step.uses
        for part in recipe.parts
        if use.name.casefold() in {name.casefold() for name in part.name.values()}
    ]
    foods = [line.ingredient.names.get(code) or food_name(line.food, language) for line in lines]
    found = [name for name in (*parts, *foods) if name]
    if not found:
        found = [task.part.name.get(code) or language.phrase("everything")]
    if len(found) > MOST_FOODS:
        return ", ".join(found[:MOST_FOODS]) + ", …"
    return language.listed(found)
