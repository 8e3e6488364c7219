"""A file of numbered objects, written packed (ISO 32000-1, 7.5.7 and 7.5.8).

The library writes each object out by itself, with a line in a table: the many small ones of
a tagged file would weigh a quarter of a card. Here they go into object streams.
"""

from __future__ import annotations

import hashlib
import zlib
from collections.abc import Mapping
from typing import Any

from reportlab.pdfbase import pdfdoc

PACKED = 200
"""Objects in one object stream: a reader opens it whole to find one of them."""

_HEAD = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"

Dictionary, Array, Name, String = (
    pdfdoc.PDFDictionary,
    pdfdoc.PDFArray,
    pdfdoc.PDFName,
    pdfdoc.PDFString,
)


class Stream(pdfdoc.PDFObject):  # type: ignore[misc]
    """A stream of bytes with its dictionary, deflated unless ``plain``."""

    __RefOnly__ = 1

    def __init__(
        self, data: bytes, about: Mapping[str, Any] | None = None, *, plain: bool = False
    ) -> None:
        self._data = data if plain else zlib.compress(data, 9)
        self._about = dict(about or {})
        if not plain:
            self._about["Filter"] = Name("FlateDecode")

    def format(self, document: Any) -> bytes:
        """The stream as it stands in the file."""
        head = Dictionary({**self._about, "Length": len(self._data)})
        return b"%s\nstream\n%s\nendstream" % (head.format(document), self._data)


class Document(pdfdoc.PDFDocument):  # type: ignore[misc]
    """Objects with their numbers. The same objects in the same order give the same bytes."""

    def __init__(self) -> None:
        super().__init__(dummyoutline=0, compression=1, invariant=1)

    def written(self, catalog: Any, info: Any) -> bytes:
        """The whole file. Its ID is the digest of what is in it."""
        root, about = (self.Reference(each).format(self) for each in (catalog, info))
        out = bytearray(_HEAD)
        where: dict[int, tuple[int, int, int]] = {0: (0, 0, 65535)}
        small: list[tuple[int, bytes]] = []
        number = 0
        # formatting one object may number others
        while (number := number + 1) in self.numberToId:
            held = self.idToObject[self.numberToId[number]]
            code = pdfdoc.format(held, self, toplevel=1)
            if isinstance(held, Stream):
                where[number] = (1, len(out), 0)
                out += b"%d 0 obj\n%s\nendobj\n" % (number, code)
            else:
                small.append((number, code))
        for start in range(0, len(small), PACKED):
            group = small[start : start + PACKED]
            where |= {held: (2, number, index) for index, (held, _) in enumerate(group)}
            where[number] = (1, len(out), 0)
            out += b"%d 0 obj\n%s\nendobj\n" % (number, _object_stream(group).format(self))
            number += 1
        where[number] = (1, len(out), 0)
        widths = (1, 4, 2)
        rows = b"".join(
            b"".join(value.to_bytes(width, "big") for value, width in zip(row, widths, strict=True))
            for _, row in sorted(where.items())
        )
        digest = hashlib.md5(out, usedforsecurity=False).hexdigest()
        table = Stream(
            rows,
            {
                "Type": Name("XRef"),
                "W": Array(widths),
                "Size": number + 1,
                "Root": root,
                "Info": about,
                "ID": f"[<{digest}> <{digest}>]",
            },
        )
        tail = b"%d 0 obj\n%s\nendobj\nstartxref\n%d\n%%%%EOF\n"
        return bytes(out) + tail % (number, table.format(self), len(out))


def _object_stream(group: list[tuple[int, bytes]]) -> Stream:
    """Objects one after the other, their numbers and places before them."""
    places: list[str] = []
    at = 0
    for number, code in group:
        places.append(f"{number} {at}")
        at += len(code) + 1
    head = f"{' '.join(places)}\n".encode("ascii")
    body = b"\n".join(code for _, code in group)
    about = {"Type": Name("ObjStm"), "N": len(group), "First": len(head)}
    return Stream(head + body, about)
