"""Font faces: files found, opened for shaping, and asked what they cover."""

from __future__ import annotations

import importlib.util
import os
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import uharfbuzz as hb
from fontTools.ttLib import TTFont, TTLibError


class FontMissing(LookupError):
    """A font file that is listed but not there."""


class FontOutside(ValueError):
    """A font file that is listed with a path out of its folder."""


class Face(NamedTuple):
    """One weight of one family. Equality is by file."""

    family: str
    weight: str
    path: Path

    @property
    def shaper(self) -> Any:
        """The HarfBuzz font, opened once a process."""
        return _opened(self.path)[1]

    @property
    def units_per_em(self) -> int:
        """Font units in one em."""
        return int(_opened(self.path)[0].upem)

    def covers(self, character: str) -> bool:
        """True when the font has a glyph for the character."""
        return ord(character) in _coverage(self.path)


@cache
def _opened(path: Path) -> tuple[Any, Any]:
    face = hb.Face(path.read_bytes())
    return face, hb.Font(face)


@cache
def _coverage(path: Path) -> frozenset[int]:
    return frozenset(_opened(path)[0].unicodes)


@dataclass(frozen=True, slots=True)
class ScriptFonts:
    """What serves one script: families in order of preference, line height and ascent in ems."""

    families: tuple[str, ...]
    leading: float
    ascent: float


class FontBook:
    """All fonts a programme can print with, by script and weight."""

    def __init__(self, listing: Mapping[str, Any], folder: Path) -> None:
        """``listing`` is fonts.yaml as a mapping; ``folder`` is where its own files lie.

        Raises FontMissing for a file or package that is not there, FontOutside
        for one elsewhere, ValueError for a listing that does not hold together.
        """
        self._files: dict[tuple[str, str], Path] = {}
        for name, facts in listing["families"].items():
            base = _package_folder(facts["package"]) if "package" in facts else folder
            for weight in ("regular", "bold"):
                self._files[name, weight] = _font_file(base, facts[weight])
        self._scripts = {
            script: _script_fonts(script, facts, set(listing["families"]))
            for script, facts in listing["scripts"].items()
        }
        if not self._scripts:
            raise ValueError("no script has a font")
        latin = self._scripts.get("Latn")
        for weight in ("regular", "bold"):
            if latin is None or not _coverage(self._files[latin.families[0], weight]) >= _ASCII:
                raise ValueError("figures and the trainer's sheet need a whole font for Latn")

    @property
    def scripts(self) -> tuple[str, ...]:
        """Scripts (ISO 15924) that have a font."""
        return tuple(self._scripts)

    @property
    def files(self) -> tuple[Path, ...]:
        """All font files, sorted."""
        return tuple(sorted(set(self._files.values())))

    def face(self, family: str, weight: str) -> Face:
        """The face of a family in a weight."""
        return Face(family, weight, self._files[family, weight])

    def face_for(self, script: str, text: str, weight: str) -> Face | None:
        """The first face of the script that covers the whole text; else the script's first face.

        None when no family serves the script.
        """
        served = self._scripts.get(script)
        if served is None:
            return None
        faces = [self.face(family, weight) for family in served.families]
        for face in faces:
            if all(face.covers(c) for c in text):
                return face
        return faces[0]

    def metrics(self, script: str) -> tuple[float, float]:
        """Line height and ascent in ems; those of the tallest script where it has no font."""
        found = self._scripts.get(script) or max(self._scripts.values(), key=lambda s: s.leading)
        return found.leading, found.ascent


def _package_folder(package: str) -> Path:
    try:
        # a name with a dot would run the package it begins with
        spec = None if "." in package else importlib.util.find_spec(package)
    except (ImportError, ValueError):
        spec = None
    if spec is None or spec.origin is None:
        raise FontMissing(f"the font package {package} is not installed")
    return Path(spec.origin).parent


MOST_FONT_BYTES = 40_000_000
"""More than any font of one script has; some of all Chinese letters have 20 MB."""

_ASCII = frozenset(range(0x20, 0x7F))
"""Letters, figures and marks of English."""

_TABLES = ("cmap", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "name", "OS/2")
"""Tables of a TrueType font (OpenType 1.9) that the text layer of a PDF is made from."""


def _font_file(base: Path, name: str) -> Path:
    path = Path(os.path.normpath(base / name))
    if not path.is_relative_to(os.path.normpath(base)):
        raise FontOutside(f"the font file {name} lies outside its folder")
    if not path.is_file():
        raise FontMissing(f"the font file {path.name} is not there")
    size = path.stat().st_size
    if size > MOST_FONT_BYTES or not _is_whole(path, size) or not _coverage(path):
        raise ValueError(f"{path.name} is no TrueType font, a broken one, or without characters")
    return path


def _is_whole(path: Path, size: int) -> bool:
    """Whether the file is a TrueType font with every table it needs, none cut off."""
    try:
        with path.open("rb") as stream, TTFont(stream, lazy=True) as font:
            entries = font.reader.tables
            return all(tag in entries for tag in _TABLES) and all(
                entry.offset + entry.length <= size for entry in entries.values()
            )
    except (TTLibError, OSError, ValueError, AssertionError):
        return False


def _script_fonts(script: str, facts: Mapping[str, Any], families: set[str]) -> ScriptFonts:
    chosen = tuple(facts["families"])
    leading, ascent = float(facts["leading"]), float(facts["ascent"])
    if not chosen or not families.issuperset(chosen):
        raise ValueError(f"{script} names a family that is not listed")
    if not 0.8 <= leading <= 3 or not 0.5 <= ascent <= leading:
        raise ValueError(f"{script}: leading 0.8 to 3, ascent 0.5 to the leading")
    return ScriptFonts(chosen, leading, ascent)
