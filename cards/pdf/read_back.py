"""What a printed file tells of itself: codes in its words, and the sources it carries (pypdf)."""

from __future__ import annotations

import io
import re
from dataclasses import dataclass

import pypdf
from pypdf.errors import PyPdfError

CODE = re.compile(r"\b[0-9a-f]{10}\b")
"""A digest as it stands on a page."""

MOST_PAGES = 2_000
"""More pages of a file are not read for codes."""


@dataclass(frozen=True, slots=True)
class PdfTold:
    """Words of a PDF by page, and texts of the files attached to it by path."""

    pages: tuple[str, ...]
    sources: dict[str, str]

    @property
    def codes(self) -> tuple[str, ...]:
        """Digests on the pages, each once, in the order met."""
        return tuple(dict.fromkeys(code for page in self.pages for code in CODE.findall(page)))


def read_pdf(data: bytes) -> PdfTold | None:
    """What the file tells; None where it is no PDF that can be read."""
    try:
        reader = pypdf.PdfReader(io.BytesIO(data))
        pages = tuple(
            page.extract_text() for page, _ in zip(reader.pages, range(MOST_PAGES), strict=False)
        )
        return PdfTold(pages, _sources(reader))
    except (PyPdfError, ValueError, KeyError, TypeError, AttributeError, RecursionError, OSError):
        return None


def _sources(reader: pypdf.PdfReader) -> dict[str, str]:
    found: dict[str, str] = {}
    names = reader.root_object.get("/Names", pypdf.generic.DictionaryObject()).get_object()
    tree = names.get("/EmbeddedFiles")
    entries = tree.get_object().get("/Names", []) if tree is not None else []
    for path, spec in zip(entries[::2], entries[1::2], strict=True):
        stream = spec.get_object()["/EF"]["/F"].get_object()
        found[str(path)] = stream.get_data().decode("utf-8", "replace")
    return found
