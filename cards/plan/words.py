"""Words of the papers of a training day: days, hours, amounts, foods, in each language."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from fractions import Fraction

from babel.dates import format_date, format_time

from cards.card.icon_words import said
from cards.card.model import CardMeta, Said, Text
from cards.card.origin import Origin, PageFoot, page_foot
from cards.diagnostics.diagnostic import Place
from cards.foods.table import Food
from cards.plan.market import Quantity
from cards.source.amounts import EACH
from cards.source.programme import Programme
from cards.source.recipe import Recipe, Words
from cards.source.session import Session
from cards.source.session_fields import PACKS
from cards.words.language import Language
from cards.words.numbers import number

Languages = Sequence[Language]


def phrase(languages: Languages, name: str, /, **values: object) -> Said:
    """A phrase of the papers in each language."""
    return said(languages, lambda lang: lang.session(name, **values))


def own(languages: Languages, words: Words, at: Place) -> Said:
    """A text of the session file or a recipe, in the languages it has; told once if the same."""
    first = next(iter(words.values()), "")
    told = {words.get(lang.code, first): lang.code for lang in reversed(languages)}
    return tuple(Text(code, text, at) for text, code in reversed(told.items()) if text)


def figure(languages: Languages, text: object) -> Said:
    """Figures, in the digits of the first language."""
    return (Text(languages[0].code, str(text), Place("")),) if str(text) else ()


def bare(text: str) -> Said:
    """A name that is the same in every language, digits and all."""
    return (Text("und", text, Place("")),)


def day(moment: datetime, language: Language, *, short: bool = False) -> str:
    """Thursday 26 November."""
    form = "EEE d MMM" if short else "EEEE d MMMM y"
    return str(format_date(moment.date(), form, locale=language.locale))


def weekday(moment: datetime, language: Language) -> str:
    """Thu."""
    return str(format_date(moment.date(), "EEE", locale=language.locale))


def hour(moment: datetime, language: Language) -> str:
    """10:00 in the morning, as the language says it."""
    return str(format_time(moment.time(), "h:mm B", locale=language.locale))


def when(session: Session, languages: Languages) -> Said:
    """Day and hour of the session."""
    return said(
        languages,
        lambda lang: lang.session(
            "when", day=day(session.starts, lang), time=hour(session.starts, lang)
        ),
    )


def heads(session: Session, languages: Languages) -> tuple[Said, ...]:
    """What stands below every title: which session, when, where."""
    title = own(languages, session.title, session.at_key("title"))
    where = own(languages, session.place, session.at_key("place"))
    return tuple(one for one in (title, when(session, languages), where) if one)


def meta(session: Session, programme: Programme, languages: Languages, title: str) -> CardMeta:
    """What a paper's file says of itself; ``title`` names its phrase."""
    first = languages[0]
    name = session.title.get(first.code, "")
    origin = session_origin(session, programme)
    return CardMeta(
        title=" - ".join(part for part in (first.session(title), name) if part),
        author=programme.name.get(first.code, ""),
        language=first.code,
        subject="",
        revised="",
        path=session.at.file,
        keywords=", ".join(origin.parts),
        code=origin.code,
    )


def foot(session: Session, programme: Programme, languages: Languages) -> PageFoot:
    """What stands at the foot of every page: which session, its day, the digest."""
    return page_foot(session_origin(session, programme), programme, languages, session.drafts)


def session_origin(session: Session, programme: Programme) -> Origin:
    """What every paper of the session is of."""
    day_of = f"{session.starts:%Y-%m-%d}"
    address = programme.address(session.at.file)
    return Origin(session.id, day_of, session.digest, address)


def amount(quantity: Quantity, language: Language) -> str:
    """1½ kg, 2 bunches, 10."""
    if quantity.unit in PACKS:
        unit = language.session(f"pack-{quantity.unit}", number=number(quantity.number))
    else:
        unit = language.unit(quantity.unit, quantity.number)
    return f"{number(quantity.number)} {unit}".strip()


def food_name(food: Food, language: Language, of: Quantity | None = None) -> str:
    """A food as the language calls much of it, or so many where it is bought by the piece."""
    counted = of is not None and of.unit == EACH
    return language.food(food.id, food.name, of.number if of and counted else Fraction(1))


def dish_name(recipe: Recipe, languages: Languages) -> Said:
    """The dish's title."""
    return own(languages, recipe.title, recipe.at_key("title"))
