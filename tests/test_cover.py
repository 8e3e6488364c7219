"""How black the pages are, and in what inks: held against rasters and the painted files."""

from __future__ import annotations

import io
import shutil
from dataclasses import replace
from functools import cache
from pathlib import Path

import pypdf
import pytest
from click.testing import CliRunner
from PIL import Image
from pypdf.generic import ContentStream

from cards.batch.kit import Kit, open_kit
from cards.batch.stages import Run, run_file, sheet_of
from cards.cli import command
from cards.icons import catalogue
from cards.icons.cover import inked
from cards.icons.pen import GRID
from cards.layout.checks import check_pages
from cards.layout.cover import ink_covers
from cards.layout.layoutfile import load_layout
from cards.layout.pages import BarItem, Pages, RuleItem
from cards.layout.trainer import charts
from cards.layout.trainer.sheet_type import Type
from cards.pdf.paint import paint
from cards.source.workspace import Workspace
from tests.conftest import DEMO_FILES, ROOT
from tests.copier import raster
from tests.test_icons import MARGIN, black_share, one_bit
from tests.test_sheet import sheet_for

DEMOS = [p.stem for p in DEMO_FILES]
LAYOUT = (ROOT / "templates" / "layouts" / "hand-card.yaml").read_text(encoding="utf-8")


@cache
def black(pdf: bytes, page: int) -> float:
    """Share of a page that is black once grey is parted at the middle."""
    grey: Image.Image = raster(pdf, page, 150)
    return sum(grey.histogram()[:128]) / (grey.width * grey.height)


@pytest.mark.parametrize("demo", DEMOS)
def test_cover_is_that_of_the_painted_page(
    demo: str, demos: dict[str, Run], pdfs: dict[str, bytes], kit: Kit
) -> None:
    """Within half a percent of the page, cards and sheets; measured, a third of a percent."""
    card, sheet = demos[demo].pages, sheet_of(demos[demo], kit)
    assert card is not None
    assert sheet is not None
    for pages, data in ((card, pdfs[demo]), (sheet, paint(sheet))):
        for number, cover in enumerate(ink_covers(pages)):
            assert cover == pytest.approx(black(data, number), abs=0.005), pages.pages[number].name


@pytest.mark.parametrize("demo", DEMOS)
def test_no_side_is_heavy(demo: str, pdfs: dict[str, bytes]) -> None:
    """The raster itself, not the estimate."""
    assert all(0.03 < black(pdfs[demo], page) < 0.12 for page in (0, 1))


@pytest.mark.parametrize("name", catalogue.names())
def test_a_drawing_inks_what_its_raster_shows(name: str) -> None:
    """White that covers, holes and lines upon fillings are counted as they are seen."""
    icon = catalogue.find(name)
    picture = one_bit(name, 24.0)
    box = (icon.width + 2 * MARGIN) * (icon.height + 2 * MARGIN)
    assert inked(name) == pytest.approx(black_share(picture) * box, abs=0.0125 * GRID**2)


@pytest.mark.parametrize("layout", ["full-sheet", "pocket-card"])
def test_other_layouts_are_no_heavier(layout: str, workspace: Workspace) -> None:
    """Larger and smaller than drawn, in columns, run on: the blackest demo dish on each."""
    kit = open_kit(workspace, layout).value
    assert kit is not None
    pages = run_file(ROOT / "recipes" / "pumpkin-rice-moong.yaml", workspace, kit).pages
    assert pages is not None
    data = paint(pages)
    for number, cover in enumerate(ink_covers(pages)):
        assert cover == pytest.approx(black(data, number), abs=0.005)
        assert black(data, number) < kit.layout.ink.most_percent / 100


def with_bar(pages: Pages, share: float) -> Pages:
    """The pages with a black bar over a share of the first side, and nothing else on it."""
    bar = BarItem(0, 0, pages.width, pages.height * share, "dark")
    first, *rest = pages.pages
    return replace(pages, pages=(replace(first, items=(bar,)), *rest))


def test_a_heavy_side_is_told_with_its_cure(demos: dict[str, Run], kit: Kit) -> None:
    pages = demos["methi-roti-curd"].pages
    assert pages is not None
    assert ink_covers(with_bar(pages, 0.13))[0] == pytest.approx(0.13)
    told = [d for d in check_pages(with_bar(pages, 0.13), kit.layout) if d.kind == "ink-heavy"]
    assert [d.severity.word for d in told] == ["warning"]
    assert "13.0% of the front" in told[0].message
    assert "larger measures" in told[0].hint
    light = check_pages(with_bar(pages, 0.11), kit.layout)
    assert "ink-heavy" not in {d.kind for d in light}


