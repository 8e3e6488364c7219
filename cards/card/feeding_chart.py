"""compose_feeding_chart: feeding by age, from the published figures alone, for a wall."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from cards.card.digits import in_digits
from cards.card.drafts import draft_marks
from cards.card.icon_words import said
from cards.card.model import CardMeta, Foot, Heading, IconUse, Marked, PortionColumn, Said, Text
from cards.card.origin import Origin
from cards.card.portion_table import AGE_ICONS, portion_table
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, note
from cards.nutrition import feeding, portions
from cards.nutrition.analysis import Portion
from cards.nutrition.feeding import Band
from cards.source.programme import Programme
from cards.words.language import Language
from cards.words.numbers import number_range

GROUPS = (
    "grains-roots",
    "pulses-nuts-seeds",
    "dairy",
    "flesh",
    "eggs",
    "vitamin-a-plants",
    "other-plants",
)
"""The food groups of WHO/UNICEF (2021) beside breast milk, which is the eighth."""

CAUTIONS = (
    ("clean-hands", ("hand-wash",)),
    ("boiled-water", ("boiled-water",)),
    ("no-honey", ("no-honey",)),
    ("no-whole-nuts", ("no-whole-nuts",)),
    ("sit-and-watch", ("watch",)),
    ("eat-soon", ("eat-soon",)),
    ("no-salt-sugar", ("no-salt", "no-sugar")),
)
"""What holds for every dish and every child: phrase and icons."""


ONE = Fraction(1)


@dataclass(frozen=True, slots=True)
class AgePanel:
    """One age: who, how soft, how much at first and then, how often, and what between meals."""

    feeding: PortionColumn
    at_first: Said
    """What the first weeks' number counts, for the youngest only."""
    snack_icons: tuple[IconUse, ...]
    snacks: Said


@dataclass(frozen=True, slots=True)
class Variety:
    """The food groups, and how many of them a day."""

    heading: Said
    count_icons: tuple[IconUse, ...]
    """A mark a group, full for as many as are the least."""
    groups: tuple[Marked, ...]


@dataclass(frozen=True, slots=True)
class Warned:
    """A caution with one or two icons."""

    icons: tuple[IconUse, ...]
    said: Said


@dataclass(frozen=True, slots=True)
class FeedingChart:
    """Six panels: an age each, breast milk, variety, safety; heading and foot."""

    meta: CardMeta
    heading: Heading
    ages: tuple[AgePanel, ...]
    sun: IconUse
    moon: IconUse
    milk: Marked
    variety: Variety
    safety: tuple[Warned, ...]
    foot: Foot


def compose_feeding_chart(
    programme: Programme,
    languages: Sequence[Language],
    cup_ml: float,
    spoon_ml: float,
    origin: Origin,
) -> Result[FeedingChart]:
    """The chart's words and pictures for the programme's ages.

    ``cup_ml`` and ``spoon_ml`` are its cup and big spoon. One note where it has no link.
    """
    writer = _Writer(languages)
    bands = [band for name, band in feeding.bands().items() if name in programme.bands]
    table = portion_table(
        [_portion(band, cup_ml, spoon_ml) for band in bands], writer.say, {}, seldom=False
    )
    chart = FeedingChart(
        meta=writer.meta(programme, origin),
        heading=writer.heading(bands),
        ages=tuple(
            writer.age(column, band) for column, band in zip(table.columns, bands, strict=True)
        ),
        sun=IconUse("sun", alt=languages[0].icon("sun")),
        moon=IconUse("moon", alt=languages[0].icon("moon")),
        milk=table.breast_milk,
        variety=writer.variety(),
        safety=tuple(writer.warned(name, icons) for name, icons in CAUTIONS),
        foot=writer.foot(programme, {"cup": cup_ml, "tablespoon": spoon_ml}, origin),
    )
    return Result(in_digits(chart, languages), _unlinked(programme))


def _unlinked(programme: Programme) -> tuple[Diagnostic, ...]:
    if programme.link:
        return ()
    return (
        note(
            programme.at,
            "link-missing",
            "the QR code says which chart this is, but has no web address",
            "make a file recipes/programme.yaml with link: https://.../; see the README",
        ),
    )


def _portion(band: Band, cup_ml: float, spoon_ml: float) -> Portion:
    """The published meal in the programme's own measures."""
    low, high = (
        portions.in_household(ml, band.stomach_g / feeding.dish_g_per_ml(), cup_ml, spoon_ml)
        for ml in band.meal_ml
    )
    if low.unit != high.unit:
        low = high
    start = None
    if band.start_ml:
        first, last = (max(1, round(ml / spoon_ml)) for ml in band.start_ml)
        start = (first, last)
    return Portion(
        band=band.name,
        months=(band.first_month, band.last_month),
        unit=high.unit,
        low=low.number,
        high=high.number,
        start=start,
        meals=band.meals,
        texture=band.texture,
        grams_high=0.0,
        per_portion={},
    )


