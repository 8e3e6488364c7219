"""The same words and icons as files that break lines by themselves, for Typst and WeasyPrint.

A row of a card is a row here: its icons, then its words, a paragraph a language. Typst shares
what is left of a side among its rows, and where it is to fit takes the largest of six sizes that
the side holds, as a side of a card does. WeasyPrint does neither.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import groupby
from pathlib import Path

from cards.layout.pages import IconItem, Page, Pages, Placed, TextItem
from cards.pdf.ink import num
from tests.bench.rivals import Icon, html_style, html_words, parts

_HEAD = """\
#set page(width: {width}pt, height: {height}pt, margin: {margin}pt)
#set text(font: "Mukta", hyphenate: false)
#set par(leading: 0.35em, spacing: 0.4em)
#let b(body) = text(weight: 700, body)
#let row(r, k) = grid(columns: (auto, 1fr), column-gutter: 6pt, align: horizon,
  box(r.at(0).map(i => image(i.at(0), height: i.at(1) * k * 1pt)).map(box).join()),
  stack(dir: ttb, spacing: 3pt,
    ..r.at(1).map(t => text(size: t.at(1) * k * 1pt, lang: t.at(0), t.at(2)))))
#let side(rows) = layout(size => {{
  let fit = ()
  for k in {tries} {{
    fit = rows.map(r => row(r, k))
    let heights = fit.map(r => measure(r, width: size.width).height)
    if heights.sum() + (fit.len() - 1) * 4pt <= size.height {{ break }}
  }}
  stack(dir: ttb, spacing: 1fr, ..fit)
}})
"""

_ROWS = ("LI", "TR", "H1", "H2", "P", "Aside")


MIDDLE, LOW = 0.9, 0.8
"""The size that is taken where none is tried, as a share of the card's own: Typst, WeasyPrint."""

Words = list[tuple[bool, str]]


@dataclass
class _Row:
    """Icons as their file and height, texts as language, size and words, True for bold."""

    icons: list[tuple[str, float]] = field(default_factory=list)
    texts: list[tuple[str, float, Words]] = field(default_factory=list)


def flow_source(cards: Sequence[Pages], icons: dict[Icon, str], *, fit: bool) -> str:
    """A Typst file of all cards, which tries the six sizes or takes the middle one."""
    first = cards[0]
    sizes = {name: num(getattr(first, name)) for name in ("width", "height", "margin")}
    sides = [
        f"#side(({' '.join(_typst(row) + ',' for row in _rows(page, icons))}))"
        for card in cards
        for page in card.pages
    ]
    sizes["tries"] = "(1.0, 0.96, 0.92, 0.88, 0.84, 0.8)" if fit else f"({MIDDLE},)"
    return _HEAD.format(**sizes) + "\n#pagebreak()\n".join(sides)


def flow_html(cards: Sequence[Pages], icons: dict[Icon, str], fonts: Sequence[Path]) -> str:
    """A page of HTML with all cards: a row is a table of one row, a side a page."""
    margin = num(cards[0].margin)
    style = (
        f".p {{box-sizing: border-box; padding: {margin}pt; overflow: hidden}}"
        "table {border-spacing: 0; margin-bottom: 2pt} td {padding: 0 6pt 0 0}"
        "p {margin: 0; line-height: 1.05}"
    )
    sides = [
        f"<div class=p>{''.join(map(_html, _rows(page, icons)))}</div>"
        for card in cards
        for page in card.pages
    ]
    return f"<html><head><style>{html_style(cards[0], fonts)}{style}</style></head><body>" + (
        f"{''.join(sides)}</body></html>"
    )


def _rows(page: Page, icons: dict[Icon, str]) -> list[_Row]:
    shown = [item for item in page.items if isinstance(item, IconItem | TextItem)]
    return [_row(list(items), icons) for _, items in groupby(shown, key=_row_of)]


def _row_of(item: Placed) -> object:
    """The tags down to the row that an item stands in."""
    last = max((n for n, tag in enumerate(item.tags) if tag.kind in _ROWS[:2]), default=2)
    return item.tags[: last + 1]


def _row(items: list[TextItem | IconItem], icons: dict[Icon, str]) -> _Row:
    row = _Row()
    for item in items:
        if isinstance(item, IconItem):
            row.icons.append((icons[item.icon.name, item.icon.params], item.height))
    texts = [item for item in items if isinstance(item, TextItem) and item.role != "label"]
    for (language, size), lines in groupby(texts, key=lambda t: (t.language, t.size)):
        words: Words = []
        for line in lines:
            words += [(False, " "), *parts(line.line)] if words else parts(line.line)
        row.texts.append(("en" if language == "und" else language, size, words))
    return row


def _typst(row: _Row) -> str:
    icons = " ".join(f'("{file}", {num(height)}),' for file, height in row.icons)
    texts = []
    for language, size, words in row.texts:
        quoted = [(bold, json.dumps(text, ensure_ascii=False)) for bold, text in words]
        body = "".join(f"#b({text})" if bold else f"#{text}" for bold, text in quoted)
        texts.append(f'("{language}", {num(size)}, [{body}]),')
    return f"(({icons}), ({' '.join(texts)}))"


def _html(row: _Row) -> str:
    pictures = "".join(
        f'<img src="{file}" style="height:{num(height * LOW)}pt">' for file, height in row.icons
    )
    texts = "".join(
        f'<p lang={language} style="font-size:{num(size * LOW)}pt">{html_words(words)}</p>'
        for language, size, words in row.texts
    )
    return f"<table><tr><td>{pictures}</td><td>{texts}</td></tr></table>"
