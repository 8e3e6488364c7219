"""Many cards made by several processes, told in the order asked for."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace

from cards.batch.basis import basis_of
from cards.batch.due import Due, Made
from cards.batch.kit import Kit
from cards.batch.make import make_one
from cards.batch.opened import Basis
from cards.batch.run import Run
from cards.diagnostics.diagnostic import Result
from cards.source.workspace import Workspace

FROM = 24
"""Fewer cards than this are made sooner by one process than others are started (measured)."""

_CHUNK = 8
"""Cards handed to a process at a time."""


def processes() -> int:
    """How many processors this program may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


@dataclass(frozen=True, slots=True)
class _Bench:
    """What a process works with."""

    workspace: Workspace
    kit: Kit
    basis: Basis


_bench: _Bench | None = None


def make_side_by_side(
    due: Sequence[Due], count: int, workspace: Workspace, opened: Callable[[], Result[Kit]]
) -> Iterator[Made]:
    """The cards in their order, made by ``count`` processes; each opens a kit of its own.

    What comes back holds no pages: they stay with the process that placed them. Stopping half
    way leaves what is done, and no file half written.
    """
    context = multiprocessing.get_context("spawn")
    pool = ProcessPoolExecutor(count, context, _begin, (workspace, opened))
    try:
        yield from pool.map(_make, due, chunksize=_CHUNK)
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _begin(workspace: Workspace, opened: Callable[[], Result[Kit]]) -> None:
    # the keyboard stops the first process, which then stops the others between two cards
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    kit = opened().value
    if kit is None:
        raise RuntimeError("the folder's files changed while the build began")
    global _bench
    _bench = _Bench(workspace, kit, basis_of(kit))


def _end_with_parent() -> None:
    """End when the first process is gone, however it went."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def _make(due: Due) -> Made:
    assert _bench is not None
    made = make_one(due, _bench.workspace, _bench.kit, _bench.basis)
    run = made.run
    texts = {name: text for name, text in run.sources.items() if made.diagnostics}
    slim = Run(
        run.name, texts.get(run.name, ""), None, None, None, None, None, run.diagnostics, texts
    )
    return replace(made, run=slim, card=b"")
