"""The portion table: for each age who, how soft, how much, how often."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from cards.card.measure_icons import MOST
from cards.card.model import IconUse, Marked, PortionColumn, PortionTable, Said
from cards.nutrition.analysis import Portion
from cards.words.language import Language
from cards.words.numbers import number_range

AGE_ICONS = ("child-sits", "child-stands", "child-walks")
"""Youngest band first: what a child can do is how mothers tell ages."""

AGE_ICON_OF = dict(zip(("6-8", "9-11", "12-23"), AGE_ICONS, strict=True))

Say = Callable[[Callable[[Language], str]], Said]


def portion_table(portions: Sequence[Portion], say: Say, *, seldom: bool) -> PortionTable:
    """The table's columns, youngest first. ``seldom`` is for a dish of once a week at most."""

    def phrase(name: str, **values: object) -> Said:
        return say(lambda lang: lang.phrase(name, **values))

    milk = phrase("breast-milk")
    return PortionTable(
        columns=tuple(_column(portion, say, phrase, seldom) for portion in portions),
        breast_milk=Marked(IconUse("breast-milk", alt=milk[0].text), milk),
    )


def _column(portion: Portion, say: Say, phrase: Callable[..., Said], seldom: bool) -> PortionColumn:
    texture = phrase(f"texture-{portion.texture}")
    number = number_range(portion.low, portion.high)
    amount = say(lambda lang: f"*{number}* {lang.unit(portion.unit, portion.high)}")
    meals = number_range(Fraction(portion.meals[0]), Fraction(portion.meals[1]))
    ages = number_range(*(Fraction(n) for n in portion.months))
    months = phrase("months")
    daily = phrase("a-day", meals=meals)
    often = phrase("at-most-weekly") if seldom else daily
    start: tuple[IconUse, ...] = ()
    # spoons before spoons would be counted together; then the number alone tells the start
    if portion.start and portion.unit != "tablespoon":
        first, last = portion.start
        shown = number_range(Fraction(first), Fraction(last))
        alt = say(lambda lang: f"{shown} {lang.unit('tablespoon', Fraction(last))}")[0].text
        start = tuple(
            IconUse("tablespoon", (("fill", 1.0 if n < first else 0.0),), alt=alt)
            for n in range(last)
        )
    return PortionColumn(
        age_icon=IconUse(AGE_ICON_OF[portion.band], alt=f"{ages} {months[0].text}"),
        ages=ages,
        months=months,
        texture=Marked(IconUse(f"texture-{portion.texture}", alt=texture[0].text), texture),
        start_icons=start,
        amount_icons=amount_icons(portion.unit, portion.high, amount[0].text.replace("*", "")),
        amount=amount,
        start=number_range(*(Fraction(n) for n in portion.start)) if portion.start else "",
        meal_icons=_meal_icons(portion, daily[0].text, seldom),
        meals=often,
        seldom=(IconUse("once-a-week", alt=often[0].text),) if seldom else (),
    )


def _meal_icons(portion: Portion, alt: str, seldom: bool) -> tuple[IconUse, ...]:
    """A bowl a meal, dashed for one that may be; of a seldom dish only the first is of it."""
    icons = []
    for number in range(portion.meals[1]):
        sure = number < portion.meals[0]
        other = (("other", 1.0),) if seldom and number and sure else ()
        icons.append(IconUse("meal", (("fill", float(sure)), *other), alt=alt))
    return tuple(icons)


def amount_icons(unit: str, number: Fraction, alt: str) -> tuple[IconUse, ...]:
    """An amount in a household measure; wholes, then the rest as a fill."""
    # a dish counted in pieces is made as cakes: tikki, idli, pancake
    icon = {"cup": "cup", "tablespoon": "tablespoon", "piece": "cake"}[unit]
    if number > MOST:
        return (IconUse(icon, (("fill", 1.0),), alt=alt),)
    whole, rest = divmod(number, 1)
    fills = [1.0] * int(whole) + ([float(rest)] if rest else [])
    return tuple(IconUse(icon, (("fill", fill),), alt=alt) for fill in fills)
