"""paint: Pages become the bytes of a PDF. Same pages, same bytes."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from cards.card.model import CardMeta
from cards.layout.pages import Pages
from cards.pdf import about
from cards.pdf.attach import Attached, attach, file_names
from cards.pdf.code import Code, Entries, array, dictionary, name, num, string
from cards.pdf.content import page_content
from cards.pdf.document import Document
from cards.pdf.outline import Entry, entries, headings, outline
from cards.pdf.shared import Shared
from cards.pdf.structure import Structure, structure_of
from cards.pdf.tags import tag, tree

NO_SOURCES: Mapping[str, str] = MappingProxyType({})


def paint(pages: Pages, sources: Mapping[str, str] = NO_SOURCES) -> bytes:
    """The PDF of all pages in order, tagged; ``sources`` are attached to it by their paths."""
    file = _File(forms=False)
    structure = structure_of(pages)
    attached = attach(file.document, sources, pages.meta.revised)
    top = file.add(pages, structure, file.root)
    file.marks += entries(structure)
    more = {"AF": array([reference for _, reference in attached])} if attached else {}
    return file.written(pages.meta, top, attached, more)


class Binding:
    """Cards bound into one PDF, in the order they are added. Same cards, same bytes.

    Fonts and icons are written once for all. A card has a bookmark, an element of the tree, and
    its sources attached to its first page. What was added is kept as it stands in the file, so
    that thousands of cards fit into memory.
    """

    def __init__(self) -> None:
        self._file = _File(forms=True)
        self._top = self._file.document.reserve()
        self._parts: list[Code] = []
        self._attached: list[Attached] = []

    def add(self, pages: Pages, sources: Mapping[str, str] = NO_SOURCES) -> None:
        """Paint a card at the end. ``sources`` have paths that no other card's have."""
        file = self._file
        structure = structure_of(pages, "Part")
        attached = attach(file.document, sources, pages.meta.revised)
        title = next((entry.title for _, entry in headings(structure)), pages.meta.title)
        file.marks.append(Entry(title, len(file.sides)))
        self._parts.append(file.add(pages, structure, self._top, attached))
        self._attached += attached

    def bound(self, meta: CardMeta) -> bytes:
        """The PDF of all cards added; ``meta`` is what it says of itself."""
        file = self._file
        entry = {"S": name("Document"), "P": file.root, "K": array(self._parts)}
        file.document.put(dictionary(entry), self._top)
        return file.written(meta, self._top, self._attached)


class _File:
    """Pages, their tree and their bookmarks on the way into one file."""

    def __init__(self, *, forms: bool) -> None:
        self.document = Document()
        self.root = self.document.reserve()
        self.sides: list[Code] = []
        self.marks: list[Entry] = []
        self._above, self._resources = self.document.reserve(), self.document.reserve()
        self._shared = Shared(self.document, forms=forms)
        self._parents: list[Code] = []
        self._spoken: dict[str, None] = {}

    def add(
        self,
        pages: Pages,
        structure: Structure,
        above: Code,
        attached: list[Attached] | None = None,
    ) -> Code:
        """Write pages and their tree under the element ``above``; gives the tree's first."""
        larger = num(pages.magnify, 5)
        before = "" if pages.magnify == 1 else f"{larger} 0 0 {larger} 0 0 cm\n"
        size = (pages.width * pages.magnify, pages.height * pages.magnify)
        box = array([0, 0, *(num(length, 6) for length in size)])
        own: list[Code] = []
        for stretches in structure.pages:
            content = before + page_content(stretches, pages.height, self._shared)
            side: Entries = {
                "Type": name("Page"),
                "Parent": self._above,
                "MediaBox": box,
                "Resources": self._resources,
                "Contents": self.document.stream(content.encode("ascii")),
                "StructParents": len(self.sides) + len(own),
                # going from field to field follows the structure
                "Tabs": name("S"),
            }
            if attached and not own:
                side["AF"] = array([reference for _, reference in attached])
            own.append(self.document.put(dictionary(side)))
        self.sides += own
        self._spoken |= dict.fromkeys(about.languages(pages))
        tagged = tag(self.document, structure, own, pages, above)
        self._parents += tagged.parents
        return tagged.root

    def written(
        self,
        meta: CardMeta,
        top: Code,
        attached: list[Attached],
        more: Mapping[str, Code] = NO_SOURCES,
    ) -> bytes:
        """The whole file; ``top`` is the first element of its tree, ``more`` for its catalog."""
        document = self.document
        kids: Entries = {
            "Type": name("Pages"),
            "Kids": array(self.sides),
            "Count": len(self.sides),
        }
        document.put(dictionary(kids), self._above)
        document.put(self._shared.resources(), self._resources)
        tree(document, self.root, top, self._parents)
        catalog = {
            "Type": name("Catalog"),
            "Pages": self._above,
            "Lang": string(meta.language),
            "Metadata": about.metadata(document, meta, tuple(self._spoken)),
            "ViewerPreferences": dictionary({"DisplayDocTitle": "true"}),
            "StructTreeRoot": self.root,
            "MarkInfo": dictionary({"Marked": "true"}),
            **more,
        }
        if self.marks:
            catalog["Outlines"] = outline(document, self.marks, self.sides)
        if attached:
            catalog["Names"] = file_names(document, attached)
        return document.written(dictionary(catalog), about.information(meta))
