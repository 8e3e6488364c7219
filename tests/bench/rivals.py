"""The same words and icons set by other programs and libraries, on the same pages, in our fonts.

Where it says "placed" they are handed our lines and places: they break no line and fit no side.
None of them sets rules, boxes, QR codes or attachments. Typst writes its tags, as it does unless
told not to.
"""

from __future__ import annotations

import html
import io
import json
import tempfile
import time
from collections.abc import Sequence
from functools import partial
from pathlib import Path

from cards.layout.pages import IconItem, Page, Pages, TextItem
from cards.pdf.ink import num
from cards.text.wrap import Line
from tests.bench.recipes import ROOT, opened, peak_kib
from tests.bench.svg import svg

Icon = tuple[str, tuple[tuple[str, float | str], ...]]


def measured(name: str, cards: Sequence[Pages]) -> dict[str, object]:
    """What one of them takes: milliseconds, bytes, memory. Or why it was skipped."""
    from tests.bench.flow import flow_html, flow_source

    _, kit, _ = opened(ROOT)
    fonts = [kit.book.face("mukta", weight).path for weight in ("regular", "bold")]
    with tempfile.TemporaryDirectory() as folder:
        icons = icon_files(cards, Path(folder))

        def by_typst(cards: Sequence[Pages]) -> bytes:
            if name == "typst-placed":
                source = typst_source(cards, icons)
            else:
                source = flow_source(cards, icons, fit=name == "typst-fit")
            path = Path(folder) / "cards.typ"
            path.write_text(source, encoding="utf-8")
            where = [str(fonts[0].parent)]
            return bytes(typst.compile(str(path), font_paths=where, ignore_system_fonts=True))

        def by_weasyprint(cards: Sequence[Pages]) -> bytes:
            write = html_source if name == "weasyprint-placed" else flow_html
            source = write(cards, icons, fonts)
            return bytes(weasyprint.HTML(string=source, base_url=f"{folder}/").write_pdf())

        try:
            if name.startswith("typst"):
                import typst

                work = by_typst
            elif name.startswith("weasyprint"):
                import weasyprint

                work = by_weasyprint
            else:
                work = partial(plain_pdf, fonts=fonts)
        except (ImportError, OSError) as trouble:
            return {"skipped": f"is skipped: {trouble}"}
        work(cards[:12])  # warm, as ours is
        started = time.process_time()
        data = work(cards[12:])
        taken = time.process_time() - started
    count = len(cards) - 12
    each = {"ms": taken * 1000 / count, "bytes": len(data) / count}
    return {**each, "count": count, "peak": peak_kib()}


def parts(line: Line) -> list[tuple[bool, str]]:
    """A line's text, parted where the weight changes: True for bold."""
    found: list[tuple[bool, str]] = []
    for piece in line.pieces:
        bold = piece.face.weight == "bold"
        if found and found[-1][0] == bold:
            found[-1] = (bold, found[-1][1] + piece.text)
        else:
            found.append((bold, piece.text))
    return found


def icon_files(cards: Sequence[Pages], folder: Path) -> dict[Icon, str]:
    """Write each icon met as an SVG file; gives their names."""
    names: dict[Icon, str] = {}
    for item in _items(cards, IconItem):
        assert isinstance(item, IconItem)
        key = (item.icon.name, item.icon.params)
        if key not in names:
            names[key] = f"{len(names)}.svg"
            (folder / names[key]).write_text(svg(*key), encoding="utf-8")
    return names


def _items(cards: Sequence[Pages], kind: type) -> list[object]:
    return [i for card in cards for page in card.pages for i in page.items if isinstance(i, kind)]


def typst_source(cards: Sequence[Pages], icons: dict[Icon, str]) -> str:
    """A Typst file of all cards."""
    first = cards[0]
    head = (
        f"#set page(width: {num(first.width)}pt, height: {num(first.height)}pt, margin: 0pt)\n"
        '#set text(font: "Mukta", top-edge: "baseline", bottom-edge: "baseline", '
        "hyphenate: false)\n"
        "#let t(x, y, s, l, body) = place(top + left, dx: x * 1pt, dy: y * 1pt, "
        "box(width: 400pt, text(size: s * 1pt, lang: l, body)))\n"
        "#let b(body) = text(weight: 700, body)\n"
        "#let i(x, y, h, f) = place(top + left, dx: x * 1pt, dy: y * 1pt, "
        "image(f, height: h * 1pt))\n"
    )
    return head + "\n#pagebreak()\n".join(
        "\n".join(_typst_lines(page, icons)) for card in cards for page in card.pages
    )


