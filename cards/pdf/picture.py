"""Pages as pictures, painted by a reader that is not ours (pdfium)."""

from __future__ import annotations

import io
from collections.abc import Iterator

import pypdfium2

SHADES = 16
"""Shades of a small picture; black, white, the accent and what lies between them."""


def small_picture(pdf: bytes, width: int) -> bytes:
    """The first page as a PNG of a width in pixels."""
    document = pypdfium2.PdfDocument(pdf)
    page = document[0]
    image = page.render(scale=width / page.get_width()).to_pil()
    stream = io.BytesIO()
    image.quantize(SHADES).save(stream, "PNG")
    return stream.getvalue()


def page_pictures(pdf: bytes, dpi: int) -> Iterator[bytes]:
    """Every page as a PNG; none where it is no PDF that can be read."""
    try:
        document = pypdfium2.PdfDocument(pdf)
    except pypdfium2.PdfiumError:
        return
    for page in document:
        stream = io.BytesIO()
        page.render(scale=dpi / 72).to_pil().save(stream, "PNG")
        yield stream.getvalue()
