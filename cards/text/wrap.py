"""Line breaking: at blanks only, evenly, never a lone short word on the last line.

Of the classes of UAX #14 (Unicode line breaking) lines break after SP alone, not at hyphens, and
GL holds. Beyond the standard a blank after a number holds too, since a number at a line's end is
read without what it counts (its rule LB25 keeps a number whole; a blank parts it).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise

from cards.text.bidi import levels_of, reads_leftward, seen_order
from cards.text.faces import Face, FontBook
from cards.text.shape import Cluster, Shaped, blank_clusters, shape

_FIGURE = r"[\d¼-¾⅐-⅞]"
_NUMBER = rf"{_FIGURE}(?:[^\w\s]*{_FIGURE})*"
_CLASSIFIER = "(?:টি|টা|টে|খানা|খানি|জন)?"
"""Bengali writes it onto the figure, and the noun follows."""

_HOLDS = re.compile(
    rf"(?<!\S)[^\w\s]*{_NUMBER}{_CLASSIFIER}(?P<after> )"
    # a word, brackets or quotes before it; a sign of a unit; the fraction of 1 1/2; 20 × 30
    rf"(?=[^\w\s]*[^\W\d_¼-¾⅐-⅞]|[%‰°]|{_FIGURE}+/{_FIGURE}|[¼-¾⅐-⅞]|[×–] {_FIGURE})"
    rf"|(?<=[\d¼-¾⅐-⅞] [×–])(?P<sign> )(?={_FIGURE})"
    "|(?P<hard>[\u00a0\u2007\u202f])"
)
"""Blanks at which no line may break: those after a number, and those that say so (class GL)."""


def held_blanks(text: str) -> frozenset[int]:
    """Where in a text there are blanks at which no line may break."""
    return frozenset(m.start(m.lastgroup or 0) for m in _HOLDS.finditer(text))


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of text in one weight."""

    text: str
    weight: str = "regular"


@dataclass(frozen=True, slots=True)
class Word:
    """An unbreakable stretch, shaped; ``space`` is the blank before it.

    ``parts`` are the two it falls into where no line is wide enough for it, as a number with
    what it counts; none where it is one word.
    """

    pieces: tuple[Shaped, ...]
    space: Shaped | None
    parts: tuple[Word, ...] = ()
    em: float = field(init=False)
    """Width in ems without the blank."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "em", sum(piece.em for piece in self.pieces))

    def width(self, size: float) -> float:
        """Width in points without the blank."""
        return self.em * size


@dataclass(frozen=True, slots=True)
class Line:
    """One set line: its words. The blank before the first is not set."""

    words: tuple[Word, ...]
    width: float

    @property
    def pieces(self) -> tuple[Shaped, ...]:
        """Shaped pieces with the blanks in them, in the order they are read.

        They are joined where face and level stay the same.
        """
        return tuple(Shaped(face, tuple(found), level) for face, level, found in self.runs)

    @property
    def runs(self) -> tuple[tuple[Face, int, list[Cluster]], ...]:
        """The pieces as face, level and clusters, for the painter.

        Few of the lines that are measured are painted, so this waits until it is asked for.
        """
        found: list[tuple[Face, int, list[Cluster]]] = []
        for index, word in enumerate(self.words):
            blank = (word.space,) if index and word.space else ()
            for piece in (*blank, *word.pieces):
                if found and found[-1][0] == piece.face and found[-1][1] == piece.level:
                    found[-1][2].extend(piece.clusters)
                else:
                    found.append((piece.face, piece.level, list(piece.clusters)))
        return tuple(found)

    @property
    def lefts(self) -> tuple[float, ...]:
        """The left edge of each piece in ems from the line's own."""
        widths = [piece.em for piece in self.pieces]
        lefts = [0.0] * len(widths)
        pen = 0.0
        for index in seen_order([piece.level for piece in self.pieces]):
            lefts[index] = pen
            pen += widths[index]
        return tuple(lefts)

    @property
    def mixed(self) -> bool:
        """True where any of the line runs from right to left."""
        return any(piece.level for word in self.words for piece in word.pieces)

    @property
    def text(self) -> str:
        """The line's text, in the order it is read."""
        return "".join(piece.text for piece in self.pieces)


class TooWide(ValueError):
    """A single word that is wider than the room."""

    def __init__(self, word: str) -> None:
        super().__init__(word)
        self.word = word


def spans_of(text: str) -> tuple[Span, ...]:
    """Spans of a text in which ``*stars*`` mark the bold stretches."""
    return tuple(
        Span(part, "bold" if index % 2 else "regular")
        for index, part in enumerate(text.split("*"))
        if part
    )


def plain(text: str) -> str:
    """The text without the marks for bold."""
    return text.replace("*", "")


