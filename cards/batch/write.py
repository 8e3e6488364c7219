"""Write a file whole or not at all."""

from __future__ import annotations

import contextlib
import os
import shutil
import stat
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path

from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error

PART = ".part"
"""What a file is called by while it is being written."""


BEFORE = ".before"
"""What a folder is called by while its successor takes its place."""


def write_whole(path: Path, data: bytes, name: str, rights: int | None = None) -> Result[Path]:
    """Put ``data`` at ``path`` by way of a temporary file beside it. One diagnostic on failure.

    ``rights`` are those of the new file; without them whoever may read the folder may read it.
    """
    temporary = None
    try:
        temporary = _staged(path, data, rights)
        temporary.replace(path)
    except OSError as trouble:
        if temporary is not None:
            temporary.unlink(missing_ok=True)
        return Result(None, (unwritable(name, trouble),))
    return Result(path)


def _staged(path: Path, data: bytes, rights: int | None) -> Path:
    """A temporary file beside ``path`` that holds ``data``, on the disk, with its rights."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, temporary = tempfile.mkstemp(prefix=".", suffix=PART, dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            # on the disk before it takes the old file's place, lest a power cut leave neither
            stream.flush()
            os.fsync(stream.fileno())
        # mkstemp makes files private; a card is for whoever may read the folder
        umask = os.umask(0)
        os.umask(umask)
        Path(temporary).chmod(0o666 & ~umask if rights is None else rights)
    except BaseException:  # stopped by the keyboard, out of memory or room
        Path(temporary).unlink(missing_ok=True)
        raise
    return Path(temporary)


BACKUP = ".bak"
"""What a file is called, after its name, once another has taken its place."""


def write_all(files: Mapping[Path, bytes], name: Callable[[Path], str]) -> Result[tuple[Path, ...]]:
    """Put every file in its place, or none; what was there before stays beside it as a backup.

    ``name`` is what messages call a file. Errors: ``file-read-only``, ``out-unwritable``.
    """
    wanted: dict[Path, tuple[bytes, int | None]] = {}
    staged: dict[Path, Path] = {}
    before: dict[Path, bytes | None] = {}
    now = next(iter(files), Path())
    try:
        for now, data in files.items():
            target = now.resolve()
            before[target] = rights = None
            if os.path.lexists(target):
                rights = stat.S_IMODE(target.stat().st_mode)
                if not rights & stat.S_IWUSR or not os.access(target, os.W_OK):
                    return Result(None, (_read_only(name(now)),))
                before[target] = old = target.read_bytes()
                backup = target.with_name(target.name + BACKUP)
                before[backup] = backup.read_bytes() if backup.exists() else None
                wanted[backup] = old, rights
            wanted[target] = data, rights
        for now, (data, rights) in wanted.items():
            staged[now] = _staged(now, data, rights)
        for now in tuple(staged):
            staged[now].replace(now)
            del staged[now]
    except OSError as trouble:
        for path in wanted.keys() - staged.keys():
            _put_back(path, before[path])
        return Result(None, (unwritable(name(now), trouble),))
    finally:
        for temporary in staged.values():
            temporary.unlink(missing_ok=True)
    return Result(tuple(files))


def _put_back(path: Path, data: bytes | None) -> None:
    """What stood at ``path`` before, as well as the disk allows by now."""
    with contextlib.suppress(OSError):
        if data is None:
            path.unlink(missing_ok=True)
        elif path.read_bytes() != data:
            _staged(path, data, stat.S_IMODE(path.stat().st_mode)).replace(path)


def rewrite_whole(path: Path, data: bytes, name: str) -> Result[Path]:
    """Put ``data`` in the place of a person's own file, which keeps its rights.

    A file that is set read-only is left alone, although its folder would let us replace it.
    """
    try:
        target = path.resolve(strict=True)
        mode = target.stat().st_mode
        if not mode & stat.S_IWUSR or not os.access(target, os.W_OK):
            return Result(None, (_read_only(name),))
    except OSError as gone:
        return Result(None, (unwritable(name, gone),))
    return write_whole(target, data, name, stat.S_IMODE(mode))


def write_folder(folder: Path, files: Mapping[str, bytes], name: str, mark: str) -> Result[Path]:
    """Put a folder of files in place, all of them or none; ``mark`` is a file that ours have.

    The new folder is whole before the old one goes. Where a folder of this name is none of ours,
    it is left alone. Only for whoever has the lock of the folder that it lies in.
    """
    before = folder.with_name(f".{folder.name}{BEFORE}")
    new = folder.with_name(f".{folder.name}{PART}")
    try:
        if before.exists():  # a run was cut off between the two changes of name
            if folder.exists():
                shutil.rmtree(before)
            else:
                before.rename(folder)
        if folder.exists() and not (folder / mark).is_file():
            return Result(None, (_foreign(name),))
        shutil.rmtree(new, ignore_errors=True)
        new.mkdir(parents=True)
        for file, data in files.items():
            done = write_whole(new / file, data, f"{name}/{file}")
            if done.value is None:
                shutil.rmtree(new, ignore_errors=True)
                return Result(None, done.diagnostics)
        if folder.exists():
            folder.rename(before)
        new.rename(folder)
        shutil.rmtree(before, ignore_errors=True)
    except OSError as trouble:
        shutil.rmtree(new, ignore_errors=True)
        return Result(None, (unwritable(name, trouble),))
    return Result(folder)


def _foreign(name: str) -> Diagnostic:
    return error(
        Place(name),
        "out-foreign",
        "there is a folder of this name that was not made by this command",
        "move it away, or give the session file another name",
    )


def add_line(path: Path, line: bytes, name: str) -> Result[Path]:
    """Add a line to a file. One diagnostic on failure; a line that was cut off spoils no other."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("ab", buffering=0) as stream:
            # whatever an earlier run left without an end is ended here
            stream.write(b"\n" + line + b"\n")
    except OSError as trouble:
        return Result(None, (unwritable(name, trouble),))
    return Result(path)


def clear_parts(folder: Path) -> None:
    """Take away what killed builds left half written. Only for whoever has the folder's lock."""
    for path in list(folder.rglob(f".*{PART}")):
        if path.is_dir():
            shutil.rmtree(path, ignore_errors=True)
        else:
            path.unlink(missing_ok=True)


def _read_only(name: str) -> Diagnostic:
    return error(
        Place(name),
        "file-read-only",
        "this file may only be read; it is left as it is",
        "allow writing in the file's properties, if it is yours to change",
    )


def unwritable(name: str, trouble: OSError) -> Diagnostic:
    """One error for what cannot be written."""
    return error(
        Place(name),
        "out-unwritable",
        f"this cannot be written: {trouble.strerror}",
        "check that the out folder is there, yours, and has room; close the file if open",
    )
