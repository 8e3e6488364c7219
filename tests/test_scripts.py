"""Cards in other scripts, from data alone: made-up languages, read back, mirrored, counted."""

from __future__ import annotations

import ast
import re
import shutil
import unicodedata
from collections.abc import Iterator
from itertools import accumulate, pairwise
from pathlib import Path
from unicodedata import combining

import pytest
import yaml
from babel import Locale
from bidi import get_display
from uniseg.graphemecluster import grapheme_clusters
from uniseg.linebreak import line_break_units

from cards.batch.kit import Kit, open_kit
from cards.batch.stages import Run, run_file
from cards.data import load
from cards.icons.catalogue import find
from cards.layout.mirror import mirrored
from cards.layout.pages import IconItem, QrItem, TextItem
from cards.layout.split import split_card
from cards.pdf import content
from cards.pdf.paint import paint
from cards.pdf.shared import Shared
from cards.source.workspace import open_workspace
from cards.text.bidi import seen_order
from cards.text.shape import GlyphMissing, shape
from cards.text.wrap import Line, spans_of, words_of, wrap
from cards.words.digits import digits_of
from tests import made_up
from tests.conftest import ROOT
from tests.hard_words import HARD
from tests.printed import picture
from tests.test_house import MODULES
from tests.test_pdf import READERS, scratch, set_lines, squeezed

__all__ = ["scratch"]

STEM = "pumpkin-rice-moong"
SCRIPTS = {"Deva": "kok", "Beng": "as", "Taml": "ta", "Telu": "te", "Arab": "ur"}
"""A code of each script that Babel knows; the words under it are made up."""


def run(root: Path, script: str, languages: tuple[str, ...], code: str) -> Run:
    folder = made_up.folder(root, script, languages, code)
    text = (ROOT / f"recipes/{STEM}.yaml").read_text("utf-8")
    path = folder / f"recipes/{STEM}.yaml"
    path.write_text(made_up.recipe(text, script, code), encoding="utf-8")
    workspace = open_workspace(folder)
    kit = open_kit(workspace)
    assert kit.value is not None, kit.diagnostics
    return run_file(path, workspace, kit.value)


@pytest.fixture(scope="module")
def cards(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Run]:
    """A card of each script, English second."""
    return {
        script: run(tmp_path_factory.mktemp(script), script, (code, "en"), code)
        for script, code in SCRIPTS.items()
    }


@pytest.fixture(scope="module")
def files(cards: dict[str, Run]) -> dict[str, bytes]:
    painted: dict[str, bytes] = {}
    for script, card in cards.items():
        assert card.pages is not None, card.diagnostics
        painted[script] = paint(card.pages, card.sources)
    return painted


def visible(text: str) -> str:
    """Without blanks and the marks of direction that a reader may add."""
    return "".join(c for c in squeezed(text) if unicodedata.category(c) != "Cf")


@pytest.mark.parametrize("script", SCRIPTS)
def test_a_language_is_data_alone(script: str, cards: dict[str, Run]) -> None:
    """Words, programme and recipe name it; its own words stand on the card."""
    card, code = cards[script], SCRIPTS[script]
    assert card.pages is not None
    assert not card.stopped, card.diagnostics
    told = {
        item.language: item.line.text
        for page in card.pages.pages
        for item in page.items
        if isinstance(item, TextItem) and item.role == "title"
    }
    assert set(told) == {code, "en"}
    lines = set_lines(card)
    washed = made_up.changed("washed", script)
    assert any(washed in line for line in lines)
    own = [line for line in lines if unicodedata.name(line[0], "").startswith(LETTERS[script])]
    assert len(own) > 20


LETTERS = {
    "Deva": "DEVANAGARI",
    "Beng": "BENGALI",
    "Taml": "TAMIL",
    "Telu": "TELUGU",
    "Arab": "ARABIC",
}

BY_PLACE = ("pdftotext", "pdfium")
"""Readers that go by places and put right-to-left lines in order by rules of their own."""


