"""The cover of the cards, the print plan and the checklist, as papers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from babel import Locale

from cards.card.digits import in_digits
from cards.card.model import Said
from cards.plan.paper import Column, Paper, Section
from cards.plan.timeline import Timeline
from cards.plan.words import Languages, bare, dish_name, figure, foot, heads, meta, own, phrase
from cards.source.programme import Programme
from cards.source.recipe import Recipe
from cards.source.session import Session, Village

WIDEST = 34
"""Letters of a file's name that a line of the print plan holds, however wide they are."""


@dataclass(frozen=True, slots=True)
class Pile:
    """Cards of one village, or those to spare, and the sheets they are printed on."""

    village: Village | None
    languages: tuple[str, ...]
    copies: int
    cards: int
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Printed:
    """A file to print: how many sides and sheets, how black a side is (0 to 1, its mean)."""

    name: str
    sides: int
    sheets: int
    both: bool
    ink: float
    paper: str = "A4"


def cover_paper(
    session: Session,
    piles: Sequence[Pile],
    dishes: Sequence[Recipe],
    programme: Programme,
    languages: Languages,
) -> Paper:
    """Whose pile lies on which sheets, and which dishes are in each."""
    columns = (
        Column("text"),
        Column("small", 42),
        *(Column("figure", n) for n in (26, 18, 26)),
    )
    names = ("village", "languages", "copies", "cards", "sheets")
    rows = tuple(
        (
            (_whose_pile(pile, session, languages),),
            (bare(" + ".join(own_name(code) for code in pile.languages)),),
            (figure(languages, pile.copies),),
            (figure(languages, pile.cards),),
            (
                figure(
                    languages, f"{pile.first}–{pile.last}" if pile.last > pile.first else pile.first
                ),
            ),
        )
        for pile in piles
    )
    total = (
        (phrase(languages, "together"),),
        (),
        (),
        (figure(languages, sum(pile.cards for pile in piles)),),
        (figure(languages, max(pile.last for pile in piles)),),
    )
    dealt = Section(
        (),
        "",
        columns,
        (*rows, total),
        tuple(phrase(languages, f"cover-{name}") for name in names),
    )
    inside = Section(
        phrase(languages, "cover-dishes"),
        "",
        (Column("figure", 10), Column("text")),
        tuple(
            ((figure(languages, n),), (dish_name(dish, languages),))
            for n, dish in enumerate(dishes, 1)
        ),
    )
    paper = Paper(
        "cover",
        meta(session, programme, languages, "cover-title"),
        foot(session, programme, languages),
        phrase(languages, "cover-title"),
        (*heads(session, languages), phrase(languages, "cover-how")),
        (inside, dealt),
    )
    return in_digits(paper, languages)


def print_paper(
    session: Session, files: Sequence[Printed], programme: Programme, languages: Languages
) -> Paper:
    """Every file with its sheets, sides, black and cost, and how to set the printer."""
    price = session.price
    columns = [Column("small"), Column("figure", 20), Column("figure", 30), Column("figure", 18)]
    columns += [Column("figure", 22)] if price else []
    rows = []
    for file in files:
        name = file.name if file.paper == "A4" else f"{file.name} ({file.paper})"
        sides = phrase(languages, "print-both" if file.both else "print-one")
        row = [
            tuple(bare(piece) for piece in broken(name)),
            (figure(languages, file.sheets),),
            (sides,),
            (figure(languages, f"{100 * file.ink:.0f} %"),),
        ]
        # a large sheet has a price of its own, which nobody told us
        cost = f"{price.amount * file.sheets:.2f}" if price and file.paper == "A4" else "____"
        rows.append((*row, (figure(languages, cost),)) if price else tuple(row))
    ours = sum(file.sheets for file in files if file.paper == "A4")
    total = [(phrase(languages, "print-paper", size="A4"),), (figure(languages, ours),), (), ()]
    rows.append(
        (*total, (figure(languages, f"{price.amount * ours:.2f}"),)) if price else tuple(total)
    )
    names = ["print-file", "print-sheets", "print-sides", "print-ink"]
    names += ["print-cost"] if price else []
    sided = any(file.both for file in files)
    how = (f"print-how-{session.flip}", "print-how-one") if sided else ("print-how-all",)
    notes = [phrase(languages, name) for name in ("print-how-size", "print-how-first", *how)]
    told = heads(session, languages)
    if price:
        price_told = {"price": f"{price.amount:.2f}", "currency": price.currency}
        told = (*told, phrase(languages, "print-price", **price_told))
    section = Section(
        (), "", tuple(columns), tuple(rows), tuple(phrase(languages, name) for name in names)
    )
    paper = Paper(
        "print-plan",
        meta(session, programme, languages, "print-title"),
        foot(session, programme, languages),
        phrase(languages, "print-title"),
        told,
        (section,),
        tuple(notes),
    )
    return in_digits(paper, languages)


