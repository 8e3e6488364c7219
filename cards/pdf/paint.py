"""paint: Pages become the bytes of a PDF. Same pages, same bytes."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from cards.layout.pages import Pages, TextItem
from cards.pdf import about
from cards.pdf.attach import attach
from cards.pdf.clusterfont import ClusterFont, build_cluster_font
from cards.pdf.content import page_content
from cards.pdf.document import Array, Dictionary, Document, Name, Stream, String
from cards.pdf.embed import embed
from cards.pdf.ink import num
from cards.pdf.outline import entries, outline
from cards.pdf.structure import structure_of
from cards.pdf.tags import tag
from cards.text.faces import Face
from cards.text.shape import Cluster, blank_clusters

NO_SOURCES: Mapping[str, str] = MappingProxyType({})


def paint(pages: Pages, sources: Mapping[str, str] = NO_SOURCES) -> bytes:
    """The PDF of all pages in order, tagged; ``sources`` are attached to it by their paths."""
    document = Document()
    structure = structure_of(pages)
    fonts = {
        face: (f"T{number}", font) for number, (face, font) in enumerate(_fonts(pages).items(), 1)
    }
    tree = Dictionary({"Type": Name("Pages")})
    above = document.Reference(tree)
    named = {name: embed(document, font) for name, font in fonts.values()}
    resources = document.Reference(Dictionary({"Font": Dictionary(named)}))
    sides: list[Any] = []
    larger = num(pages.magnify, 5)
    before = "" if pages.magnify == 1 else f"{larger} 0 0 {larger} 0 0 cm\n"
    for number, stretches in enumerate(structure.pages):
        content = before + page_content(stretches, pages.height, fonts)
        side = {
            "Type": Name("Page"),
            "Parent": above,
            "MediaBox": Array([0, 0, pages.width * pages.magnify, pages.height * pages.magnify]),
            "Resources": resources,
            "Contents": Stream(content.encode("ascii")),
            "StructParents": number,
            # going from field to field follows the structure
            "Tabs": Name("S"),
        }
        sides.append(document.Reference(Dictionary(side)))
    tree["Kids"], tree["Count"] = Array(sides), len(sides)
    catalog = {
        "Type": Name("Catalog"),
        "Pages": above,
        "Lang": String(pages.meta.language),
        "Metadata": about.metadata(pages.meta, about.languages(pages)),
        "ViewerPreferences": Dictionary({"DisplayDocTitle": "true"}),
        **tag(document, structure, sides, pages),
        **outline(document, entries(structure), sides),
        **attach(document, sources, pages.meta.revised),
    }
    return document.written(Dictionary(catalog), about.information(pages.meta))


def _fonts(pages: Pages) -> dict[Face, ClusterFont]:
    """One cluster font for each face used, in a fixed order."""
    used: dict[Face, set[Cluster]] = {}
    for page in pages.pages:
        for item in page.items:
            if isinstance(item, TextItem):
                for piece in item.line.pieces:
                    clusters = (*piece.clusters, *blank_clusters(piece.face))
                    used.setdefault(piece.face, set()).update(clusters)
    return {
        face: build_cluster_font(face, used[face])
        for face in sorted(used, key=lambda f: (f.family, f.weight))
    }
