"""Objects of a PDF as they are written (ISO 32000-1, 7.3): text of one byte a character."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache

Code = str
"""A value as it stands in the file; its characters are those of Latin-1."""

Entries = dict[str, Code | float]
"""A dictionary's entries by name, on their way into it."""

_AS_IT_IS = re.compile(r"(?!\u00fe\u00ff|\u00ef\u00bb\u00bf)[ -~\u00a1-\u00ac\u00ae-\u00ff]*")
"""What PDFDocEncoding has in the same place as Latin-1 (ISO 32000-1, annex D; memory).

Words that begin like a byte order mark would be taken for another encoding.
"""

_NO_NAME = re.compile(r"[^!-~]|[%()<>{}\[\]#/]")

_ESCAPED = str.maketrans({"\\": "\\\\", "(": "\\(", ")": "\\)", "\r": "\\r"})


def num(value: float, places: int = 3) -> Code:
    """A number without needless digits."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


@cache
def name(text: str) -> Code:
    """A name; what may not stand in one is written by its number."""
    return "/" + _NO_NAME.sub(lambda found: f"#{ord(found[0]):02X}", text)


def string(text: str) -> Code:
    """Words, in PDFDocEncoding if that has all their letters, else in UTF-16."""
    if not _AS_IT_IS.fullmatch(text):
        text = (b"\xfe\xff" + text.encode("utf-16-be")).decode("latin-1")
    return f"({text.translate(_ESCAPED)})"


def array(values: Iterable[Code | float]) -> Code:
    """Values in a row."""
    return f"[{' '.join([_value(v) for v in values])}]"


def dictionary(entries: Mapping[str, Code | float]) -> Code:
    """Values by name, in the order given."""
    return f"<<{' '.join([f'/{key} {_value(value)}' for key, value in entries.items()])}>>"


def _value(value: Code | float) -> Code:
    if isinstance(value, str):
        return value
    return str(value) if isinstance(value, int) else num(value)
