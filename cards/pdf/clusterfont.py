"""A font in which every shaped cluster is one glyph, so that text comes back out of the file.

Shaped text written glyph by glyph loses its source: readers find signs
reordered or missing. Here each distinct cluster (text, glyphs, advance)
becomes one composite TrueType glyph whose character code maps, in the file's
ToUnicode table, to the cluster's source text. A line is then one plain
string, and every reader gives the source back.
"""

from __future__ import annotations

import io
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables._g_l_y_f import Glyph

from cards.text.faces import Axes, Face
from cards.text.shape import Cluster


@dataclass(frozen=True, slots=True)
class ClusterFont:
    """A TrueType file and what a PDF needs to know of it.

    ``codes`` gives each cluster's character code, which is also its glyph id;
    the glyphs they are composed of come after them.
    Widths, box and heights are in thousandths of the type size.
    """

    name: str
    data: bytes
    codes: dict[Cluster, int]
    widths: tuple[int, ...]
    box: tuple[int, int, int, int]
    ascent: int
    descent: int
    cap_height: int


def build_cluster_font(face: Face, clusters: Iterable[Cluster]) -> ClusterFont:
    """The font of ``clusters`` of one face, with codes from 1 in the order given."""
    wanted = list(dict.fromkeys(clusters))
    source = _source(face.path)
    parts = sorted({gid for cluster in wanted for gid, _, _ in cluster.glyphs})
    # codes are given while pages are written, before all glyphs are known: clusters come first
    order = [".notdef", *(f"c{n}" for n in range(len(wanted))), *(f"g{gid}" for gid in parts)]
    glyphs: dict[str, Any] = {".notdef": TTGlyphPen(None).glyph()}
    for gid in parts:
        glyphs[f"g{gid}"] = _outline(face.path, face.axes, gid)
    metrics: dict[str, tuple[int, int]] = dict.fromkeys(order, (0, 0))
    for number, cluster in enumerate(wanted):
        pen = TTGlyphPen(glyphs)
        for gid, x, y in cluster.glyphs:
            if glyphs[f"g{gid}"].numberOfContours:
                pen.addComponent(f"g{gid}", (1, 0, 0, 1, x, y))
        glyphs[f"c{number}"] = _once(pen)
        metrics[f"c{number}"] = (cluster.advance, 0)
    builder = FontBuilder(face.units_per_em, isTTF=True)
    builder.setupGlyphOrder(order)
    builder.setupGlyf(glyphs)
    bounds = builder.font["glyf"]
    metrics = {
        name: (advance, getattr(bounds[name], "xMin", 0) or 0)
        for name, (advance, _) in metrics.items()
    }
    builder.setupHorizontalMetrics(metrics)
    ascent, descent = source["hhea"].ascent, source["hhea"].descent
    builder.setupHorizontalHeader(ascent=ascent, descent=descent)
    builder.setupPost(keepGlyphNames=False)
    # the outlines are what matters; a fixed date keeps the bytes the same
    builder.font["head"].created = builder.font["head"].modified = 0
    builder.font.recalcTimestamp = False
    stream = io.BytesIO()
    builder.font.save(stream)
    head = builder.font["head"]

    def scaled(value: float) -> int:
        return round(value * 1000 / face.units_per_em)

    return ClusterFont(
        name=_postscript_name(source),
        data=stream.getvalue(),
        codes={cluster: n for n, cluster in enumerate(wanted, 1)},
        widths=tuple(scaled(c.advance) for c in wanted),
        box=(scaled(head.xMin), scaled(head.yMin), scaled(head.xMax), scaled(head.yMax)),
        ascent=scaled(ascent),
        descent=scaled(descent),
        cap_height=scaled(getattr(source["OS/2"], "sCapHeight", 0) or ascent),
    )


class _Once(Glyph):  # type: ignore[misc]
    """A glyph that reckons its bounds and packs its bytes once.

    An outline has no components, so neither hangs on the font that it goes into, and it serves
    those of all cards: packing the same letters for each took a quarter of the time of making
    it. A cluster's glyph belongs to one font.
    """

    _bounded = False
    _bytes: bytes | None = None

    def recalcBounds(self, glyfTable: Any, *, boundsDone: Any = None) -> None:  # noqa: N802, N803
        """The bounds, reckoned when they are first asked for."""
        if not self._bounded:
            super().recalcBounds(glyfTable, boundsDone=boundsDone)
            self._bounded = True

    def compile(self, *args: Any, **settings: Any) -> bytes:
        """The bytes, packed when they are first asked for; all our fonts ask alike."""
        if self._bytes is None:
            self._bytes = bytes(super().compile(*args, **settings))
        return self._bytes


def to_unicode(font: ClusterFont) -> bytes:
    """The ToUnicode CMap: character code to the cluster's text in UTF-16."""
    pairs = [
        f"<{code:04X}> <{cluster.text.encode('utf-16-be').hex().upper()}>"
        for cluster, code in sorted(font.codes.items(), key=lambda item: item[1])
    ]
    # a bfchar section may hold a hundred entries at most
    sections = [pairs[start : start + 100] for start in range(0, len(pairs), 100)]
    body = "\n".join(
        f"{len(section)} beginbfchar\n" + "\n".join(section) + "\nendbfchar" for section in sections
    )
    return (
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
        "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n"
        f"{body}\n"
        "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"
    ).encode("ascii")


@cache
def _source(path: Path) -> Any:
    return TTFont(path, lazy=True)


@cache
def _glyphs(path: Path, axes: Axes) -> Any:
    """A font's glyphs by name; those of a variable font at a place on its axes."""
    return _source(path).getGlyphSet(location=dict(axes) or None)


@cache
def _outline(path: Path, axes: Axes, gid: int) -> Any:
    """One glyph's own outline, without hints and with its components drawn out."""
    source = _source(path)
    names = _glyphs(path, axes)
    recording = DecomposingRecordingPen(names)
    names[source.getGlyphName(gid)].draw(recording)
    pen = TTGlyphPen(None)
    recording.replay(pen)
    return _once(pen)


def _once(pen: Any) -> _Once:
    glyph = _Once()
    glyph.__dict__.update(vars(pen.glyph()))
    return glyph


def _postscript_name(source: Any) -> str:
    return str(source["name"].getDebugName(6) or "Font")
