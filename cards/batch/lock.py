"""One build at a time in an out folder."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from filelock import FileLock, Timeout

from cards.batch.write import clear_parts, unwritable
from cards.diagnostics.diagnostic import Diagnostic, Place, error
from cards.source.workspace import Workspace

FILE = ".lock"
"""The file that is locked, in the out folder. The lock goes with its process, however that ends."""


@contextmanager
def held(workspace: Workspace) -> Iterator[Diagnostic | None]:
    """Hold the out folder for oneself; gives one error where somebody else does, or none can."""
    name = workspace.name(workspace.out)
    lock = FileLock(workspace.out / FILE)
    try:
        workspace.out.mkdir(parents=True, exist_ok=True)
        lock.acquire(timeout=0)
    except Timeout:
        yield error(
            Place(name),
            "out-busy",
            "another build is at work in this folder",
            "wait until it is done, or stop it",
        )
        return
    except OSError as trouble:
        yield unwritable(name, trouble)
        return
    try:
        clear_parts(workspace.out)
        yield None
    finally:
        lock.release()
