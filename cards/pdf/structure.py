"""The structure of a file: which elements stand in which, and what is painted for each.

A page is a row of stretches. A stretch is what stands in one element without a break;
it is painted between marks and has a number on its page, by which the tree finds it. What
is only seen (rules, boxes) is an artifact and has none.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import NamedTuple

from cards.layout.pages import IconItem, Page, Pages, Placed, QrItem, Tag, Tags, TextItem
from cards.text.wrap import plain

ARTIFACT = Tag("Artifact")

ANY_LANGUAGE = "und"
"""The language of figures, which are read in whatever language stands around them."""

_HOLD_TEXT = frozenset(("H1", "H2", "P", "Lbl", "LBody", "TH", "TD", "Span", "Figure", "Artifact"))
"""Elements that words may stand in by themselves; in any other they make a paragraph."""


class Mark(NamedTuple):
    """A stretch of a page: the page's index and the stretch's number there, both from 0."""

    page: int
    number: int


@dataclass(frozen=True, slots=True)
class Element:
    """An element and what stands in it, in reading order."""

    tag: Tag
    inside: tuple[Element | Mark, ...]

    def walk(self) -> Iterator[Element]:
        """This element, then those in it, in reading order."""
        yield self
        for inner in self.inside:
            if isinstance(inner, Element):
                yield from inner.walk()


@dataclass(frozen=True, slots=True)
class Stretch:
    """Items painted one after the other for one element; without a mark for an artifact."""

    kind: str
    mark: Mark | None
    items: tuple[Placed, ...]


@dataclass(frozen=True, slots=True)
class Structure:
    """The document's element, and the stretches of each page in the order they are painted."""

    root: Element
    pages: tuple[tuple[Stretch, ...], ...]

    @property
    def items(self) -> dict[Mark, tuple[Placed, ...]]:
        """What each mark stands for."""
        return {s.mark: s.items for page in self.pages for s in page if s.mark is not None}


def structure_of(pages: Pages, kind: str = "Document") -> Structure:
    """The elements that the items' tags speak of, in the order in which they are read.

    ``kind`` is what they all stand in.
    """
    read: list[tuple[Tags, Mark]] = []
    painted: list[tuple[Stretch, ...]] = []
    for index, page in enumerate(pages.pages):
        stretches: list[Stretch] = []
        number = 0
        for path, items in _runs(page, pages.meta.language):
            mark = None
            if path[-1] != ARTIFACT:
                mark = Mark(index, number)
                number += 1
                read.append((path, mark))
            stretches.append(Stretch(path[-1].kind, mark, items))
        painted.append(tuple(stretches))
    return Structure(Element(Tag(kind), _nested(read, 0)), tuple(painted))


def _runs(page: Page, language: str) -> Iterator[tuple[Tags, tuple[Placed, ...]]]:
    """Neighbours that stand in the same element, with its path."""
    path: Tags = ()
    run: list[Placed] = []
    for item in page.items:
        found = _path(item, path, language)
        if run and found != path:
            yield path, tuple(run)
            run = []
        path = found
        run.append(item)
    if run:
        yield path, tuple(run)


def _path(item: Placed, before: Tags, language: str) -> Tags:
    """The elements an item stands in. ``before`` are those of the item painted before it."""
    tags = item.tags
    kinds = [tag.kind for tag in tags]
    if "Artifact" in kinds:
        return (ARTIFACT,)
    if "Figure" in kinds:
        return tags
    if isinstance(item, IconItem):
        return (*tags, Tag("Figure", alt=plain(item.icon.alt)))
    if isinstance(item, QrItem):
        return (*tags, Tag("Figure", alt=f"QR code: {item.payload}"))
    if not isinstance(item, TextItem):
        return (ARTIFACT,)
    if item.role == "label":
        return before  # a number on a clock is of the picture
    if next(filter(None, reversed(kinds)), "") not in _HOLD_TEXT:
        tags = (*tags, Tag("P"))
    if item.language in (ANY_LANGUAGE, language):
        return tags
    return (*tags, Tag("Span", language=item.language))


def _nested(read: Sequence[tuple[Tags, Mark]], depth: int) -> tuple[Element | Mark, ...]:
    """Neighbours with the same tag at ``depth`` in one element, and so on inwards."""
    found: list[Element | Mark] = []
    for tag, same in groupby(read, lambda one: one[0][depth] if len(one[0]) > depth else None):
        if tag is None:
            found += [mark for _, mark in same]
        elif not tag.kind:
            found += _nested(list(same), depth + 1)
        else:
            found.append(Element(tag, _nested(list(same), depth + 1)))
    return tuple(found)


def words_in(element: Element, items: dict[Mark, tuple[Placed, ...]]) -> str:
    """The element's words; those of another language after a stroke."""
    told: dict[str, list[str]] = {}
    for inner in element.walk():
        for mark in inner.inside:
            if isinstance(mark, Mark):
                for item in items[mark]:
                    if isinstance(item, TextItem):
                        told.setdefault(inner.tag.language, []).append(item.line.text)
    return " / ".join(" ".join(lines) for lines in told.values())
