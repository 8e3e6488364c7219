"""Fonts in the file."""

from __future__ import annotations

import hashlib

from cards.pdf.clusterfont import ClusterFont, to_unicode
from cards.pdf.code import Code, array, dictionary, name, string
from cards.pdf.document import Document


def embed(document: Document, font: ClusterFont) -> Code:
    """Add a cluster font to the document; gives the reference to it."""
    subset = "".join(chr(65 + b % 26) for b in hashlib.sha256(font.data).digest()[:6])
    base = name(f"{subset}+{font.name}")
    descriptor = dictionary(
        {
            "Type": name("FontDescriptor"),
            "FontName": base,
            "Flags": 4,
            "FontBBox": array(font.box),
            "ItalicAngle": 0,
            "Ascent": font.ascent,
            "Descent": font.descent,
            "CapHeight": font.cap_height,
            "StemV": 80,
            "FontFile2": document.stream(font.data, {"Length1": len(font.data)}),
        }
    )
    child = dictionary(
        {
            "Type": name("Font"),
            "Subtype": name("CIDFontType2"),
            "BaseFont": base,
            "CIDSystemInfo": dictionary(
                {"Registry": string("Adobe"), "Ordering": string("Identity"), "Supplement": 0}
            ),
            "FontDescriptor": document.put(descriptor),
            "DW": 0,
            "W": array([1, array(font.widths)]),
            "CIDToGIDMap": name("Identity"),
        }
    )
    whole = dictionary(
        {
            "Type": name("Font"),
            "Subtype": name("Type0"),
            "BaseFont": base,
            "Encoding": name("Identity-H"),
            "DescendantFonts": array([document.put(child)]),
            "ToUnicode": document.stream(to_unicode(font)),
        }
    )
    return document.put(whole)
