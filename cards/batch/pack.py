"""A training day in one folder: cards, charts, sheets, shopping, hours, print plan, checklist."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from cards.batch.feeding_chart import feeding_chart_pages
from cards.batch.handout import hand_out
from cards.batch.kit import Kit
from cards.batch.run import Run
from cards.batch.session_order import Order, order
from cards.batch.stages import sheet_of
from cards.batch.tiling import tiles_of
from cards.batch.write import write_folder
from cards.diagnostics.diagnostic import Diagnostic, has_errors
from cards.layout.a4 import settled
from cards.layout.cover import ink_covers
from cards.layout.pages import Pages
from cards.layout.session.hours_page import place_hours
from cards.layout.session.paper_pages import place_paper
from cards.pdf.assemble import page_sizes
from cards.pdf.paint import paint
from cards.plan.day_papers import Pile, Printed, checklist_paper, print_paper
from cards.plan.hours_paper import hours_paper
from cards.plan.kitchen import kitchen_needs
from cards.plan.paper import Paper
from cards.plan.shopping import shop
from cards.plan.shopping_paper import kitchen_paper, shopping_csv, shopping_paper
from cards.plan.timeline import plan_hours
from cards.source.session import Chart, Session
from cards.source.workspace import Workspace

CARDS, SHOPPING, LIST = "1-cards.pdf", "4-shopping.pdf", "4-shopping.csv"
KITCHEN, HOURS = "5-kitchen.pdf", "6-hours.pdf"
PLAN, CHECKLIST = "7-print-plan.pdf", "8-checklist.pdf"


@dataclass
class Pack:
    """What came of a session file. ``folder`` is None where an error stopped it."""

    texts: dict[str, str] = field(default_factory=dict)
    diagnostics: list[Diagnostic] = field(default_factory=list)
    folder: Path | None = None
    printed: tuple[Printed, ...] = ()
    files: dict[str, bytes] = field(default_factory=dict)
    """Everything in the folder, by name."""

    @property
    def stopped(self) -> bool:
        """True when an error keeps the folder from being made."""
        return has_errors(self.diagnostics)


def pack(path: Path, workspace: Workspace, kit: Kit) -> Pack:
    """Make the folder of a session file. Whoever calls it holds the out folder's lock."""
    made = build_pack(path, workspace, kit)
    if made.stopped or not made.files:
        return made
    folder = workspace.out / path.stem
    written = write_folder(folder, made.files, workspace.name(folder), PLAN)
    made.diagnostics += written.diagnostics
    made.folder = written.value
    return made


def build_pack(path: Path, workspace: Workspace, kit: Kit) -> Pack:
    """All files of the folder in memory, in the order in which they are listed; nothing written."""
    ordered = order(path, workspace, kit)
    made = Pack(ordered.texts, ordered.faults)
    if ordered.session is None or made.stopped:
        return made
    _Packing(ordered, ordered.session, workspace, kit, made).run()
    return made