def test_no_module_names_a_language() -> None:
    """Codes stand in data; "en" only where English stands in the code itself."""
    listed = load.mapping("languages.yaml")
    codes = {*listed["known"], *SCRIPTS.values()}
    named: dict[str, set[str]] = {}
    for path in MODULES:
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and node.value in codes:
                named.setdefault(node.value, set()).add(path.name)
    english = {"sheet_type.py", "sheet_pages.py", "icon_test_pages.py", "assemble.py", "po.py"}
    assert named == {"en": english}


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("script", SCRIPTS)
def test_every_line_comes_back(
    script: str, reader: str, cards: dict[str, Run], files: dict[str, bytes]
) -> None:
    got = visible(READERS[reader](files[script]))
    lines = set_lines(cards[script])
    assert len(lines) > 40
    wanted = lines
    if script == "Arab" and reader in BY_PLACE:
        wanted = [line for line in lines if ARABIC.fullmatch(line) or line.isascii()]
        assert len(wanted) > 50
    assert [line for line in wanted if visible(line) not in got] == []


ARABIC = re.compile("[؀-ۿ ]+")
"""A line of Arabic letters and blanks alone."""


@pytest.mark.parametrize("reader", BY_PLACE)
def test_every_word_among_numbers_comes_back(
    reader: str, cards: dict[str, Run], files: dict[str, bytes]
) -> None:
    """Where such a reader puts a line in another order, its words are still whole."""
    got = visible(READERS[reader](files["Arab"]))
    words = {word for line in set_lines(cards["Arab"]) for word in re.findall("[؀-ۿ]+", line)}
    assert len(words) > 60
    # pdfium takes one line of the smallest type for two
    assert len({word for word in words if word not in got}) <= len(words) / 50


