"""The same words and icons as a Typst file that breaks lines and fits sides by itself.

A row of a card is a row here: its icons, then its words, a paragraph a language; what is left
of a side goes between its rows. Where it is to fit, a side takes the largest of six sizes that it
holds, as a side of a card does.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import groupby

from cards.layout.pages import IconItem, Page, Pages, Placed, TextItem
from cards.pdf.ink import num
from tests.bench.rivals import Icon, parts

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


@dataclass
class _Row:
    icons: list[str] = field(default_factory=list)
    texts: list[str] = field(default_factory=list)


def flow_source(cards: Sequence[Pages], icons: dict[Icon, str], *, fit: bool) -> str:
    """A Typst file of all cards, which tries the six sizes or takes the middle one."""
    first = cards[0]
    sizes = {name: num(getattr(first, name)) for name in ("width", "height", "margin")}
    sides = [
        f"#side(({' '.join(_row(list(items), icons) + ',' for _, items in _rows(page))}))"
        for card in cards
        for page in card.pages
    ]
    sizes["tries"] = "(1.0, 0.96, 0.92, 0.88, 0.84, 0.8)" if fit else "(0.9,)"
    return _HEAD.format(**sizes) + "\n#pagebreak()\n".join(sides)


def _rows(page: Page) -> groupby[object, Placed]:
    shown = [item for item in page.items if isinstance(item, IconItem | TextItem)]
    return groupby(shown, key=_row_of)


def _row_of(item: Placed) -> object:
    """The tags down to the row that an item stands in."""
    last = max((n for n, tag in enumerate(item.tags) if tag.kind in _ROWS[:2]), default=2)
    return item.tags[: last + 1]


def _row(items: list[Placed], icons: dict[Icon, str]) -> str:
    row = _Row()
    for item in items:
        if isinstance(item, IconItem):
            file = icons[item.icon.name, item.icon.params]
            row.icons.append(f'("{file}", {num(item.height)})')
    texts = [item for item in items if isinstance(item, TextItem) and item.role != "label"]
    for (language, size), lines in groupby(texts, key=lambda t: (t.language, t.size)):
        body = "#[ ]".join(
            "".join(
                f"#b({json.dumps(text, ensure_ascii=False)})"
                if bold
                else f"#{json.dumps(text, ensure_ascii=False)}"
                for bold, text in parts(line.line)
            )
            for line in lines
        )
        row.texts.append(f'("{"en" if language == "und" else language}", {num(size)}, [{body}])')
    return f"(({' '.join(i + ',' for i in row.icons)}), ({' '.join(t + ',' for t in row.texts)}))"
