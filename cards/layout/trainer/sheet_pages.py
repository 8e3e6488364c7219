"""place for the trainer's sheet: A4 pages from top to bottom, a question above each chart."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from cards.card.sheet import Sheet, SheetTable
from cards.layout.page_foot import BELOW, BESIDE, OVER, code_item
from cards.layout.pages import MM, Page, Pages, Placed, QrItem, RuleItem, Tag
from cards.layout.parts import HAIR
from cards.layout.trainer import charts
from cards.layout.trainer.sheet_type import Column, Type
from cards.layout.wall import chart_words
from cards.text.faces import FontBook

WIDTH_MM, HEIGHT_MM, MARGIN_MM = 210, 297, 15
CAUTION = (
    "For the trainer's own check; figures on foods are averages. National guidance and the local "
    "health worker come first."
)

BODY, SMALL, HEAD, TITLE, FOOT = 9.0, 8.0, 10.5, 17.0, 8.0


def place_sheet(sheet: Sheet, book: FontBook) -> Pages:
    """The sheet's pages."""
    kind = Type(book)
    margin = MARGIN_MM * MM
    code = code_item(sheet.meta.code, grows=True)
    foot = HEIGHT_MM * MM - BELOW - code.side - OVER
    column = Column(margin, foot - OVER, margin, (WIDTH_MM - 2 * MARGIN_MM) * MM)
    _head(sheet, kind, column)
    _chart(
        column,
        kind,
        "Does 100 kcal of this dish bring what a breastfed child needs from food?",
        charts.densities(sheet, kind, column.width),
        chart_words.densities(sheet),
    )
    _chart(
        column,
        kind,
        "Is it thick enough?",
        charts.thickness(sheet, kind, column.width),
        chart_words.thickness(sheet),
    )
    _chart(
        column,
        kind,
        "Where do protein, iron, zinc and vitamin A come from?",
        charts.origins(sheet, kind, column.width),
        chart_words.origins(sheet),
    )
    _table(
        column,
        kind,
        "How much for one meal, and how far does it go?",
        sheet.portions,
        (0.14, 0.18, 0.1, 0.11, 0.11, 0.12, 0.12, 0.12),
    )
    _paragraphs(
        column,
        kind,
        (
            "* the larger meal at the fewest meals, of the energy that must come from food at "
            "average breast milk (WHO 2009). ** the same at low breast-milk intake, for a child "
            "who needs more than most (PAHO/WHO 2003). *** of all energy, at four meals a day at "
            "least, milk drunk beside it not counted (WHO 2005).",
        ),
        SMALL,
    )
    _table(
        column,
        kind,
        f"What part of a day's need is one meal? ({sheet.needs_name})",
        sheet.needs,
        (0.25, 0.25, 0.25, 0.25),
    )
    _section(column, kind, "Balance and upper levels", sheet.bounds)
    _section(column, kind, "What the check found", sheet.messages or ("Nothing to mend.",))
    _section(column, kind, "Taken for granted", sheet.assumptions)
    _section(
        column,
        kind,
        "Figures the published tables disagree on (ours is one of the two)",
        sheet.ranges,
    )
    _section(column, kind, "Figures that are missing", sheet.missing)
    _section(column, kind, "Ingredients and sources", sheet.sources)
    return _finish(sheet, kind, column, code, foot)


def _head(sheet: Sheet, kind: Type, column: Column) -> None:
    items, height = kind.paragraph(sheet.title, 0, 0, column.width, TITLE, "bold")
    column.add(items, height + 2, column.tag("H1"))
    _paragraphs(column, kind, (*sheet.facts, CAUTION), BODY)
    column.y += 4


def _paragraphs(column: Column, kind: Type, texts: Iterable[str], size: float) -> None:
    for text in texts:
        if text:
            items, height = kind.paragraph(text, 0, 0, column.width, size)
            column.add(items, height + 1, column.tag("P"))


def _heading(column: Column, kind: Type, text: str, follows: float) -> None:
    """A question or heading, kept with what follows it."""
    column.need(follows + 24)
    column.y += 5
    column.rule()
    column.y += 2
    items, height = kind.paragraph(text, 0, 0, column.width, HEAD, "bold")
    column.add(items, height + 1, column.tag("H2"))


def _chart(
    column: Column, kind: Type, question: str, chart: tuple[list[Placed], float], alt: str
) -> None:
    items, height = chart
    _heading(column, kind, question, height)
    column.add(items, height + 2, column.tag("Figure", alt))


def _section(column: Column, kind: Type, title: str, texts: tuple[str, ...]) -> None:
    if not texts:
        return
    _heading(column, kind, title, 24)
    _paragraphs(column, kind, texts, SMALL)


def _table(
    column: Column, kind: Type, title: str, table: SheetTable, shares: tuple[float, ...]
) -> None:
    """A table kept on one page."""
    edges = [0.0]
    for share in shares[: len(table.headings)]:
        edges.append(edges[-1] + share * column.width)
    rows: list[tuple[list[Placed], float]] = []
    for number, row in enumerate((table.headings, *table.rows)):
        items: list[Placed] = []
        height = 0.0
        for index, text in enumerate(row):
            weight = "bold" if number == 0 else "regular"
            room = edges[index + 1] - edges[index] - 4
            cell, used = kind.paragraph(text, edges[index], 0, room, SMALL, weight)
            items += [item.moved(0, 0, (_cell(number, index),)) for item in cell]
            height = max(height, used)
        rows.append((items, height + 1))
    _heading(column, kind, title, sum(height for _, height in rows))
    whole = column.tag("Table")
    for number, (items, height) in enumerate(rows):
        column.add(items, height, whole, Tag("TR", number))


def _cell(row: int, index: int) -> Tag:
    """The first row heads its columns, and the first cell of the others its row."""
    if row and index:
        return Tag("TD", index)
    return Tag("TH", index, how="Row" if row else "Column")


def _finish(sheet: Sheet, kind: Type, column: Column, code: QrItem, foot: float) -> Pages:
    """Each page with its foot at the height ``foot``, as all pages of A4 have it."""
    pages: list[Page] = []
    found = column.pages()
    right = column.left + column.width
    for number, items in enumerate(found, 1):
        subject = sheet.meta.subject
        if len(subject) > 90:  # version and digest stand at its end
            subject = f"...{subject[-87:]}"
        base = foot + OVER + 10
        told = f"{number} of {len(found)}"
        left = kind.line(subject, column.left, base, FOOT)
        page = kind.line(told, right - code.side - BESIDE, base, FOOT, right=True)
        rule = RuleItem(column.left, foot, right, foot, HAIR)
        placed = code.moved(right - code.side, foot + OVER)
        last = [item.moved(0, 0, (Tag("Artifact"),)) for item in (rule, left, page)]
        pages.append(Page(f"sheet {number}", (*items, *last, placed)))
    # the sheet is English, whatever the card's first language
    meta = replace(sheet.meta, language="en")
    return Pages(WIDTH_MM * MM, HEIGHT_MM * MM, BELOW, meta, tuple(pages))
