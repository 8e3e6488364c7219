"""The files a card was made from, in the card (ISO 32000-2, 14.13)."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from pathlib import PurePosixPath
from typing import Any

from cards.pdf.document import Array, Dictionary, Document, Name, Stream, String

YAML_TYPE = "/application#2Fyaml"
"""The media type of YAML (RFC 9512) as a name, in which a slash is written by its number."""


def attach(document: Document, sources: Mapping[str, str], revised: str) -> dict[str, Any]:
    """Put the texts in as UTF-8, by their paths. Gives the catalog's entries."""
    if not sources:
        return {}
    names: list[Any] = []
    files: list[Any] = []
    for path, text in sorted(sources.items()):
        file = document.Reference(_file(document, path, text.encode("utf-8"), revised))
        names += [String(path), file]
        files.append(file)
    tree = Dictionary({"EmbeddedFiles": Dictionary({"Names": Array(names)})})
    return {"Names": tree, "AF": Array(files)}


def _file(document: Document, path: str, data: bytes, revised: str) -> Any:
    digest = hashlib.md5(data, usedforsecurity=False).hexdigest()
    params = Dictionary({"Size": len(data), "CheckSum": f"<{digest}>"})
    if revised:
        params["ModDate"] = String(f"D:{revised.replace('-', '')}")
    about = {"Type": Name("EmbeddedFile"), "Subtype": YAML_TYPE, "Params": params}
    held = document.Reference(Stream(data, about))
    # a reader saves under the file's own name; its folder stands in the tree of names
    name = String(PurePosixPath(path).name)
    return Dictionary(
        {
            "Type": Name("Filespec"),
            "F": name,
            "UF": name,
            "Desc": String(path),
            "AFRelationship": Name("Source"),
            "EF": Dictionary({"F": held, "UF": held}),
        }
    )
