"""Side files: the words of one recipe in one more language, in a file beside it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Set
from dataclasses import dataclass, replace
from pathlib import PurePosixPath
from typing import Annotated

from pydantic import Field, field_validator

from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error, first_of, warning
from cards.diagnostics.nearest import nearest
from cards.source import nodes
from cards.source.faults import validate
from cards.source.fields import WordsField, fault
from cards.source.files import SIDE_NAME
from cards.source.model import Strict
from cards.source.nodes import Tree
from cards.source.recipe import Signature
from cards.source.signed import SignatureField

MOST_LINES = 400
"""More lines than all parts of a recipe together can ask for."""


class SideIn(Strict):
    """A side file: the title, and lines as they stand in the recipe with the same in its language.

    Each entry of ``lines`` holds two texts by language code: what the recipe says, and
    what that is in the side file's language. The title may be such a pair, or a text alone.
    """

    words: str
    title: WordsField
    lines: Annotated[list[WordsField], Field(max_length=MOST_LINES)] = Field(default_factory=list)
    signed: SignatureField | None = None

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
    signed: Signature | None = None
    titled: str = ""
    """The recipe's title that was translated; empty where the file does not say."""

    def spoken(self, texts: Iterable[str]) -> str | None:
        """The first of ``texts`` that the file speaks of."""
        return next((text for text in texts if text in self.told), None)

    def title(self, texts: Collection[str]) -> str | None:
        """What the title is asked for by; None where that of ``texts`` is another by now."""
        return TITLE if not self.titled or self.titled in texts else None

    def stale(self, asked: Set[str], wanting: Iterable[str]) -> Iterator[Diagnostic]:
        """Lines that were not asked for: the recipe was changed, or speaks for itself.

        ``wanting`` are texts of the recipe that have no words in this language.
        """
        now = {old: new for new, old in self.moved(asked, wanting).items()}
        if self.titled and TITLE not in asked:
            yield warning(
                self.tree.place(("title",)),
                "side-line-stale",
                f'this title is stale: the recipe does not say "{self.titled}" any more',
                "copy the recipe's new title into the line, and translate it anew",
            )
        for text, (_, number) in self.told.items():
            if text in asked or number is None:
                continue
            if text in now:
                yield warning(
                    self.tree.place(("lines", number)),
                    "side-line-stale",
                    f'this line is stale: the recipe said "{text}", and now says "{now[text]}"',
                    "copy the recipe's new words into the line, and translate them anew",
                )
            else:
                yield warning(
                    self.tree.place(("lines", number)),
                    "side-line-unused",
                    f'the recipe does not say "{text}", or says it in this language itself',
                    "copy the line anew from the recipe, or take it out",
                )

    def moved(self, asked: Set[str], wanting: Iterable[str]) -> dict[str, str]:
        """Texts of the recipe that most likely were changed, each with what it was before."""
        left = [text for text, (_, n) in self.told.items() if n is not None and text not in asked]
        found: dict[str, str] = {}
        for new in dict.fromkeys(wanting):
            old = nearest(new, left)
            if old:
                found[new] = old
                left.remove(old)
        return found


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
    told: dict[str, tuple[str, int | None]] = {}
    titled = ""
    own = model.title.get(language, model.title.get(""))
    if own is None or len(model.title) > 2:
        faults.append(_no_pair(tree.place(("title",)), "title", language))
    else:
        told[TITLE] = own, None
        titled = next(
            (said for code, said in model.title.items() if code not in ("", language)), ""
        )
    for number, line in enumerate(model.lines):
        other = [said for code, said in line.items() if code != language]
        if language not in line or len(other) != 1:
            faults.append(_no_pair(tree.place(("lines", number)), "line", language))
            continue
        told[other[0]] = (line[language], number)
    signed = model.signed and replace(model.signed, at=tree.place(("signed",)))
    side = Side(language, tree, told, signed, titled)
    return Result(None if faults else side, first_of(faults))


def _no_pair(at: Place, what: str, language: str) -> Diagnostic:
    return error(
        at,
        "side-line-pair",
        f'this {what} does not give one text of the recipe and the same in "{language}"',
        f"write the recipe's own words after en:, and the same after {language}:",
    )