def test_the_limit_stands_in_the_layout_file(demos: dict[str, Run]) -> None:
    pages = demos["methi-roti-curd"].pages
    assert pages is not None

    def heavy(text: str, share: float) -> bool:
        layout = load_layout(text, "x.yaml").value
        assert layout is not None
        return any(d.kind == "ink-heavy" for d in check_pages(with_bar(pages, share), layout))

    limit = "ink: {most_percent: 12}\n"
    assert LAYOUT.count(limit) == 1
    unsaid = LAYOUT.replace(limit, "")
    assert (heavy(unsaid, 0.121), heavy(unsaid, 0.119)) == (True, False)
    chart = LAYOUT.replace(limit, "ink: {most_percent: 15}\n")
    assert (heavy(chart, 0.151), heavy(chart, 0.149)) == (True, False)
    wrong = load_layout(LAYOUT.replace(limit, "ink: {most_percent: 0}\n"), "x.yaml")
    assert [d.kind for d in wrong.diagnostics] == ["value-wrong"]


def test_make_tells_the_cover(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, pdfs: dict[str, bytes]
) -> None:
    shutil.copytree(ROOT / "recipes", tmp_path / "recipes")
    monkeypatch.chdir(tmp_path)
    made = CliRunner().invoke(command, ["make", "--ink", "recipes/methi-roti-curd.yaml"])
    line = next(line for line in made.output.splitlines() if line.startswith("  ink: "))
    front, back = (float(part.split()[-1].rstrip("%")) for part in line.split(","))
    assert front == pytest.approx(100 * black(pdfs["methi-roti-curd"], 0), abs=0.5)
    assert back == pytest.approx(100 * black(pdfs["methi-roti-curd"], 1), abs=0.5)


Colour = tuple[float, ...]
BLACK: Colour = (0.0, 0.0, 0.0)
WHITE: Colour = (1.0, 1.0, 1.0)
RUST: Colour = (0x8A / 255, 0x3A / 255, 0x0E / 255)


def inks(pdf: bytes) -> tuple[set[Colour], set[Colour]]:
    """All colours a file sets, and those in force where text is shown, read by pypdf."""
    used: set[Colour] = set()
    of_text: set[Colour] = set()
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    for page in reader.pages:
        fill = BLACK
        saved: list[Colour] = []
        for operands, operator in ContentStream(page["/Contents"], reader).operations:
            if operator in (b"g", b"G", b"rg", b"RG"):
                colour = tuple(float(o) for o in operands)
                colour = colour * 3 if len(colour) == 1 else colour
                used.add(colour)
                fill = colour if operator in (b"g", b"rg") else fill
            assert operator not in (b"k", b"K", b"cs", b"CS", b"sc", b"scn", b"sh", b"gs"), operator
            if operator == b"q":
                saved.append(fill)
            elif operator == b"Q":
                fill = saved.pop()
            if operator in (b"Tj", b"TJ"):
                of_text.add(fill)
    return used, of_text


def luminance(colour: Colour) -> float:
    """Relative luminance of an sRGB colour, WCAG 2.1."""
    r, g, b = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in colour)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def on_white(colour: Colour) -> float:
    """Contrast ratio against white, WCAG 2.1."""
    return 1.05 / (luminance(colour) + 0.05)


def test_contrast_is_reckoned_as_published() -> None:
    """WCAG 2.1: 21 to 1 for black on white; #767676 is the palest grey that reaches 4.5 to 1."""
    assert on_white(BLACK) == pytest.approx(21)
    assert on_white((0x76 / 255,) * 3) >= 4.5 > on_white((0x77 / 255,) * 3)


@pytest.mark.parametrize("demo", DEMOS)
def test_three_inks_and_no_tint(
    demo: str, demos: dict[str, Run], pdfs: dict[str, bytes], kit: Kit
) -> None:
    """Black, white and the accent; words are black. All read on white, in colour and in grey.

    7 to 1 is the enhanced contrast of WCAG 2.1 (1.4.6). Grey is the luma of ITU-R BT.601, by
    which office printers and rasters lose their colour.
    """
    sheet = sheet_of(demos[demo], kit)
    assert sheet is not None
    for data in (pdfs[demo], paint(sheet)):
        used, of_text = inks(data)
        for colour in used:  # written to three decimals
            assert any(colour == pytest.approx(ink, abs=0.001) for ink in (BLACK, WHITE, RUST))
        assert of_text == {BLACK}
        for colour in used - {WHITE}:
            r, g, b = colour
            luma = 0.299 * r + 0.587 * g + 0.114 * b
            assert on_white(colour) >= 7
            assert on_white((luma, luma, luma)) >= 7
    assert RUST in {tuple(round(v * 255) / 255 for v in colour) for colour in inks(pdfs[demo])[0]}


@pytest.mark.parametrize("demo", DEMOS)
def test_a_bar_says_by_its_length_what_its_colour_says(
    demo: str, demos: dict[str, Run], kit: Kit
) -> None:
    """Without colour: a bar of too little ends before the line of what is desired."""
    items, _ = charts.densities(sheet_for(demos[demo], kit), Type(kit.book), 500)
    lines = {i.x1 for i in items if isinstance(i, RuleItem)}
    bars = [i for i in items if isinstance(i, BarItem)]
    assert lines
    assert bars
    for bar in bars:
        line = min(x for x in lines if x > bar.x)
        assert (bar.shade == "accent") == (bar.x + bar.width < line - 1e-6), bar
