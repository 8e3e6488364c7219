"""The structure tree in the file (ISO 32000-1, 14.7 and 14.8)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from cards.layout.pages import Item, Pages
from cards.pdf.document import Array, Dictionary, Document, Name, String
from cards.pdf.structure import Element, Mark, Structure

_ROLES = {"Aside": "Sect"}
"""Elements that the older standard does not name, with those it does."""

_SCOPES = ("Column", "Row")


_BOXED = ("Figure", "Table")
"""Elements that have to say where on the page they are."""


def tag(
    document: Document, structure: Structure, pages: Sequence[Any], placed: Pages
) -> dict[str, Any]:
    """Write the tree. ``pages`` are references to the ``placed`` pages.

    Gives the catalog's entries; page ``n`` must say that ``n`` is its key in the parent tree.
    """
    tree = Dictionary({"Type": Name("StructTreeRoot")})
    root = document.Reference(tree)
    writer = _Writer(document, structure.items, pages, placed)
    tree["K"] = writer.element(structure.root, root)
    tree["RoleMap"] = Dictionary({own: Name(known) for own, known in _ROLES.items()})
    numbers: list[Any] = []
    for index in range(len(pages)):
        marks = sorted(mark for mark in writer.parents if mark.page == index)
        # the list is an object of its own, for readers that expect it to be
        parents = Array([writer.parents[mark] for mark in marks])
        numbers += [index, document.Reference(parents)]
    tree["ParentTree"] = document.Reference(Dictionary({"Nums": Array(numbers)}))
    tree["ParentTreeNextKey"] = len(pages)
    return {"StructTreeRoot": root, "MarkInfo": Dictionary({"Marked": "true"})}


class _Writer:
    """Writes elements and keeps in mind whose each mark is."""

    def __init__(
        self,
        document: Document,
        items: Mapping[Mark, tuple[Item, ...]],
        pages: Sequence[Any],
        placed: Pages,
    ) -> None:
        self._document, self._items, self._pages, self._placed = document, items, pages, placed
        self.parents: dict[Mark, Any] = {}

    def element(self, element: Element, parent: Any) -> Any:
        """An element and all in it; gives the reference to it."""
        found = Dictionary({"S": Name(element.tag.kind), "P": parent})
        own = self._document.Reference(found)
        home = next((i.page for i in element.inside if isinstance(i, Mark)), None)
        kids = [self._kid(inner, own, home) for inner in element.inside]
        found["K"] = kids[0] if len(kids) == 1 else Array(kids)
        if home is not None:
            found["Pg"] = self._pages[home]
        if element.tag.alt:
            found["Alt"] = String(element.tag.alt)
        if element.tag.language:
            found["Lang"] = String(element.tag.language)
        attributes = self._attributes(element)
        if attributes:
            found["A"] = attributes[0] if len(attributes) == 1 else Array(attributes)
        return own

    def _kid(self, inner: Element | Mark, own: Any, home: int | None) -> Any:
        if isinstance(inner, Element):
            return self.element(inner, own)
        self.parents[inner] = own
        if inner.page == home:
            return inner.number
        about = {"Type": Name("MCR"), "Pg": self._pages[inner.page], "MCID": inner.number}
        return Dictionary(about)

    def _attributes(self, element: Element) -> list[Any]:
        tag, found = element.tag, []
        if tag.how in _SCOPES:
            found.append(Dictionary({"O": Name("Table"), "Scope": Name(tag.how)}))
        elif tag.how:
            found.append(Dictionary({"O": Name("List"), "ListNumbering": Name(tag.how)}))
        marks = [m for e in element.walk() for m in e.inside if isinstance(m, Mark)]
        if tag.kind in _BOXED and len({mark.page for mark in marks}) == 1:
            boxes = [item.box for mark in marks for item in self._items[mark]]
            left, top, right, bottom = (
                pick(side)
                for pick, side in zip((min, min, max, max), zip(*boxes, strict=True), strict=True)
            )
            height, larger = self._placed.height, self._placed.magnify
            corners = (left, height - bottom, right, height - top)
            box = Array([round(value * larger, 1) for value in corners])
            found.append(Dictionary({"O": Name("Layout"), "BBox": box}))
        return found
