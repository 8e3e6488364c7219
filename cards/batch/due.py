"""What is to be made, and what was made before and still holds. Nothing here can make a card."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from cards.batch.entry import Entry, OutFile
from cards.batch.manifest import Manifest
from cards.batch.opened import Basis
from cards.batch.run import Run
from cards.diagnostics.diagnostic import Diagnostic
from cards.source.workspace import Workspace, digest, read_text, side_files

SHEET_SUFFIX = "-sheet.pdf"
"""The trainer's sheet of out/x.pdf is out/x-sheet.pdf."""

PICTURES = "pictures"
"""Small pictures of the cards, below the out folder, for the page to browse them."""

PICTURE_WIDTH = 240
"""In pixels; a telephone shows it at half of that."""


@dataclass(frozen=True, slots=True)
class Due:
    """A recipe to be made: its files, and what the card's file is called without its ending."""

    path: Path
    beside: tuple[Path, ...]
    """Files beside it with its words in the languages printed."""
    target: str
    clash: str = ""
    """The name of an earlier recipe that makes the same files."""
    only_checked: bool = False
    """Refuse it where nobody has read its words over."""
    inputs: str | None = None
    """SHA-256 of its files, taken before anything is made; None where it was not taken."""


@dataclass(frozen=True, slots=True)
class Made:
    """One recipe's outcome. ``pdf`` is None where an error stopped the card."""

    run: Run
    pdf: Path | None
    sheet: Path | None
    diagnostics: tuple[Diagnostic, ...]
    card: bytes = b""
    """The PDF itself, for those who print it on."""
    entry: Entry | None = None
    """What the manifest is to keep of it; None where nothing can be kept."""
    before: bool = False
    """True where it was made before and nothing has changed since."""


def all_due(
    files: Sequence[Path], workspace: Workspace, basis: Basis, only_checked: bool = False
) -> tuple[Due, ...]:
    """What is to be made of ``files``, in their order.

    ``only_checked`` refuses recipes with words that nobody has read over.
    """
    beside = side_files(files, basis.printed)
    taken: dict[str, str] = {}
    found: list[Due] = []
    for path in files:
        target = f"{path.stem}{basis.end}"
        # on some disks large and small letters are the same name
        makes = [f"{target}{end}".casefold() for end in (".pdf", SHEET_SUFFIX)]
        clash = next((taken[one] for one in makes if one in taken), "")
        if not clash:
            taken.update(dict.fromkeys(makes, workspace.name(path)))
        found.append(Due(path, beside[path], target, clash, only_checked))
    return tuple(found)


def inputs_of(due: Due) -> str | None:
    """SHA-256 of a recipe's own files; None where one cannot be read."""
    return digest((due.path, *due.beside))


def made_before(due: Due, manifest: Manifest, basis: Basis, workspace: Workspace) -> Made | None:
    """What was made of a recipe the last time, if that still holds; without the card's bytes."""
    entry = manifest.still_holds(
        due.target, due.inputs, shared_of(due, basis), basis, workspace.out
    )
    if entry is None or due.clash:
        return None
    texts = {}
    if entry.diagnostics:
        named = [(workspace.name(path), path) for path in (due.path, *due.beside)]
        texts = {name: read_text(path, name).value or "" for name, path in named}
    name = entry.recipe
    run = Run(name, texts.get(name, ""), None, None, None, None, None, entry.diagnostics, texts)
    return made_of(run, entry.diagnostics, entry.files, due, workspace, entry, before=True)


def made_of(
    run: Run,
    diagnostics: tuple[Diagnostic, ...],
    files: Sequence[OutFile],
    due: Due,
    workspace: Workspace,
    entry: Entry | None,
    before: bool = False,
) -> Made:
    """An outcome with the paths of those of the ``files`` that people are told of."""
    names = {file.name for file in files}

    def path(end: str) -> Path | None:
        name = f"{due.target}{end}"
        return workspace.out / name if name in names else None

    return Made(run, path(".pdf"), path(SHEET_SUFFIX), diagnostics, b"", entry, before)


def shared_of(due: Due, basis: Basis) -> str:
    """What an entry has to rest on besides its foods."""
    return f"{basis.shared} checked" if due.only_checked else basis.shared
