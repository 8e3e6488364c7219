"""Fonts in the file."""

from __future__ import annotations

import hashlib
from typing import Any

from cards.pdf.clusterfont import ClusterFont, to_unicode
from cards.pdf.document import Array, Dictionary, Document, Name, Stream, String


def embed(document: Document, font: ClusterFont) -> Any:
    """Add a cluster font to the document; gives the reference to it."""
    subset = "".join(chr(65 + b % 26) for b in hashlib.sha256(font.data).digest()[:6])
    base = Name(f"{subset}+{font.name}")
    descriptor = Dictionary(
        {
            "Type": Name("FontDescriptor"),
            "FontName": base,
            "Flags": 4,
            "FontBBox": Array(font.box),
            "ItalicAngle": 0,
            "Ascent": font.ascent,
            "Descent": font.descent,
            "CapHeight": font.cap_height,
            "StemV": 80,
            "FontFile2": Stream(font.data, {"Length1": len(font.data)}),
        }
    )
    child = Dictionary(
        {
            "Type": Name("Font"),
            "Subtype": Name("CIDFontType2"),
            "BaseFont": base,
            "CIDSystemInfo": Dictionary(
                {"Registry": String("Adobe"), "Ordering": String("Identity"), "Supplement": 0}
            ),
            "FontDescriptor": document.Reference(descriptor),
            "DW": 0,
            "W": Array([font.first, Array(font.widths)]),
            "CIDToGIDMap": Name("Identity"),
        }
    )
    whole = Dictionary(
        {
            "Type": Name("Font"),
            "Subtype": Name("Type0"),
            "BaseFont": base,
            "Encoding": Name("Identity-H"),
            "DescendantFonts": Array([document.Reference(child)]),
            "ToUnicode": Stream(to_unicode(font)),
        }
    )
    return document.Reference(whole)