def _typst_lines(page: Page, icons: dict[Icon, str]) -> list[str]:
    lines: list[str] = []
    for item in page.items:
        if isinstance(item, TextItem):
            quoted = [
                (bold, json.dumps(text, ensure_ascii=False)) for bold, text in parts(item.line)
            ]
            body = "".join(f"#b({text})" if bold else f"#{text}" for bold, text in quoted)
            where = ", ".join((num(item.x), num(item.y), num(item.size)))
            language = "en" if item.language == "und" else item.language
            lines.append(f'#t({where}, "{language}")[{body}]')
        elif isinstance(item, IconItem):
            where = ", ".join((num(item.x), num(item.y), num(item.height)))
            lines.append(f'#i({where}, "{icons[item.icon.name, item.icon.params]}")')
    return lines


def html_source(cards: Sequence[Pages], icons: dict[Icon, str], fonts: Sequence[Path]) -> str:
    """A page of HTML with all cards, everything placed absolutely."""
    style = (
        html_style(cards[0], fonts) + "body {line-height: 1} .p {position: relative}"
        ".p > * {position: absolute; white-space: pre}"
    )
    sides = [
        f"<div class=p>{''.join(_html_parts(page, icons))}</div>"
        for card in cards
        for page in card.pages
    ]
    return f"<html><head><style>{style}</style></head><body>{''.join(sides)}</body></html>"


def html_style(first: Pages, fonts: Sequence[Path]) -> str:
    """Our fonts under one name, and a page a side."""
    faces = "".join(
        f"@font-face {{font-family: Card; src: url('{path.as_uri()}'); font-weight: {weight}}}"
        for path, weight in zip(fonts, (400, 700), strict=True)
    )
    width, height = num(first.width), num(first.height)
    return (
        f"{faces} @page {{size: {width}pt {height}pt; margin: 0}}"
        "body {margin: 0; font-family: Card}"
        f".p {{width: {width}pt; height: {num(first.height - 1)}pt; page-break-after: always}}"
    )


def html_words(words: Sequence[tuple[bool, str]]) -> str:
    """Words as HTML, the bold ones marked."""
    return "".join(
        f"<b>{html.escape(text)}</b>" if bold else html.escape(text) for bold, text in words
    )


def _html_parts(page: Page, icons: dict[Icon, str]) -> list[str]:
    found: list[str] = []
    for item in page.items:
        if isinstance(item, TextItem):
            words = html_words(parts(item.line))
            top = item.y - 0.84 * item.size
            place = f"left:{num(item.x)}pt;top:{num(top)}pt;font-size:{num(item.size)}pt"
            language = "en" if item.language == "und" else item.language
            found.append(f'<div lang={language} style="{place}">{words}</div>')
        elif isinstance(item, IconItem):
            place = f"left:{num(item.x)}pt;top:{num(item.y)}pt;height:{num(item.height)}pt"
            file = icons[item.icon.name, item.icon.params]
            found.append(f'<img src="{file}" style="{place}">')
    return found


def plain_pdf(cards: Sequence[Pages], fonts: Sequence[Path]) -> bytes:
    """ReportLab's own page of the same lines: unshaped, without icons, marks or tags."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    for name, path in zip(("Card", "Card bold"), fonts, strict=True):
        pdfmetrics.registerFont(TTFont(name, str(path)))
    stream = io.BytesIO()
    canvas = Canvas(stream, (cards[0].width, cards[0].height), pageCompression=1)
    for card in cards:
        for page in card.pages:
            for item in page.items:
                if isinstance(item, TextItem):
                    text = canvas.beginText(item.x, card.height - item.y)
                    for bold, words in parts(item.line):
                        text.setFont("Card bold" if bold else "Card", item.size)
                        text.textOut(words)
                    canvas.drawText(text)
            canvas.showPage()
    canvas.save()
    return stream.getvalue()
