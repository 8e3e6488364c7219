"""The bar that shows how far a command is."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from rich.console import Console
from rich.progress import (
    BarColumn,
    MofNCompleteColumn,
    Progress,
    ProgressColumn,
    Task,
    TextColumn,
    TimeRemainingColumn,
)
from rich.text import Text


@contextmanager
def bar(count: int, what: str) -> Iterator[Callable[[], object]]:
    """A bar with count, pace and time left; what it gives is called once a file."""
    with Progress(
        TextColumn("{task.description}"),
        BarColumn(),
        MofNCompleteColumn(),
        _Pace(),
        TimeRemainingColumn(),
        console=Console(stderr=True),
        transient=True,
    ) as progress:
        task = progress.add_task(what, total=count)
        yield lambda: progress.advance(task)


class _Pace(ProgressColumn):
    """Files a second."""

    def render(self, task: Task) -> Text:
        return Text(f"{task.speed:.0f} a second" if task.speed else "")
