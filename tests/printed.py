"""Printed pages looked at from outside: their lines, their pixels, cards of other sizes."""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import Any

import pypdf
import pypdfium2
from PIL import Image
from pypdf.generic import ContentStream

from cards.layout.pages import MM


@dataclass(frozen=True)
class Drawn:
    """A straight line on a page, in mm from the lower left corner; its stroke in points."""

    x1: float
    y1: float
    x2: float
    y2: float
    stroke: float

    @property
    def length(self) -> float:
        return float(((self.x2 - self.x1) ** 2 + (self.y2 - self.y1) ** 2) ** 0.5)


Six = tuple[float, ...]


def _times(m: Six, n: Six) -> Six:
    """PDF 32000-1, 8.3.4: m first, then n."""
    return (
        m[0] * n[0] + m[1] * n[2],
        m[0] * n[1] + m[1] * n[3],
        m[2] * n[0] + m[3] * n[2],
        m[2] * n[1] + m[3] * n[3],
        m[4] * n[0] + m[5] * n[2] + n[4],
        m[4] * n[1] + m[5] * n[3] + n[5],
    )


def lines(data: bytes, page: int) -> list[Drawn]:
    """The stroked straight lines of a page, read off its operators and those of its forms."""
    reader = pypdf.PdfReader(io.BytesIO(data))
    shown = reader.pages[page]
    found: list[Drawn] = []
    _walk(shown.get_contents(), shown["/Resources"], (1, 0, 0, 1, 0, 0), reader, found)
    return found


def _walk(content: Any, resources: Any, start: Six, reader: Any, found: list[Drawn]) -> None:
    matrix, stroke, stack, here = start, 1.0, [], (0.0, 0.0)
    path: list[tuple[float, ...]] = []
    for operands, operator in ContentStream(content, reader).operations:
        if operator == b"q":
            stack.append((matrix, stroke))
        elif operator == b"Q":
            matrix, stroke = stack.pop()
        elif operator == b"cm":
            matrix = _times(tuple(float(n) for n in operands), matrix)
        elif operator == b"w":
            stroke = float(operands[0])
        elif operator == b"m":
            here = (float(operands[0]), float(operands[1]))
        elif operator == b"l":
            there = (float(operands[0]), float(operands[1]))
            path.append((*here, *there))
            here = there
        elif operator == b"S":
            for x1, y1, x2, y2 in path:
                ends = [
                    (matrix[n] * x + matrix[n + 2] * y + matrix[n + 4]) / MM
                    for x, y in ((x1, y1), (x2, y2))
                    for n in (0, 1)
                ]
                found.append(Drawn(*ends, stroke))
        elif operator == b"Do":
            form = resources["/XObject"][operands[0]].get_object()
            own = tuple(float(n) for n in form.get("/Matrix", (1, 0, 0, 1, 0, 0)))
            _walk(form, form.get("/Resources", {}), _times(own, matrix), reader, found)
        if operator in (b"S", b"f", b"f*", b"n", b"B", b"B*"):
            path = []


def picture(data: bytes, page: int, dpi: float = 100) -> Image.Image:
    """A page in grey, by pdfium."""
    document = pypdfium2.PdfDocument(data)
    seen = document[page].render(scale=dpi / 72, grayscale=True).to_pil().convert("L")
    document.close()
    return seen


def resized(data: bytes, width: float, height: float, pages: int = 2) -> bytes:
    """A file's first pages on pages of another size in mm, drawn larger or smaller to fit."""
    writer = pypdf.PdfWriter()
    for page in pypdf.PdfReader(io.BytesIO(data)).pages[:pages]:
        scale = min(width * MM / page.mediabox.width, height * MM / page.mediabox.height)
        new = writer.add_blank_page(width * MM, height * MM)
        new.merge_transformed_page(page, pypdf.Transformation().scale(scale))
    stream = io.BytesIO()
    writer.write(stream)
    return stream.getvalue()


def fonts(data: bytes) -> int:
    """How many font programs a file holds."""
    reader = pypdf.PdfReader(io.BytesIO(data))
    objects = [reader.get_object(n) for n in range(1, reader.trailer["/Size"])]
    return sum(isinstance(o, dict) and "/FontFile2" in o for o in objects)


def sizes(data: bytes) -> set[tuple[float, float]]:
    """The sizes of a file's pages in mm."""
    pages = pypdf.PdfReader(io.BytesIO(data)).pages
    return {tuple(round(float(n) / MM, 2) for n in page.mediabox[2:]) for page in pages}
