"""Shaping: text becomes clusters of positioned glyphs, and nothing is lost silently."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import groupby
from typing import NamedTuple
from unicodedata import category

import uharfbuzz as hb

from cards.text.faces import Face, FontBook
from cards.text.runs import ScriptRun, is_shared, split_scripts

_FEATURES = {"dlig": False}
"""Discretionary ligatures off: an "st" ligature puzzles a weak reader."""


class Cluster(NamedTuple):
    """The smallest piece that cannot be parted: its text, glyphs, and advance in font units.

    ``glyphs`` holds (glyph id, x, y) with offsets from the cluster's origin. A plain tuple,
    since a painted page looks up thousands of them.
    """

    text: str
    glyphs: tuple[tuple[int, int, int], ...]
    advance: int


@dataclass(frozen=True, slots=True)
class Shaped:
    """A stretch of one face and one way of running, its clusters in the order they are read."""

    face: Face
    clusters: tuple[Cluster, ...]
    level: int = 0
    """The embedding level (UAX #9): odd where it runs from right to left."""
    em: float = field(init=False)
    """Advance width in ems; kept, since the fit asks for it again and again."""

    def __post_init__(self) -> None:
        advance = sum(c.advance for c in self.clusters)
        object.__setattr__(self, "em", advance / self.face.units_per_em)

    @property
    def text(self) -> str:
        """The source text."""
        return "".join(c.text for c in self.clusters)

    def width(self, size: float) -> float:
        """Advance width in points at a type size."""
        return self.em * size


class GlyphMissing(LookupError):
    """Characters no font has."""

    def __init__(self, characters: str, script: str) -> None:
        super().__init__(characters)
        self.characters = characters
        self.script = script


@lru_cache(maxsize=20_000)
def shape(
    text: str, book: FontBook, weight: str, language: str, levels: tuple[int, ...] = ()
) -> tuple[Shaped, ...]:
    """Shape a text in the order it is read: one ``Shaped`` a run of one script, face and level.

    ``levels`` are the characters' embedding levels, all 0 if left out. Raises GlyphMissing.
    """
    shaped: list[Shaped] = []
    start = 0
    for run in split_scripts(text):
        levels_here = levels[start : start + len(run.text)] or (0,) * len(run.text)
        start += len(run.text)
        keys = zip(_faces(run, book, weight), levels_here, strict=True)
        at = 0
        for (face, level), same in groupby(keys):
            end = at + len(list(same))
            part = run.text[at:end]
            at = end
            clusters = _clusters(face, run.script, part, language, level % 2 == 1)
            shaped.append(Shaped(face, clusters, level))
    return tuple(shaped)


def _faces(run: ScriptRun, book: FontBook, weight: str) -> Sequence[Face]:
    """The face of each character: one for all if it can be, else the first that has it.

    Signs that all scripts share may come from another script's face.
    """
    served = book.faces_for(run.script, weight)
    if not served:
        letters = "".join(dict.fromkeys(c for c in run.text if c.isalpha())) or run.text
        raise GlyphMissing(letters, run.script)
    for face in served:
        if all(face.covers(c) for c in run.text):
            return (face,) * len(run.text)
    found: list[Face] = []
    for character in run.text:
        if found and category(character)[0] in "MC":  # a mark or joiner stays with its letter
            found.append(found[-1])
            continue
        face = next((f for f in served if f.covers(character)), served[0])
        if not face.covers(character) and is_shared(character):
            face = book.any_face(character, weight) or face
        found.append(face)
    return found


def joined(clusters: Sequence[Cluster]) -> Cluster:
    """Clusters that run from left to right, as one."""
    glyphs: list[tuple[int, int, int]] = []
    pen = 0
    for cluster in clusters:
        glyphs += [(glyph, pen + x, y) for glyph, x, y in cluster.glyphs]
        pen += cluster.advance
    return Cluster("".join(cluster.text for cluster in clusters), tuple(glyphs), pen)


def blank_clusters(face: Face) -> tuple[Cluster, ...]:
    """The space between words in a face. Script plays no part in it."""
    return _clusters(face, "Latn", " ", "und", False)


@lru_cache(maxsize=20_000)
def _clusters(
    face: Face, script: str, text: str, language: str, leftward: bool
) -> tuple[Cluster, ...]:
    """Clusters in the order they are read; glyphs in each from left to right."""
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.direction = "rtl" if leftward else "ltr"
    buffer.script = script
    buffer.language = language
    hb.shape(face.shaper, buffer, _FEATURES)
    starts = sorted({info.cluster for info in buffer.glyph_infos})
    ends = [*starts[1:], len(text)]
    texts = {start: text[start:end] for start, end in zip(starts, ends, strict=True)}
    found: list[Cluster] = []
    missing: list[str] = []
    current = -1
    glyphs: list[tuple[int, int, int]] = []
    pen = 0

    def finish() -> None:
        if current >= 0:
            found.append(Cluster(texts[current], tuple(glyphs), pen))

    for info, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        if info.cluster != current:
            finish()
            current, glyphs, pen = info.cluster, [], 0
        if info.codepoint == 0:
            missing.append(texts[current])
        glyphs.append((info.codepoint, pen + position.x_offset, position.y_offset))
        pen += position.x_advance
    finish()
    if missing:
        absent = [c for c in "".join(missing) if not face.covers(c)]
        raise GlyphMissing("".join(dict.fromkeys(absent or missing)), script)
    return tuple(reversed(found) if leftward else found)
