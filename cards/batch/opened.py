"""What a build rests on, remembered, so that one with nothing to make opens nothing.

Opening a kit (words, layout, fonts, foods) with all that is imported for it takes ten times as
long as looking whether anything has changed. So what came of it is kept beside a digest of every
file that a kit may be opened from; while that digest is as before, so is the kit.
"""

from __future__ import annotations

import hashlib
import os
import sys
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

import cards
from cards.batch.entry import OutFile
from cards.batch.write import write_whole
from cards.diagnostics.diagnostic import Result
from cards.source.workspace import (
    Workspace,
    digest,
    files_opened,
    package_files,
    read_text,
)

FILE = ".opened.json"
"""Where it is kept, in the out folder."""

_MOST_BYTES = 100_000_000
"""A larger file is not ours."""


@dataclass(frozen=True, slots=True)
class Basis:
    """What the cards of a build rest on besides their recipes' own files."""

    shared: str
    """SHA-256 of what all cards rest on."""
    foods: Mapping[str, str]
    """By food id, a digest of what only cards that use the food rest on."""
    end: str
    """What follows the recipe's name in a card's file name: layout and languages, where they are
    not the programme's."""
    printed: tuple[str, ...]
    """Language codes on the cards."""

    def of(self, used: Iterable[str]) -> dict[str, str]:
        """The digests of some foods; empty for one that the table does not have."""
        return {food: self.foods.get(food, "") for food in used}


@dataclass(frozen=True, slots=True)
class Opened:
    """What came of opening a kit in which nothing was wrong."""

    seen: str
    """SHA-256 of all that it may have been opened from."""
    fonts: tuple[str, ...]
    """Paths of the font files."""
    fonts_seen: str
    basis: Basis
    page_of: str = ""
    """SHA-256 of what the page of all cards was made from; empty where none was made."""
    page: OutFile | None = None


def seen(workspace: Workspace, layout: str, languages: Sequence[str]) -> str:
    """SHA-256 of all that a kit may be opened from, whether it is or not: more than it rests on.

    Empty where something cannot be read, which is as nothing else ever was.
    Libraries go by the names of their folders of facts, which hold their versions (PyPA,
    "Recording installed projects"); asking each would take longer than all the rest.
    """
    parts = [cards.__version__, sys.version, layout, *languages]
    parts += [name for folder in sys.path for name in _libraries(folder)]
    files = files_opened(workspace)
    read = [digest(package_files(), _MOST_BYTES), digest(files, _MOST_BYTES)]
    parts += [*map(str, files), *(part for part in read if part is not None)]
    return "" if None in read else digest_of(parts)


def _libraries(folder: str) -> list[str]:
    try:
        with os.scandir(folder) as found:
            return sorted(one.name for one in found if one.name.endswith(".dist-info"))
    except OSError:
        return []


def fonts_seen(paths: Iterable[str]) -> str:
    """SHA-256 of the font files."""
    return str(digest(map(Path, paths), _MOST_BYTES))


_FORM = TypeAdapter(Opened)


def recall(workspace: Workspace, now: str) -> Opened | None:
    """What came of opening a kit the last time, if it would come out the same ``now``."""
    path = workspace.out / FILE
    text = read_text(path, workspace.name(path), _MOST_BYTES).value if now else None
    try:
        found = _FORM.validate_json(text or "")
    except ValidationError:
        return None
    return found if (found.seen, found.fonts_seen) == (now, fonts_seen(found.fonts)) else None


def keep(opened: Opened, workspace: Workspace) -> Result[Path]:
    """Write it down for the next build."""
    path = workspace.out / FILE
    return write_whole(path, _FORM.dump_json(opened), workspace.name(path))


def digest_of(parts: Iterable[str]) -> str:
    """SHA-256 of texts, each with its length before it."""
    whole = hashlib.sha256()
    for part in parts:
        data = part.encode("utf-8", "surrogateescape")
        whole.update(f"{len(data)}:".encode() + data)
    return whole.hexdigest()
