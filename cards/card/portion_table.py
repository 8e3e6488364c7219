"""The portion table: for each age who, how soft, how much, how often."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from fractions import Fraction

from cards.card.measure_icons import MOST
from cards.card.model import IconUse, Marked, PortionColumn, PortionTable, Said
from cards.nutrition.analysis import Portion
from cards.source.recipe import Words
from cards.words.language import Language
from cards.words.numbers import number_range

AGE_ICONS = ("child-sits", "child-stands", "child-walks")
"""Youngest band first: what a child can do is how mothers tell ages."""

AGE_ICON_OF = dict(zip(("6-8", "9-11", "12-23"), AGE_ICONS, strict=True))

Say = Callable[[Callable[[Language], str]], Said]


def portion_table(
    portions: Sequence[Portion], say: Say, piece: Words, *, seldom: bool
) -> PortionTable:
    """The table's columns, youngest first. ``seldom`` is for a dish of once a week at most.

    ``piece`` is what the author calls the dish's pieces.
    """

    def phrase(name: str, **values: object) -> Said:
        return say(lambda lang: lang.phrase(name, **values))

    milk = phrase("breast-milk")
    return PortionTable(
        columns=tuple(_column(portion, say, phrase, piece, seldom) for portion in portions),
        breast_milk=Marked(IconUse("breast-milk", alt=milk[0].text), milk),
    )


def _column(
    portion: Portion, say: Say, phrase: Callable[..., Said], piece: Words, seldom: bool
) -> PortionColumn:
    texture = phrase(f"texture-{portion.texture}")
    number = number_range(portion.low, portion.high)
    amount = say(lambda lang: f"*{number}* {measure_word(portion.unit, portion.high, piece, lang)}")
    plain = amount[0].text.replace("*", "")
    meals = number_range(Fraction(portion.meals[0]), Fraction(portion.meals[1]))
    ages = number_range(*(Fraction(n) for n in portion.months))
    months = phrase("months")
    daily = phrase("a-day", meals=meals)
    often = phrase("at-most-weekly") if seldom else daily
    start: tuple[IconUse, ...] = ()
    first: Said = ()
    if portion.start:
        least, most = portion.start
        spoons = number_range(Fraction(least), Fraction(most))
        first = say(lambda lang: f"*{spoons}* {lang.unit('tablespoon', Fraction(most))}")
    # spoons before spoons would be counted together; then the number alone tells the start
    if portion.start and portion.unit != "tablespoon":
        alt = first[0].text.replace("*", "")
        start = tuple(
            IconUse("tablespoon", (("fill", 1.0 if n < least else 0.0),), alt=alt)
            for n in range(most)
        )
    return PortionColumn(
        age_icon=IconUse(AGE_ICON_OF[portion.band], alt=f"{ages} {months[0].text}"),
        ages=ages,
        months=months,
        texture=Marked(IconUse(f"texture-{portion.texture}", alt=texture[0].text), texture),
        start_icons=start,
        amount_icons=amount_icons(portion.unit, portion.low, portion.high, plain),
        amount=amount,
        first=first,
        start=number_range(*(Fraction(n) for n in portion.start)) if portion.start else "",
        meal_icons=_meal_icons(portion, daily[0].text, seldom),
        meals=often,
        seldom=(IconUse("once-a-week", alt=often[0].text),) if seldom else (),
    )


def measure_word(unit: str, number: Fraction, piece: Words, language: Language) -> str:
    """A measure's name; of pieces what the author calls them, where that is said."""
    own = piece.get(language.code, "") if unit == "piece" else ""
    return own or language.unit(unit, number)


def _meal_icons(portion: Portion, alt: str, seldom: bool) -> tuple[IconUse, ...]:
    """A bowl a meal, dashed for one that may be; of a seldom dish only the first is of it."""
    icons = []
    for number in range(portion.meals[1]):
        sure = number < portion.meals[0]
        other = (("other", 1.0),) if seldom and number and sure else ()
        icons.append(IconUse("meal", (("fill", float(sure)), *other), alt=alt))
    return tuple(icons)


def amount_icons(unit: str, low: Fraction, high: Fraction, alt: str) -> tuple[IconUse, ...]:
    """An amount in a household measure; wholes, then the rest as a fill.

    Of a range the smaller number is full. A cup is barred up to the larger; spoons and
    pieces that may be are empty outlines.
    """
    # a dish counted in pieces is made as cakes: tikki, idli, pancake
    icon = {"cup": "cup", "tablespoon": "tablespoon", "piece": "cake"}[unit]
    if high > MOST:
        return (IconUse(icon, (("fill", 1.0),), alt=alt),)
    icons = []
    for number in range(math.ceil(high)):
        sure, perhaps = (float(min(Fraction(1), max(Fraction(0), n - number))) for n in (low, high))
        barred = (("may", perhaps),) if icon == "cup" and perhaps > sure else ()
        icons.append(IconUse(icon, (("fill", sure), *barred), alt=alt))
    return tuple(icons)
