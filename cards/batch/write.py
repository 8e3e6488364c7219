"""Write a file whole or not at all."""

from __future__ import annotations

import os
import stat
import tempfile
from pathlib import Path

from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error

PART = ".part"
"""What a file is called by while it is being written."""


def write_whole(path: Path, data: bytes, name: str, rights: int | None = None) -> Result[Path]:
    """Put ``data`` at ``path`` by way of a temporary file beside it. One diagnostic on failure.

    ``rights`` are those of the new file; without them whoever may read the folder may read it.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(prefix=".", suffix=PART, dir=path.parent)
    except OSError as trouble:
        return Result(None, (_fault(name, trouble),))
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
        Path(temporary).replace(path)
    except OSError as trouble:
        Path(temporary).unlink(missing_ok=True)
        return Result(None, (_fault(name, trouble),))
    except BaseException:  # stopped by the keyboard, or out of memory
        Path(temporary).unlink(missing_ok=True)
        raise
    return Result(path)


def rewrite_whole(path: Path, data: bytes, name: str) -> Result[Path]:
    """Put ``data`` in the place of a person's own file, which keeps its rights.

    A file that is set read-only is left alone, although its folder would let us replace it.
    """
    try:
        target = path.resolve(strict=True)
        mode = target.stat().st_mode
        if not mode & stat.S_IWUSR or not os.access(target, os.W_OK):
            trouble = error(
                Place(name),
                "file-read-only",
                "this file may only be read; it is left as it is",
                "allow writing in the file's properties, if it is yours to change",
            )
            return Result(None, (trouble,))
    except OSError as gone:
        return Result(None, (_fault(name, gone),))
    return write_whole(target, data, name, stat.S_IMODE(mode))


def add_line(path: Path, line: bytes, name: str) -> Result[Path]:
    """Add a line to a file. One diagnostic on failure; a line that was cut off spoils no other."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("ab", buffering=0) as stream:
            # whatever an earlier run left without an end is ended here
            stream.write(b"\n" + line + b"\n")
    except OSError as trouble:
        return Result(None, (_fault(name, trouble),))
    return Result(path)


def clear_parts(folder: Path) -> None:
    """Take away what killed builds left half written. Only for whoever has the folder's lock."""
    for path in folder.rglob(f".*{PART}"):
        path.unlink(missing_ok=True)


def _fault(name: str, trouble: OSError) -> Diagnostic:
    return error(
        Place(name),
        "out-unwritable",
        f"this cannot be written: {trouble.strerror}",
        "check that the out folder is there, yours, and has room; close the file if open",
    )
