"""Shaping: text becomes clusters of positioned glyphs, and nothing is lost silently."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import NamedTuple

import uharfbuzz as hb

from cards.text.faces import Face, FontBook
from cards.text.runs import split_scripts

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
    """A stretch of one face."""

    face: Face
    clusters: tuple[Cluster, ...]
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
def shape(text: str, book: FontBook, weight: str, language: str) -> tuple[Shaped, ...]:
    """Shape a text, one ``Shaped`` a script run. Raises GlyphMissing."""
    shaped: list[Shaped] = []
    for run in split_scripts(text):
        face = book.face_for(run.script, run.text, weight)
        if face is None:
            letters = "".join(dict.fromkeys(c for c in run.text if c.isalpha())) or run.text
            raise GlyphMissing(letters, run.script)
        shaped.append(Shaped(face, _clusters(face, run.script, run.text, language)))
    return tuple(shaped)


def blank_clusters(face: Face) -> tuple[Cluster, ...]:
    """The space between words in a face. Script plays no part in it."""
    return _clusters(face, "Latn", " ", "en")


@lru_cache(maxsize=20_000)
def _clusters(face: Face, script: str, text: str, language: str) -> tuple[Cluster, ...]:
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.direction = "ltr"
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
    return tuple(found)
