"""The file of cards to hand out: village by village, on sheets, with a cover that tells whose."""

from __future__ import annotations

from dataclasses import dataclass

from cards.batch.kit import Kit
from cards.batch.printing import impose_dealt, size_mm
from cards.batch.session_order import Codes, Order
from cards.diagnostics.diagnostic import Result, error
from cards.layout.a4 import settled
from cards.layout.cover import ink_covers
from cards.layout.office.sheet_plan import deal, plan_sheet
from cards.layout.session.paper_pages import place_paper
from cards.pdf.assemble import About, one_after_another, page_sizes
from cards.pdf.impose import Leaf, leaves
from cards.pdf.paint import paint
from cards.plan.day_papers import Pile, Printed, cover_paper
from cards.source.session import Session, Village


@dataclass(frozen=True, slots=True)
class HandOut:
    """The file, what is said of it, and its piles."""

    data: bytes
    printed: Printed
    piles: tuple[Pile, ...]


def hand_out(order: Order, session: Session, kit: Kit, name: str) -> Result[HandOut]:
    """Cards of each village on sheets of its own, those to spare last, the cover first."""
    cards = {
        key: paint(run.pages, run.sources)
        for key, run in order.runs.items()
        if run.pages is not None
    }
    place = {key: number for number, key in enumerate(cards)}
    sides = [len(page_sizes(data)) for data in cards.values()]
    size = page_sizes(next(iter(cards.values())))[0]
    grid = plan_sheet(*size)
    if grid is None:
        fault = error(
            kit.programme.at,
            "print-too-large",
            f"a card of {size_mm(size)} does not go on A4",
            "choose layout: hand-card in programme.yaml",
        )
        return Result(None, (fault,))
    of_card: dict[int, list[Leaf]] = {}
    for leaf in leaves(sides):
        of_card.setdefault(leaf[0], []).append(leaf)
    dealt: list[tuple[Leaf | None, ...]] = []
    piles: list[Pile] = []
    wanted: list[tuple[Village | None, Codes, int]] = [
        (village, village.languages, village.copies) for village in session.villages
    ]
    wanted.append((None, kit.programme.languages, session.spare))
    for village, codes, copies in wanted:
        keys = [(dish, codes) for dish, _ in session.recipes]
        pile = [leaf for key in keys for leaf in of_card[place[key]] for _ in range(copies)]
        if pile:
            first = len(dealt) + 1
            dealt += deal(pile, grid.places)
            piles.append(Pile(village, codes, copies, len(keys) * copies, first, len(dealt)))
    if not piles:
        nothing = error(
            session.at_key("villages"),
            "value-wrong",
            "no village gets a card, and none is to spare",
            "write copies: 1 or more",
        )
        return Result(None, (nothing,))
    dishes = [recipe for recipe, _ in order.dishes(kit.programme.languages)]
    told = cover_paper(session, piles, dishes, kit.programme, kit.languages)
    cover = settled(lambda: place_paper(told, kit.layout, kit.book), session.at)
    if cover.value is None:
        return Result(None, cover.diagnostics)
    sheets = impose_dealt(tuple(cards.values()), dealt, grid, session.flip, kit)
    both = any(leaf is not None and leaf[2] is not None for sheet in dealt for leaf in sheet)
    about = About(
        told.meta.title, told.meta.author, told.meta.language, session.flip if both else ""
    )
    data = one_after_another((paint(cover.value), sheets), about)
    pages = len(page_sizes(data))
    printed = Printed(
        name, pages, -(-pages // 2) if both else pages, both, _ink(order, session, piles)
    )
    return Result(HandOut(data, printed, tuple(piles)), cover.diagnostics)


def _ink(order: Order, session: Session, piles: list[Pile]) -> float:
    """The mean black of the cards' sides, each as often as it is printed."""
    covers: list[float] = []
    for pile in piles:
        for dish, _ in session.recipes:
            pages = order.runs[dish, pile.languages].pages
            covers += list(ink_covers(pages)) * pile.copies if pages else []
    return sum(covers) / len(covers)
