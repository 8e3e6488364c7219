"""The shopping list and what the kitchens need, as a paper and as a spreadsheet's rows."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from cards.card.digits import in_digits
from cards.card.icon_words import said
from cards.card.model import Said
from cards.plan.kitchen import Need
from cards.plan.market import Quantity, stalls
from cards.plan.paper import Cell, Column, Paper, Section
from cards.plan.shopping import Option, Row, Shopping
from cards.plan.words import Languages, amount, figure, food_name, foot, heads, meta, phrase
from cards.source.amounts import EACH
from cards.source.programme import Programme
from cards.source.session import Session
from cards.words.language import Language

BUYING = (
    Column("tick", 9),
    Column("amount", 42),
    Column("text"),
    Column("write", 26),
)
BRINGING = (
    Column("tick", 9),
    Column("icon", 18),
    Column("figure", 16),
    Column("text"),
    Column("figure", 32),
)
PICTURES = {
    "fire": "flame-medium",
    "mixing-bowl": "mix",
    "cook-spoon": "ladle",
    "knife": "chop",
    "pot": "boil",
    "pan": "saute",
    "griddle": "griddle",
    "pressure cooker": "pressure-cook",
    "steamer": "steam",
    "grinding stone": "grind",
    "grater": "grate",
    "strainer": "strain",
    "fridge": "fridge",
    "cup": "cup",
    "bowl": "bowl",
    "glass": "glass",
    "ladle": "ladle",
    "tablespoon": "tablespoon",
    "teaspoon": "teaspoon",
    "child-bowl": "meal",
    "child-spoon": "serve",
}
"""The picture of a thing, where there is one that shows it."""


def shopping_paper(
    session: Session,
    shopping: Shopping,
    programme: Programme,
    languages: Languages,
) -> Paper:
    """Stall by stall, with boxes to tick."""
    icons = stalls()
    sections = [
        Section(
            phrase(languages, f"stall-{stall}"),
            icons[stall],
            BUYING,
            tuple(_row(row, languages) for row in rows),
            aside=phrase(languages, "shopping-paid"),
        )
        for stall, rows in shopping.by_stall.items()
    ]
    how = phrase(languages, "shopping-how", groups=session.groups)
    # usda_sr28 11352 is told as USDA SR28
    keys = dict.fromkeys(row.bought.source.split()[0] for row in shopping.rows if row.bought.source)
    sources = ", ".join(key.replace("_", " ").upper() for key in keys)
    paper = Paper(
        "shopping",
        meta(session, programme, languages, "shopping-title"),
        foot(session, programme, languages),
        phrase(languages, "shopping-title"),
        (*heads(session, languages), how),
        tuple(sections),
        (phrase(languages, "shopping-water"),),
        phrase(languages, "shopping-source", sources=sources),
    )
    return in_digits(paper, languages)


def kitchen_paper(
    session: Session, needs: Sequence[Need], programme: Programme, languages: Languages
) -> Paper:
    """What to bring from the kitchens, in all and for each group."""
    things = Section(
        (),
        "",
        BRINGING,
        tuple(_need(need, languages) for need in needs),
        ((), (), phrase(languages, "together"), (), phrase(languages, "kitchen-each")),
        icons=tuple(PICTURES.get(need.thing, "") for need in needs),
    )
    people = phrase(languages, "people", trainees=session.trainees, groups=session.groups)
    paper = Paper(
        "kitchen",
        meta(session, programme, languages, "kitchen-title"),
        foot(session, programme, languages),
        phrase(languages, "kitchen-title"),
        (*heads(session, languages), people, phrase(languages, "kitchen-how")),
        (things,),
    )
    return in_digits(paper, languages)


def _row(row: Row, languages: Languages) -> tuple[Cell, ...]:
    name = said(languages, lambda lang: food_name(row.food, lang, row.buy))
    below: list[Said] = [
        said(languages, lambda lang, one=option: _option(one, row, lang))  # type: ignore[misc]
        for option in row.options
    ]
    if row.optional:
        below.append(phrase(languages, "shopping-optional"))
    if not row.bought.known:
        below.append(phrase(languages, "shopping-as-recipe"))
    buy = said(languages, lambda lang: amount(row.buy, lang))
    return ((), (buy,), (name, *below), ())


def _option(option: Option, row: Row, language: Language) -> str:
    """Or 150 g amaranth leaves; for what part of the row, where not for all."""
    food = food_name(option.food, language, option.buy)
    if option.buy is not None:
        food = f"{amount(option.buy, language)} {food}"
    if option.in_place_of is not None:
        part = f"{amount(option.in_place_of, language)} {food_name(row.food, language)}"
        food = language.session("shopping-for", food=food, amount=part)
    if not option.known:
        food = f"{food} ({language.session('shopping-as-recipe')})"
    if option.season:
        season = language.phrase(f"season-{option.season}")
        return language.session("shopping-or-season", season=season, foods=food)
    return language.session("shopping-or", foods=food)


def _need(need: Need, languages: Languages) -> tuple[Cell, ...]:
    name = phrase(languages, f"thing-{need.thing.replace(' ', '-')}")
    total = figure(languages, need.total or "____")
    return ((), (), (total,), (name,), (figure(languages, need.each or ""),))


def shopping_csv(shopping: Shopping, languages: Languages) -> bytes:
    """The list for a spreadsheet: RFC 4180, UTF-8 with a byte order mark.

    ``needed`` is grams as bought before rounding, empty where no source tells what is thrown
    away; ``on_recipes`` is grams as eaten.
    """
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    codes = [lang.code for lang in languages]
    names = [f"food_{code}" for code in codes]
    told = ["needed_g", "on_recipes_g", "eaten_share", "source", "optional", "or", "dishes"]
    writer.writerow(["stall", *names, "buy", "unit", *told, "paid"])
    first = languages[0]
    for row in shopping.rows:
        known = row.bought.known
        writer.writerow(
            _safe(cell)
            for cell in (
                first.session(f"stall-{row.stall}"),
                *(food_name(row.food, lang) for lang in languages),
                f"{float(row.buy.number):g}",
                _unit(row.buy, first),
                f"{row.bought.grams:.1f}" if known else "",
                f"{row.edible_g:.1f}",
                f"{row.bought.share:g}" if known else "",
                row.bought.source,
                "yes" if row.optional else "",
                "; ".join(_option(one, row, first) for one in row.options),
                "; ".join(row.dishes),
                "",
            )
        )
    return stream.getvalue().encode("utf-8-sig")


def _unit(buy: Quantity, language: Language) -> str:
    if buy.unit == EACH:
        buy = Quantity(buy.number, "piece")
    return amount(buy, language).split(" ", 1)[-1]


def _safe(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if cell[:1] in "=+-@\t\r\n" and cell else cell
