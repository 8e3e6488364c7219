"""Two languages on one card: stacked, side by side, turned; and the choice of languages."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from PIL import Image

from cards.batch.feeding_chart import feeding_chart_pages
from cards.batch.icon_pages import icon_pages
from cards.batch.kit import Kit, open_kit
from cards.batch.show import pages_text, stage_text
from cards.batch.stages import Run, run_file, run_text
from cards.card.model import Card, Text
from cards.cli import command
from cards.diagnostics.diagnostic import has_errors
from cards.layout.checks import check_pages
from cards.layout.layoutfile import load_layout
from cards.layout.pages import IconItem, Page, Pages, PanelItem, QrItem, RuleItem, TextItem
from cards.pdf.paint import paint
from cards.source.workspace import Workspace, open_workspace
from tests.conftest import DEMO_FILES, PLAIN, ROOT
from tests.golden import FOLDER, PAIRED, differing_tiles, raster

BESIDE = ("full-sheet-beside", "hand-card-beside")
TURNED = ("full-sheet-turned", "hand-card-turned")
ORDERS = (("en", "hi"), ("hi", "en"))


@cache
def kit_of(layout: str, languages: tuple[str, ...]) -> Kit:
    kit = open_kit(open_workspace(ROOT), layout, languages).value
    assert kit is not None
    return kit


@cache
def made(layout: str, languages: tuple[str, ...]) -> tuple[tuple[Card, Pages], ...]:
    """All demo dishes in a layout, none with an error."""
    found = []
    for path in DEMO_FILES:
        run = run_file(path, open_workspace(ROOT), kit_of(layout, languages))
        assert run.pages is not None, (path.stem, run.diagnostics)
        assert run.card is not None
        assert not has_errors(run.diagnostics)
        found.append((run.card, run.pages))
    return tuple(found)


def texts(page: Page) -> list[TextItem]:
    return [item for item in page.items if isinstance(item, TextItem)]


def rows(card: Card) -> Iterator[tuple[Text, ...]]:
    """What both languages say of each ingredient and step."""
    for section in (*card.needs.sections, *card.steps.sections):
        for row in section.rows:
            yield row.said


def first_lines(pages: Pages, said: tuple[Text, ...]) -> list[tuple[Page, TextItem]]:
    """Where the first line of each language of a row stands."""
    found = []
    for text in said:
        start = text.text.replace("*", "").split()[0]
        lines = [
            (page, item)
            for page in pages.pages
            for item in texts(page)
            if item.at == text.at
            and item.language == text.language
            and item.role == "body"
            and item.line.text.split()[0] == start
        ]
        assert lines, text
        found.append(min(lines, key=lambda one: one[1].y))
    return found


@pytest.mark.parametrize("languages", ORDERS)
@pytest.mark.parametrize("layout", BESIDE)
def test_both_languages_of_a_row_begin_on_one_line(layout: str, languages: tuple[str, ...]) -> None:
    """On one baseline, the second wholly to the right of a rule, the first to its left."""
    for card, pages in made(layout, languages):
        for said in rows(card):
            (page, first), (other, second) = first_lines(pages, said)
            assert page is other
            assert first.y == pytest.approx(second.y, abs=1e-6), first.line.text
            between = [
                rule
                for rule in page.items
                if isinstance(rule, RuleItem)
                and rule.x1 == rule.x2
                and rule.y1 <= first.y <= rule.y2
                and first.box[2] < rule.x1 < second.x
            ]
            assert len(between) == 1, first.line.text


@pytest.mark.parametrize("layout", BESIDE)
def test_the_columns_stand_alike_down_a_list(layout: str) -> None:
    """Every row of a list begins its second language at one place, so that the eye finds it."""
    for card, pages in made(layout, ("en", "hi")):
        for listed in (card.needs, card.steps):
            starts = {
                tuple(round(item.x, 3) for _, item in first_lines(pages, row.said))
                for section in listed.sections
                for row in section.rows
            }
            assert len(starts) == 1


def pictures(page: Page) -> list[tuple[Any, ...]]:
    """Everything on a side but its words, with its place."""
    found: list[tuple[Any, ...]] = []
    for item in page.items:
        box = tuple(round(n, 6) for n in item.box)
        if isinstance(item, IconItem):
            found.append((item.icon.name, item.icon.params, *box))
        elif isinstance(item, QrItem):
            found.append((item.payload, *box))
        elif isinstance(item, RuleItem | PanelItem):
            found.append(box)
        elif isinstance(item, TextItem) and item.role == "label":
            found.append((item.line.text, *box))
    return found


@pytest.mark.parametrize("languages", ORDERS)
@pytest.mark.parametrize("layout", TURNED)
def test_turning_a_card_changes_only_the_words(layout: str, languages: tuple[str, ...]) -> None:
    for _, pages in made(layout, languages):
        front, back = pages.pages
        assert len(pictures(front)) > 20
        assert pictures(front) == pictures(back)
        for page, language in zip((front, back), languages, strict=True):
            assert {item.language for item in texts(page)} == {language, "und"}
            alts = {i.icon.alt for i in page.items if isinstance(i, IconItem)}
            said = {alt for alt in alts if any(c.isalpha() for c in alt)}
            hindi = [alt for alt in said if re.search("[\u0900-\u097f]", alt)]
            assert hindi == ([] if language == "en" else list(said))


@pytest.mark.parametrize("languages", ORDERS)
@pytest.mark.parametrize("layout", TURNED)
def test_the_sides_of_a_turned_card_have_one_size_of_type(
    layout: str, languages: tuple[str, ...]
) -> None:
    for _, pages in made(layout, languages):
        front, back = ({i.size for i in texts(page) if i.role != "label"} for page in pages.pages)
        assert front == back


def spoken(value: Any) -> Iterator[Text]:
    """All that a part of a card says in words on any card.

    The first weeks' measure is said only where there is room; its picture is always there.
    """
    if isinstance(value, Text):
        yield value
    elif isinstance(value, tuple):
        for inner in value:
            yield from spoken(inner)
    elif is_dataclass(value):
        for field in fields(value):
            if field.name != "first":
                yield from spoken(getattr(value, field.name))


def words_on(pages: Pages, language: str) -> str:
    return " ".join(i.line.text for p in pages.pages for i in texts(p) if i.language == language)


@pytest.mark.parametrize("languages", [*ORDERS, ("en",), ("hi",)])
@pytest.mark.parametrize("layout", ["hand-card", "full-sheet", *BESIDE, *TURNED])
def test_nothing_is_cut(layout: str, languages: tuple[str, ...]) -> None:
    """All that a card says stands on its pages in each of its languages, and passes all checks."""
    for card, pages in made(layout, languages):
        assert check_pages(pages, kit_of(layout, languages).layout) == ()
        title, foot = card.heading.title, (card.foot.brings, card.foot.guidance)
        parts = (title, card.lead, card.needs, card.portions, card.steps, card.safety.own, foot)
        for language in languages:
            shown = words_on(pages, language)
            told = [text for text in spoken(parts) if text.language == language]
            assert len(told) > 20
            for text in told:
                for word in text.text.replace("*", "").split():
                    assert word in shown, (card.meta.path, text)


@pytest.mark.parametrize("language", ["en", "hi"])
@pytest.mark.parametrize("layout", ["hand-card", "full-sheet", *BESIDE])
def test_one_language_alone_is_larger(layout: str, language: str) -> None:
    """By a twelfth or more on the average of a card. (A pocket card needs fewer sides instead.)"""
    pairs = zip(made(layout, (language,)), made(layout, ("en", "hi")), strict=True)
    for (_, alone), (_, two) in pairs:
        assert words_on(alone, "hi" if language == "en" else "en") == ""

        def body(pages: Pages) -> float:
            sizes = [i.size for p in pages.pages for i in texts(p) if i.role == "body"]
            return sum(sizes) / len(sizes)

        assert body(alone) > body(two) * 1.08


def test_other_pages_stack_languages_whatever_the_layout() -> None:
    """The chart by age and the pages about icons have a form of their own."""
    for what in ("sheet", "test", "lesson"):
        stacked, *others = (
            icon_pages(what, (), kit_of(layout, ("en", "hi"))).value
            for layout in ("hand-card", "hand-card-turned", "full-sheet-beside")
        )
        assert stacked is not None
        assert [pages_text(other) for other in others if other] == [pages_text(stacked)] * 2
    charts = [
        feeding_chart_pages("a2", kit_of(layout, ("en", "hi"))).value
        for layout in ("hand-card", "hand-card-turned", "full-sheet-beside")
    ]
    assert len({pages_text(chart) for chart in charts if chart}) == 1
    assert None not in charts


def test_pictures_are_larger_where_one_language_is_alone() -> None:
    grown = []
    for (_, alone), (_, two) in zip(
        made("hand-card", ("hi",)), made("hand-card", ("en", "hi")), strict=True
    ):
        for side in (0, 1):
            larger, usual = (
                [i.height for i in pages.pages[side].items if isinstance(i, IconItem)]
                for pages in (alone, two)
            )
            grown.append(sum(larger) / len(larger) / (sum(usual) / len(usual)))
    assert min(grown) > 0.95
    assert sum(grown) / len(grown) > 1.03


@pytest.mark.parametrize("languages", ORDERS)
def test_the_second_language_is_set_apart_by_place(languages: tuple[str, ...]) -> None:
    """Not by size alone: under the first it stands 2 mm further in."""
    for card, pages in made("hand-card", languages):
        for said in rows(card):
            (_, first), (_, second) = first_lines(pages, said)
            assert second.y > first.y
            assert second.x - first.x == pytest.approx(2 * 72 / 25.4)


def test_the_second_language_keeps_eleven_points_where_a_side_holds_it() -> None:
    """Hindi under 11 pt loses its dots on copies; the demo cards need less on four backs."""
    small = [
        (card.meta.path, page.name)
        for card, pages in made("hand-card", ("en", "hi"))
        for page in pages.pages
        if min(i.size for i in texts(page) if i.language == "hi" and i.role != "trace") < 11
    ]
    assert {name for _, name in small} == {"back"}
    assert len(small) == 4


@pytest.mark.parametrize(("layout", "dish"), PAIRED)
def test_pages_are_as_they_were(layout: str, dish: str, workspace: Workspace) -> None:
    """After a wanted change: look at the pages, then run ``python -m tests.golden``."""
    kit = open_kit(workspace, layout).value
    assert kit is not None
    run: Run = run_file(workspace.recipes / f"{dish}.yaml", workspace, kit)
    assert run.pages is not None
    assert stage_text(run, "pages") == (FOLDER / f"{layout}.txt").read_text(encoding="utf-8")
    data = paint(run.pages)
    for number in range(len(run.pages.pages)):
        with Image.open(FOLDER / f"{layout}-{number + 1}.png") as golden:
            assert differing_tiles(raster(data, number), golden.convert("L")) == []


@pytest.mark.parametrize(
    ("layout", "old", "new", "kind"),
    [
        ("hand-card", "layout: hand-card", "layout: x\nlanguages: mixed", "value-wrong"),
        ("hand-card", "layout: hand-card", "layout: x\nlanguages: turned", "layout-languages"),
        ("wall-chart-a3", "magnify: 2\n", "magnify: 2\nlanguages: beside\n", "layout-languages"),
        ("hand-card-turned", "sides:", "continues: [steps]\nsides:", "layout-languages"),
        ("hand-card", "last: [[12, 10]", "last: [[12, 5]", "layout-type"),
    ],
)
def test_a_layout_that_cannot_hold_them_so_is_refused(
    layout: str, old: str, new: str, kind: str
) -> None:
    text = (ROOT / "templates" / "layouts" / f"{layout}.yaml").read_text(encoding="utf-8")
    assert old in text
    found = load_layout(text.replace(old, new, 1), "templates/layouts/x.yaml")
    assert [d.kind for d in found.diagnostics] == [kind]
    assert found.diagnostics[0].place.line > 0


def test_a_turned_card_that_is_too_full_is_refused_once(workspace: Workspace) -> None:
    """Whichever language is too long, one message names lines and the page."""
    long = "\n".join(f"  - do: mix\n    hi: {'धीरे धीरे बहुत देर तक चलाएँ ' * 2}{n}" for n in range(9))
    run = run_text(PLAIN + long, "recipes/x.yaml", kit_of("hand-card-turned", ("en", "hi")))
    told = [d for d in run.diagnostics if d.kind == "side-too-full"]
    assert len(told) == 1
    assert run.pages is None
    assert "the page is" in told[0].message


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "recipes").mkdir()
    shutil.copy(ROOT / "recipes" / "programme.yaml", tmp_path / "recipes")
    (tmp_path / "recipes" / "plain.yaml").write_text(PLAIN, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run_command(*args: str) -> Result:
    return CliRunner(env={"COLUMNS": "200"}).invoke(command, list(args))


@pytest.mark.parametrize(
    ("args", "names"),
    [
        (("make", "--in", "hi"), {"plain.hi.pdf"}),
        (("make", "--in", "hi,en"), {"plain.hi-en.pdf"}),
        (("make", "--in", "HI, en"), {"plain.hi-en.pdf"}),
        (("make", "--in", "en,hi"), {"plain.pdf", "plain-sheet.pdf"}),
        (
            ("make", "--in", "en", "--layout", "full-sheet", "--together"),
            {"plain-full-sheet.en.pdf", "cards.en.pdf"},
        ),
        (("make", "--in", "en", "--up"), {"plain.en.pdf", "print-a4.en.pdf"}),
        (("icons", "--in", "hi"), {"icons.hi.pdf"}),
        (("icons", "--lesson", "--in", "hi,en"), {"first-lesson.hi-en.pdf"}),
        (("chart", "--in", "en"), {"feeding-chart-a2.en.pdf"}),
    ],
)
def test_files_carry_the_languages_asked_for(
    folder: Path, args: tuple[str, ...], names: set[str]
) -> None:
    result = run_command(*args)
    assert result.exit_code == 0, result.output
    assert {path.name for path in (folder / "out").glob("*.pdf")} == names


def test_a_language_asked_for_is_the_only_one_shown(folder: Path) -> None:
    shown = run_command("show", "recipes/plain.yaml", "--stage", "pages", "--in", "hi").output
    assert " hi body: " in shown
    assert " en body: " not in shown
    both = run_command("show", "recipes/plain.yaml", "--stage", "pages", "--in", "hi,en").output
    assert both.index(" hi title: ") < both.index(" en title: ")


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("ehn", 'Did you mean "en"?'),
        ("hii,en", 'Did you mean "hi"?'),
        ("zz", "Choose from"),
        ("", "Choose from"),
        ("../x", "Choose from"),
    ],
)
def test_an_unknown_language_is_told_with_the_known_ones(
    folder: Path, asked: str, said: str
) -> None:
    for command_name in ("make", "check", "icons", "chart"):
        result = run_command(command_name, "--in", asked)
        assert result.exit_code == 2
        assert said in result.output
        assert "there are no words for the language" in result.output
    assert not (folder / "out").exists()


def test_more_than_two_languages_are_refused(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    words = folder / "templates" / "words"
    words.mkdir(parents=True)
    shutil.copy(ROOT / "templates" / "words" / "en.yaml", words / "xx.yaml")
    result = run_command("make", "--in", "en,hi,xx")
    assert result.exit_code == 2
    assert "one language or two" in result.output


def test_a_recipe_without_words_in_a_language_says_so_once(folder: Path) -> None:
    """And the programme's other languages are no strangers to it."""
    path = folder / "recipes" / "plain.yaml"
    path.write_text(
        PLAIN.replace("{en: Soft rice, hi: नरम चावल}", "{en: Soft rice}"), encoding="utf-8"
    )
    result = run_command("check", "--in", "hi")
    assert result.exit_code == 1
    assert result.output.count("error ") == 1
    assert "language-missing" in result.output
    assert "plain.hi.yaml" in result.output
    alone = run_command("check", "--in", "en")
    assert alone.exit_code == 0, alone.output
    path.write_text(PLAIN, encoding="utf-8")
    assert "nothing to mend" in run_command("check", "--in", "en").output


