"""compose_day_chart: a plan's meals as words and pictures for a wall."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import PurePosixPath

from cards.card.digits import in_digits
from cards.card.drafts import draft_marks
from cards.card.feeding_chart import CAUTIONS, Warned
from cards.card.icon_words import said
from cards.card.model import CardMeta, Foot, IconUse, Marked, Said, Text
from cards.card.origin import Origin
from cards.card.portion_table import AGE_ICON_OF, amount_icons, measure_word
from cards.diagnostics.diagnostic import Place
from cards.nutrition import feeding
from cards.plan.day_dishes import Dish
from cards.plan.day_sums import Meal
from cards.source.day import BETWEEN, SLOTS, DayFile
from cards.source.programme import Programme
from cards.words.language import Language
from cards.words.numbers import number

SHOWN = ("clean-hands", "sit-and-watch", "no-salt-sugar", "eat-soon")
"""Of the cautions that hold for every dish, those of the day."""


@dataclass(frozen=True, slots=True)
class Helping:
    """How much for one age; the child's picture only where the chart is for several."""

    child: IconUse | None
    icons: tuple[IconUse, ...]
    said: Said


@dataclass(frozen=True, slots=True)
class MealCell:
    """A dish at a meal: its food groups, its name, how much of it."""

    groups: tuple[IconUse, ...]
    title: Said
    helpings: tuple[Helping, ...]


@dataclass(frozen=True, slots=True)
class DayRow:
    """One day: its name, empty for a single one, and a cell for each meal of the chart."""

    label: Said
    cells: tuple[MealCell | None, ...]


@dataclass(frozen=True, slots=True)
class Child:
    """A child that the day is for, with its months."""

    icon: IconUse
    ages: str


@dataclass(frozen=True, slots=True)
class DayChart:
    """A wall chart of a day or a week."""

    meta: CardMeta
    title: Said
    children: tuple[Child, ...]
    """A child an age, with its months."""
    months: Said
    sun: IconUse
    moon: IconUse
    milk: Said
    """What is said of milk below the day's line."""
    drinks: tuple[tuple[IconUse, ...], ...]
    """What is drunk after each meal but the last: breast milk, or cups of milk."""
    slots: tuple[str, ...]
    small: tuple[bool, ...]
    """For each of them whether it is never more than what is given between meals."""
    rows: tuple[DayRow, ...]
    safety: tuple[Warned, ...]
    foot: Foot


def compose_day_chart(
    day: DayFile, meals: Sequence[Meal], programme: Programme, languages: Sequence[Language]
) -> DayChart:
    """The chart's words and pictures; a column for each meal that any day has."""
    writer = _Writer(day, languages)
    slots = tuple(slot for slot in SLOTS if any(meal.slot == slot for meal in meals))
    by_place = {(meal.day, meal.slot): meal for meal in meals}
    months = writer.phrase("months")
    chart = DayChart(
        meta=writer.meta(programme),
        title=writer.title(day.title, day.path),
        children=tuple(
            Child(IconUse(AGE_ICON_OF[band], alt=f"{ages} {months[0].text}"), ages)
            for band, ages in ((band, band.replace("-", "–")) for band in day.bands)
        ),
        months=months,
        sun=IconUse("sun", alt=languages[0].icon("sun")),
        moon=IconUse("moon", alt=languages[0].icon("moon")),
        milk=writer.milk(),
        drinks=writer.drinks(len(slots)),
        slots=slots,
        small=tuple(all(is_small(m) for m in meals if m.slot == slot) for slot in slots),
        rows=tuple(
            DayRow(
                writer.phrase("day-number", number=str(n + 1)) if day.is_week else (),
                tuple(writer.cell(by_place.get((n, slot))) for slot in slots),
            )
            for n in range(len(day.days))
        ),
        safety=writer.safety(any(meal.dish.liver for meal in meals)),
        foot=writer.foot(programme),
    )
    return in_digits(chart, languages)


def is_small(meal: Meal) -> bool:
    """True for what is given between meals, and no more of it than that."""
    most = {band: meal.serving(band).between[1] for band in meal.steps}
    return meal.slot in BETWEEN and all(n <= most[band] for band, n in meal.steps.items())


