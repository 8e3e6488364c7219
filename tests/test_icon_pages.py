"""Pages about the icons: each icon once with its text, a test that gives nothing away, a lesson."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest
from click.testing import CliRunner
from PIL import Image

from cards.batch.icon_pages import FILES, icon_pages, names_on
from cards.batch.kit import Kit
from cards.batch.stages import Run
from cards.card.icon_test import shuffled
from cards.cli import command
from cards.data import load
from cards.icons import catalogue
from cards.layout.icon_pages.icon_sheet_pages import CELL, WORDS
from cards.layout.layoutfile import load_layout
from cards.layout.pages import MM, IconItem, Page, Pages, TextItem
from cards.pdf.paint import paint
from cards.words.language import Language, icon_names, load_language
from tests.conftest import PLAIN, ROOT, Bench
from tests.golden import ICON_PAGES, differing_tiles, icon_file, raster, still

LANGUAGES = ("en", "hi")


def words_text(code: str) -> str:
    return (ROOT / "templates" / "words" / f"{code}.yaml").read_text(encoding="utf-8")


def language(code: str, old: str = "", new: str = "") -> Language:
    """A shipped language, with one text of its file changed."""
    text = words_text(code)
    assert not old or text.count(old) == 1
    loaded = load_language(text.replace(old, new) if old else text, f"{code}.yaml", code)
    assert loaded.value is not None, loaded.diagnostics
    return loaded.value


@pytest.fixture(scope="module")
def made(kit: Kit) -> dict[str, Pages]:
    found: dict[str, Pages] = {}
    for what in FILES:
        placed = icon_pages(what, (), kit)
        assert placed.value is not None
        assert placed.diagnostics == ()
        found[what] = placed.value
    return found


def texts(page: Page, *roles: str) -> list[TextItem]:
    return [i for i in page.items if isinstance(i, TextItem) and (not roles or i.role in roles)]


def icons(pages: Pages, side: str = "") -> Iterator[IconItem]:
    for page in pages.pages:
        if page.name.startswith(side):
            yield from (i for i in page.items if isinstance(i, IconItem))


def says(page: Page) -> str:
    return " ".join(item.line.text for item in texts(page)).casefold()


def holds(text: str, words: str) -> bool:
    """True when ``words`` stand in the text as whole words."""
    return re.search(rf"(?<!\w){re.escape(words.casefold())}(?!\w)", text) is not None


def test_the_list_of_icons_is_the_catalogue() -> None:
    assert sorted(icon_names()) == list(catalogue.names())
    assert len(set(icon_names())) == len(icon_names())


@pytest.mark.parametrize("code", LANGUAGES)
def test_every_icon_has_a_text_and_no_two_the_same(code: str) -> None:
    words = language(code)
    told = Counter(words.icon(name) for name in catalogue.names())
    assert [text for text, count in told.items() if count > 1] == []
    assert max(len(text) for text in told) <= 36  # a few words, one line
    assert sum(told.values()) == len(catalogue.names())


def test_the_sheet_holds_every_icon_once(made: dict[str, Pages]) -> None:
    names = [i.line.text for page in made["sheet"].pages for i in texts(page, "name")]
    assert sorted(names) == list(catalogue.names())
    listing = load.mapping("icons.yaml")
    filled = {name for group in listing["filled"] for name in listing["groups"][group]}
    drawn = Counter(item.icon.name for item in icons(made["sheet"]))
    assert drawn == {name: 5 if name in filled else 1 for name in catalogue.names()}


def test_measures_are_shown_from_full_to_empty_at_their_printed_size(
    made: dict[str, Pages],
) -> None:
    cups = [item for item in icons(made["sheet"]) if item.icon.name == "cup"]
    assert [dict(item.icon.params)["fill"] for item in cups] == [1, 0.75, 0.5, 0.25, 0]
    assert [item.x for item in cups] == sorted(item.x for item in cups)
    for item in icons(made["sheet"]):
        true = catalogue.find(item.icon.name).true_height_mm
        if true:
            assert item.height == pytest.approx(true * MM)
        else:
            assert 4 * MM < item.height <= 11 * MM + 0.01


@pytest.mark.parametrize("code", LANGUAGES)
def test_every_text_fits_its_cell_in_one_line(code: str, made: dict[str, Pages]) -> None:
    words = language(code)
    lines = {
        item.line.text: item
        for page in made["sheet"].pages
        for item in texts(page, "body")
        if item.language == code
    }
    for name in catalogue.names():
        item = lines[words.icon(name)]
        assert item.line.width <= CELL - WORDS, name


@pytest.mark.parametrize("what", list(FILES))
def test_type_is_large_enough_and_pages_are_a4(what: str, made: dict[str, Pages]) -> None:
    pages = made[what]
    assert (pages.width, pages.height) == pytest.approx((210 * MM, 297 * MM))
    for page in pages.pages:
        assert min(item.size for item in texts(page) if item.role != "label") >= 12
        edges = [item.box for item in page.items]
        assert min(box[0] for box in edges) == pytest.approx(15 * MM, abs=0.5)
        assert max(box[2] for box in edges) == pytest.approx(195 * MM, abs=0.5)


def test_the_field_pages_give_nothing_away(made: dict[str, Pages]) -> None:
    """No icon's text or name, in no language, in print or for a reader of the file."""
    asked = [page for page in made["test"].pages if page.name.startswith("test")]
    words = [language(code) for code in LANGUAGES]
    for page in asked:
        for name in catalogue.names():
            for lang in words:
                assert not holds(says(page), lang.icon(name)), (page.name, name)
    for item in icons(made["test"], "test"):
        assert re.fullmatch(r"picture \d+", item.icon.alt)
    # the same search finds them where they should stand
    counted = " ".join(says(p) for p in made["test"].pages if p.name.startswith("count"))
    for name in ("cup", "no-tea", "moon"):
        assert all(holds(counted, lang.icon(name)) for lang in words)