def test_a_text_in_a_language_without_words_is_told() -> None:
    """Any other may be asked for, and is no fault of a recipe that holds many languages."""
    kit = kit_of("hand-card", ("en", "hi"))
    text = PLAIN.replace("    use: all", "    use: all\n    en: x\n    hi: x\n    bn: x")
    known = replace(kit, programme=replace(kit.programme, known=("en", "hi")))
    told = [d for d in run_text(text, "recipes/x.yaml", known).diagnostics if "unused" in d.kind]
    assert [(d.kind, d.place.line, d.hint) for d in told] == [
        ("language-unused", 19, "languages here: en, hi")
    ]
    more = replace(kit, programme=replace(kit.programme, known=("bn", "en", "hi")))
    said = run_text(text, "recipes/x.yaml", more).diagnostics
    assert "language-unused" not in {d.kind for d in said}


def test_a_text_without_a_code_stays_in_the_programmes_first_language(folder: Path) -> None:
    path = folder / "recipes" / "plain.yaml"
    path.write_text(PLAIN.replace("{en: Soft rice, hi: नरम चावल}", "Soft rice"), encoding="utf-8")
    (folder / "recipes" / "plain.hi.yaml").write_text(
        "words: 1\ntitle: नरम चावल\n", encoding="utf-8"
    )
    shown = run_command("show", "recipes/plain.yaml", "--stage", "pages", "--in", "hi").output
    assert "title: नरम चावल" in shown
    assert "Soft rice" not in shown


def test_what_was_checked_in_other_languages_is_checked_again(folder: Path) -> None:
    assert "1 checked, 0 remembered" in run_command("check", "--changed").output
    assert "0 checked, 1 remembered" in run_command("check", "--changed").output
    assert "1 checked, 0 remembered" in run_command("check", "--changed", "--in", "hi").output
