"""Bookmarks: a line a heading, the smaller ones below the larger."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from cards.pdf.code import Code, Entries, array, dictionary, name, string
from cards.pdf.document import Document
from cards.pdf.structure import Element, Mark, Structure, words_in


@dataclass
class Entry:
    """A bookmark: its words, the index of its page, and the bookmarks below it."""

    title: str
    page: int
    below: list[Entry] = field(default_factory=list)


def entries(structure: Structure) -> list[Entry]:
    """Headings as bookmarks."""
    found: list[Entry] = []
    for kind, entry in headings(structure):
        if kind == "H2" and found:
            found[-1].below.append(entry)
        else:
            found.append(entry)
    return found


def headings(structure: Structure) -> Iterator[tuple[str, Entry]]:
    """Headings in reading order, each with its kind."""
    items = structure.items
    for element in structure.root.walk():
        if element.tag.kind in ("H1", "H2"):
            yield element.tag.kind, Entry(words_in(element, items), _page(element))


def _page(element: Element) -> int:
    return next(
        mark.page for inner in element.walk() for mark in inner.inside if isinstance(mark, Mark)
    )


def numbered(found: Sequence[Entry]) -> list[Entry]:
    """The second of the same title is numbered: a card has two sides."""
    seen: dict[str, int] = {}
    told: list[Entry] = []
    for entry in found:
        count = seen[entry.title] = seen.get(entry.title, 0) + 1
        title = entry.title if count == 1 else f"{entry.title} ({count})"
        told.append(Entry(title, entry.page, entry.below))
    return told


def outline(document: Document, found: Sequence[Entry], pages: Sequence[Code]) -> Code:
    """Write bookmarks, the lower ones folded. ``pages`` are references. Gives the reference."""
    own = document.reserve()
    ends = _row(document, numbered(found), own, pages)
    top: Entries = {"Type": name("Outlines"), "Count": len(found), **ends}
    return document.put(dictionary(top), own)


def _row(
    document: Document, found: Sequence[Entry], parent: Code, pages: Sequence[Code]
) -> dict[str, Code]:
    """Bookmarks of one level; gives the first and the last for what stands above them."""
    own = [document.reserve() for _ in found]
    for index, entry in enumerate(found):
        entries: Entries = {
            "Title": string(entry.title),
            "Parent": parent,
            "Dest": array([pages[entry.page], name("Fit")]),
        }
        if index:
            entries["Prev"] = own[index - 1]
        if index + 1 < len(found):
            entries["Next"] = own[index + 1]
        if entry.below:
            entries["Count"] = -len(entry.below)
            entries |= _row(document, entry.below, own[index], pages)
        document.put(dictionary(entries), own[index])
    return {"First": own[0], "Last": own[-1]}
