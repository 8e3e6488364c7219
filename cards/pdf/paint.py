"""paint: Pages become the bytes of a PDF. Same pages, same bytes."""

from __future__ import annotations

import hashlib
import io
from dataclasses import dataclass
from typing import Any

from reportlab.lib.colors import Color, black, white
from reportlab.pdfbase import pdfdoc
from reportlab.pdfgen.canvas import Canvas

from cards.icons import catalogue
from cards.icons.pen import Ink
from cards.layout.pages import BarItem, IconItem, Pages, PanelItem, QrItem, RuleItem, TextItem
from cards.pdf.clusterfont import ClusterFont, build_cluster_font, to_unicode
from cards.pdf.ink import CanvasPen
from cards.text.faces import Face
from cards.text.shape import Cluster

ACCENT = Color(0x8A / 255, 0x3A / 255, 0x0E / 255)
"""The one accent: a rust, 7.9 to 1 against white, a third of the way up from black in grey."""

DARK = Color(0.25, 0.25, 0.25)
"""Bars of a chart: dark enough for any copy, lighter than the words."""

_COLOURS = {
    Ink.SOLID: black,
    Ink.LINE: black,
    Ink.PAPER: white,
    Ink.GAP: white,
    Ink.FOOD: ACCENT,
}


@dataclass(frozen=True)
class _Moment:
    """The file's date, as ReportLab's own time stamp offers it; no clock is read."""

    YMDhms: tuple[int, int, int, int, int, int]
    dhh: int = 0
    dmm: int = 0
    tzname: str = "UTC"
    t: float = 0.0


class _Canvas(Canvas):  # type: ignore[misc]
    """A canvas whose pages begin bare: the stock one names an unembedded Helvetica on each."""

    def _make_preamble(self) -> None:
        self._preamble = "1 0 0 1 0 0 cm"


def paint(pages: Pages) -> bytes:
    """The PDF of all pages in order."""
    stream = io.BytesIO()
    canvas = _Canvas(
        stream,
        pagesize=(pages.width * pages.magnify, pages.height * pages.magnify),
        invariant=1,
        pageCompression=1,
        lang=pages.meta.language,
    )
    _describe(canvas, pages)
    fonts = _fonts(pages)
    names = {face: f"T{number}" for number, face in enumerate(fonts, 1)}
    for page in pages.pages:
        if pages.magnify != 1:
            canvas.scale(pages.magnify, pages.magnify)
        for item in page.items:
            _paint_item(canvas, item, pages.height, fonts, names)
        canvas.showPage()
    for face, font in fonts.items():
        _embed(canvas._doc, names[face], font)
    canvas.save()
    return stream.getvalue()


def _describe(canvas: Any, pages: Pages) -> None:
    meta = pages.meta
    canvas.setTitle(meta.title)
    canvas.setAuthor(meta.author)
    canvas.setSubject(meta.subject)
    canvas.setCreator("recipe-cards")
    canvas.setProducer("recipe-cards")
    year, month, day = (int(p) for p in (meta.revised or "2000-01-01").split("-"))
    canvas._doc._timeStamp = _Moment((year, month, day, 0, 0, 0))
    canvas._doc.Catalog.ViewerPreferences = (
        pdfdoc.PDFDictionary({"DisplayDocTitle": pdfdoc.PDFTrue})
        if hasattr(pdfdoc, "PDFTrue")
        else None
    )


def _fonts(pages: Pages) -> dict[Face, ClusterFont]:
    """One cluster font for each face used, in a fixed order."""
    used: dict[Face, set[Cluster]] = {}
    for page in pages.pages:
        for item in page.items:
            if isinstance(item, TextItem):
                for piece in item.line.pieces:
                    used.setdefault(piece.face, set()).update(piece.clusters)
    return {
        face: build_cluster_font(face, used[face])
        for face in sorted(used, key=lambda f: (f.family, f.weight))
    }


