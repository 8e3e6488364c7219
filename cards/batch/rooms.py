"""What room a text has on the paper: measured by setting it there, among the others as they are.

A side has one height for all its rows, so no text has a room by itself. Its room is what the
fullest paper that prints it has left, at the least sizes, while all else stays as it is.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from functools import cached_property, partial
from itertools import cycle, islice
from typing import Any

from cards.batch.feeding_chart import feeding_chart
from cards.batch.kit import Kit, open_kit
from cards.batch.stages import run_file
from cards.card.model import Text
from cards.diagnostics.diagnostic import Result, has_errors
from cards.layout.checks import check_pages
from cards.layout.layoutfile import TURNED
from cards.layout.pages import Pages
from cards.layout.place import place
from cards.layout.refusals import texts_in
from cards.layout.wall.feeding_chart_pages import SIZES, place_feeding_chart
from cards.source.fields import LONGEST_TEXT
from cards.source.model import LANGUAGES
from cards.source.workspace import Workspace, read_text
from cards.words.language import Language, load_language
from cards.words.translation import scripts_of
from cards.words.units import Unit, letters

MOST_CARDS = 8
"""Papers among which the fullest is looked for: each is set anew for every text it prints."""

MOST_RECIPES = 24
"""Recipes among which those papers are looked for."""

SHORT = 9
"""Letters of the longest word that stands in for others; the width of a word is another check."""


_MARKS = "*{}()0123456789.,:;!?।،؛؟۔"

Said = Sequence[tuple[Unit, str]]
"""Texts with what they are to say."""


@dataclass(frozen=True)
class Paper:
    """What is printed, before it is placed, and the arrow that places it."""

    name: str
    whole: Any
    placed: Callable[[Any], Result[Pages]]

    def holds(self, whole: Any) -> bool:
        """Whether it can be placed on the sides it is meant for, with nothing in another's way."""
        made = self.placed(whole)
        return made.value is not None and not has_errors(made.diagnostics)

    @cached_property
    def texts(self) -> frozenset[tuple[str, str]]:
        """What it says, as language and text; with the names that stand in bold."""
        return frozenset(_texts(self.whole))


class Rooms:
    """Rooms of the texts of one language, in the programme's layout and languages.

    A language that the programme does not print stands in the place of its second one.
    """

    def __init__(self, code: str, workspace: Workspace) -> None:
        self.code, self.workspace = code, workspace
        self.kit: Kit | None = open_kit(workspace).value
        self.known: dict[str, Paper | None] = {}
        self.words: tuple[str, ...] = ()

    def room(self, unit: Unit) -> int | None:
        """Letters for which there is room; None where it is not known.

        That is so of texts with values in them, of what no paper here prints alone, of what
        is left out where there is no room, and of more than any line may hold.
        """
        papers = list(self.papers(unit))
        if not papers or not self.stand_ins:
            return None
        found = LONGEST_TEXT
        words = list(islice(cycle(self.stand_ins), LONGEST_TEXT))
        for paper in papers:
            found = min(found, self.most(paper, unit, words, found))
        return found if 0 < found < LONGEST_TEXT * 3 // 4 else None

    def marked(self, unit: Unit) -> Unit:
        """The unit with its measured room, where it has one."""
        room = self.room(unit)
        return unit if room is None else replace(unit, limit=room, measured=True)

    def too_long(self, unit: Unit, text: str) -> tuple[int, str]:
        """By how many letters a text is too long, and for which paper; 0 where it fits."""
        for paper in self.papers(unit):
            if not paper.holds(self.said(paper.whole, [(unit, text)])):
                held = self.most(paper, unit, text.split(" "), letters(text))
                return max(1, letters(text) - held), paper.name
        return 0, ""

    def together(self, texts: Said) -> str:
        """The first paper that does not hold all these texts at once; empty where all do."""
        papers = {paper.name: paper for unit, _ in texts for paper in self.papers(unit)}
        for paper in papers.values():
            if not paper.holds(self.said(paper.whole, texts)):
                return paper.name
        return ""

    def most(self, paper: Paper, unit: Unit, words: Sequence[str], limit: int) -> int:
        """Letters of as many of the words as the paper holds, of ``limit`` letters at most."""

        def text(count: int) -> str:
            return " ".join(words[:count])

        low, high = 0, 0
        while high < len(words) and letters(text(high + 1)) <= limit:
            high += 1
        count = high  # few papers are fuller than the fullest so far
        while low < high:
            if paper.holds(self.said(paper.whole, [(unit, text(count))])):
                low = count
            else:
                high = count - 1
            count = (low + high + 1) // 2
        return letters(text(low)) if low else 0

    def papers(self, unit: Unit) -> Iterator[Paper]:
        """The papers that print a unit's text by itself, and hold it as it is."""
        if not unit.variables and len(unit.source) == 1:
            printed = (p for p in self.candidates(unit) if (unit.code, unit.text) in p.texts)
            yield from islice(printed, MOST_CARDS)

    def candidates(self, unit: Unit) -> Iterator[Paper]:
        """The card of the unit's recipe; for words of all, the chart and the first cards."""
        files = [self.workspace.name(path) for path in self.workspace.recipe_files()]
        names = [unit.file] if unit.file in files else ["", *files[:MOST_RECIPES]]
        for name in names:
            paper = self.paper(name)
            if paper:
                yield paper

    def paper(self, name: str) -> Paper | None:
        """A recipe's card, or without a name the chart of feeding by age; None if it has errors."""
        if name not in self.known:
            made = self._card(name) if name else self._chart()
            self.known[name] = made if made and made.holds(made.whole) else None
        return self.known[name]

    def _card(self, name: str) -> Paper | None:
        path = next(p for p in self.workspace.recipe_files() if self.workspace.name(p) == name)
        kit = self.kit
        card = run_file(path, self.workspace, kit).card if kit else None
        if kit is None:
            return None
        if card is None and self.first:
            # not yet told in the second language: the first says everything twice
            card = run_file(path, self.workspace, self.first).card
            card = _doubled(card) if card and kit.languages[1:] else card
        if card is None:
            return None

        def placed(whole: Any) -> Result[Pages]:
            # a turned card is set as it stands: both its sides have the room of the longer text
            turned = whole if self._turned else None
            made = place(whole, kit.layout, kit.book, turned, least=True)
            told = check_pages(made.value, kit.layout) if made.value else ()
            return Result(made.value, (*made.diagnostics, *told))

        return Paper(f"the card of {name}", card, placed)

    @cached_property
    def first(self) -> Kit | None:
        """The programme's kit with its first language alone."""
        codes = self.kit.programme.languages[:1] if self.kit else ()
        return open_kit(self.workspace, languages=codes).value if codes else None

    @property
    def _turned(self) -> bool:
        return bool(self.kit and self.kit.layout.languages == TURNED and self.kit.languages[1:])

    def _chart(self) -> Paper | None:
        kit = self.kit
        if kit is None:
            return None
        chart = feeding_chart(kit).value
        size = next(iter(SIZES))
        placed = partial(
            place_feeding_chart,
            layout=kit.layout,
            book=kit.book,
            size=size,
            at=kit.programme.at,
            least=True,
        )
        return Paper("the chart of feeding by age", chart, placed) if chart else None

    def said(self, whole: Any, texts: Said) -> Any:
        """The card or chart with these texts in place of what it says now."""
        return _with(whole, [(u.code, u.text, text) for u, text in texts], self.code)

    @property
    def stand_ins(self) -> tuple[str, ...]:
        """Words of the language, or of another in its script, of which to make texts of a length.

        Running words as they are printed: so what a letter takes on average need not be guessed.
        """
        if not self.words:
            alike = [code for code in LANGUAGES if scripts_of(code) == scripts_of(self.code)]
            for code in dict.fromkeys((self.code, *alike)):
                language = self._language(code)
                if language:
                    found = " ".join(language.fixed()).split()
                    self.words = tuple(
                        w for w in found if letters(w) <= SHORT and not set(w) & set(_MARKS)
                    )
                    break
        return self.words

    def _language(self, code: str) -> Language | None:
        path = self.workspace.template("words", f"{code}.yaml")
        text = read_text(path, path.name).value if path else None
        return load_language(text, f"{code}.yaml", code).value if text else None


