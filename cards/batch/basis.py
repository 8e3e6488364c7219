"""What everything made or checked rests on besides the recipe's own files, as one digest."""

from __future__ import annotations

import hashlib
import platform
from importlib.metadata import version

import cards
from cards.batch.kit import Kit
from cards.source.workspace import digest, package_files

_MOST_BYTES = 100_000_000
"""A larger file of the program or a font is not ours."""

_LIBRARIES = (
    "babel",
    "fonttools",
    "jinja2",
    "pint",
    "pydantic",
    "pypdf",
    "python-bidi",
    "pyyaml",
    "qrcode",
    "uharfbuzz",
)
"""Libraries that a message or a page may turn on."""


def rests_on(kit: Kit) -> str:
    """SHA-256 of all that a check or a card rests on besides the recipe's own files.

    That is the program with its data, the libraries it works with, the fonts, and the texts
    of programme, words, layout, font list, own foods and own needs, and the languages printed.
    """
    parts = [cards.__version__, platform.python_version(), *kit.programme.printed]
    parts += [f"{name} {version(name)}" for name in _LIBRARIES]
    parts += [str(digest(package_files(), _MOST_BYTES)), str(digest(kit.book.files, _MOST_BYTES))]
    parts += [part for source in sorted(kit.sources.items()) for part in source]
    whole = hashlib.sha256()
    for part in parts:
        data = part.encode("utf-8", "surrogateescape")
        whole.update(f"{len(data)}:".encode() + data)
    return whole.hexdigest()