def _paint_item(
    canvas: Any, item: Any, height: float, fonts: dict[Face, ClusterFont], names: dict[Face, str]
) -> None:
    if isinstance(item, TextItem):
        _paint_text(canvas, item, height, fonts, names)
    elif isinstance(item, IconItem):
        drawing = catalogue.find(item.icon.name)
        pen = CanvasPen(
            canvas, item.x, height - item.y - item.height, item.height / drawing.height, _COLOURS
        )
        drawing.draw(pen, **dict(item.icon.params))
    elif isinstance(item, RuleItem):
        canvas.setStrokeColor(black)
        canvas.setLineWidth(item.stroke)
        canvas.setLineCap(0)
        canvas.line(item.x1, height - item.y1, item.x2, height - item.y2)
    elif isinstance(item, PanelItem):
        canvas.setStrokeColor(black)
        canvas.setLineWidth(item.stroke)
        canvas.roundRect(
            item.x,
            height - item.y - item.height,
            item.width,
            item.height,
            item.radius,
            stroke=1,
            fill=0,
        )
    elif isinstance(item, BarItem):
        canvas.setFillColor(ACCENT if item.shade == "accent" else DARK)
        y = height - item.y - item.height
        canvas.rect(item.x, y, item.width, item.height, stroke=0, fill=1)
    elif isinstance(item, QrItem):
        _paint_qr(canvas, item, height)


def _paint_text(
    canvas: Any,
    item: TextItem,
    height: float,
    fonts: dict[Face, ClusterFont],
    names: dict[Face, str],
) -> None:
    canvas.setFillColor(black)
    code = [f"BT 1 0 0 1 {_num(item.x)} {_num(height - item.y)} Tm"]
    for piece in item.line.pieces:
        code.append(
            f"/{names[piece.face]} {_num(item.size)} Tf "
            f"<{fonts[piece.face].hex(piece.clusters)}> Tj"
        )
    code.append("ET")
    canvas._code.append(" ".join(code))


def _num(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _paint_qr(canvas: Any, item: QrItem, height: float) -> None:
    """Dark modules as one path of horizontal runs: single squares would show hairlines."""
    module = item.side / (len(item.rows) + 8)
    path = canvas.beginPath()
    for number, row in enumerate(item.rows):
        y = height - item.y - (number + 5) * module
        start = 0
        while (start := row.find("1", start)) >= 0:
            end = row.find("0", start)
            end = len(row) if end < 0 else end
            path.rect(item.x + (start + 4) * module, y, (end - start) * module, module)
            start = end
    canvas.setFillColor(black)
    canvas.drawPath(path, stroke=0, fill=1)


def _embed(doc: Any, name: str, font: ClusterFont) -> None:
    """Add a cluster font to the document under the resource ``name``."""
    subset = "".join(chr(65 + b % 26) for b in hashlib.sha256(font.data).digest()[:6])
    base = pdfdoc.PDFName(f"{subset}+{font.name}")
    zip_filter = [pdfdoc.PDFZCompress]
    program = pdfdoc.PDFStream(
        pdfdoc.PDFDictionary({"Length1": len(font.data)}), font.data, zip_filter
    )
    descriptor = pdfdoc.PDFDictionary(
        {
            "Type": pdfdoc.PDFName("FontDescriptor"),
            "FontName": base,
            "Flags": 4,
            "FontBBox": pdfdoc.PDFArray(font.box),
            "ItalicAngle": 0,
            "Ascent": font.ascent,
            "Descent": font.descent,
            "CapHeight": font.cap_height,
            "StemV": 80,
            "FontFile2": doc.Reference(program, f"program-{name}"),
        }
    )
    child = pdfdoc.PDFDictionary(
        {
            "Type": pdfdoc.PDFName("Font"),
            "Subtype": pdfdoc.PDFName("CIDFontType2"),
            "BaseFont": base,
            "CIDSystemInfo": pdfdoc.PDFDictionary(
                {
                    "Registry": pdfdoc.PDFString("Adobe"),
                    "Ordering": pdfdoc.PDFString("Identity"),
                    "Supplement": 0,
                }
            ),
            "FontDescriptor": doc.Reference(descriptor, f"descriptor-{name}"),
            "DW": 0,
            "W": pdfdoc.PDFArray([font.first, pdfdoc.PDFArray(font.widths)]),
            "CIDToGIDMap": pdfdoc.PDFName("Identity"),
        }
    )
    unicode_map = pdfdoc.PDFStream(pdfdoc.PDFDictionary(), to_unicode(font), zip_filter)
    whole = pdfdoc.PDFDictionary(
        {
            "Type": pdfdoc.PDFName("Font"),
            "Subtype": pdfdoc.PDFName("Type0"),
            "BaseFont": base,
            "Encoding": pdfdoc.PDFName("Identity-H"),
            "DescendantFonts": pdfdoc.PDFArray([doc.Reference(child, f"child-{name}")]),
            "ToUnicode": doc.Reference(unicode_map, f"unicode-{name}"),
        }
    )
    doc.idToObject["BasicFonts"].dict[name] = doc.Reference(whole, name)
