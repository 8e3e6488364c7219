"""What somebody holds in hand, as codes: typed, in a PDF, or in a picture of the QR code."""

from __future__ import annotations

import io
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import unquote

from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error
from cards.pdf.picture import page_pictures
from cards.pdf.read_back import CODE, PdfTold, read_pdf
from cards.source.workspace import read_whole

LEAST = 4
"""Characters of a code that are enough to look for it."""

_LOOKALIKES = str.maketrans({"o": "0", "i": "1", "l": "1", "s": "5", "z": "2"})
"""No letter over f is in a code: a hand that writes one meant a figure."""

_MOST_PIXELS = 120_000_000


@dataclass(frozen=True, slots=True)
class Paper:
    """One card or page in hand."""

    code: str
    """The digest, or how it begins."""
    path: str = ""
    """Of its file, where the paper tells it."""
    sources: Mapping[str, str] = field(default_factory=dict)
    """Texts that the file carries, of this card and perhaps others, by path."""
    page: str = ""
    """Which page it is, where its address is that of the programme's file."""
    words: str = ""
    """All that is printed on it, where that can be read."""


def papers_of(what: str) -> Result[tuple[Paper, ...]]:
    """The cards that a code, a PDF or a picture speaks of. One error where there is none."""
    path = Path(what)
    data = read_whole(path) if _may_be_file(path) else None
    if data is None:
        paper = typed(what)
        return Result((paper,)) if paper else Result(None, (_no_code(what),))
    if data[:1024].lstrip().startswith(b"%PDF"):
        told = read_pdf(data)
        papers = _printed(told) if told else ()
        papers = papers or tuple(scanned(page) for page in _qr_codes_of_pdf(data))
        why = "no code of a card stands in this file"
    else:
        papers = tuple(scanned(code) for code in _qr_codes(data))
        why = "no QR code can be read in this picture"
    if not papers:
        hint = "take the picture straight from above, in good light; or type the code of the foot"
        return Result(None, (error(Place(path.name), "trace-unread", why, hint),))
    return Result(_once(papers))


def typed(text: str) -> Paper | None:
    """A code written by hand: the digest or its beginning, the foot's line, or the web address."""
    text = text.strip()
    if "?d=" in text:
        return scanned(text)
    whole = CODE.search(text.lower())
    if whole:
        return Paper(whole[0])
    plain = re.sub(r"[\s.-]", "", text.lower()).translate(_LOOKALIKES)
    return Paper(plain) if re.fullmatch(rf"[0-9a-f]{{{LEAST},10}}", plain) else None


def scanned(code: str) -> Paper:
    """What a page's QR code says: an address that ends in a file's path and ``?d=`` digest."""
    address, _, asked = code.strip().partition("?d=")
    digest, _, page = asked.partition("&p=")
    below = re.sub(r"^[a-z]+://[^/]*/", "", address)
    return Paper(digest.strip()[:10], unquote(below), page=page)


def _printed(told: PdfTold) -> tuple[Paper, ...]:
    return tuple(
        Paper(code, "", told.sources, words="\n".join(p for p in told.pages if code in p))
        for code in told.codes
    )


def _once(papers: tuple[Paper, ...]) -> tuple[Paper, ...]:
    return tuple({paper.code: paper for paper in papers}.values())


def _may_be_file(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def _qr_codes(data: bytes) -> list[str]:
    """Codes in a picture; a small or dark one is tried larger and with more contrast too."""
    import zxingcpp
    from PIL import Image, ImageOps, UnidentifiedImageError

    try:
        picture = Image.open(io.BytesIO(data))
        if picture.width * picture.height > _MOST_PIXELS:
            return []
        grey = ImageOps.exif_transpose(picture).convert("L")
    except (UnidentifiedImageError, OSError, ValueError, Image.DecompressionBombError):
        return []
    for tried in (
        grey,
        ImageOps.autocontrast(grey, cutoff=2),
        grey.resize((grey.width * 2, grey.height * 2)),
    ):
        found = [c.text for c in zxingcpp.read_barcodes(tried) if "?d=" in c.text]
        if found:
            return found
    return []


def _qr_codes_of_pdf(data: bytes) -> list[str]:
    """Codes on the pages of a PDF without words, such as a scan."""
    return [code for page in page_pictures(data, 200) for code in _qr_codes(page)]


def _no_code(what: str) -> Diagnostic:
    return error(
        Place(what[:60]),
        "trace-unread",
        "this is no code of a card, and no file",
        "type the ten characters at the foot of the card, or name a PDF or a picture of it",
    )
