"""A whole build: what is still good is kept, the rest is made, by one process or several."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from cards.batch import manifest, pool
from cards.batch.basis import rests_on
from cards.batch.kit import Kit
from cards.batch.make import Due, Made, made_before, make_all
from cards.batch.manifest import Entry, Manifest
from cards.diagnostics.diagnostic import Diagnostic, Result, has_errors
from cards.source.workspace import Workspace


@dataclass(frozen=True, slots=True)
class Wish:
    """How to build."""

    anew: bool = False
    """Make everything, also what has not changed."""
    pages: bool = False
    """The pages are wanted too: everything is made, and by this process."""
    processes: int = 0
    """How many processes work; 0 leaves it to the number of cards."""


class Build:
    """A build of some recipes. Whoever runs it holds the folder's lock."""

    def __init__(
        self, workspace: Workspace, kit: Kit, opened: Callable[[], Result[Kit]], wish: Wish
    ) -> None:
        """``opened`` opens the same kit in another process; it is sent there."""
        self._workspace, self._kit, self._opened, self._wish = workspace, kit, opened, wish
        self._known: Manifest = manifest.recall(workspace)
        self._now: dict[str, Entry] = dict(self._known.entries)
        self.faults: list[Diagnostic] = []
        """What went wrong with the manifest; the cards are made all the same."""

    def run(self, due: Sequence[Due]) -> Iterator[Made]:
        """Every outcome, in order."""
        basis = rests_on(self._kit)
        kept: dict[int, Made] = {}
        if not (self._wish.anew or self._wish.pages):
            for number, one in enumerate(due):
                before = made_before(one, self._known, basis, self._workspace)
                if before is not None:
                    kept[number] = before
        rest = [one for number, one in enumerate(due) if number not in kept]
        making = self._making(rest, basis)
        for number in range(len(due)):
            made = kept.get(number) or next(making)
            if not made.before:
                self._note_down(made, due[number])
            yield made
        if rest:
            self.faults += manifest.rewrite(self._now.values(), self._workspace).diagnostics

    @property
    def entries(self) -> tuple[Entry, ...]:
        """All cards that the manifest now knows of, also of earlier builds."""
        return tuple(self._now.values())

    def left_over(self) -> tuple[Path, ...]:
        """Files in the out folder whose recipe is gone, sorted."""
        return self._files_of(manifest.left_over(Manifest(self._now), self._workspace))

    def clear(self) -> tuple[Path, ...]:
        """Take those files away, and forget them; gives those taken."""
        lost = manifest.left_over(Manifest(self._now), self._workspace)
        gone = self._files_of(lost)
        for path in gone:
            path.unlink(missing_ok=True)
        for entry in lost:
            del self._now[entry.target]
        if lost:
            self.faults += manifest.rewrite(self._now.values(), self._workspace).diagnostics
        return gone

    def _files_of(self, entries: Sequence[Entry]) -> tuple[Path, ...]:
        named = {file.name for entry in entries for file in entry.files}
        return tuple(sorted(p for n in named if (p := self._workspace.out / n).is_file()))

    def _making(self, rest: Sequence[Due], basis: str) -> Iterator[Made]:
        count = min(self._wish.processes or pool.processes(), len(rest))
        enough = len(rest) >= pool.FROM or self._wish.processes > 1
        if count < 2 or not enough or self._wish.pages:
            return make_all(rest, self._workspace, self._kit, basis)
        return pool.make_side_by_side(rest, count, self._workspace, self._opened)

    def _note_down(self, made: Made, due: Due) -> None:
        if made.entry is None:
            if not due.clash:
                self._now.pop(due.target, None)
            return
        self._now[due.target] = made.entry
        if not has_errors(self.faults):  # a full disk is told of once
            self.faults += manifest.note_down(made.entry, self._workspace).diagnostics


def part_of(due: Sequence[Due], part: tuple[int, int]) -> tuple[Due, ...]:
    """Every n-th recipe, beginning with the k-th; ``part`` is (k, n). All parts make the whole."""
    number, count = part
    return tuple(due[number - 1 :: count])