class _Packing:
    """One pack on its way; stops at the first file that cannot be made."""

    def __init__(
        self, ordered: Order, session: Session, workspace: Workspace, kit: Kit, made: Pack
    ) -> None:
        self.order, self.session, self.workspace = ordered, session, workspace
        self.kit, self.made = kit, made
        self.printed: list[Printed] = []

    def run(self) -> None:
        """Every file; the plan comes last but one, since it tells of all the others."""
        cards = hand_out(self.order, self.session, self.kit, CARDS)
        self.made.diagnostics += cards.diagnostics
        if cards.value is None:
            return
        self.made.files[CARDS] = cards.value.data
        self.printed.append(cards.value.printed)
        for chart, run in self.order.charts.items():
            self.chart(chart, run)
        own = self.kit.programme.languages
        for dish, _ in self.session.recipes:
            sheet = sheet_of(self.order.runs[dish, own], self.kit)
            if sheet is not None:
                self.pages(f"3-sheet-{dish}.pdf", sheet, {})
        if not self.made.stopped:
            self.papers(cards.value.piles)

    def chart(self, chart: Chart, run: Run | None) -> None:
        """A chart whole, or cut into sheets of A4, or both."""
        kit = self.order.kits[chart.languages]
        pages = run.pages if run else None
        if run is None:
            placed = feeding_chart_pages(chart.size, kit)
            self.made.diagnostics += placed.diagnostics
            pages = placed.value
        if pages is None or self.made.stopped:
            return
        own = chart.languages == self.kit.programme.languages
        name = "-".join(("2-chart", chart.of, chart.size, *(() if own else chart.languages)))
        data = paint(pages, run.sources if run else {})
        if chart.whole:
            self.add(f"{name}.pdf", data, _ink(pages), chart.size.upper())
        if chart.tiled:
            tiles = tiles_of(data, pages.meta, name, kit)
            self.made.diagnostics += tiles.diagnostics
            if tiles.value is not None:
                self.add(f"{name}-tiles.pdf", tiles.value, _ink(pages))

    def papers(self, piles: Sequence[Pile]) -> None:
        """Shopping, kitchen, hours, plan and checklist."""
        session, programme = self.session, self.kit.programme
        languages = self.kit.languages
        dishes = self.order.dishes(programme.languages)
        recipes = [recipe for recipe, _ in dishes]
        shopping = shop(session, dishes, self.kit.table, self.kit.measures)
        self.made.diagnostics += shopping.diagnostics
        if shopping.value is None:
            return
        self.paper(SHOPPING, shopping_paper(session, shopping.value, programme, languages))
        self.made.files[LIST] = shopping_csv(shopping.value, languages)
        needs = kitchen_needs(session, recipes, self.kit.measures)
        self.paper(KITCHEN, kitchen_paper(session, needs, programme, languages))
        hours = plan_hours(recipes, session.starts)
        bars = hours_paper(session, hours, dishes, programme, languages)
        self.placed(HOURS, lambda: place_hours(bars, self.kit.layout, self.kit.book))
        charts = [run.recipe if run else None for run in self.order.charts.values()]
        checklist = checklist_paper(session, piles, recipes, charts, hours, programme, languages)
        others = tuple(self.printed)
        self.paper(CHECKLIST, checklist)
        if self.made.stopped:
            return
        last = self.printed.pop()
        # the plan tells how many pages it has itself: one, or what the first try came to
        own = Printed(PLAN, 1, 1, False, 0.0)
        for _ in range(3):
            files = (*others, own, last)
            plan = print_paper(session, files, programme, languages)
            self.paper(PLAN, plan)
            if self.made.stopped:
                return
            found = self.printed.pop()
            if found.sides == own.sides and round(found.ink, 2) == round(own.ink, 2):
                break
            own = found
        self.made.printed = (*others, own, last)
        self.made.files = dict(sorted(self.made.files.items()))

    def paper(self, name: str, paper: Paper) -> None:
        self.placed(name, lambda: place_paper(paper, self.kit.layout, self.kit.book))

    def placed(self, name: str, make: Callable[[], Pages]) -> None:
        pages = settled(make, self.session.at)
        self.made.diagnostics += pages.diagnostics
        if pages.value is not None and not self.made.stopped:
            self.pages(name, pages.value, self.order.carried)

    def pages(self, name: str, pages: Pages, sources: Mapping[str, str]) -> None:
        self.add(name, paint(pages, sources), _ink(pages))

    def add(self, name: str, data: bytes, ink: float, paper: str = "A4") -> None:
        """Keep a file, and what is to be told of it; it is printed on one side."""
        sides = len(page_sizes(data))
        self.made.files[name] = data
        self.printed.append(Printed(name, sides, sides, False, ink, paper))


def _ink(pages: Pages) -> float:
    """The mean black of a file's sides."""
    covers = ink_covers(pages)
    return sum(covers) / len(covers)
