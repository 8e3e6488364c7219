"""The structure tree in the file (ISO 32000-1, 14.7 and 14.8)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from cards.pdf.document import Array, Dictionary, Document, Name, String
from cards.pdf.structure import Element, Mark, Structure

_ROLES = {"Aside": "Sect"}
"""Elements that the older standard does not name, with those it does."""

_SCOPES = ("Column", "Row")


def tag(document: Document, structure: Structure, pages: Sequence[Any]) -> dict[str, Any]:
    """Write the tree. ``pages`` are references to the pages.

    Gives the catalog's entries; page ``n`` must say that ``n`` is its key in the parent tree.
    """
    tree = Dictionary({"Type": Name("StructTreeRoot")})
    root = document.Reference(tree)
    parents: dict[Mark, Any] = {}
    tree["K"] = _element(document, structure.root, root, pages, parents)
    tree["RoleMap"] = Dictionary({own: Name(known) for own, known in _ROLES.items()})
    numbers: list[Any] = []
    for index in range(len(pages)):
        marks = sorted((m for m in parents if m.page == index), key=lambda mark: mark.number)
        # the list is an object of its own, for readers that expect it to be
        numbers += [index, document.Reference(Array([parents[mark] for mark in marks]))]
    tree["ParentTree"] = document.Reference(Dictionary({"Nums": Array(numbers)}))
    tree["ParentTreeNextKey"] = len(pages)
    return {"StructTreeRoot": root, "MarkInfo": Dictionary({"Marked": "true"})}


def _element(
    document: Document,
    element: Element,
    parent: Any,
    pages: Sequence[Any],
    parents: dict[Mark, Any],
) -> Any:
    """Write an element and all in it; ``parents`` learns whose each mark is."""
    found = Dictionary({"S": Name(element.tag.kind), "P": parent})
    own = document.Reference(found)
    marks = [inner for inner in element.inside if isinstance(inner, Mark)]
    home = marks[0].page if marks else None
    kids: list[Any] = []
    for inner in element.inside:
        if isinstance(inner, Element):
            kids.append(_element(document, inner, own, pages, parents))
            continue
        parents[inner] = own
        if inner.page == home:
            kids.append(inner.number)
        else:
            kids.append(
                Dictionary({"Type": Name("MCR"), "Pg": pages[inner.page], "MCID": inner.number})
            )
    found["K"] = kids[0] if len(kids) == 1 else Array(kids)
    if home is not None:
        found["Pg"] = pages[home]
    if element.tag.alt:
        found["Alt"] = String(element.tag.alt)
    if element.tag.language:
        found["Lang"] = String(element.tag.language)
    if element.tag.how in _SCOPES:
        found["A"] = Dictionary({"O": Name("Table"), "Scope": Name(element.tag.how)})
    elif element.tag.how:
        found["A"] = Dictionary({"O": Name("List"), "ListNumbering": Name(element.tag.how)})
    return own
