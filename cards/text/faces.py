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
        """``listing`` is fonts.yaml as a mapping; ``folder`` is where its own files lie."""
        self._files: dict[tuple[str, str], Path] = {}
        for name, facts in listing["families"].items():
            base = _package_folder(facts["package"]) if "package" in facts else folder
            for weight in ("regular", "bold"):
                self._files[name, weight] = base / facts[weight]
        self._scripts = {
            script: ScriptFonts(
                tuple(facts["families"]), float(facts["leading"]), float(facts["ascent"])
            )
            for script, facts in listing["scripts"].items()
        }

    @property
    def scripts(self) -> tuple[str, ...]:
        """Scripts (ISO 15924) that have a font."""
        return tuple(self._scripts)

    def face(self, family: str, weight: str) -> Face:
        """The face of a family in a weight. Raises FontMissing when its file is not there."""
        path = self._files[family, weight]
        if not path.is_file():
            raise FontMissing(f"the font file {path.name} of family {family} is not installed")
        return Face(family, weight, path)

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
    spec = importlib.util.find_spec(package)
    if spec is None or spec.origin is None:
        raise FontMissing(f"the font package {package} is not installed")
    return Path(spec.origin).parent