def test_the_field_pages_show_each_icon_once_and_large(made: dict[str, Pages]) -> None:
    drawn = list(icons(made["test"], "test"))
    assert Counter(i.icon.name for i in drawn) == dict.fromkeys(catalogue.names(), 1)
    for item in drawn:
        assert item.height == pytest.approx(28 * MM) or item.width == pytest.approx(40 * MM)
    sides = [page for page in made["test"].pages if page.name.startswith("test")]
    per_side = [sum(isinstance(i, IconItem) for i in page.items) for page in sides]
    assert per_side[:-1] == [6] * (len(sides) - 1)
    numbers = [i.line.text for page in sides for i in texts(page, "numeral")]
    assert numbers == [str(n) for n in range(1, len(drawn) + 1)]


def test_numbers_mean_the_same_on_both_sheets(made: dict[str, Pages]) -> None:
    asked = [i.icon.name for i in icons(made["test"], "test")]
    counted = [i.icon.name for i in icons(made["test"], "count")]
    assert asked == counted


def test_the_order_hangs_on_the_programme_alone(kit: Kit) -> None:
    names = catalogue.names()
    here = shuffled(names, kit.programme)
    assert sorted(here) == list(names)
    assert shuffled(reversed(names), kit.programme) == here
    assert here != list(names)
    other = replace(kit.programme, name={"en": "Three Wells", "hi": "तीन कुएँ"})
    assert shuffled(names, other) != here
    # a name in a language that is not printed leaves a test as it was
    more = replace(kit.programme, name={**kit.programme.name, "ta": "இரு கிணறுகள்"})
    assert shuffled(names, more) == here
    # an icon keeps its place among the others when some are left out
    assert shuffled(here[::2], kit.programme) == here[::2]


def test_marks_are_printed_with_source_and_how_known(made: dict[str, Pages]) -> None:
    facts = load.mapping("icon_test.yaml")
    printed = " ".join(i.line.text for i in texts(made["test"].pages[-1]))
    assert [facts[f"{n}_percent"]["value"] for n in ("correct", "safety", "opposite")] == [
        66,
        85,
        5,
    ]
    for figure in ("66", "85", "5", "50", "ISO 9186-1:2014", "ANSI Z535.3"):
        assert holds(printed.casefold(), figure)
    assert printed.count("(memory, high)") == 2
    assert printed.count("(memory, medium)") == 1
    for fact in facts.values():
        if isinstance(fact, dict):
            assert fact["source"]
            assert fact["known"] in ("seen", "memory", "computed")
            assert fact["known"] != "memory" or fact["sure"] in ("high", "medium", "low")


def test_the_lesson_builds_up_in_order(made: dict[str, Pages]) -> None:
    front, back = made["lesson"].pages
    numbers = [i.line.text for page in (front, back) for i in texts(page, "numeral")]
    assert [n for n in numbers if n in "12345678"][:8] == list("12345678")
    order = list(dict.fromkeys(i.icon.name for i in icons(made["lesson"], "front")))
    assert order == [
        "tablespoon",
        "cup",
        "flame-low",
        "flame-medium",
        "flame-high",
        "clock",
        "hours",
        "whistle",
    ]
    spoons = [i for i in icons(made["lesson"], "front") if i.icon.name == "tablespoon"]
    assert [dict(i.icon.params)["fill"] for i in spoons] == [1, 1, 1, 0.5]
    on_back = Counter(i.icon.name for i in icons(made["lesson"], "back"))
    assert on_back["whistle"] == 3
    assert on_back["moon"] == 3


def test_the_practice_rows_are_a_cards_own_and_their_answer_stands_at_the_foot(
    made: dict[str, Pages], kit: Kit
) -> None:
    back = made["lesson"].pages[1]
    words = language("en")
    whistles = words.phrase("for-whistles", number="3", count="other")
    answers = (
        words.sentence("soak", foods="it", time="overnight"),
        words.sentence("pressure-cook", foods="it", whistles=whistles),
    )
    lines = {i.line.text: i for i in texts(back)}
    for answer, picture in zip(answers, ("soak", "pressure-cook"), strict=True):
        found = next(item for text, item in lines.items() if text.startswith(answer))
        drawn = next(i for i in icons(made["lesson"], "back") if i.icon.name == picture)
        assert found.top > drawn.box[3]
        beside = [
            i.line.text for i in texts(back) if i.top < drawn.box[3] and i.bottom > drawn.box[1]
        ]
        assert all(re.fullmatch(r"\d", text) for text in beside), beside
    # drawn larger than on a card, and true to one another as there
    soak, cook = (
        next(i for i in icons(made["lesson"], "back") if i.icon.name == n)
        for n in ("soak", "pressure-cook")
    )
    assert soak.height == cook.height > 12 * MM
    assert soak.x == cook.x


