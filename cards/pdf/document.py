"""A file of numbered objects, written packed (ISO 32000-1, 7.5.7 and 7.5.8).

Objects are written as they come, so that a file of thousands of cards takes little more
memory than it has bytes. The many small ones of a tagged file go into object streams: written
out each by itself, with a line in a table, they would weigh a quarter of a card.
"""

from __future__ import annotations

import hashlib
import struct
import zlib
from collections.abc import Mapping

from cards.pdf.code import Code, Entries, array, dictionary, name

PACKED = 200
"""Objects in one object stream: a reader opens it whole to find one of them."""

_HEAD = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"

_WIDTHS = (1, 4, 2)
"""Bytes of the three fields of a row in the table of objects."""

_ROW = sum(_WIDTHS)


class Document:
    """Objects with their numbers. The same objects in the same order give the same bytes.

    A reference is the code that stands for an object in others, as "12 0 R".
    """

    def __init__(self) -> None:
        self._out = bytearray(_HEAD)
        # one array, not a row an object: there are hundreds to a card
        self._rows = bytearray(_row(0, 0, 65535))
        self._count = 1
        self._small: list[tuple[int, bytes]] = []

    def reserve(self) -> Code:
        """A reference to an object that is put later."""
        self._rows += bytes(_ROW)
        self._count += 1
        return f"{self._count - 1} 0 R"

    def put(self, code: Code, reference: Code = "") -> Code:
        """Take an object in, under a reserved reference or a new one, which it gives."""
        reference = reference or self.reserve()
        self._small.append((_number(reference), code.encode("latin-1")))
        if len(self._small) == PACKED:
            self._pack()
        return reference

    def stream(
        self, data: bytes, about: Mapping[str, Code | float] | None = None, *, plain: bool = False
    ) -> Code:
        """Take a stream of bytes in, deflated unless ``plain``. Gives its reference."""
        reference = self.reserve()
        entries: Entries = dict(about or {})
        if not plain:
            data, entries["Filter"] = zlib.compress(data, 9), name("FlateDecode")
        self._write(_number(reference), data, entries)
        return reference

    def written(self, catalog: Code, info: Code) -> bytes:
        """The whole file. Its ID is the digest of what is in it."""
        root, about = self.put(catalog), self.put(info)
        self._pack()
        digest = hashlib.md5(self._out, usedforsecurity=False).hexdigest()
        start = len(self._out)
        number = _number(self.reserve())
        self._enter(number, 1, start, 0)
        entries: Entries = {
            "Type": name("XRef"),
            "W": array(_WIDTHS),
            "Size": number + 1,
            "Root": root,
            "Info": about,
            "ID": f"[<{digest}> <{digest}>]",
            "Filter": name("FlateDecode"),
            "DecodeParms": dictionary({"Predictor": 12, "Columns": _ROW}),
        }
        self._write(number, zlib.compress(_steps(self._rows), 9), entries)
        self._out += b"startxref\n%d\n%%%%EOF\n" % start
        return bytes(self._out)

    def _write(self, number: int, data: bytes, about: Mapping[str, Code | float]) -> None:
        self._enter(number, 1, len(self._out), 0)
        head = dictionary({**about, "Length": len(data)}).encode("latin-1")
        self._out += b"%d 0 obj\n%s\nstream\n" % (number, head)
        self._out += data
        self._out += b"\nendstream\nendobj\n"

    def _pack(self) -> None:
        """Small objects into a stream, one after the other, their numbers and places first."""
        if not self._small:
            return
        places: list[str] = []
        at = 0
        for number, code in self._small:
            places.append(f"{number} {at}")
            at += len(code) + 1
        head = f"{' '.join(places)}\n".encode("ascii")
        body = b"\n".join(code for _, code in self._small)
        about: Entries = {"Type": name("ObjStm"), "N": len(self._small), "First": len(head)}
        home = _number(self.stream(head + body, about))
        for index, (number, _) in enumerate(self._small):
            self._enter(number, 2, home, index)
        self._small = []

    def _enter(self, number: int, *fields: int) -> None:
        self._rows[number * _ROW : (number + 1) * _ROW] = _row(*fields)


def _number(reference: Code) -> int:
    return int(reference[:-4])


def _row(*fields: int) -> bytes:
    return struct.pack(">BIH", *fields)


def _steps(rows: bytearray) -> bytes:
    """Each row as what it adds to the one before: PNG's filter Up, which packs far smaller."""
    count = len(rows) // _ROW
    out = bytearray(count * (_ROW + 1))
    out[:: _ROW + 1] = bytes((2,)) * count
    for place in range(_ROW):
        column = rows[place::_ROW]
        steps = [(own - above) & 255 for own, above in zip(column, b"\0" + column, strict=False)]
        out[place + 1 :: _ROW + 1] = bytes(steps)
    return bytes(out)
