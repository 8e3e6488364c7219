"""Shaping, script runs and line breaking."""

from __future__ import annotations

import pytest
import uharfbuzz as hb
from hypothesis import given, settings
from hypothesis import strategies as st

from cards.batch.kit import Kit
from cards.batch.stages import Run
from cards.layout.pages import TextItem
from cards.text.faces import FontBook
from cards.text.runs import split_scripts
from cards.text.shape import GlyphMissing, shape
from cards.text.wrap import TooWide, spans_of, words_of, wrap

# words with conjuncts, pre-base signs, reph and stacked marks
HINDI = [
    "क्षेत्र",
    "किशमिश",
    "कर्म",
    "ज्ञान",
    "स्वास्थ्य",
    "राष्ट्रीय",
    "कार्यकर्ता",
    "चुटकी",
    "व्यंजन",
    "हफ़्ते",
    "मिर्च",
    "स्तनपान",
    "ट्रे",
]


@pytest.mark.parametrize("word", HINDI)
def test_hindi_is_shaped_as_harfbuzz_shapes_it(kit: Kit, word: str) -> None:
    """The same glyphs as HarfBuzz called directly, and not those of the bare characters."""
    piece = shape(word, kit.book, "regular", "hi")[0]
    ours = [gid for cluster in piece.clusters for gid, _, _ in cluster.glyphs]
    buffer = hb.Buffer()
    buffer.add_str(word)
    buffer.guess_segment_properties()
    hb.shape(piece.face.shaper, buffer)
    assert ours == [info.codepoint for info in buffer.glyph_infos]
    assert piece.text == word
    unshaped = [piece.face.shaper.get_nominal_glyph(ord(c)) for c in word]
    assert ours != unshaped


def test_conjuncts_form_in_a_mixed_line(kit: Kit) -> None:
    """A shaper that guesses one script for "Rice क्षेत्र" loses the conjunct; ours may not."""
    mixed = shape("Rice क्षेत्र", kit.book, "regular", "hi")
    alone = shape("क्षेत्र", kit.book, "regular", "hi")
    assert mixed[-1].clusters == alone[-1].clusters


def test_no_discretionary_ligatures(kit: Kit) -> None:
    clusters = shape("Roast", kit.book, "regular", "en")[0].clusters
    assert [c.text for c in clusters] == list("Roast")


def test_script_runs() -> None:
    runs = split_scripts("2½ कप rice, चावल।")
    assert [(r.script, r.text) for r in runs] == [
        ("Deva", "2½ कप "),
        ("Latn", "rice, "),
        ("Deva", "चावल।"),
    ]
    assert [r.script for r in split_scripts("12–15")] == ["Latn"]


@given(st.text(alphabet="abc 12½,।चावलकि ", max_size=30))
def test_runs_join_up(text: str) -> None:
    assert "".join(r.text for r in split_scripts(text)) == text


def test_missing_glyphs_are_named(kit: Kit) -> None:
    with pytest.raises(GlyphMissing) as caught:
        shape("rice → dal", kit.book, "regular", "en")
    assert caught.value.characters == "→"
    with pytest.raises(GlyphMissing) as caught:
        shape("ચોખા", kit.book, "regular", "gu")
    assert caught.value.script == "Gujr"


@given(
    st.lists(
        st.sampled_from(["rice", "moong", "dal", "चावल", "a", "water"]), min_size=1, max_size=14
    ),
    st.floats(60, 300),
)
@settings(deadline=None)
def test_lines_hold_all_words_in_order(kit_book: FontBook, words: list[str], room: float) -> None:
    text = " ".join(words)
    lines = wrap(words_of(spans_of(text), kit_book, "en"), 12, room)
    assert " ".join(line.text for line in lines) == text
    assert all(line.width <= room + 1e-6 for line in lines)


@pytest.fixture(scope="module")
def kit_book(kit: Kit) -> FontBook:
    return kit.book


def test_lines_are_even(kit: Kit) -> None:
    """No lone word on the last line where the words can be shared out."""
    words = words_of(spans_of("Soak rice and moong dal for thirty minutes"), kit.book, "en")
    lines = wrap(words, 12, 190)
    assert len(lines) == 2
    assert len(lines[-1].text.split()) > 2


def test_a_word_wider_than_the_room(kit: Kit) -> None:
    with pytest.raises(TooWide) as caught:
        wrap(words_of(spans_of("a unpronounceable word"), kit.book, "en"), 12, 50)
    assert caught.value.word == "unpronounceable"


def test_bold_stretches(kit: Kit) -> None:
    line = wrap(words_of(spans_of("2 cups *rice*, washed"), kit.book, "en"), 12, 500)[0]
    assert line.text == "2 cups rice, washed"
    assert [(p.face.weight, p.text) for p in line.pieces] == [
        ("regular", "2 cups "),
        ("bold", "rice"),
        ("regular", ", washed"),
    ]


def test_no_ink_of_one_line_touches_the_next(demos: dict[str, Run]) -> None:
    """Vowel signs above and below stay within the line's own space, measured on the glyphs."""
    for run in demos.values():
        assert run.pages is not None
        for page in run.pages.pages:
            for item in page.items:
                if isinstance(item, TextItem) and item.role != "label":
                    low, high = ink(item)
                    assert item.y - high >= item.top - 0.5, item.line.text
                    assert item.y - low <= item.bottom + 0.5, item.line.text


def ink(item: TextItem) -> tuple[float, float]:
    """Lowest and highest ink of a line in points about its baseline."""
    low = high = 0.0
    for piece in item.line.pieces:
        scale = item.size / piece.face.units_per_em
        for cluster in piece.clusters:
            for gid, _, y in cluster.glyphs:
                extents = piece.face.shaper.get_glyph_extents(gid)
                if extents is None:
                    continue
                top = (y + extents.y_bearing) * scale
                high = max(high, top)
                low = min(low, top + extents.height * scale)
    return low, high
