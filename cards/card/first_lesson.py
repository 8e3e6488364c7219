"""compose_first_lesson: the marks in an order that builds up, and rows to read together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from cards.card.digits import in_digits
from cards.card.icon_words import icon_text, said, sheet_phrase
from cards.card.measure_icons import measure_icons
from cards.card.model import CardMeta, IconUse, NeedRow, Said, StepRow, Text
from cards.card.origin import Origin, PageFoot, draft_codes, page_foot, sheet_meta
from cards.foods.table import shipped_table
from cards.source.amounts import Amount
from cards.source.programme import Programme
from cards.words.language import Language
from cards.words.numbers import number

FOOD = "moong-dal"
"""The food of the rows that are read together: one that every words file names."""

_SPOONS = Fraction(5, 2)
_WHISTLES = 3


@dataclass(frozen=True, slots=True)
class Example:
    """Pictures with a caption; ``wide`` ones take two places of the row."""

    icons: tuple[IconUse, ...]
    caption: Said
    wide: bool = False


@dataclass(frozen=True, slots=True)
class LessonRow:
    """One thing to learn: its number, what is shown, what the trainer says."""

    number: str
    examples: tuple[Example, ...]
    said: Said


@dataclass(frozen=True, slots=True)
class ReadRow:
    """A card's row, and what its three parts are called, in reading order."""

    number: str
    said: Said
    row: NeedRow
    parts: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class Practice:
    """Rows as a card has them, with too few words to read them by, and what they say."""

    heading: Said
    need: NeedRow
    steps: tuple[StepRow, ...]
    answers_heading: Said
    answers: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class FirstLesson:
    """Both sides of the lesson."""

    meta: CardMeta
    foot: PageFoot
    title: Said
    how: Said
    rows: tuple[LessonRow, ...]
    reading: ReadRow
    practice: Practice


def compose_first_lesson(
    programme: Programme, languages: Sequence[Language], origin: Origin
) -> FirstLesson:
    """The lesson in every language of the programme."""
    rows = (
        ("spoons", _measures("tablespoon", (Fraction(1), Fraction(2), Fraction(1, 2)), languages)),
        ("cup", _measures("cup", (Fraction(1), Fraction(1, 2), Fraction(1, 4)), languages)),
        ("flame", tuple(_named(f"flame-{n}", languages) for n in ("low", "medium", "high"))),
        ("clock", (_clock(10, languages), _clock(45, languages), _hours(8, languages))),
        ("whistle", tuple(_whistles(count, languages) for count in (1, _WHISTLES))),
        ("moon", (_night(languages), _day(languages))),
        ("forbidden", tuple(_named(n, languages) for n in ("no-salt", "no-tea", "no-bottle"))),
    )
    lesson = FirstLesson(
        meta=sheet_meta(programme, languages, "lesson-title", origin),
        foot=page_foot(origin, programme, languages, draft_codes(languages)),
        title=sheet_phrase(languages, "lesson-title"),
        how=sheet_phrase(languages, "lesson-how"),
        rows=tuple(
            LessonRow(str(n), examples, sheet_phrase(languages, f"lesson-{name}"))
            for n, (name, examples) in enumerate(rows, 1)
        ),
        reading=ReadRow(
            str(len(rows) + 1),
            sheet_phrase(languages, "lesson-row"),
            _need(_line(languages), languages),
            tuple(sheet_phrase(languages, f"lesson-{p}") for p in ("picture", "number", "words")),
        ),
        practice=_practice(languages),
    )
    return in_digits(lesson, languages)


def _measures(
    unit: str, amounts: Sequence[Fraction], languages: Sequence[Language]
) -> tuple[Example, ...]:
    return tuple(_measure(unit, amount, languages) for amount in amounts)


def _measure(unit: str, amount: Fraction, languages: Sequence[Language]) -> Example:
    caption = said(languages, lambda lang: f"*{number(amount)}* {lang.unit(unit, amount)}")
    return Example(_filled(unit, amount, caption[0].text.replace("*", "")), caption)