@pytest.mark.parametrize("layout", ["pocket-card", "full-sheet"])
def test_the_sheets_do_not_hang_on_the_layout_of_the_cards(
    layout: str, kit: Kit, made: dict[str, Pages]
) -> None:
    path = ROOT / "templates" / "layouts" / f"{layout}.yaml"
    other = load_layout(path.read_text(encoding="utf-8"), path.name).value
    assert other is not None
    for what in FILES:
        assert icon_pages(what, (), replace(kit, layout=other)).value == made[what]


@pytest.mark.parametrize("what", list(FILES))
def test_one_language_alone_will_do(what: str, kit: Kit) -> None:
    alone = replace(kit, languages=kit.languages[1:])
    placed = icon_pages(what, (), alone)
    assert placed.diagnostics == ()
    assert placed.value is not None


def test_what_cannot_be_set_is_told(kit: Kit) -> None:
    def kinds(new: str) -> list[str]:
        words = language("en", "  cup: a cup\n", f"  cup: {new}\n")
        placed = icon_pages("sheet", (), replace(kit, languages=(words,)))
        assert placed.value is None
        return [d.kind for d in placed.diagnostics]

    assert kinds("a " + "cup" * 60) == ["word-too-wide"]
    assert kinds("ถ้วย") == ["glyph-missing"]


def test_a_text_too_long_for_the_lesson_is_told(kit: Kit) -> None:
    long = language("en", "  lesson-whistle: ", "  lesson-whistle: " + "Look again. " * 25)
    placed = icon_pages("lesson", (), replace(kit, languages=(long, kit.languages[1])))
    assert "outside-margin" in {d.kind for d in placed.diagnostics}


@pytest.mark.parametrize("what", list(FILES))
def test_the_same_bytes_each_time(what: str, kit: Kit, made: dict[str, Pages]) -> None:
    again = icon_pages(what, (), kit).value
    assert again is not None
    assert paint(again) == paint(made[what])


@pytest.mark.parametrize("what", list(FILES))
def test_pages_look_as_they_did(what: str, kit: Kit) -> None:
    """After a wanted change: look at the pages, then run ``python -m tests.golden``."""
    placed = icon_pages(what, (), still(kit)).value
    assert placed is not None
    pdf = paint(placed)
    names = [page.name for page in placed.pages]
    for name in ICON_PAGES[what]:
        with Image.open(icon_file(what, name)) as golden:
            page = raster(pdf, names.index(name))
            assert differing_tiles(page, golden.convert("L")) == [], name


def test_every_picture_on_a_card_says_what_it_is(demos: dict[str, Run]) -> None:
    """The arrow alone stands between two pictures and has no words of its own."""
    for run in demos.values():
        assert run.pages is not None
        for item in icons(run.pages):
            assert item.icon.alt or item.icon.name == "arrow", (run.name, item.icon.name)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "rice.yaml").write_text(PLAIN, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(command, ["icons", *arguments])
    return result.exit_code, result.output


def test_the_command_writes_each_sheet(folder: Path) -> None:
    for options, file in ((), "icons.pdf"), (("--lesson",), "first-lesson.pdf"):
        code, said = run(*options)
        assert code == 0
        assert f"out/{file} written" in said
        assert (folder / "out" / file).read_bytes().startswith(b"%PDF")


def test_the_command_tests_what_the_cards_print(folder: Path, bench: Bench) -> None:
    printed = bench.run(PLAIN).pages
    assert printed is not None
    names = names_on(printed)
    assert {"boil", "mash", "flame-low", "cup", "tablespoon"} <= names
    assert "fry" not in names
    wanted = icon_pages("test", sorted(names), bench.kit).value
    assert wanted is not None
    assert {item.icon.name for item in icons(wanted)} == names

    file = folder / "out" / "icon-test.pdf"
    sizes: list[int] = []
    for options in ((), ("recipes/rice.yaml",), ("--all",)):
        assert run("--test", *options)[0] == 0
        sizes.append(len(pypdf.PdfReader(file).pages))
    every = -(-len(catalogue.names()) // 6)
    assert sizes[0] == sizes[1] < len(names)
    assert sizes[2] > every


def test_the_command_refuses_what_it_cannot_do(folder: Path) -> None:
    assert run("recipes/rice.yaml")[0] == 2
    assert run("--all")[0] == 2
    assert run("--lesson", "recipes/rice.yaml")[0] == 2
    code, said = run("--test", "recipes/none.yaml")
    assert code == 1
    assert "file-missing" in said
