"""A whole build: what is still good is kept, the rest is made, by one process or several."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cards.batch import manifest
from cards.batch.due import Due, Made, inputs_of, made_before
from cards.batch.entry import Entry
from cards.batch.ground import Ground
from cards.batch.manifest import Manifest
from cards.batch.opened import digest_of
from cards.diagnostics.diagnostic import Diagnostic, has_errors
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

    def __init__(self, workspace: Workspace, ground: Ground, wish: Wish) -> None:
        self._workspace, self._ground, self._wish = workspace, ground, wish
        self._seen: set[str] = set()
        """Names of recipes known to be there."""
        self._known: Manifest = manifest.recall(workspace)
        self._journal = self._known.digest
        self._now: dict[str, Entry] = dict(self._known.entries)
        self.faults: list[Diagnostic] = []
        """What went wrong with the manifest; the cards are made all the same."""

    def run(self, due: Sequence[Due]) -> Iterator[Made]:
        """Every outcome, in order."""
        kept: dict[int, Made] = {}
        rest: list[Due] = []
        for number, one in enumerate(due):
            if not (self._wish.anew or self._wish.pages):
                one = replace(one, inputs=inputs_of(one))
                before = made_before(one, self._known, self._ground.basis, self._workspace)
                if before is not None:
                    kept[number] = before
                    self._seen.add(before.run.name)
                    continue
            rest.append(one)
        making = self._making(rest) if rest else iter(())
        for number in range(len(due)):
            made = kept.get(number) or next(making)
            if not made.before:
                self._note_down(made, due[number])
            yield made
        if rest:
            self._rewrite()

    @property
    def entries(self) -> tuple[Entry, ...]:
        """All cards that the manifest now knows of, also of earlier builds."""
        return tuple(self._now.values())

    def left_over(self) -> tuple[Path, ...]:
        """Files in the out folder whose recipe is gone, sorted."""
        return self._files_of(self._lost())

    def clear(self) -> tuple[Path, ...]:
        """Take those files away, and forget them; gives those taken."""
        lost = self._lost()
        gone = self._files_of(lost)
        for path in gone:
            path.unlink(missing_ok=True)
        for entry in lost:
            del self._now[entry.target]
        if lost:
            self._rewrite()
        return gone

    def write_page(self) -> None:
        """Write the page of all cards, where it is not in place as it would be."""
        gone = sorted(entry.recipe for entry in self._lost())
        made_from = digest_of([self._journal, *gone])
        if self._ground.page_holds(made_from):
            return
        from cards.batch.browse import write_page  # late: with all that it is set with

        page = write_page(self.entries, self._workspace, self._ground.kit)
        self.faults += page.diagnostics
        if page.value is not None:
            self.faults += self._ground.keep(made_from, page.value).diagnostics

    def _rewrite(self) -> None:
        done = manifest.rewrite(self._now.values(), self._workspace)
        self._journal = done.value or ""
        self.faults += done.diagnostics

    def _lost(self) -> tuple[Entry, ...]:
        return manifest.left_over(Manifest(self._now), self._workspace, self._seen)

    def _files_of(self, entries: Sequence[Entry]) -> tuple[Path, ...]:
        named = {file.name for entry in entries for file in entry.files}
        return tuple(sorted(p for n in named if (p := self._workspace.out / n).is_file()))

    def _making(self, rest: Sequence[Due]) -> Iterator[Made]:
        # late: with all that cards are made with, which a build with nothing to make does without
        from cards.batch import pool
        from cards.batch.make import make_all

        count = min(self._wish.processes or pool.processes(), len(rest))
        enough = len(rest) >= pool.FROM or self._wish.processes > 1
        if count < 2 or not enough or self._wish.pages:
            kit, basis = self._ground.in_full()
            return make_all(rest, self._workspace, kit, basis)
        return pool.make_side_by_side(rest, count, self._workspace, self._ground.again)

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
