"""What is kept of a card that was made: its files, what it rests on, what was said of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from cards.diagnostics.diagnostic import Diagnostic


@dataclass(frozen=True, slots=True)
class About:
    """What a finished card says of itself to whoever looks for one."""

    titles: tuple[tuple[str, str], ...] = ()
    """Language codes with the title in each, first language first."""
    ages: tuple[str, ...] = ()
    """Names of the age bands that the dish reaches into."""
    groups: tuple[str, ...] = ()
    """Food groups it brings."""
    layout: str = ""
    version: str = ""
    revised: str = ""
    digest: str = ""
    states: tuple[str, ...] = ()
    """How far the words of its languages are: ``draft`` or ``checked``; empty where not told."""
    shape: float = 1.0
    """Height of the first page over its width."""
    cautions: tuple[tuple[str, str], ...] = ()
    """The dish's own cautions: icon name, and words in the first language."""


@dataclass(frozen=True, slots=True)
class OutFile:
    """A file that was written: its path below the out folder, and how it is known again."""

    name: str
    sha256: str
    size: int
    written_ns: int
    """The file's own time of change, as its disk told it."""


@dataclass(frozen=True, slots=True)
class Entry:
    """What came of one recipe. ``files`` is empty where an error stopped it."""

    target: str
    """What its files are called by: the card's file name without its ending."""
    recipe: str
    inputs: str
    """SHA-256 of the recipe and the files beside it that bear its name."""
    rests_on: str
    """SHA-256 of what all cards rest on: program, libraries, fonts, words, layout, programme."""
    foods: Mapping[str, str]
    """The foods it uses, with the digest of what the table knew of each (see ``basis.py``)."""
    files: tuple[OutFile, ...]
    diagnostics: tuple[Diagnostic, ...]
    about: About

    def named(self, end: str, folder: str = "") -> str:
        """The path of its file called by the target and ``end``; empty where there is none."""
        name = f"{folder}/{self.target}{end}" if folder else f"{self.target}{end}"
        return next((file.name for file in self.files if file.name == name), "")
