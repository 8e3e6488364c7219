"""All cards made, bound into one file beside their own."""

from __future__ import annotations

from pathlib import Path

from cards.batch.due import Made
from cards.batch.kit import Kit
from cards.batch.printing import incomplete, taken
from cards.batch.write import write_whole
from cards.card.model import CardMeta
from cards.diagnostics.diagnostic import Diagnostic, Result
from cards.pdf.paint import Binding
from cards.source.workspace import Workspace

TOGETHER_NAME = "cards"
"""All chosen cards one after the other."""


class Together:
    """Cards on their way into one file: added as they are made, so that none is kept whole."""

    def __init__(self, workspace: Workspace, kit: Kit) -> None:
        self._workspace, self._kit = workspace, kit
        self._target = workspace.out / f"{TOGETHER_NAME}{kit.programme.suffix}.pdf"
        self._binding = Binding()
        self._missing: list[str] = []
        self._clash: Diagnostic | None = None
        self._count = 0
        self._revised = ""

    def add(self, made: Made) -> None:
        """Bind a card in, or note that it is missing."""
        self._count += 1
        self._clash = self._clash or taken(self._target, [made], self._workspace)
        pages = made.run.pages
        if made.pdf is None or pages is None:
            self._missing.append(made.run.name)
            return
        self._binding.add(pages, made.run.sources)
        self._revised = max(self._revised, pages.meta.revised)

    def write(self) -> Result[Path]:
        """Write the file, or nothing where a card could not be made."""
        name = self._workspace.name(self._target)
        if self._missing:
            return Result(None, (incomplete(name, self._missing, self._count),))
        if self._clash is not None:
            return Result(None, (self._clash,))
        language = self._kit.languages[0].code
        programme = self._kit.programme.said(self._kit.programme.name)
        meta = CardMeta(programme or "cards", programme, language, "", self._revised, "")
        return write_whole(self._target, self._binding.bound(meta), name)
