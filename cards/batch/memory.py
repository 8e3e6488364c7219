"""What the last check said of each file, so that the next one checks only what has changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from cards.batch.basis import rests_on
from cards.batch.day import plan_day
from cards.batch.kit import Kit
from cards.batch.session_order import order
from cards.batch.stages import run_file
from cards.batch.write import write_whole
from cards.diagnostics.diagnostic import Diagnostic, Result
from cards.source.grounds import DAY, SESSION, kind_of
from cards.source.workspace import Workspace, digest, read_text, side_files

FILE = ".checked.json"
"""Where it is kept, in the out folder."""

MOST_BYTES = 100_000_000
"""A larger file is not ours: ten thousand recipes with ten messages each take a third of this."""


@dataclass(frozen=True, slots=True)
class Said:
    """What was said of one file, and the digest of the bytes it was said of."""

    digest: str
    diagnostics: tuple[Diagnostic, ...]


@dataclass(frozen=True, slots=True)
class Memory:
    """What was said of each file, by the file's name, and of what else that holds."""

    rests_on: str
    files: Mapping[str, Said]


@dataclass(frozen=True, slots=True)
class Checked:
    """One file's messages, fresh or remembered. ``said`` is None where nothing can be kept."""

    name: str
    texts: Mapping[str, str]
    """Texts by file name, for the source lines of messages."""
    diagnostics: tuple[Diagnostic, ...]
    remembered: bool = False
    said: Said | None = None
    alone: bool = True
    """False for a file whose messages rest on other recipes too: they are not remembered."""


_FORM = TypeAdapter(Memory)


def recall(workspace: Workspace, kit: Kit) -> Memory:
    """What the last check left; nothing where it rested on something else or cannot be read."""
    now = rests_on(kit)
    path = workspace.out / FILE
    text = read_text(path, workspace.name(path), MOST_BYTES).value
    try:
        found = _FORM.validate_json(text or "")
    except ValidationError:
        return Memory(now, {})
    return found if found.rests_on == now else Memory(now, {})


def keep(memory: Memory, said: Mapping[str, Said], workspace: Workspace) -> Result[Path]:
    """Write ``said``, and what is remembered of other files that are still there."""
    rest = {
        name: old
        for name, old in memory.files.items()
        if name not in said and (workspace.root / name).is_file()
    }
    path = workspace.out / FILE
    data = _FORM.dump_json(Memory(memory.rests_on, {**rest, **said}))
    return write_whole(path, data, workspace.name(path))


def check_all(
    files: Sequence[Path], workspace: Workspace, kit: Kit, memory: Memory | None = None
) -> Iterator[Checked]:
    """Check files one by one; what is in ``memory`` and has not changed is only repeated."""
    if memory is None:
        for path in files:
            yield check_file(path, workspace, kit)
        return
    beside = side_files(files, kit.programme.printed)
    for path in files:
        yield _checked((path, *beside[path]), workspace, kit, memory)


def _checked(files: tuple[Path, ...], workspace: Workspace, kit: Kit, memory: Memory) -> Checked:
    """``files`` are the recipe and those beside it that belong to it."""
    name = workspace.name(files[0])
    now = digest(files)
    old = memory.files.get(name)
    if old is not None and old.digest == now:
        texts = {}
        if old.diagnostics:
            named = [(workspace.name(path), path) for path in files]
            texts = {each: read_text(path, each).value or "" for each, path in named}
        return Checked(name, texts, old.diagnostics, True, old)
    checked = check_file(files[0], workspace, kit)
    # some systems allow names that are no text; they cannot be kept
    sound = "\ufffd" not in name and checked.alone
    said = Said(now, checked.diagnostics) if now and sound else None
    return replace(checked, said=said)


def check_file(path: Path, workspace: Workspace, kit: Kit) -> Checked:
    """Check a file as what it says it is: a recipe, a day of training, a plan of meals."""
    name = workspace.name(path)
    text = read_text(path, name).value or ""
    kind = kind_of(text)
    if kind == SESSION:
        ordered = order(path, workspace, kit)
        told = tuple(dict.fromkeys(ordered.faults))
        return Checked(name, ordered.texts, told, alone=False)
    if kind == DAY:
        planned = plan_day(path, workspace, kit)
        told = tuple(dict.fromkeys(planned.diagnostics))
        return Checked(name, {name: text}, told, alone=False)
    run = run_file(path, workspace, kit)
    return Checked(run.name, run.sources, run.diagnostics)