def _filled(name: str, amount: Fraction, alt: str) -> tuple[IconUse, ...]:
    whole, rest = divmod(amount, 1)
    fills = [1.0] * int(whole) + ([float(rest)] if rest else [])
    return tuple(IconUse(name, (("fill", fill),), alt=alt) for fill in fills)


def _named(name: str, languages: Sequence[Language]) -> Example:
    text = icon_text(languages, name)
    return Example((IconUse(name, alt=text[0].text),), text)


def _clock(minutes: int, languages: Sequence[Language]) -> Example:
    text = said(languages, lambda lang: _counted("minutes", minutes, lang))
    face = IconUse("clock", (("minutes", float(minutes)),), str(minutes), text[0].text)
    return Example((face,), text)


def _hours(count: int, languages: Sequence[Language]) -> Example:
    text = said(languages, lambda lang: _counted("hours", count, lang))
    sun = IconUse("hours", (("hours", float(count)),), str(count), text[0].text)
    return Example((sun,), text)


def _whistles(count: int, languages: Sequence[Language]) -> Example:
    text = said(languages, lambda lang: _counted("for-whistles", count, lang))
    return Example((IconUse("whistle", alt=text[0].text),) * count, text, wide=count > 1)


def _night(languages: Sequence[Language]) -> Example:
    text = said(languages, lambda lang: lang.phrase("overnight"))
    return Example((IconUse("moon", alt=text[0].text),), text)


def _day(languages: Sequence[Language]) -> Example:
    text = said(languages, lambda lang: _counted("for-days", 1, lang))
    both = tuple(IconUse(name, alt=text[0].text) for name in ("sun", "moon"))
    return Example(both, text, wide=True)


def _counted(phrase: str, count: int, lang: Language) -> str:
    return lang.phrase(phrase, number=str(count), count=lang.locale.plural_form(float(count)))


def _food(lang: Language) -> str:
    return lang.food(FOOD, "moong dal")


def _line(languages: Sequence[Language]) -> Said:
    """What a card prints beside the pictures and the number."""
    return said(
        languages,
        lambda lang: lang.phrase(
            "line", unit=lang.unit("tablespoon", _SPOONS), food=_food(lang), prep=""
        ),
    )


def _need(words: Said, languages: Sequence[Language]) -> NeedRow:
    first = languages[0]
    alt = f"{number(_SPOONS)} {first.unit('tablespoon', _SPOONS)}"
    amount = Amount(_SPOONS, _SPOONS, "tablespoon")
    return NeedRow(measure_icons(amount, shipped_table().foods[FOOD], alt), number(_SPOONS), words)


def _practice(languages: Sequence[Language]) -> Practice:
    food = said(languages, lambda lang: f"*{_food(lang)}*")
    soak = said(
        languages,
        lambda lang: lang.sentence("soak", foods=lang.phrase("it"), time=lang.phrase("overnight")),
    )
    cook = said(
        languages,
        lambda lang: (
            lang.sentence(
                "pressure-cook",
                foods=lang.phrase("it"),
                whistles=_counted("for-whistles", _WHISTLES, lang),
            )
            + f" ({lang.icon('flame-medium')})"
        ),
    )
    silent = tuple(Text(text.language, "", text.at) for text in food)
    night, whistles = _night(languages).icons, _whistles(_WHISTLES, languages).icons
    marks = (*_named("flame-medium", languages).icons, *whistles)
    need = said(languages, lambda lang: f"{number(_SPOONS)} {_plain(_line([lang]))}")
    return Practice(
        heading=sheet_phrase(languages, "lesson-practice"),
        need=_need(food, languages),
        steps=(
            StepRow("1", IconUse("soak", alt=soak[0].text), silent, night),
            StepRow("2", IconUse("pressure-cook", alt=cook[0].text), silent, marks),
        ),
        answers_heading=sheet_phrase(languages, "lesson-answers"),
        answers=(need, soak, cook),
    )


def _plain(line: Said) -> str:
    return line[0].text.replace("*", "")
