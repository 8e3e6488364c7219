"""What the pages of a file share: fonts, whose clusters get codes as they are met, and icons."""

from __future__ import annotations

from cards.icons import catalogue
from cards.pdf.clusterfont import build_cluster_font
from cards.pdf.code import Code, array, dictionary, name
from cards.pdf.document import Document
from cards.pdf.embed import embed
from cards.pdf.ink import icon_code
from cards.text.faces import Face
from cards.text.shape import Cluster

EDGE = 4
"""Grid units round an icon that its form takes in, for strokes that reach over its edge."""


class Codes(dict[Cluster, str]):
    """Clusters with their codes as four hex digits, given from 1 in the order they are met."""

    def __missing__(self, cluster: Cluster) -> str:
        code = self[cluster] = f"{len(self) + 1:04X}"
        return code


class Shared:
    """Fonts and icons of one file.

    With ``forms`` an icon is written once and called for where it stands, which pays where many
    cards show it; without, its code stands in the page.
    """

    def __init__(self, document: Document, *, forms: bool) -> None:
        self._document = document
        self._faces: dict[Face, tuple[str, Codes]] = {}
        self._forms: dict[tuple[str, object], Code] | None = {} if forms else None
        self._held: dict[str, Code] = {}

    def face(self, face: Face) -> tuple[str, Codes]:
        """The name of a face on every page, and the codes of its clusters."""
        if face not in self._faces:
            self._faces[face] = f"T{len(self._faces) + 1}", Codes()
        return self._faces[face]

    def icon(self, icon: str, params: tuple[tuple[str, float | str], ...]) -> Code:
        """The code that paints an icon in grid units."""
        if self._forms is None:
            return icon_code(icon, params)
        called = self._forms.get((icon, params))
        if called is None:
            own = f"I{len(self._forms) + 1}"
            drawing = catalogue.find(icon)
            about = {
                "Type": name("XObject"),
                "Subtype": name("Form"),
                "BBox": array([-EDGE, -EDGE, drawing.width + EDGE, drawing.height + EDGE]),
            }
            code = icon_code(icon, params).encode("ascii")
            self._held[own] = self._document.stream(code, about)
            called = self._forms[icon, params] = f"/{own} Do"
        return called

    def resources(self) -> Code:
        """All of it as the pages' resources, when every page is written."""
        fonts = {
            own: embed(self._document, build_cluster_font(face, codes))
            for face, (own, codes) in self._faces.items()
        }
        found = {"Font": dictionary(fonts)}
        if self._held:
            found["XObject"] = dictionary(self._held)
        return dictionary(found)