def _texts(whole: Any) -> Iterator[tuple[str, str]]:
    """Each text with its language, and what stands in it in bold."""
    for text in texts_in(whole):
        yield text.language, text.text
        yield from ((text.language, name) for name in re.findall(r"\*([^*]+)\*", text.text))


def _doubled(whole: Any) -> Any:
    """A card in one language with every saying twice, as it stands in two languages."""
    if isinstance(whole, tuple):
        if len(whole) == 1 and isinstance(whole[0], Text):
            return (*whole, *whole)
        return tuple(_doubled(one) for one in whole)
    if not is_dataclass(whole) or isinstance(whole, type | Text):
        return whole
    own = {field.name: getattr(whole, field.name) for field in fields(whole) if field.init}
    return replace(whole, **{name: _doubled(value) for name, value in own.items()})


def _with(whole: Any, texts: Sequence[tuple[str, str, str]], code: str) -> Any:
    """Every text that says what one in ``texts`` says, in another language or another text.

    ``texts`` are language and text that are looked for, and the text that stands in its place.
    """
    if isinstance(whole, tuple):
        if whole and all(isinstance(one, Text) for one in whole):
            for language, source, text in texts:
                for one in whole:
                    if one.language != language:
                        continue
                    named = f"*{source}*" in one.text
                    if named or one.text == source:
                        return _in_place(whole, language, code, text, named)
            return whole
        made = tuple(_with(one, texts, code) for one in whole)
        return whole if all(a is b for a, b in zip(made, whole, strict=True)) else made
    if not is_dataclass(whole) or isinstance(whole, type):
        return whole
    found = {field.name: getattr(whole, field.name) for field in fields(whole) if field.init}
    changed = {
        name: new for name, old in found.items() if (new := _with(old, texts, code)) is not old
    }
    return replace(whole, **changed) if changed else whole


def _in_place(
    said: tuple[Text, ...], language: str, code: str, text: str, named: bool
) -> tuple[Text, ...]:
    """A saying with a text in the language ``code``: where it speaks already, else the second's."""
    places = [n for n, one in enumerate(said) if one.language == code]
    places += [n for n, one in enumerate(said) if one.language != language]
    at = (*places, len(said) - 1)[0]
    old = said[at]
    whole = re.sub(r"\*[^*]*\*", lambda _: f"*{text}*", old.text, count=1) if named else text
    return (*said[:at], Text(code, whole, old.at), *said[at + 1 :])
