"""What was made last time, from what: so that only what has changed is made again.

A journal of one JSON line a card, added to as cards are made. A line that was cut off by a power
cut or a kill is no line; what it would have told of is made again.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from cards.batch.about import About
from cards.batch.write import add_line, write_whole
from cards.diagnostics.diagnostic import Diagnostic, Result
from cards.source.workspace import Workspace, read_text, read_whole

FILE = ".made.jsonl"
"""Where it is kept, in the out folder."""

MOST_BYTES = 200_000_000
"""A larger file is not ours: ten thousand recipes with ten messages each take half of this."""


@dataclass(frozen=True, slots=True)
class OutFile:
    """A file that was written: its path below the out folder, and how it is known again."""

    name: str
    sha256: str
    size: int
    written_ns: int
    """The file's own time of change, as its disk told it."""


@dataclass(frozen=True, slots=True)
class Entry:
    """What came of one recipe. ``files`` is empty where an error stopped it."""

    target: str
    """What its files are called by: the card's file name without its ending."""
    recipe: str
    inputs: str
    """SHA-256 of the recipe and the files beside it that bear its name."""
    rests_on: str
    """SHA-256 of everything else: program, libraries, fonts, words, layout, programme, foods."""
    files: tuple[OutFile, ...]
    diagnostics: tuple[Diagnostic, ...]
    about: About

    def named(self, end: str, folder: str = "") -> str:
        """The path of its file called by the target and ``end``; empty where there is none."""
        name = f"{folder}/{self.target}{end}" if folder else f"{self.target}{end}"
        return next((file.name for file in self.files if file.name == name), "")


@dataclass(frozen=True, slots=True)
class Manifest:
    """The last entry of each target."""

    entries: Mapping[str, Entry]

    def still_holds(
        self, target: str, inputs: str | None, rests_on: str, out: Path
    ) -> Entry | None:
        """The entry of a target whose inputs are as they were and whose files are in place."""
        entry = self.entries.get(target)
        if entry is None or (entry.inputs, entry.rests_on) != (inputs, rests_on):
            return None
        return entry if all(is_in_place(file, out) for file in entry.files) else None


_FORM = TypeAdapter(Entry)


def recall(workspace: Workspace) -> Manifest:
    """What the journal tells; nothing where there is none or it cannot be read."""
    path = workspace.out / FILE
    text = read_text(path, workspace.name(path), MOST_BYTES).value or ""
    entries: dict[str, Entry] = {}
    for line in text.splitlines():
        try:
            entry = _FORM.validate_json(line)
        except ValidationError:
            continue
        entries[entry.target] = entry
    return Manifest(entries)


def note_down(entry: Entry, workspace: Workspace) -> Result[Path]:
    """Add an entry to the journal."""
    path = workspace.out / FILE
    return add_line(path, _FORM.dump_json(entry), workspace.name(path))


def rewrite(entries: Iterable[Entry], workspace: Workspace) -> Result[Path]:
    """The journal anew, with these entries and no others."""
    path = workspace.out / FILE
    data = b"".join(_FORM.dump_json(entry) + b"\n" for entry in entries)
    return write_whole(path, data, workspace.name(path))


def left_over(manifest: Manifest, workspace: Workspace) -> tuple[Entry, ...]:
    """Entries with files whose recipe is no longer there."""
    return tuple(
        entry
        for entry in manifest.entries.values()
        if entry.files and not (workspace.root / entry.recipe).is_file()
    )


def out_file(name: str, out: Path, data: bytes) -> OutFile:
    """How a file just written is known again. Raises OSError where it is gone already."""
    found = (out / name).stat()
    return OutFile(name, hashlib.sha256(data).hexdigest(), found.st_size, found.st_mtime_ns)


def is_in_place(file: OutFile, out: Path) -> bool:
    """Whether a file is as it was written: by size and time, and where they differ, by content.

    Times are only held to be equal or not, so that a clock set back misleads nobody.
    """
    path = out / file.name
    try:
        found = path.stat()
        if found.st_size != file.size:
            return False
        if found.st_mtime_ns == file.written_ns:
            return True
    except OSError:
        return False
    data = read_whole(path)
    return data is not None and hashlib.sha256(data).hexdigest() == file.sha256
