"""What a build stands on: its basis at once, its kit only when something is to be made."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from cards.batch import opened
from cards.batch.entry import OutFile
from cards.batch.manifest import is_in_place
from cards.batch.opened import Basis, Opened
from cards.diagnostics.diagnostic import Result
from cards.source.workspace import Workspace

if TYPE_CHECKING:
    from cards.batch.kit import Kit


class Ground:
    """A build's basis and kit. A kit that opened without a word before is opened late, or never."""

    def __init__(
        self,
        workspace: Workspace,
        layout: str,
        languages: tuple[str, ...],
        taken: Callable[[Result[Kit]], Kit],
    ) -> None:
        """``taken`` gives the kit of a result, having told its messages; it ends on an error."""
        self._workspace, self._taken = workspace, taken
        self.again = partial(_opened, workspace, layout, languages)
        """Opens the same kit in another process; it is sent there."""
        self._now = opened.seen(workspace, layout, languages)
        self._before = opened.recall(workspace, self._now)
        self._full: tuple[Kit, Basis] | None = None
        self._clean = False

    @property
    def basis(self) -> Basis:
        """What the cards rest on."""
        return self._before.basis if self._before and not self._full else self.in_full()[1]

    @property
    def kit(self) -> Kit:
        """The kit, opened where it is not yet."""
        return self.in_full()[0]

    def in_full(self) -> tuple[Kit, Basis]:
        """The kit, and the basis as that very kit has it: files may change while a build runs."""
        if self._full is None:
            from cards.batch.basis import basis_of  # late: with all that cards are made with

            result = self.again()
            kit = self._taken(result)
            self._full = kit, basis_of(kit)
            self._clean = not result.diagnostics
        return self._full

    def page_holds(self, made_from: str) -> bool:
        """Whether the page of all cards is in place as it was made from this."""
        old = self._before
        if old is None or old.page is None or old.page_of != made_from:
            return False
        return is_in_place(old.page, self._workspace.out)

    def keep(self, page_of: str, page: OutFile) -> Result[Path]:
        """Write down for the next build what the kit came to, and the page of all cards."""
        old = self._before
        if self._full is not None:
            if not (self._now and self._clean):  # what was told has to be told again
                return Result(None)
            kit, basis = self._full
            fonts = tuple(map(str, kit.book.files))
            old = Opened(self._now, fonts, opened.fonts_seen(fonts), basis)
        if old is None:
            return Result(None)
        return opened.keep(replace(old, page_of=page_of, page=page), self._workspace)


def _opened(workspace: Workspace, layout: str, languages: tuple[str, ...]) -> Result[Kit]:
    from cards.batch.kit import open_kit  # late: with all that cards are made with

    return open_kit(workspace, layout, languages)
