"""What a build also prints: its cards on sheets, cut into sheets, or bound in one file."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from cards.batch.due import Made
from cards.batch.kit import Kit
from cards.batch.printing import Up, print_up
from cards.batch.tiling import print_tiles
from cards.batch.together import Together
from cards.diagnostics.diagnostic import Result
from cards.source.workspace import Workspace, read_whole


class Prints:
    """Takes the cards as they are made, and writes the papers when all are."""

    def __init__(
        self, workspace: Workspace, kit: Kit, up: Up | None, tile: bool, together: bool
    ) -> None:
        self._workspace, self._kit, self._up, self._tile = workspace, kit, up, tile
        self._bound = Together(workspace, kit) if together else None
        self._made: list[Made] = []

    def add(self, made: Made) -> None:
        """Take one recipe's outcome."""
        if self._up or self._tile:
            self._made.append(_with_card(made))
        if self._bound:
            self._bound.add(made)

    def write(self) -> list[Result[Path]]:
        """Write what was asked for."""
        made = self._made
        done = [print_tiles(one, made, self._workspace, self._kit) for one in made if self._tile]
        done += [print_up(made, self._up, self._workspace, self._kit)] if self._up else []
        done += [self._bound.write()] if self._bound else []
        return done


def _with_card(made: Made) -> Made:
    """With the card's bytes, read back where another process or an earlier build made it."""
    return replace(made, card=read_whole(made.pdf) or b"") if made.pdf and not made.card else made
