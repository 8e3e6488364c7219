"""The files a card was made from, in the card (ISO 32000-2, 14.13)."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from pathlib import PurePosixPath

from cards.pdf.code import Code, Entries, array, dictionary, name, string
from cards.pdf.document import Document

YAML_TYPE = "application/yaml"
"""The media type of YAML (RFC 9512)."""

Attached = tuple[str, Code]
"""A file's path and the reference to it."""


def attach(document: Document, sources: Mapping[str, str], revised: str) -> list[Attached]:
    """Put the texts in as UTF-8, sorted by their paths."""
    return [
        (path, document.put(_file(document, path, text.encode("utf-8"), revised)))
        for path, text in sorted(sources.items())
    ]


def file_names(document: Document, attached: Sequence[Attached]) -> Code:
    """The tree of names by which readers list the files."""
    names = [part for path, file in sorted(attached) for part in (string(path), file)]
    return dictionary({"EmbeddedFiles": document.put(dictionary({"Names": array(names)}))})


def _file(document: Document, path: str, data: bytes, revised: str) -> Code:
    digest = hashlib.md5(data, usedforsecurity=False).hexdigest()
    params: Entries = {"Size": len(data), "CheckSum": f"<{digest}>"}
    if revised:
        params["ModDate"] = string(f"D:{revised.replace('-', '')}")
    about = {
        "Type": name("EmbeddedFile"),
        "Subtype": name(YAML_TYPE),
        "Params": dictionary(params),
    }
    held = document.stream(data, about)
    # a reader saves under the file's own name; its folder stands in the tree of names
    own = string(PurePosixPath(path).name)
    return dictionary(
        {
            "Type": name("Filespec"),
            "F": own,
            "UF": own,
            "Desc": string(path),
            "AFRelationship": name("Source"),
            "EF": dictionary({"F": held, "UF": held}),
        }
    )
