"""Bookmarks: a line a heading, the smaller ones below the larger."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from cards.pdf.document import Array, Dictionary, Document, Name, String
from cards.pdf.structure import Element, Mark, Structure, words_in


@dataclass
class Entry:
    """A bookmark: its words, the index of its page, and the bookmarks below it."""

    title: str
    page: int
    below: list[Entry] = field(default_factory=list)


def entries(structure: Structure) -> list[Entry]:
    """Headings as bookmarks. The second of the same title is numbered: a card has two sides."""
    found: list[Entry] = []
    seen: dict[str, int] = {}
    for element in structure.root.walk():
        if element.tag.kind not in ("H1", "H2"):
            continue
        title = words_in(element, structure.items)
        page = _page(element)
        if element.tag.kind == "H2" and found:
            found[-1].below.append(Entry(title, page))
            continue
        seen[title] = seen.get(title, 0) + 1
        found.append(Entry(title if seen[title] == 1 else f"{title} ({seen[title]})", page))
    return found


def _page(element: Element) -> int:
    return next(
        mark.page for inner in element.walk() for mark in inner.inside if isinstance(mark, Mark)
    )


def outline(document: Document, found: Sequence[Entry], pages: Sequence[Any]) -> dict[str, Any]:
    """Write bookmarks, the lower ones folded. ``pages`` are references. Gives catalog entries."""
    if not found:
        return {}
    top = Dictionary({"Type": Name("Outlines"), "Count": len(found)})
    own = document.Reference(top)
    _row(document, found, top, own, pages)
    return {"Outlines": own}


def _row(
    document: Document, found: Sequence[Entry], parent: Any, reference: Any, pages: Sequence[Any]
) -> None:
    written = [
        Dictionary(
            {
                "Title": String(entry.title),
                "Parent": reference,
                "Dest": Array([pages[entry.page], Name("Fit")]),
            }
        )
        for entry in found
    ]
    own = [document.Reference(each) for each in written]
    parent["First"], parent["Last"] = own[0], own[-1]
    for index, entry in enumerate(found):
        if index:
            written[index]["Prev"] = own[index - 1]
        if index + 1 < len(found):
            written[index]["Next"] = own[index + 1]
        if entry.below:
            written[index]["Count"] = -len(entry.below)
            _row(document, entry.below, written[index], own[index], pages)
