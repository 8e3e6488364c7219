"""Side files: the words of one recipe in one more language, in a file beside it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Set
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import Annotated

from pydantic import Field, field_validator

from cards.diagnostics.diagnostic import Diagnostic, Result, error, first_of, warning
from cards.source import nodes
from cards.source.faults import validate
from cards.source.fields import TextField, WordsField, fault
from cards.source.model import Strict
from cards.source.nodes import Tree

SIDE_NAME = re.compile(r"(?P<stem>.+)\.(?P<language>[a-z]{2,3})\.ya?ml")
"""The name of a side file: ``carrot-dal.hi.yaml`` is Hindi for ``carrot-dal.yaml``."""


MOST_LINES = 400
"""More lines than all parts of a recipe together can ask for."""


class SideIn(Strict):
    """A side file: the title, and lines as they stand in the recipe with the same in its language.

    Each entry of ``lines`` holds two texts by language code: what the recipe says, and
    what that is in the side file's language.
    """

    words: str
    title: TextField
    lines: Annotated[list[WordsField], Field(max_length=MOST_LINES)] = Field(default_factory=list)

    @field_validator("words")
    @classmethod
    def _format(cls, value: str) -> str:
        if value != "1":
            raise fault("format-unknown", f'"{value}" is no format version', "write words: 1")
        return value


@dataclass(frozen=True)
class Side:
    """One language's words for a recipe."""

    language: str
    tree: Tree
    told: dict[str, tuple[str, int | None]]
    """The text by what the recipe says, with the number of its line (None for the title)."""

    def spoken(self, texts: Iterable[str]) -> str | None:
        """The first of ``texts`` that the file speaks of."""
        return next((text for text in texts if text in self.told), None)

    def stale(self, asked: Set[str]) -> Iterator[Diagnostic]:
        """Lines that were not asked for: the recipe was changed, or speaks for itself."""
        for text, (_, number) in self.told.items():
            if text not in asked and number is not None:
                yield warning(
                    self.tree.place(("lines", number)),
                    "side-line-unused",
                    f'the recipe does not say "{text}", or says it in this language itself',
                    "copy the line anew from the recipe, or take it out",
                )


TITLE = "\ftitle"
"""What the title is asked for by, whatever it is."""


def read_side(text: str, path: str) -> Result[Side]:
    """A side file's text as a ``Side``. ``path`` tells its language."""
    read = nodes.read_nodes(text, path)
    if read.value is None or read.failed:
        return Result(None, read.diagnostics)
    tree = read.value
    model, faults = validate(SideIn, tree)
    if model is None:
        return Result(None, tuple(faults))
    name = SIDE_NAME.fullmatch(PurePosixPath(path).name)
    language = name["language"] if name else ""
    told: dict[str, tuple[str, int | None]] = {TITLE: (model.title, None)}
    for number, line in enumerate(model.lines):
        other = [said for code, said in line.items() if code != language]
        if language not in line or len(other) != 1:
            faults.append(
                error(
                    tree.place(("lines", number)),
                    "side-line-pair",
                    f'this line does not give one text of the recipe and the same in "{language}"',
                    f"write the recipe's own words after en:, and the same after {language}:",
                )
            )
            continue
        told[other[0]] = (line[language], number)
    return Result(None if faults else Side(language, tree, told), first_of(faults))
