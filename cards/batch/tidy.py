"""Recipe files set in house order, where they lie."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from cards.batch.write import rewrite_whole
from cards.diagnostics.diagnostic import Diagnostic
from cards.source.tidy import tidy
from cards.source.workspace import Workspace, read_text


@dataclass(frozen=True, slots=True)
class Tidied:
    """What became of one file. ``text`` is what it held, ``changes`` whether its order differs."""

    name: str
    text: str
    changes: bool
    diagnostics: tuple[Diagnostic, ...] = ()


def tidy_file(path: Path, workspace: Workspace, write: bool) -> Tidied:
    """Tidy one file, and put the new text in its place if it differs and ``write`` is set."""
    name = workspace.name(path)
    read = read_text(path, name, keep_mark=True)
    if read.value is None:
        return Tidied(name, "", False, read.diagnostics)
    made = tidy(read.value, name)
    if made.value is None or made.value == read.value:
        return Tidied(name, read.value, False, made.diagnostics)
    if not write:
        return Tidied(name, read.value, True)
    written = rewrite_whole(path, made.value.encode("utf-8"), name)
    return Tidied(name, read.value, True, written.diagnostics)
