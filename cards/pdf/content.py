"""Placed items as the operators of a page's content stream (ISO 32000-1, 8 and 9)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from cards.icons import catalogue
from cards.layout.pages import BarItem, IconItem, PanelItem, Placed, QrItem, RuleItem, TextItem
from cards.pdf.code import num
from cards.pdf.ink import ACCENT, colour_code, shown
from cards.pdf.shared import Shared
from cards.pdf.structure import Stretch
from cards.text.shape import Cluster, blank_clusters, joined

_ROUND = 0.5523
"""Handles of a quarter circle as a Bezier curve, in radii."""


def page_content(stretches: Iterable[Stretch], height: float, shared: Shared) -> str:
    """A page's content, each stretch between its marks. ``height`` is the page's in points."""
    code: list[str] = []
    for stretch in stretches:
        if stretch.mark is None:
            code.append("/Artifact BMC")
        else:
            code.append(f"/{stretch.kind} <</MCID {stretch.mark.number}>> BDC")
        code += [item_code(item, height, shared) for item in stretch.items]
        code.append("EMC")
    return "\n".join(code)


def item_code(item: Placed, height: float, shared: Shared) -> str:
    """One item. Fills are black unless the item says otherwise, and are so again after it."""
    if isinstance(item, TextItem):
        return _text(item, height, shared)
    if isinstance(item, IconItem):
        drawing = catalogue.find(item.icon.name)
        scale = item.height / drawing.height
        code = shared.icon(item.icon.name, item.icon.params)
        if item.turned:
            code = f"-1 0 0 1 {num(drawing.width)} 0 cm\n{code}"
        return shown(code, item.x, height - item.y - item.height, scale)
    if isinstance(item, RuleItem):
        ends = (item.x1, height - item.y1, item.x2, height - item.y2)
        x1, y1, x2, y2 = (num(v) for v in ends)
        return f"{num(item.stroke)} w {x1} {y1} m {x2} {y2} l S"
    if isinstance(item, PanelItem):
        return _panel(item, height)
    if isinstance(item, BarItem):
        fill = f"{colour_code(ACCENT)} rg" if item.shade == "accent" else "0 g"
        return f"q {fill} {_rectangle(item.x, height - item.y - item.height, item)} f Q"
    return _qr(item, height)


def _rectangle(x: float, y: float, item: BarItem) -> str:
    return f"{num(x)} {num(y)} {num(item.width)} {num(item.height)} re"


def _text(item: TextItem, height: float, shared: Shared) -> str:
    """A line and a blank, as ISO 32000-1 (14.8.2.5) asks.

    Without it a program that reads aloud would join the line's last word to the next one.
    """
    if item.line.mixed:
        return _mixed_text(item, height, shared)
    code = [f"BT {num(item.x)} {num(height - item.y)} Td"]
    for face, _, clusters in item.line.runs:
        name, codes = shared.face(face)
        shown_as = "".join([codes[cluster] for cluster in clusters])
        code.append(f"/{name} {num(item.size)} Tf <{shown_as}> Tj")
    blank = codes[blank_clusters(face)[0]]
    if clusters[-1].advance > WIDE * face.units_per_em:
        # pdfium takes two lines for one where a string ends so: the blank ends it instead
        code[-1] = f"/{name} {num(item.size)} Tf <{shown_as}{blank}> Tj ET"
    else:
        code.append(f"<{blank}> Tj ET")
    return " ".join(code)


WIDE = 1.7
"""Ems from which a cluster is wide: no letter of Latin script, many signs of Tamil."""


def _mixed_text(item: TextItem, height: float, shared: Shared) -> str:
    """A line of which some runs from right to left, painted in the order it is read.

    Each cluster that runs so is set at its place by itself, and what runs from left to right
    among them (a number, a Latin name) is in few glyphs. Thus most readers give the line back
    as it is read; those that go by places reorder it themselves.
    """
    code = ["BT"]
    y = num(height - item.y)
    for (face, level, clusters), left in zip(item.line.runs, item.line.lefts, strict=True):
        name, codes = shared.face(face)
        unit = item.size / face.units_per_em
        x = item.x + left * item.size
        back = level % 2 == 1
        if back:
            x += sum(cluster.advance for cluster in clusters) * unit
        for cluster in clusters if back else _few(clusters):
            step = cluster.advance * unit
            x -= step if back else 0
            # the font anew and a place on the page: after a move back by Td or TJ, and within
            # one font, some readers turn round again what has been turned
            code.append(
                f"/{name} {num(item.size)} Tf 1 0 0 1 {num(x)} {y} Tm <{codes[cluster]}> Tj"
            )
            x += 0 if back else step
    blank = blank_clusters(face)[0]
    x = item.x - blank.advance * unit
    code.append(f"/{name} {num(item.size)} Tf 1 0 0 1 {num(x)} {y} Tm <{codes[blank]}> Tj ET")
    return " ".join(code)


MOST_IN_GLYPH = 8
"""Characters that one glyph may stand for; readers forget longer ones."""


def _few(clusters: Sequence[Cluster]) -> Iterator[Cluster]:
    """Clusters from left to right in as few glyphs as may be, blanks by themselves."""
    held: list[Cluster] = []
    for cluster in clusters:
        long = sum(len(one.text) for one in (*held, cluster)) > MOST_IN_GLYPH
        if held and (long or " " in (cluster.text, held[-1].text)):
            yield joined(held)
            held = []
        held.append(cluster)
    if held:
        yield joined(held)


def _panel(item: PanelItem, height: float) -> str:
    r, k = item.radius, item.radius * (1 - _ROUND)
    x1, x2 = item.x, item.x + item.width
    y1, y2 = height - item.y - item.height, height - item.y
    path: list[tuple[str, tuple[float, ...]]] = [
        ("m", (x1 + r, y1)),
        ("l", (x2 - r, y1)),
        ("c", (x2 - k, y1, x2, y1 + k, x2, y1 + r)),
        ("l", (x2, y2 - r)),
        ("c", (x2, y2 - k, x2 - k, y2, x2 - r, y2)),
        ("l", (x1 + r, y2)),
        ("c", (x1 + k, y2, x1, y2 - k, x1, y2 - r)),
        ("l", (x1, y1 + r)),
        ("c", (x1, y1 + k, x1 + k, y1, x1 + r, y1)),
    ]
    drawn = " ".join(f"{' '.join(num(v) for v in at)} {verb}" for verb, at in path)
    return f"{num(item.stroke)} w {drawn} s"


def _qr(item: QrItem, height: float) -> str:
    """Dark modules as one path of horizontal runs: single squares would show hairlines."""
    module = item.side / (len(item.rows) + 8)
    runs: list[str] = []
    for number, row in enumerate(item.rows):
        start = 0
        while (start := row.find("1", start)) >= 0:
            end = row.find("0", start)
            end = len(row) if end < 0 else end
            # in modules from the upper left one, so that the numbers are short
            runs.append(f"{start} {-number - 1} {end - start} 1 re")
            start = end
    x, y = item.x + 4 * module, height - item.y - 4 * module
    return shown(f"{' '.join(runs)} f", x, y, module)