class _Writer:
    """Says things in every language of the chart."""

    def __init__(self, languages: Sequence[Language]) -> None:
        self.languages = languages

    def say(self, make: Callable[[Language], str]) -> Said:
        """The text ``make`` gives for each language."""
        return said(self.languages, make)

    def phrase(self, name: str, **values: object) -> Said:
        """A phrase in each language."""
        return said(self.languages, lambda lang: lang.phrase(name, **values))

    def meta(self, programme: Programme, origin: Origin) -> CardMeta:
        """What the file says of itself: its date is that of the figures."""
        first = self.languages[0]
        version, revised = feeding.edition()
        return CardMeta(
            title=" / ".join(lang.phrase("chart-title") for lang in self.languages),
            author=programme.said(programme.name),
            language=first.code,
            subject=f"feeding by age, figures of version {version}",
            revised=revised,
            path=programme.at.file,
            keywords=", ".join(origin.parts),
            code=origin.code,
        )

    def heading(self, bands: Sequence[Band]) -> Heading:
        """Title and all ages of the chart."""
        months = self.phrase("months")
        ages = f"{bands[0].first_month}–{bands[-1].last_month}"
        icon = AGE_ICONS[tuple(feeding.bands()).index(bands[0].name)]
        return Heading(
            title=self.phrase("chart-title"),
            age_icon=IconUse(icon, alt=f"{ages} {months[0].text}"),
            ages=ages,
            months=months,
            one_of=(),
        )

    def age(self, column: PortionColumn, band: Band) -> AgePanel:
        """An age's panel; snacks that may be are outlined."""
        least, most = band.snacks
        shown = number_range(Fraction(least), Fraction(most))
        snacks = self.phrase("snacks", snacks=shown)
        first: Said = ()
        if column.start:
            last = Fraction(column.start.split("–")[-1])
            first = said(
                self.languages,
                lambda lang: lang.phrase("at-first", spoons=lang.unit("tablespoon", last)),
            )
        icons = tuple(
            IconUse("banana", (("fill", 1.0 if n < least else 0.0),), alt=snacks[0].text)
            for n in range(most)
        )
        return AgePanel(column, first, icons, snacks)

    def variety(self) -> Variety:
        """Seven groups of food and breast milk; five marks of eight are full."""
        least, count = feeding.variety()
        heading = self.phrase("variety", least=str(least), groups=str(count))
        alt = heading[0].text.replace("*", "")
        names = {f"group-{group}": f"group-{group}" for group in GROUPS}
        names["breast-milk"] = "group-breast-milk"
        return Variety(
            heading,
            tuple(
                IconUse("whole", (("fill", 1.0 if n < least else 0.0),), alt=alt)
                for n in range(count)
            ),
            tuple(self.marked(icon, self.phrase(name)) for icon, name in names.items()),
        )

    def marked(self, icon: str, words: Said) -> Marked:
        """An icon with words, its alt text in the first language."""
        return Marked(IconUse(icon, alt=words[0].text), words)

    def warned(self, name: str, icons: Sequence[str]) -> Warned:
        """A caution in words and pictures."""
        if name == "eat-soon":
            words = said(
                self.languages,
                lambda lang: lang.phrase(name, time=_two_hours(lang), covered=False),
            )
        else:
            words = self.phrase(name)
        return Warned(tuple(IconUse(icon, alt=words[0].text) for icon in icons), words)

    def foot(self, programme: Programme, sizes_ml: Mapping[str, float], origin: Origin) -> Foot:
        """Who comes first, whose chart it is, where its figures come from."""
        first = self.languages[0]
        version, revised = feeding.edition()
        who = [programme.said(programme.name), programme.said(programme.place)]
        guidance = said(
            self.languages,
            lambda lang: f"{lang.phrase('guidance')} {lang.phrase('not-breastfed')}",
        )
        amounts, variety = feeding.documents("who2009", "unicef2021")
        dated = first.phrase("version", version=version, date=revised)
        trace = (
            first.enumerated(part for part in who if part),
            first.enumerated(
                f"1 {first.unit(unit, ONE)} = {ml:g} {first.unit('millilitre', ONE)}"
                for unit, ml in sizes_ml.items()
            ),
            first.phrase("amounts-from", source=amounts.replace(" (seen)", "")),
            first.phrase("variety-from", source=variety),
            replace(origin, version=dated).words(first),
        )
        return Foot(
            brings=self.phrase("chart-title"),
            groups=(),
            guidance=self.marked("health-worker", guidance),
            qr=origin.code,
            trace=tuple((Text(first.code, line, Place("")),) for line in trace if line),
            drafts=draft_marks(lang for lang in self.languages if lang.state.is_draft),
        )


def _two_hours(lang: Language) -> str:
    return lang.phrase("hours", number="2", count=lang.locale.plural_form(2.0))