def checklist_paper(
    session: Session,
    piles: Sequence[Pile],
    dishes: Sequence[Recipe],
    charts: Sequence[Recipe | None],
    timeline: Timeline,
    programme: Programme,
    languages: Languages,
) -> Paper:
    """Boxes to tick before one leaves. ``charts`` are of dishes, or None for feeding by age."""
    by_id = {dish.id: dish for dish in dishes}

    def named(name: str, key: str, value: Said, **more: object) -> Said:
        found = {text.language: text.text for text in value}
        first = value[0].text if value else ""
        return tuple(
            text
            for lang in languages
            for text in phrase((lang,), name, **{key: found.get(lang.code, first)}, **more)
        )

    paper = [
        named(
            "check-cards",
            "village",
            own(languages, pile.village.name, pile.village.at),
            count=pile.cards,
        )
        if pile.village
        else phrase(languages, "check-spare", count=pile.cards)
        for pile in piles
    ]
    for of in charts:
        shown = dish_name(of, languages) if of else phrase(languages, "chart-feeding")
        paper.append(named("check-chart", "name", shown))
    paper += [named("check-sheet", "name", dish_name(dish, languages)) for dish in dishes]
    begun = dict.fromkeys(task.dish for task in timeline.tasks)
    food = [phrase(languages, "check-bought"), phrase(languages, "check-water")]
    food += [named("check-begun", "dish", dish_name(by_id[name], languages)) for name in begun]
    clean = [phrase(languages, f"check-{name}") for name in ("soap", "fire", "waste", "ask")]
    teach = [phrase(languages, f"check-{name}") for name in ("pins", "pens")]
    icons = {"paper": "", "food": "meal", "clean": "hand-wash", "teach": "scissors"}
    groups = {"paper": paper, "food": food, "clean": clean, "teach": teach}
    sections = tuple(
        Section(
            phrase(languages, f"check-{name}"),
            icons[name],
            (Column("tick", 9), Column("text")),
            tuple(((), (one,)) for one in groups[name]),
        )
        for name in groups
    )
    people = phrase(languages, "people", trainees=session.trainees, groups=session.groups)
    whole = Paper(
        "checklist",
        meta(session, programme, languages, "check-title"),
        foot(session, programme, languages),
        phrase(languages, "check-title"),
        (*heads(session, languages), people),
        sections,
    )
    return in_digits(whole, languages)


def broken(name: str, most: int = WIDEST) -> list[str]:
    """A file's name in lines of at most ``most`` letters, after a hyphen where there is one."""
    lines: list[str] = []
    while len(name) > most:
        cut = name.rfind("-", 0, most) + 1 or most
        lines.append(name[:cut])
        name = name[cut:]
    return [*lines, name]


def own_name(code: str) -> str:
    """What a language calls itself."""
    return Locale.parse(code).get_language_name() or code


def _whose_pile(pile: Pile, session: Session, languages: Languages) -> Said:
    if pile.village is None:
        return phrase(languages, "cover-spare")
    return own(languages, pile.village.name, pile.village.at)