def test_painted_from_left_to_right_the_lines_are_lost(
    cards: dict[str, Run], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The control: as most programs paint it, two of the readers give it back turned round."""

    def as_seen(item: TextItem, height: float, shared: Shared) -> str:
        code = [f"BT {item.x:.2f} {height - item.y:.2f} Td"]
        runs = item.line.runs
        for index in seen_order([level for _, level, _ in runs]):
            face, level, clusters = runs[index]
            name, codes = shared.face(face)
            shown = "".join(codes[c] for c in clusters[:: -1 if level % 2 else 1])
            code.append(f"/{name} {item.size} Tf <{shown}> Tj")
        return " ".join([*code, "ET"])

    monkeypatch.setattr(content, "_mixed_text", as_seen)
    card = cards["Arab"]
    assert card.pages is not None
    painted = paint(card.pages)
    lines = [line for line in set_lines(card) if ARABIC.fullmatch(line) and len(line) > 5]
    for reader in ("pdfminer", "mutool"):
        got = visible(READERS[reader](painted))
        assert [line for line in lines if visible(line) in got] == []
        assert [line for line in lines if visible(line)[::-1] in got] == lines


def texts(card: Run) -> Iterator[TextItem]:
    assert card.pages is not None
    for page in card.pages.pages:
        yield from (item for item in page.items if isinstance(item, TextItem))


def broken_lines(card: Run) -> Iterator[tuple[TextItem, TextItem]]:
    """Lines of one text that follow one another."""
    for one, other in pairwise(item for item in texts(card) if item.role == "body"):
        alike = (one.at, one.language, one.tags, one.size) == (
            other.at,
            other.language,
            other.tags,
            other.size,
        )
        if alike and other.top == pytest.approx(one.bottom):
            yield one, other


def test_a_card_is_mirrored(cards: dict[str, Run]) -> None:
    """Titles and numbers begin at the right edge, the code stands on the left."""
    card = cards["Arab"].pages
    assert card is not None
    right = card.width - card.margin
    for item in texts(cards["Arab"]):
        if item.role == "title":
            assert item.box[2] == pytest.approx(right, abs=0.1)
    codes = [i for page in card.pages for i in page.items if isinstance(i, QrItem)]
    assert codes[0].x == pytest.approx(card.margin, abs=0.1)
    steps = [
        item
        for item in card.pages[1].items
        if isinstance(item, TextItem) and item.role == "numeral"
    ]
    assert [step.line.text for step in steps] == [str(n) for n in range(1, 7)]
    assert {round(step.box[2], 1) for step in steps} == {round(right, 1)}
    for page in card.pages:
        for item in page.items:
            there = mirrored(item, card.width)
            assert there.box[0] == pytest.approx(card.width - item.box[2])
            assert mirrored(there, card.width).box == pytest.approx(item.box)


def test_what_points_is_turned_and_nothing_else(cards: dict[str, Run]) -> None:
    for script, card in cards.items():
        assert card.pages is not None
        drawn = [i for page in card.pages.pages for i in page.items if isinstance(i, IconItem)]
        turned = {i.icon.name for i in drawn if i.turned}
        pointing = {i.icon.name for i in drawn if find(i.icon.name).points}
        assert "arrow" in pointing
        assert turned == (pointing if script == "Arab" else set())
        arrows = {i.icon.alt for i in drawn if i.icon.name == "arrow"}
        assert arrows == {"←" if script == "Arab" else "→"}


def test_ages_grow_from_right_to_left(cards: dict[str, Run]) -> None:
    for script, card in cards.items():
        places = [
            item.x
            for item in texts(card)
            if item.role == "numeral" and any(tag.kind == "TH" for tag in item.tags)
        ]
        assert len(places) == 3
        assert places == sorted(places, reverse=script == "Arab")


def test_lines_of_a_text_are_flush_on_their_own_side(tmp_path: Path) -> None:
    """Whatever the card's way, Urdu begins its lines on the right and English on the left."""
    for languages in (("ur", "en"), ("en", "ur")):
        card = run(tmp_path / languages[0], "Arab", languages, "ur")
        told = set()
        for one, other in broken_lines(card):
            told.add(one.language)
            side = 2 if one.language == "ur" else 0
            assert one.box[side] == pytest.approx(other.box[side])
        assert told == {"ur", "en"}


def test_mirrored_icons_are_painted_mirrored(cards: dict[str, Run]) -> None:
    """Seen by pdfium: the arrow's tip, its thinner end, is on the left."""
    card = cards["Arab"]
    assert card.pages is not None
    seen = picture(paint(card.pages), 0, 300)
    arrow = max(
        (
            item
            for item in card.pages.pages[0].items
            if isinstance(item, IconItem) and item.icon.name == "arrow"
        ),
        key=lambda i: i.width,
    )
    box = [round(v * 300 / 72) for v in arrow.box]
    cut = seen.crop((box[0], box[1], box[2], box[3]))
    quarter = cut.width // 4
    tip, tail = (
        sum(v < 128 for v in cut.crop((left, 0, left + quarter, cut.height)).tobytes())
        for left in (0, cut.width - quarter)
    )
    assert tail > 1.5 * tip > 0


UNICODE_ORDER = [
    "چاول اور دال",
    "چاول (basmati) اور دال",
    "Rice اور dal",
    "بچے 12 ماہ",
    "3 سیٹیاں، پھر 10 منٹ",
    "۱۲ سے ۲۳ ماہ",
    "ہفتے میں 1/2 کپ",
    "pressure cooker میں 3 liter پانی",
]


def seen(line: Line) -> str:
    """A line's text as it is seen from left to right."""
    order = seen_order([piece.level for piece in line.pieces])
    return "".join(p.text[:: -1 if p.level % 2 else 1] for p in (line.pieces[i] for i in order))


@pytest.mark.parametrize("text", UNICODE_ORDER)
@pytest.mark.parametrize("language", ["ur", "en"])
def test_the_order_is_that_of_the_unicode_algorithm(text: str, language: str, kit: Kit) -> None:
    """Held against another implementation of UAX #9, which gives the text as it is seen."""
    line = wrap(words_of(spans_of(text), kit.book, language), 12, 1000)[0]
    wanted = get_display(text, base_dir="R" if language == "ur" else "L")
    # there a bracket is turned into its mirror image; HarfBuzz turns the glyph
    assert seen(line).translate(BRACKETS) == wanted.translate(BRACKETS)


BRACKETS = str.maketrans("()", "||")


@pytest.mark.parametrize(
    "number", ["2–3", "½", "1½", "1¾", "¾–1", "1 1/3", "0.5", "2026-11-25", "۱½", "۲–۳"]
)
@pytest.mark.parametrize("text", ["{} چمچ", "چمچ {} چاول", "چاول، {}", "ماہ: {}۔", "({}) کپ"])
def test_numbers_stay_whole_among_urdu(number: str, text: str, kit: Kit) -> None:
    """The number is seen as it is on a line of English."""
    line = wrap(words_of(spans_of(text.format(number)), kit.book, "ur"), 12, 1000)[0]
    assert number in seen(line)
    assert line.text == text.format(number)


def test_figures_are_drawn_once_at_their_place(kit: Kit) -> None:
    """The pieces of a line neither overlap nor leave gaps."""
    for text in UNICODE_ORDER:
        line = wrap(words_of(spans_of(text), kit.book, "ur"), 12, 1000)[0]
        edges = sorted(
            (left, left + piece.em) for left, piece in zip(line.lefts, line.pieces, strict=True)
        )
        assert edges[0][0] == 0
        assert edges[-1][1] * 12 == pytest.approx(line.width)
        assert all(b[0] == pytest.approx(a[1]) for a, b in pairwise(edges))


@pytest.mark.parametrize(("script", "case"), [*HARD.items()], ids=[*HARD])
def test_clusters_hold_whole_signs(
    script: str, case: tuple[str, tuple[str, ...]], kit: Kit
) -> None:
    """No cluster ends inside what Unicode (UAX #29) takes for one sign.

    But that a font without a conjunct sets its halves side by side.
    """
    language, words = case
    for word in words:
        pieces = shape(word, kit.book, "regular", language)
        ends = set(accumulate(len(c.text) for piece in pieces for c in piece.clusters))
        signs = set(accumulate(len(sign) for sign in grapheme_clusters(word)))
        halves = {n for n in range(1, len(word)) if combining(word[n - 1]) == VIRAMA}
        halves |= {n for n in range(1, len(word)) if word[n] in JOINERS}
        assert ends <= signs | halves, (word, ends - signs)


VIRAMA = 9
"""The combining class of signs that take a vowel away (Unicode Character Database)."""

JOINERS = "\u200c\u200d"


@pytest.mark.parametrize("script", SCRIPTS)
def test_lines_break_where_unicode_lets_them(script: str, cards: dict[str, Run]) -> None:
    """Each end of a line is a place where a line may end (UAX #14)."""
    broken = list(broken_lines(cards[script]))
    assert len(broken) > 3
    for one, other in broken:
        whole = f"{one.line.text} {other.line.text}"
        may = set(accumulate(len(part) for part in line_break_units(whole)))
        assert len(one.line.text) + 1 in may


def test_digits_are_the_languages_own(cards: dict[str, Run]) -> None:
    """By CLDR Bengali script's for Assamese, ours for Konkani, Tamil, Telugu and Urdu."""
    for script, card in cards.items():
        digits = {
            c
            for item in texts(card)
            if item.language != "en" and item.role != "trace"
            for c in item.line.text
            if unicodedata.category(c) == "Nd"
        }
        assert len(digits) > 6
        names = {unicodedata.name(c).split("DIGIT")[0] for c in digits}
        assert names == ({"BENGALI "} if script == "Beng" else {""})


@pytest.mark.parametrize(
    ("code", "choice", "zero"),
    [
        ("en", "", "0"), ("hi", "", "0"), ("hi", "native", "०"), ("mr", "", "०"),
        ("mr", "latin", "0"), ("bn", "", "০"), ("ta", "native", "௦"), ("te", "native", "౦"),
        ("ur", "", "0"), ("ur", "native", "۰"), ("en", "native", "0"),
    ],
)  # fmt: skip
def test_which_digits(code: str, choice: str, zero: str) -> None:
    digits = digits_of(Locale.parse(code), choice)
    assert digits[0] == zero
    assert [unicodedata.decimal(digit) for digit in digits] == list(range(10))


def test_every_numbering_system_has_ten_digits() -> None:
    for name, zero in load.mapping("digits.yaml").items():
        values = [unicodedata.decimal(chr(ord(zero) + n)) for n in range(10)]
        assert values == list(range(10)), name


def test_native_digits_on_a_card(tmp_path: Path) -> None:
    """A words file asks for them, and fractions keep their sign: ۱½."""
    folder = made_up.folder(tmp_path, "Arab", ("ur",), "ur")
    words = folder / "templates/words/ur.yaml"
    words.write_text("digits: native\n" + words.read_text("utf-8"), encoding="utf-8")
    text = (ROOT / f"recipes/{STEM}.yaml").read_text("utf-8").replace("3 tsp", "1 1/2 tsp")
    path = folder / f"recipes/{STEM}.yaml"
    path.write_text(made_up.recipe(text, "Arab", "ur"), encoding="utf-8")
    workspace = open_workspace(folder)
    kit = open_kit(workspace).value
    assert kit is not None
    lines = set_lines(run_file(path, workspace, kit))
    assert "۱½" in lines
    assert "۶–۲۳" in lines
    kept = [line for line in lines if "2026-11-25" in line]
    assert len(kept) == 1


def test_sides_are_counted_in_native_digits(cards: dict[str, Run]) -> None:
    card = cards["Beng"].card
    assert card is not None
    pieces = split_card(card, ["heading", "steps", "foot"], "steps", 2)
    told = [[text.text for text in piece.heading.counted] for piece, _ in pieces]
    assert "২" in told[0][0]
    assert "১" in told[0][0]
    assert told[1][1] == "2 of 2"


def test_a_wrong_word_for_digits_is_told(tmp_path: Path) -> None:
    folder = made_up.folder(tmp_path, "Arab", ("ur",), "ur")
    words = folder / "templates/words/ur.yaml"
    words.write_text("digits: urdu\n" + words.read_text("utf-8"), encoding="utf-8")
    told = open_kit(open_workspace(folder)).diagnostics
    assert [(d.kind, d.place.line) for d in told] == [("value-wrong", 1)]
    assert "native" in told[0].hint


def test_a_script_wants_its_font_line(tmp_path: Path) -> None:
    """A family of files beside one's own list serves a script; without its line it is refused."""
    folder = made_up.folder(tmp_path, "Beng", ("as", "en"), "as")
    (folder / "fonts").mkdir()
    listing = yaml.safe_load((ROOT / "fonts/fonts.yaml").read_text("utf-8"))
    families = {"mukta": listing["families"]["mukta"]}
    kit = open_kit(open_workspace(ROOT)).value
    assert kit is not None
    own: dict[str, str] = {}
    for weight in ("regular", "bold"):
        path = kit.book.face("hind-siliguri", weight).path
        shutil.copy(path, folder / "fonts" / path.name)
        own[weight] = path.name
    families["own"] = own
    scripts = {"Latn": listing["scripts"]["Latn"]}

    def made() -> Run:
        text = yaml.safe_dump({"families": families, "scripts": scripts})
        (folder / "fonts/fonts.yaml").write_text(text, encoding="utf-8")
        workspace = open_workspace(folder)
        kit = open_kit(workspace).value
        assert kit is not None
        text = (ROOT / f"recipes/{STEM}.yaml").read_text("utf-8")
        path = folder / f"recipes/{STEM}.yaml"
        path.write_text(made_up.recipe(text, "Beng", "as"), encoding="utf-8")
        return run_file(path, workspace, kit)

    refused = made()
    missing = [d for d in refused.diagnostics if d.kind == "glyph-missing"]
    assert refused.stopped
    assert missing
    assert missing[0].place.line
    scripts["Beng"] = {"families": ["own"], "leading": 1.42, "ascent": 1.1}
    card = made()
    assert not card.stopped, card.diagnostics
    assert any("BENGALI" in unicodedata.name(line[0], "") for line in set_lines(card))


def test_signs_all_scripts_share_come_from_another_font(kit: Kit) -> None:
    """Tamil's font has no ½; stuck to a Tamil word it is taken from the Latin one."""
    pieces = shape("½கப்", kit.book, "regular", "ta")
    assert [(p.face.family, p.text) for p in pieces] == [("mukta", "½"), ("noto-sans-tamil", "கப்")]
    with pytest.raises(GlyphMissing) as caught:
        shape("கப்→", kit.book, "regular", "ta")
    assert caught.value.characters == "→"
