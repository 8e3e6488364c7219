"""What was made last time, from what: so that only what has changed is made again.

A journal of one JSON line a card, added to as cards are made. A line that was cut off by a power
cut or a kill is no line; what it would have told of is made again.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping, Set
from dataclasses import dataclass
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from cards.batch.entry import Entry, OutFile
from cards.batch.opened import Basis
from cards.batch.write import add_line, write_whole
from cards.diagnostics.diagnostic import Result
from cards.source.workspace import Workspace, read_text, read_whole

FILE = ".made.jsonl"
"""Where it is kept, in the out folder."""

MOST_BYTES = 200_000_000
"""A larger file is not ours: ten thousand recipes with ten messages each take half of this."""


@dataclass(frozen=True, slots=True)
class Manifest:
    """The last entry of each target."""

    entries: Mapping[str, Entry]
    digest: str = ""
    """SHA-256 of the journal they were read from."""

    def still_holds(
        self, target: str, inputs: str | None, rests_on: str, basis: Basis, out: Path
    ) -> Entry | None:
        """The entry of a target whose inputs are as they were and whose files are in place.

        ``rests_on`` is what the entry has to rest on besides its foods; those are held against
        the ``basis``.
        """
        entry = self.entries.get(target)
        if entry is None or (entry.inputs, entry.rests_on) != (inputs, rests_on):
            return None
        if any(basis.foods.get(food) != known for food, known in entry.foods.items()):
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
    return Manifest(entries, hashlib.sha256(text.encode()).hexdigest())


def note_down(entry: Entry, workspace: Workspace) -> Result[Path]:
    """Add an entry to the journal."""
    path = workspace.out / FILE
    return add_line(path, _FORM.dump_json(entry), workspace.name(path))


def rewrite(entries: Iterable[Entry], workspace: Workspace) -> Result[str]:
    """The journal anew, with these entries and no others; gives its SHA-256."""
    path = workspace.out / FILE
    data = b"".join(_FORM.dump_json(entry) + b"\n" for entry in entries)
    done = write_whole(path, data, workspace.name(path))
    sha = hashlib.sha256(data).hexdigest() if done.value is not None else None
    return Result(sha, done.diagnostics)


def left_over(
    manifest: Manifest, workspace: Workspace, seen: Set[str] = frozenset()
) -> tuple[Entry, ...]:
    """Entries with files whose recipe is no longer there; ``seen`` names recipes that are."""
    return tuple(
        entry
        for entry in manifest.entries.values()
        if entry.files
        and entry.recipe not in seen
        and not (workspace.root / entry.recipe).is_file()
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
