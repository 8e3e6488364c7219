"""Pages of finished PDFs set on new pages, as they are: text stays text, fonts come once."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass, field

from pypdf import PageObject, PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    BooleanObject,
    DecodedStreamObject,
    DictionaryObject,
    FloatObject,
    IndirectObject,
    NameObject,
    TextStringObject,
)

from cards.layout.office.affine import STILL, Matrix

Box = tuple[float, float, float, float]
"""Left, bottom, right, top in points, y upwards."""


@dataclass(frozen=True, slots=True)
class Laid:
    """A page of one of the files, laid on a new page; of what ``clip`` leaves out, nothing."""

    file: int
    page: int
    matrix: Matrix = STILL
    clip: Box | None = None


@dataclass(frozen=True, slots=True)
class Patch:
    """White paper over what was laid before."""

    box: Box


@dataclass(frozen=True, slots=True)
class Sheet:
    """A new page, in points: what lies on it, the lowest first."""

    width: float
    height: float
    laid: tuple[Laid | Patch, ...]


@dataclass(frozen=True, slots=True)
class About:
    """What the new file says of itself, and what the print dialog should begin with.

    ``duplex`` is the edge to turn the paper about, or empty for one side.
    """

    title: str
    author: str = ""
    language: str = "en"
    duplex: str = field(default="")


def page_sizes(data: bytes) -> tuple[tuple[float, float], ...]:
    """Width and height of a file's pages in points, as they are seen. Raises PdfReadError."""
    return tuple(_seen(page)[1] for page in PdfReader(io.BytesIO(data)).pages)


def assemble(files: Sequence[bytes], sheets: Sequence[Sheet], about: About) -> bytes:
    """New pages of the files' pages. Same files and sheets, same bytes. Raises PdfReadError.

    A page that is laid several times is kept once. What belongs to reading on a
    screen is left out: links, bookmarks, the tree of tags.
    """
    readers = [PdfReader(io.BytesIO(data)) for data in files]
    writer = PdfWriter()
    writer.pdf_header = "%PDF-1.7"
    forms: dict[tuple[int, int], IndirectObject] = {}
    for sheet in sheets:
        page = writer.add_blank_page(sheet.width, sheet.height)
        code: list[str] = []
        names: dict[tuple[int, int], str] = {}
        for laid in sheet.laid:
            if isinstance(laid, Patch):
                left, bottom, right, top = laid.box
                code.append(f"1 g {_nums(left, bottom, right - left, top - bottom)} re f 0 g")
                continue
            key = (laid.file, laid.page)
            if key not in forms:
                forms[key] = _form(writer, readers[laid.file].pages[laid.page])
            name = names.setdefault(key, f"L{len(names)}")
            clip = ""
            if laid.clip is not None:
                left, bottom, right, top = laid.clip
                clip = f"{_nums(left, bottom, right - left, top - bottom)} re W n "
            code.append(f"q {clip}{_nums(*laid.matrix)} cm /{name} Do Q")
        content = DecodedStreamObject()
        content.set_data("\n".join(code).encode("ascii"))
        page[NameObject("/Contents")] = writer._add_object(content.flate_encode())
        shown = {NameObject(f"/{name}"): forms[key] for key, name in names.items()}
        page[NameObject("/Resources")] = DictionaryObject(
            {NameObject("/XObject"): DictionaryObject(shown)}
        )
    _describe(writer, about)
    writer.compress_identical_objects()
    stream = io.BytesIO()
    writer.write(stream)
    return stream.getvalue()


def one_after_another(files: Sequence[bytes], about: About) -> bytes:
    """All pages of the files as they are, each file on sheets of its own. Raises PdfReadError.

    Where the paper is printed on both sides, a file with an odd number of pages gets an empty one.
    """
    sheets: list[Sheet] = []
    for number, data in enumerate(files):
        sizes = page_sizes(data)
        sheets += [Sheet(*size, (Laid(number, page),)) for page, size in enumerate(sizes)]
        if about.duplex and len(sizes) % 2:
            sheets.append(Sheet(*sizes[-1], ()))
    return assemble(files, sheets, about)


def _form(writer: PdfWriter, page: PageObject) -> IndirectObject:
    """A page as a form, upright and with its lower left corner at nought."""
    matrix, _ = _seen(page)
    content = page.get_contents()
    plain = DecodedStreamObject()
    plain.set_data(content.get_data() if content is not None else b"")
    form = plain.flate_encode()
    form[NameObject("/Type")] = NameObject("/XObject")
    form[NameObject("/Subtype")] = NameObject("/Form")
    form[NameObject("/BBox")] = _array(*page.cropbox)
    if matrix != STILL:
        form[NameObject("/Matrix")] = _array(*matrix)
    for key in ("/Resources", "/Group"):
        if key in page:
            form[NameObject(key)] = page[key].clone(writer)
    return writer._add_object(form)


def _seen(page: PageObject) -> tuple[Matrix, tuple[float, float]]:
    """How a page is turned and moved to be seen, and the size it then has."""
    left, bottom, right, top = (float(n) for n in page.cropbox)
    width, height = right - left, top - bottom
    turns: dict[int, Matrix] = {
        0: (1, 0, 0, 1, -left, -bottom),
        90: (0, -1, 1, 0, -bottom, right),
        180: (-1, 0, 0, -1, right, top),
        270: (0, 1, -1, 0, top, -left),
    }
    turn = page.rotation % 360
    return turns[turn], (height, width) if turn in (90, 270) else (width, height)


def _describe(writer: PdfWriter, about: About) -> None:
    told = {"/Title": about.title, "/Author": about.author}
    made = {"/Creator": "recipe-cards", "/Producer": "recipe-cards"}
    writer.add_metadata({key: text for key, text in {**told, **made}.items() if text})
    root = writer.root_object
    root[NameObject("/Lang")] = TextStringObject(about.language)
    # ISO 32000-1, table 150: how the print dialog should begin (memory)
    wishes = {
        NameObject("/DisplayDocTitle"): BooleanObject(True),
        NameObject("/PrintScaling"): NameObject("/None"),
    }
    duplex = {"long": "/DuplexFlipLongEdge", "short": "/DuplexFlipShortEdge"}.get(about.duplex)
    wishes[NameObject("/Duplex")] = NameObject(duplex or "/Simplex")
    root[NameObject("/ViewerPreferences")] = DictionaryObject(wishes)


def _array(*numbers: float) -> ArrayObject:
    return ArrayObject([FloatObject(n) for n in numbers])


def _nums(*numbers: float) -> str:
    return " ".join(f"{n:.4f}".rstrip("0").rstrip(".") for n in numbers)
