"""compose_icon_test: icons in an order of their own, what to ask, what to count, what is enough.

The method follows ISO 9186-1 (comprehension test): the picture alone, an open
question, the answer in the person's own words, sorted afterwards by people who
know the meaning. It is like that test and does not replace it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from cards.card.digits import in_digits
from cards.card.icon_words import icon_text, sheet_phrase, shown
from cards.card.model import CardMeta, IconUse, Said
from cards.card.origin import Origin, PageFoot, draft_codes, page_foot, sheet_meta
from cards.data import load
from cards.source.programme import Programme
from cards.words.language import Language

HOW = ("who", "pages", "alone", "where", "ask", "judge")
"""How to ask, in the order it is done."""

COLUMNS = ("correct", "partly", "wrong", "opposite", "none")
"""What an answer may be; the same words as ISO 9186-1 sorts by, in plain language."""

FAILS = ("say", "tell", "alone")
"""What to do with an icon that is not understood."""


@dataclass(frozen=True, slots=True)
class Question:
    """One icon: ``asked`` has no words but its number, ``scored`` is for whoever counts."""

    number: str
    asked: IconUse
    scored: IconUse
    meant: Said


@dataclass(frozen=True, slots=True)
class Mark:
    """A figure, the words that go on from it, and where they come from; empty for our own."""

    figure: str
    said: Said
    source: str


@dataclass(frozen=True, slots=True)
class IconTest:
    """Everything the test's pages say."""

    meta: CardMeta
    foot: PageFoot
    title: Said
    why: Said
    how: tuple[Mark, ...]
    question: Said
    own_words: Said
    blanks: tuple[Said, ...]
    a_page: int
    questions: tuple[Question, ...]
    count: Said
    meant: Said
    columns: tuple[Said, ...]
    sums: tuple[Said, ...]
    enough: Said
    marks: tuple[Mark, ...]
    notes: tuple[Said, ...]
    fails: Said
    cures: tuple[Mark, ...]


def compose_icon_test(
    names: Iterable[str], programme: Programme, languages: Sequence[Language], origin: Origin
) -> IconTest:
    """The test of the icons called ``names``."""
    facts = load.mapping("icon_test.yaml")
    people = facts["people_least"]["value"]

    def phrase(name: str, **values: object) -> Said:
        return sheet_phrase(languages, name, **values)

    test = IconTest(
        meta=sheet_meta(programme, languages, "test-title", origin),
        foot=page_foot(origin, programme, languages, draft_codes(languages)),
        title=phrase("test-title"),
        why=phrase("test-why"),
        how=tuple(
            Mark(str(number), phrase(f"test-how-{step}", people=people), "")
            for number, step in enumerate(HOW, 1)
        ),
        question=phrase("test-sheet"),
        own_words=phrase("test-own-words"),
        blanks=tuple(phrase(f"test-{name}") for name in ("person", "place", "date")),
        a_page=facts["icons_a_page"],
        questions=tuple(
            _question(number, name, languages)
            for number, name in enumerate(shuffled(names, programme), 1)
        ),
        count=phrase("test-count"),
        meant=phrase("test-meant"),
        columns=tuple(phrase(f"test-{name}") for name in COLUMNS),
        sums=(phrase("test-asked"), phrase("test-percent")),
        enough=phrase("test-marks"),
        marks=_marks(facts, languages),
        notes=tuple(phrase(f"test-{name}") for name in ("sum", "opposite-means", "like")),
        fails=phrase("test-fails"),
        cures=tuple(
            Mark(
                str(number),
                phrase(f"test-fail-{cure}"),
                _cited(facts["with_words"]) if cure == "alone" else "",
            )
            for number, cure in enumerate(FAILS, 1)
        ),
    )
    return in_digits(test, languages)


def shuffled(names: Iterable[str], programme: Programme) -> list[str]:
    """The names in an order that hangs on them and on the programme's printed name alone.

    So no icon stands beside its like, and a test printed again has the same numbers.
    """
    printed = sorted(item for item in programme.name.items() if item[0] in programme.languages)
    seed = "\n".join(f"{code} {name}" for code, name in printed)

    def order(name: str) -> bytes:
        return hashlib.sha256(f"{seed}\n{name}".encode()).digest()

    return sorted(set(names), key=order)


def _question(number: int, name: str, languages: Sequence[Language]) -> Question:
    meant = icon_text(languages, name)
    asked = shown(name, languages[0].sheet("test-picture", number=number))
    return Question(str(number), asked, replace(asked, alt=meant[0].text), meant)


def _marks(facts: dict[str, Any], languages: Sequence[Language]) -> tuple[Mark, ...]:
    plain, safe = facts["correct_percent"], facts["safety_percent"]
    opposite, people = facts["opposite_percent"], facts["people_least"]
    understood = sheet_phrase(languages, "test-mark-plain")
    safety = sheet_phrase(languages, "test-mark-safety", critical=opposite["value"])
    asked = sheet_phrase(languages, "test-mark-people")
    return (
        Mark(str(plain["value"]), understood, _cited(plain)),
        Mark(str(safe["value"]), safety, _cited(opposite)),
        Mark(str(people["value"]), asked, _cited(people)),
    )


def _cited(fact: dict[str, Any]) -> str:
    """A fact's document and how we know it."""
    known = ", ".join(fact[key] for key in ("known", "sure") if key in fact)
    return f"{fact['source']} ({known})"