class _Writer:
    """Says things in every language of the chart."""

    def __init__(self, day: DayFile, languages: Sequence[Language]) -> None:
        self.day, self.languages = day, languages

    def phrase(self, name: str, **values: object) -> Said:
        """A phrase in each language."""
        return said(self.languages, lambda lang: lang.phrase(name, **values))

    def marked(self, icon: str, name: str) -> Marked:
        """An icon with a phrase."""
        words = self.phrase(name)
        return Marked(IconUse(icon, alt=words[0].text), words)

    def milk(self) -> Said:
        """Breast milk whenever the child wants it; without it, how many cups of milk."""
        feeds = self.day.feeds
        if self.day.milk != "none":
            return self.phrase("milk-on-demand")
        if feeds is None:
            return self.phrase("not-breastfed")
        cups, times = feeds.cups, str(feeds.times)
        return said(
            self.languages,
            lambda lang: lang.phrase(
                "milk-feeds",
                amount=f"{number(cups)} {lang.unit('cup', cups)}",
                feeds=times,
            ),
        )

    def drinks(self, meals: int) -> tuple[tuple[IconUse, ...], ...]:
        """Between any two meals breast milk, or the cups of milk spread over the day."""
        alt = self.milk()[0].text.replace("*", "")
        if self.day.milk != "none":
            return ((IconUse("breast-milk", alt=alt),),) * (meals - 1)
        feeds = self.day.feeds
        gaps: list[tuple[IconUse, ...]] = [()] * max(1, meals - 1)
        if feeds is None:
            return tuple(gaps)
        for n in range(feeds.times):
            cup = IconUse("cup", (("fill", float(feeds.cups)), ("of", "milk")), alt=alt)
            gaps[(2 * n + 1) * len(gaps) // (2 * feeds.times)] += (cup,)
        return tuple(gaps)

    def title(self, words: object, path: str, place: Dish | None = None) -> Said:
        """A title in each language that has one; in the first it is never missing."""
        texts = dict(words) if isinstance(words, dict) else {}
        at = place.at if place else self.day.at_key("title")
        first = next(iter(texts.values()), path)
        return tuple(
            Text(lang.code, texts.get(lang.code, first), at)
            for index, lang in enumerate(self.languages)
            if lang.code in texts or index == 0
        )

    def meta(self, programme: Programme) -> CardMeta:
        """What the file says of itself; its date is the plan's own."""
        first = self.languages[0]
        _, revised = feeding.edition()
        origin = day_origin(self.day, programme)
        return CardMeta(
            title=self.title(self.day.title, self.day.path)[0].text,
            author=programme.name.get(first.code, ""),
            language=first.code,
            subject="meals of a week" if self.day.is_week else "meals of a day",
            revised=self.day.revised or revised,
            path=self.day.path,
            keywords=", ".join(filter(None, origin.parts)),
            code=origin.code,
        )

    def cell(self, meal: Meal | None) -> MealCell | None:
        """A meal's cell; None where a day leaves it out."""
        if meal is None:
            return None
        several = len(self.day.bands) > 1
        first = self.languages[0]
        return MealCell(
            groups=tuple(
                IconUse(f"group-{group}", alt=first.phrase(f"group-{group}"))
                for group in meal.dish.groups
            ),
            title=self.title(meal.dish.title, meal.dish.id, meal.dish),
            helpings=tuple(self.helping(meal, band, several) for band in self.day.bands),
        )

    def helping(self, meal: Meal, band: str, several: bool) -> Helping:
        """How much at one age."""
        serving = meal.serving(band)
        amount: Fraction = serving.number(meal.steps[band])
        words = said(
            self.languages,
            lambda lang: (
                f"*{number(amount)}* " + measure_word(serving.unit, amount, meal.dish.piece, lang)
            ),
        )
        alt = words[0].text.replace("*", "")
        ages = f"{band.replace('-', '–')} {self.languages[0].phrase('months')}"
        child = IconUse(AGE_ICON_OF[band], alt=ages) if several else None
        return Helping(child, amount_icons(serving.unit, amount, amount, alt), words)

    def safety(self, liver: bool) -> tuple[Warned, ...]:
        """What holds for every meal of the day, and for liver where it comes."""
        found: list[Warned] = []
        for name, icons in CAUTIONS:
            if name in SHOWN:
                words = self.eat_soon() if name == "eat-soon" else self.phrase(name)
                found.append(Warned(tuple(IconUse(i, alt=words[0].text) for i in icons), words))
        if self.day.feeds:
            words = self.phrase("no-bottle")
            found.append(Warned((IconUse("no-bottle", alt=words[0].text),), words))
        if liver:
            words = self.phrase("liver-seldom")
            found.append(Warned((IconUse("once-a-week", alt=words[0].text),), words))
        return tuple(found)

    def eat_soon(self) -> Said:
        """Within two hours."""
        return said(
            self.languages,
            lambda lang: lang.phrase(
                "eat-soon",
                time=lang.phrase("hours", number="2", count=lang.locale.plural_form(2.0)),
                covered=False,
            ),
        )

    def foot(self, programme: Programme) -> Foot:
        """Who comes first, whose plan it is, where its figures are from, and the code."""
        first = self.languages[0]
        who = [programme.name.get(first.code, ""), programme.place.get(first.code, "")]
        amounts, variety = feeding.documents("who2009", "unicef2021")
        sources = [amounts.replace(" (seen)", "")]
        if self.day.milk == "none":
            # what of the document we rest on is said where its figures are
            sources.append(feeding.documents("who2005")[0].split(";")[0])
        at = Place(self.day.path)
        origin = day_origin(self.day, programme)
        trace = (
            first.enumerated(part for part in who if part),
            first.phrase("amounts-from", source="; ".join(sources)),
            first.phrase("variety-from", source=variety),
            origin.words(first),
        )
        return Foot(
            brings=self.phrase("day-health-worker"),
            groups=(),
            guidance=self.marked("health-worker", "day-health-worker"),
            qr=origin.code,
            trace=tuple((Text(first.code, line, at),) for line in trace if line),
            drafts=draft_marks(lang for lang in self.languages if lang.code in self.day.drafts),
        )


def day_origin(day: DayFile, programme: Programme) -> Origin:
    """What every page made from a plan is of."""
    name = PurePosixPath(day.path).stem
    return Origin(name, day.revised, day.digest, programme.address(day.path))
