"""Font faces: files found, opened for shaping, and asked what they cover."""

from __future__ import annotations

import importlib.util
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import uharfbuzz as hb


class FontMissing(LookupError):
    """A font file that is listed but not there."""


@dataclass(frozen=True, slots=True)
class Face:
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

        Raises FontMissing for a file or package that is not there, ValueError
        for a listing that does not hold together.
        """
        self._files: dict[tuple[str, str], Path] = {}
        for name, facts in listing["families"].items():
            base = _package_folder(facts["package"]) if "package" in facts else folder
            for weight in ("regular", "bold"):
                self._files[name, weight] = _font_file(base / facts[weight])
        self._scripts = {
            script: _script_fonts(script, facts, set(listing["families"]))
            for script, facts in listing["scripts"].items()
        }
        if not self._scripts:
            raise ValueError("no script has a font")

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
        spec = importlib.util.find_spec(package)
    except (ImportError, ValueError):
        spec = None
    if spec is None or spec.origin is None:
        raise FontMissing(f"the font package {package} is not installed")
    return Path(spec.origin).parent


def _font_file(path: Path) -> Path:
    if not path.is_file():
        raise FontMissing(f"the font file {path.name} is not there")
    if not _coverage(path):
        raise ValueError(f"{path.name} is no font file, or one without characters")
    return path


def _script_fonts(script: str, facts: Mapping[str, Any], families: set[str]) -> ScriptFonts:
    chosen = tuple(facts["families"])
    leading, ascent = float(facts["leading"]), float(facts["ascent"])
    if not chosen or not families.issuperset(chosen):
        raise ValueError(f"{script} names a family that is not listed")
    if not 0.8 <= leading <= 3 or not 0.5 <= ascent <= leading:
        raise ValueError(f"{script}: leading 0.8 to 3, ascent 0.5 to the leading")
    return ScriptFonts(chosen, leading, ascent)
