"""A number is never parted from what it counts by a line's end, on any page, in any language."""

from __future__ import annotations

import re
import subprocess
import unicodedata
from collections.abc import Iterator, Sequence
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cards.batch.feeding_chart import feeding_chart_pages
from cards.batch.icon_pages import icon_pages
from cards.batch.kit import Kit
from cards.batch.stages import run_file
from cards.layout import setting
from cards.layout.pages import Pages, TextItem
from cards.pdf.paint import paint
from cards.source.workspace import open_workspace
from cards.text import wrap as wrapping
from cards.text.faces import FontBook
from cards.text.wrap import Line, Word, spans_of, width_of, words_of, wrap
from tests.conftest import DEMO_FILES, ROOT
from tests.test_bilingual import kit_of

ALL = ("en", "hi", "mr", "bn", "ta", "te", "ur")
SPOKEN = {
    "hi": "चौथाई आधा आधी पौन सवा डेढ़ ढाई साढ़े पौने",
    "mr": "पाव पाऊण सव्वा दीड अडीच साडे पावणे पावणेदोन",
    "bn": "সিকি আধ পৌনে সওয়া দেড় আড়াই সাড়ে",
    "ta": "கால் அரை முக்கால் ஒன்றேகால் ஒன்றரை ஒன்றேமுக்கால் இரண்டரை",
    "te": "పావు అర ముప్పావు ఒకటిన్నర రెండున్నర",
    "ur": "چوتھائی پون سوا ڈیڑھ ڈھائی ساڑھے پونے",
}
"""Words for parts, which no noun goes before: a line that goes on may not end with one."""


def is_number(token: str) -> bool:
    """Whether a token says nothing but a number, by the Unicode database: 2, ½, (60, ৬–৮."""
    bare = token.lstrip("([\"'“‘«")
    kinds = {unicodedata.category(c)[0] for c in bare}
    return bool(bare) and kinds <= {"N", "P", "S"} and unicodedata.category(bare[-1])[0] == "N"


ROOMS: dict[int, tuple[Line, float]] = {}
"""By the id of each line that was set: the line, and the room it was set in."""


@pytest.fixture(autouse=True, scope="module")
def rooms() -> Iterator[None]:
    """Note what room each line was given, which the pages do not tell."""
    patch = pytest.MonkeyPatch()

    def noted(words: Sequence[Word], size: float, room: float) -> tuple[Line, ...]:
        lines = wrap(words, size, room)
        ROOMS.update({id(line): (line, room) for line in lines})
        return lines

    setting._set.cache_clear()
    patch.setattr(setting, "wrap", noted)
    yield
    patch.undo()
    ROOMS.clear()


def parted(pages: Pages) -> Iterator[tuple[str, str]]:
    """Lines of one text of which the first ends with a number and the next with what it counts.

    Not those that one line has no room for together.
    """
    for page in pages.pages:
        items = [i for i in page.items if isinstance(i, TextItem) and i.line.text]
        for one, two in pairwise(items):
            same = (one.language, one.role, one.size, one.at) == (
                two.language, two.role, two.size, two.at
            )  # fmt: skip
            if not same or abs(two.top - one.bottom) > 0.01 or one.role in ("trace", "source"):
                continue
            last, first = one.line.text.split()[-1], two.line.text.split()[0]
            counts = is_number(last) and any(c.isalpha() for c in first)
            if not counts and last not in SPOKEN.get(one.language, "").split():
                continue
            together = Word((*one.line.words[-1].pieces, *two.line.words[0].pieces), None)
            blank = two.line.words[0].space
            assert blank is not None
            if (together.em + blank.em) * one.size <= ROOMS[id(one.line)][1]:
                yield one.line.text, two.line.text


def test_the_check_sees_a_number() -> None:
    assert is_number("6–8") and is_number("(½") and is_number("২") and is_number("1/2")
    assert not is_number("B12") and not is_number("20.") and not is_number("60g")