@lru_cache(maxsize=4_000)
def words_of(spans: tuple[Span, ...], book: FontBook, language: str) -> tuple[Word, ...]:
    """Shape spans word by word. A word may change weight inside. Raises GlyphMissing."""
    text = "".join(span.text for span in spans)
    levels = levels_of(text, reads_leftward(language))
    held = held_blanks(text)
    # words, each with whether the blank before it holds, of parts in one weight
    groups: list[tuple[bool, list[tuple[Span, int]]]] = []
    fresh, holds = True, False
    at = 0
    for span in spans:
        for index, part in enumerate(_BLANK.split(span.text)):
            if index:
                # of several blanks in a row one that holds decides
                holds = at in held or (fresh and holds)
                fresh = True
                at += 1
            if not part:
                continue
            if fresh or not groups:
                groups.append((holds, []))
                fresh = holds = False
            groups[-1][1].append((Span(part, span.weight), at))
            at += len(part)
    words: list[Word] = []
    for holds, group in groups:
        pieces = tuple(
            piece
            for span, at in group
            for piece in shape(
                span.text, book, span.weight, language, levels[at : at + len(span.text)]
            )
        )
        blank = None
        if words:
            # the blank takes the face of the word before it, so that a line stays in few strings
            last = words[-1].pieces[-1].face
            level = levels[group[0][1] - 1] if levels else 0
            blank = Shaped(last, blank_clusters(last), level)
        word = Word(pieces, blank)
        if holds and blank and words:
            before = words.pop()
            word = Word((*before.pieces, blank, *pieces), before.space, (before, word))
        words.append(word)
    return tuple(words)


_BLANK = re.compile("[ \u00a0\u2007\u202f]")


def width_of(words: Sequence[Word], size: float) -> float:
    """Width of words set on one line, in points."""
    # written out: it is asked for every line of every try
    width = 0.0
    for index, word in enumerate(words):
        blank = word.space.em * size if index and word.space else 0.0
        width += word.em * size + blank
    return width


def wrap(words: Sequence[Word], size: float, room: float, *, even: bool = True) -> tuple[Line, ...]:
    """Set words in as few lines as fit ``room`` points, each full or all as even as can be.

    Raises TooWide naming the first word that fits no line.
    """
    whole = width_of(words, size)
    if whole <= room:
        return (Line(tuple(words), whole),) if words else ()
    for word in words:
        if word.em * size > room:
            words = _fallen(words, room / size)
            break
    breaks = _full(words, size, room)
    if even and len(breaks) > 2:
        breaks = _even(words, size, room, len(breaks) - 1)
    lines = [tuple(words[start:end]) for start, end in pairwise(breaks)]
    return tuple(Line(line, width_of(line, size)) for line in lines)


def _fallen(words: Sequence[Word], room: float) -> list[Word]:
    """The words, those wider than ``room`` ems in their parts, as few as can be."""
    found: list[Word] = []
    for word in words:
        if word.em <= room:
            found.append(word)
        elif word.parts:
            found += _fallen(word.parts, room)
        else:
            raise TooWide("".join(p.text for p in word.pieces))
    return found


def _full(words: Sequence[Word], size: float, room: float) -> list[int]:
    """Break indexes (0 to len) for lines filled one after another."""
    breaks = [0]
    used = 0.0
    for index, word in enumerate(words):
        step = word.em * size + (word.space.em * size if used and word.space else 0.0)
        if used and used + step > room:
            breaks.append(index)
            used = word.em * size
        else:
            used += step
    return [*breaks, len(words)]


def _even(words: Sequence[Word], size: float, room: float, count: int) -> list[int]:
    """Break indexes (0 to len) for ``count`` lines with the least sum of squared blanks."""
    blanks = [_blanks(words, start, size, room) for start in range(len(words))]
    # by the end of the lines so far: what they cost, and their breaks
    best: dict[int, tuple[float, list[int]]] = {0: (0.0, [0])}
    for _ in range(count):
        longer: dict[int, tuple[float, list[int]]] = {}
        for start in sorted(best):
            cost, breaks = best[start]
            for end, blank in enumerate(blanks[start] if start < len(words) else (), start + 1):
                both = cost + blank**2
                if end not in longer or both < longer[end][0]:
                    longer[end] = both, [*breaks, end]
        best = longer
    return best[len(words)][1]


def _blanks(words: Sequence[Word], start: int, size: float, room: float) -> list[float]:
    """What is left of the room by each line that begins with a word and fits, shortest first."""
    blanks: list[float] = []
    width = words[start].em * size
    for word in words[start + 1 :]:
        if width > room:
            return blanks
        blanks.append(room - width)
        width += word.em * size + (word.space.em * size if word.space else 0.0)
    return [*blanks, room - width] if width <= room else blanks
