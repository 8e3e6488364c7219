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

from cards.text.runs import is_shared


class FontMissing(LookupError):
    """A font file that is listed but not there."""


class FontOutside(ValueError):
    """A font file that is listed with a path out of its folder."""


Axes = tuple[tuple[str, float], ...]
"""Where on its axes a variable font is taken, as (wght, 700); empty for any other font."""


class Face(NamedTuple):
    """One weight of one family. Equality is by file and place on its axes."""

    family: str
    weight: str
    path: Path
    axes: Axes = ()

    @property
    def shaper(self) -> Any:
        """The HarfBuzz font, opened once a process."""
        return _shaper(self.path, self.axes)

    @property
    def units_per_em(self) -> int:
        """Font units in one em."""
        return int(_opened(self.path).upem)

    def covers(self, character: str) -> bool:
        """True when the font has a glyph for the character."""
        return ord(character) in _coverage(self.path)


@cache
def _opened(path: Path) -> Any:
    return hb.Face(path.read_bytes())


@cache
def _shaper(path: Path, axes: Axes) -> Any:
    font = hb.Font(_opened(path))
    font.set_variations(dict(axes))
    return font


@cache
def _coverage(path: Path) -> frozenset[int]:
    return frozenset(_opened(path).unicodes)


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
        self._faces: dict[tuple[str, str], Face] = {}
        for name, facts in listing["families"].items():
            base = _package_folder(facts["package"]) if "package" in facts else folder
            for weight in ("regular", "bold"):
                self._faces[name, weight] = _face(name, weight, base, facts[weight])
        self._scripts = {
            script: _script_fonts(script, facts, set(listing["families"]))
            for script, facts in listing["scripts"].items()
        }
        if not self._scripts:
            raise ValueError("no script has a font")
        latin = self._scripts.get("Latn")
        for weight in ("regular", "bold"):
            if latin is None or not _coverage(self.face(latin.families[0], weight).path) >= _ASCII:
                raise ValueError("figures and the trainer's sheet need a whole font for Latn")

    @property
    def scripts(self) -> tuple[str, ...]:
        """Scripts (ISO 15924) that have a font."""
        return tuple(self._scripts)

    @property
    def files(self) -> tuple[Path, ...]:
        """All font files, sorted."""
        return tuple(sorted({face.path for face in self._faces.values()}))

    def face(self, family: str, weight: str) -> Face:
        """The face of a family in a weight."""
        return self._faces[family, weight]

    def faces_for(self, script: str, weight: str) -> tuple[Face, ...]:
        """The faces that serve a script, the preferred one first; none where no family does."""
        served = self._scripts.get(script)
        if served is None:
            return ()
        return tuple(self.face(family, weight) for family in served.families)

    def has(self, script: str, character: str) -> bool:
        """Whether a character can be printed in a text of the script."""
        served = self.faces_for(script, "regular")
        if any(face.covers(character) for face in served):
            return True
        return bool(served) and is_shared(character) and bool(self.any_face(character, "regular"))

    def any_face(self, character: str, weight: str) -> Face | None:
        """The first listed face of any script that has a character that all scripts share."""
        for script in ("Latn", *self._scripts):
            for face in self.faces_for(script, weight):
                if face.covers(character):
                    return face
        return None

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


def _face(family: str, weight: str, base: Path, entry: Any) -> Face:
    """A face as it is listed: a file, or one with a place on its axes.

    Raises ValueError for an axis that the font does not have, or a place beyond its ends.
    """
    if isinstance(entry, str):
        return Face(family, weight, _font_file(base, entry))
    path = _font_file(base, entry["file"])
    known = {axis.tag: axis for axis in _opened(path).axis_infos}
    axes: list[tuple[str, float]] = []
    for tag, value in entry["axes"].items():
        axis, place = known.get(tag), float(value)
        if axis is None or not axis.min_value <= place <= axis.max_value:
            raise ValueError(f"{path.name} has no {tag} of {value}")
        axes.append((tag, place))
    return Face(family, weight, path, tuple(sorted(axes)))


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
