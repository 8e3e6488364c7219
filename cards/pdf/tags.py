"""The structure tree in the file (ISO 32000-1, 14.7 and 14.8)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from cards.layout.pages import Pages, Placed
from cards.pdf.code import Code, Entries, array, dictionary, name, num, string
from cards.pdf.document import Document
from cards.pdf.structure import Element, Mark, Structure

_ROLES = {"Aside": "Sect"}
"""Elements that the older standard does not name, with those it does."""

_SCOPES = ("Column", "Row")


_BOXED = ("Figure", "Table")
"""Elements that have to say where on the page they are."""


@dataclass(frozen=True, slots=True)
class Tagged:
    """A tree in the file: the reference to its first element, and those of each page's parents.

    A page's parents are the elements that its marks stand in, in the order of their numbers.
    """

    root: Code
    parents: tuple[Code, ...]


def tag(
    document: Document, structure: Structure, pages: Sequence[Code], placed: Pages, above: Code
) -> Tagged:
    """Write the tree under the element ``above``; ``pages`` are references to those ``placed``."""
    writer = _Writer(document, structure.items, pages, placed)
    root = writer.element(structure.root, above)
    found: list[Code] = []
    for index in range(len(pages)):
        marks = sorted([mark for mark in writer.parents if mark.page == index])
        # the list is an object of its own, for readers that expect it to be
        found.append(document.put(array([writer.parents[mark] for mark in marks])))
    return Tagged(root, tuple(found))


def tree(document: Document, own: Code, top: Code, parents: Sequence[Code]) -> None:
    """Put the tree's root under its reserved reference. Page ``n`` has the ``n``-th parents."""
    numbers = [part for number, found in enumerate(parents) for part in (number, found)]
    entries: Entries = {
        "Type": name("StructTreeRoot"),
        "K": top,
        "RoleMap": dictionary({role: name(known) for role, known in _ROLES.items()}),
        "ParentTree": document.put(dictionary({"Nums": array(numbers)})),
        "ParentTreeNextKey": len(parents),
    }
    document.put(dictionary(entries), own)


class _Writer:
    """Writes elements and keeps in mind whose each mark is."""

    def __init__(
        self,
        document: Document,
        items: Mapping[Mark, tuple[Placed, ...]],
        pages: Sequence[Code],
        placed: Pages,
    ) -> None:
        self._document, self._items, self._pages, self._placed = document, items, pages, placed
        self.parents: dict[Mark, Code] = {}

    def element(self, element: Element, parent: Code) -> Code:
        """An element and all in it; gives the reference to it."""
        own = self._document.reserve()
        home = next((i.page for i in element.inside if isinstance(i, Mark)), None)
        kids = [self._kid(inner, own, home) for inner in element.inside]
        tag = element.tag
        # written out: there are over a hundred to a card
        code = f"/S {name(tag.kind)} /P {parent} /K {kids[0] if len(kids) == 1 else array(kids)}"
        if home is not None:
            code += f" /Pg {self._pages[home]}"
        if tag.alt:
            code += f" /Alt {string(tag.alt)}"
        if tag.language:
            code += f" /Lang {string(tag.language)}"
        attributes = self._attributes(element) if tag.how or tag.kind in _BOXED else []
        if attributes:
            code += f" /A {attributes[0] if len(attributes) == 1 else array(attributes)}"
        return self._document.put(f"<<{code}>>", own)

    def _kid(self, inner: Element | Mark, own: Code, home: int | None) -> Code | float:
        if isinstance(inner, Element):
            return self.element(inner, own)
        self.parents[inner] = own
        if inner.page == home:
            return inner.number
        page = self._pages[inner.page]
        return dictionary({"Type": name("MCR"), "Pg": page, "MCID": inner.number})

    def _attributes(self, element: Element) -> list[Code]:
        tag, found = element.tag, []
        if tag.how in _SCOPES:
            found.append(dictionary({"O": name("Table"), "Scope": name(tag.how)}))
        elif tag.how:
            found.append(dictionary({"O": name("List"), "ListNumbering": name(tag.how)}))
        if tag.kind not in _BOXED:
            return found
        marks = [m for e in element.walk() for m in e.inside if isinstance(m, Mark)]
        if len({mark.page for mark in marks}) == 1:
            boxes = [item.box for mark in marks for item in self._items[mark]]
            lefts, tops, rights, bottoms = zip(*boxes, strict=True)
            height, larger = self._placed.height, self._placed.magnify
            corners = (min(lefts), height - max(bottoms), max(rights), height - min(tops))
            box = array([num(value * larger, 1) for value in corners])
            found.append(dictionary({"O": name("Layout"), "BBox": box}))
        return found