def test_the_check_sees_a_parted_number(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where no blank holds, as it was before, demo cards do part numbers from their nouns."""
    seen: list[tuple[str, str]] = []
    monkeypatch.setattr(wrapping, "held_blanks", lambda text: frozenset())
    words_of.cache_clear()
    setting._set.cache_clear()
    try:
        for path in DEMO_FILES:
            run = run_file(path, open_workspace(ROOT), kit_of("full-sheet", ("en",)))
            seen += parted(run.pages) if run.pages else ()
    finally:
        words_of.cache_clear()
        setting._set.cache_clear()
    assert seen


TOO_LONG = [("ta", "wall-chart-a3")]
"""Words of the dishes in this language are wider than that chart's columns."""

CARDS = [
    *(("hand-card", codes) for code in ALL for codes in ((code,), ("en", code), (code, "en"))
      if len(set(codes)) == len(codes)),
    *((layout, (code,)) for code in ALL for layout in ("full-sheet", "wall-chart-a3")
      if (code, layout) not in TOO_LONG),
    ("pocket-card", ("en", "hi")),
]  # fmt: skip


@pytest.mark.parametrize(
    ("layout", "codes"), CARDS, ids=lambda v: v if v == str(v) else "-".join(v)
)
def test_no_line_of_a_card_ends_with_a_number(layout: str, codes: tuple[str, ...]) -> None:
    """On every demo card that speaks the languages, in every layout that holds it."""
    seen = 0
    for path in DEMO_FILES:
        if any(c not in ("en", "hi") and not path.with_suffix(f".{c}.yaml").is_file()
               for c in codes):  # fmt: skip
            continue
        run = run_file(path, open_workspace(ROOT), kit_of(layout, codes))
        if run.pages is not None:
            assert list(parted(run.pages)) == [], path.stem
            seen += 1
    assert seen


@pytest.mark.parametrize("codes", [("en", "hi"), *((code,) for code in ALL[2:])], ids="-".join)
def test_no_line_of_a_chart_or_lesson_ends_with_a_number(codes: tuple[str, ...]) -> None:
    own = kit_of("hand-card", codes)
    made = [feeding_chart_pages("a2", own), *(icon_pages(w, (), own) for w in ("lesson", "test"))]
    for pages in made:
        assert pages.value is not None, pages.diagnostics
        found = [one for one in parted(pages.value) if "Table 1" not in one[0]]
        assert found == []


@pytest.fixture(scope="module")
def book(kit: Kit) -> FontBook:
    return kit.book


NOUNS = {"en": "cup minutes", "hi": "कप मिनट", "bn": "কাপ টুকরো", "ta": "கப் நிமிடம்",
         "te": "కప్పు నిమిషాలు", "ur": "کپ منٹ"}  # fmt: skip
NUMBERS = ("2", "10", "½", "1½", "6–8", "1 1/2", "(60", "२", "৬–৮", "0.5")


@given(st.data(), st.sampled_from(sorted(NOUNS)), st.floats(60, 260), st.booleans())
@settings(deadline=None)
def test_any_text_in_any_room(
    book: FontBook, data: st.DataObject, code: str, room: float, even: bool
) -> None:
    """Words and numbers in any order: nothing is lost, nothing too wide, no number parted."""
    nouns = NOUNS[code].split()
    tokens = data.draw(st.lists(st.sampled_from([*nouns, *NUMBERS]), min_size=1, max_size=12))
    text = " ".join(tokens)
    words = words_of(spans_of(text), book, code)
    lines = [line.text for line in wrap(words, 12, room, even=even)]
    assert " ".join(lines) == text
    for one, two in pairwise(lines):
        if is_number(one.split()[-1]) and two.split()[0] in nouns:
            # only what is wider than the room may fall apart: all numbers before, and the noun
            tail = re.search(r"(\S*[\d½¼¾] )*$", one + " ")
            assert tail is not None
            joint = words_of(spans_of(f"{tail[0]}{two.split()[0]}"), book, code)
            assert width_of(joint, 12) > room


@pytest.mark.parametrize(
    ("text", "code", "whole"),
    [
        ("boil for 6–8 minutes", "en", "6–8 minutes"),
        ("mix in 1 1/2 cups", "en", "1 1/2 cups"),
        ("mix in 2 *cups*", "en", "2 cups"),
        ("of 60 × 84 cm", "en", "60 × 84 cm"),
        ("about 20 % fat", "en", "20 %"),
        ("দুধ আর ৩টি ডিম", "bn", "৩টি ডিম"),
        ("पानी मिलाएँ ढाई\u00a0कप", "hi", "ढाई कप"),
        ("no honey before\u00a01 year", "en", "before 1 year"),
    ],
)
def test_what_holds_together(book: FontBook, text: str, code: str, whole: str) -> None:
    """In every room that it fits it stands on one line, a no-break space as a plain blank."""
    words = words_of(spans_of(text), book, code)
    least = width_of(words_of(spans_of(whole), book, code), 12) + 0.01
    for extra in range(0, 120, 3):
        try:
            lines = wrap(words, 12, max(least, 45) + extra)
        except ValueError:
            continue
        shown = [line.text for line in lines]
        assert any(whole in line for line in shown), shown
        assert " ".join(shown) == text.replace("*", "").replace("\u00a0", " ")


def test_what_is_wider_than_its_room_falls_apart(book: FontBook) -> None:
    """Nothing is refused for a number; of 1 1/2 and its noun the noun goes first."""
    words = words_of(spans_of("1 1/2 tablespoons"), book, "en")
    assert [line.text for line in wrap(words, 12, 75)] == ["1 1/2", "tablespoons"]
    hard = words_of(spans_of("a\u00a0tablespoon"), book, "en")
    room = width_of(words_of(spans_of("tablespoon"), book, "en"), 12) + 1
    assert [line.text for line in wrap(hard, 12, room)] == ["a", "tablespoon"]


def test_what_is_no_number_holds_nothing(book: FontBook) -> None:
    for text in ("vitamin B12 helps", "wait 20. Then", "9 10 11 12"):
        assert len(words_of(spans_of(text), book, "en")) == len(text.split())


def test_a_blank_that_an_author_types_reaches_the_card(tmp_path: Path) -> None:
    """From the recipe's file to the text layer, where it is a blank again (read by pdftotext)."""
    text = (ROOT / "recipes" / "dalia-milk-banana.yaml").read_text(encoding="utf-8")
    before = text.count("en: ")
    held = re.sub(r"(?m)^(\s+en: )(\w+) (\w+) ", "\\1\\2\u00a0\\3 ", text, count=1)
    assert held != text and before
    path = tmp_path / "x.yaml"
    path.write_text(held, encoding="utf-8")
    run = run_file(path, open_workspace(ROOT), kit_of("hand-card", ("en", "hi")))
    assert run.card is not None and run.pages is not None, run.diagnostics
    assert "\u00a0" in repr(run.card).replace("\\xa0", "\u00a0")
    file = tmp_path / "x.pdf"
    file.write_bytes(paint(run.pages))
    words = subprocess.run(
        ["pdftotext", "-enc", "UTF-8", str(file), "-"], capture_output=True, check=True
    ).stdout.decode("utf-8")
    assert "\u00a0" not in words
    pair = re.search("(\\w+)\u00a0(\\w+)", held)
    assert pair is not None and f"{pair[1]} {pair[2]}" in words
