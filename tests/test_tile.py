"""A large page on sheets of A4: nothing lost, nothing printed over, and a map to glue it by."""

from __future__ import annotations

import io
import re
import shutil
from pathlib import Path

import pypdf
import pypdfium2
import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageChops

from cards.batch.kit import Kit
from cards.batch.stages import Run
from cards.batch.tiling import tiles_of
from cards.card.model import CardMeta
from cards.cli import command
from cards.layout.office.tile_marks import Words, map_overlay, tile_overlay
from cards.layout.office.tile_plan import Tiling, letters, plan_tiles
from cards.layout.pages import MM, PanelItem, RuleItem, TextItem
from tests.conftest import PLAIN, ROOT
from tests.printed import fonts, lines, picture, resized, sizes
from tests.test_impose import qpdf_finds_nothing
from tests.test_pdf import READERS, set_lines, squeezed

OF = "chart, 1, 0123456789"
META = CardMeta("Chart", "", "en", "", "", "", OF, "https://x.example/chart?d=0123456789")
DEMO = "egg-spinach-potato"

plans = st.builds(
    lambda w, h: plan_tiles(w * MM, h * MM), st.floats(150, 1200), st.floats(150, 1200)
).filter(lambda plan: plan is not None)


@pytest.fixture(autouse=True)
def scratch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PYTEST_SCRATCH", str(tmp_path))


@pytest.fixture(scope="module")
def chart(pdfs: dict[str, bytes]) -> bytes:
    """A3, upright, one page."""
    return resized(pdfs[DEMO], 297, 420, pages=1)


@pytest.fixture(scope="module")
def sheets(chart: bytes, kit: Kit) -> bytes:
    return tiled(chart, kit)


def tiled(data: bytes, kit: Kit) -> bytes:
    made = tiles_of(data, META, "out/chart.pdf", kit)
    assert made.value is not None, made.diagnostics
    return made.value


# ---- the plan


@given(plans, st.floats(0, 1), st.floats(0, 1))
def test_every_point_of_the_page_is_on_a_sheet(plan: Tiling, across: float, up: float) -> None:
    x, y = across * plan.page[0], up * plan.page[1]
    holding = [
        tile
        for tile in plan.tiles
        if tile.box[0] - 1e-6 <= x <= tile.box[2] + 1e-6
        and tile.box[1] - 1e-6 <= y <= tile.box[3] + 1e-6
    ]
    assert 1 <= len(holding) <= 4


@given(plans)
def test_neighbours_share_ten_millimetres_and_the_rest_adds_up(plan: Tiling) -> None:
    grid = {(tile.row, tile.column): tile.box for tile in plan.tiles}
    assert len(grid) == plan.columns * plan.rows
    for (row, column), box in grid.items():
        if (row, column + 1) in grid:
            assert box[2] - grid[row, column + 1][0] == pytest.approx(10 * MM)
        if (row + 1, column) in grid:
            assert grid[row + 1, column][3] - box[1] == pytest.approx(10 * MM)
    assert min(b[0] for b in grid.values()) == pytest.approx(0, abs=1e-6)
    assert min(b[1] for b in grid.values()) == pytest.approx(0, abs=1e-6)
    assert max(b[2] for b in grid.values()) == pytest.approx(plan.page[0])
    assert max(b[3] for b in grid.values()) == pytest.approx(plan.page[1])


@given(plans)
def test_what_a_sheet_shows_lies_where_a_printer_reaches(plan: Tiling) -> None:
    assert sorted(plan.sheet) == pytest.approx([210 * MM, 297 * MM])
    for corner, window, sheet in zip(plan.corner, plan.window, plan.sheet, strict=True):
        assert corner >= 8 * MM
        assert corner + window <= sheet - 8 * MM + 0.5


@pytest.mark.parametrize(
    ("width", "height", "columns", "rows", "lying"),
    [
        (297, 420, 2, 2, False),  # A3
        (420, 297, 2, 2, True),
        (420, 594, 2, 4, True),  # A2: eight lying sheets, where upright ones would be nine
        (594, 841, 3, 5, True),  # A1: fifteen lying sheets, upright ones would be sixteen
    ],
)
def test_as_few_sheets_as_will_do(
    width: int, height: int, columns: int, rows: int, lying: bool
) -> None:
    plan = plan_tiles(width * MM, height * MM)
    assert plan is not None
    need = {
        way: -(-(width - 10) // (paper[0] - 27)) * -(-(height - 10) // (paper[1] - 27))
        for way, paper in ((False, (210, 297)), (True, (297, 210)))
    }
    assert plan.columns * plan.rows == min(need.values())
    assert (plan.columns, plan.rows) == (columns, rows)
    assert (plan.sheet[0] > plan.sheet[1]) == lying


def test_what_goes_on_one_sheet_is_not_cut(pdfs: dict[str, bytes], kit: Kit) -> None:
    for size in ((148, 210), (210, 297), (297, 210)):
        assert plan_tiles(size[0] * MM, size[1] * MM) is None
    made = tiles_of(pdfs[DEMO], META, "out/x.pdf", kit)
    assert made.value is None
    assert [(d.kind, d.severity.word) for d in made.diagnostics] == [("tile-needless", "note")]
    assert "148 x 210 mm" in made.diagnostics[0].message


def test_rows_have_letters_without_end() -> None:
    assert [letters(n) for n in (0, 1, 25, 26, 27, 51, 52)] == [
        "A", "B", "Z", "AA", "AB", "AZ", "BA",
    ]  # fmt: skip


# ---- what is printed


@pytest.mark.parametrize("size", [(297, 420), (420, 297), (420, 594)])
def test_glued_together_the_sheets_are_the_page(
    size: tuple[int, int], pdfs: dict[str, bytes], kit: Kit
) -> None:
    """Rendered, cut at the windows and laid one over the other in order, by their geometry."""
    dpi = 101.6  # four pixels a millimetre
    page = resized(pdfs[DEMO], *size, pages=1)
    data = tiled(page, kit)
    plan = plan_tiles(size[0] * MM, size[1] * MM)
    assert plan is not None
    whole = picture(page, 0, dpi)
    glued = Image.new("L", whole.size, 128)
    pixel = dpi / 72
    for number, tile in enumerate(plan.tiles, 1):
        sheet = picture(data, number, dpi)
        left = plan.corner[0] * pixel
        top = (plan.sheet[1] - plan.corner[1] - plan.window[1]) * pixel
        to = (tile.box[0] * pixel, (plan.page[1] - tile.box[3]) * pixel)
        wide, high = (round(length * pixel) for length in plan.window)
        part = sheet.transform(
            (wide, high), Image.Transform.AFFINE, (1, 0, left, 0, 1, top), Image.Resampling.BILINEAR
        )
        glued.paste(part, (round(to[0]), round(to[1])))
    # half a pixel of rounding moves edges; seen at a millimetre a pixel that is nothing
    small = [
        image.resize((size[0] // 2, size[1] // 2), Image.Resampling.BOX) for image in (whole, glued)
    ]
    difference = ImageChops.difference(*small)
    assert difference.getextrema()[1] < 110
    values = difference.tobytes()
    assert sum(values) / len(values) < 2.5
    assert sum(value > 60 for value in values) < len(values) / 300


def test_the_gluing_above_can_fail(chart: bytes, sheets: bytes) -> None:
    """The control: a sheet in the wrong place is seen."""
    first, second = picture(sheets, 1, 50), picture(sheets, 2, 50)
    values = ImageChops.difference(first, second).tobytes()
    assert sum(values) / len(values) > 4


def test_a_sheet_for_each_tile_and_a_map(sheets: bytes) -> None:
    reader = pypdf.PdfReader(io.BytesIO(sheets))
    assert sizes(sheets) == {(210, 297)}
    texts = [page.extract_text() for page in reader.pages]
    assert len(texts) == 5
    assert "4 sheets make one of 30 x 42 cm" in texts[0]
    assert all(label in texts[0] for label in ("A1", "A2", "B1", "B2"))
    for text, label in zip(texts[1:], ("A1", "A2", "B1", "B2"), strict=True):
        assert label in text
    assert "A1 + B1" in texts[1]
    assert "A2 + B2" in texts[2]
    assert "+" not in texts[4]


def test_text_stays_text_and_its_fonts_come_once(
    demos: dict[str, Run], chart: bytes, sheets: bytes
) -> None:
    run = demos[DEMO]
    assert run.pages is not None
    front = [i.line.text for i in run.pages.pages[0].items if isinstance(i, TextItem)]
    assert set(front) < set(set_lines(run))
    for reader in ("pdfium", "pdftotext"):
        got = squeezed(READERS[reader](sheets))
        assert [line for line in front if squeezed(line) not in got] == []
    assert fonts(sheets) == fonts(chart) + 2  # regular and bold of the marks
    assert len(sheets) < len(chart) + 40_000


def test_true_lines_and_nothing_out_of_reach(sheets: bytes) -> None:
    for number in range(5):
        true = [d for d in lines(sheets, number) if d.stroke == 0.5 and abs(d.length - 100) < 0.05]
        assert len(true) == 1
        assert true[0].length == pytest.approx(100, abs=0.01)
        page = picture(sheets, number, 254)
        page.paste(255, (39, 39, page.width - 39, page.height - 39))
        assert page.getextrema()[0] == 255


@given(plans)
def test_marks_keep_off_what_is_seen_in_the_end(kit: Kit, plan: Tiling) -> None:
    """Inside the window marks lie only in the strips that the next sheet covers."""
    words = Words(kit.languages[0], kit.book)
    left, bottom = plan.corner
    top = plan.sheet[1] - bottom - plan.window[1]
    right, low = left + plan.window[0], top + plan.window[1]
    for tile in plan.tiles[:: max(1, len(plan.tiles) // 5)]:
        overlay = tile_overlay(plan, tile, words, META)
        seen_right = right - (10 * MM if tile.column + 1 < plan.columns else 0)
        seen_low = low - (10 * MM if tile.row + 1 < plan.rows else 0)
        boxes = [item.box for item in overlay.items] + list(overlay.white)
        for x1, y1, x2, y2 in boxes:
            x1, x2, y1, y2 = min(x1, x2), max(x1, x2), min(y1, y2), max(y1, y2)
            assert (
                x2 <= left + 0.01
                or y2 <= top + 0.01
                or x1 >= seen_right - 0.01
                or y1 >= seen_low - 0.01
            )
        assert all(item.stroke >= 0.5 for item in overlay.items if isinstance(item, RuleItem))


@given(plans)
def test_stripes_stay_in_their_strip_and_off_the_words(kit: Kit, plan: Tiling) -> None:
    words = Words(kit.languages[0], kit.book)
    overlay = tile_overlay(plan, plan.tiles[0], words, META)
    slanting = [
        i for i in overlay.items if isinstance(i, RuleItem) and i.x1 != i.x2 and i.y1 != i.y2
    ]
    assert len(slanting) > 20
    for rule in slanting:
        for patch in overlay.white:
            middle = ((rule.x1 + rule.x2) / 2, (rule.y1 + rule.y2) / 2)
            inside = patch[0] < middle[0] < patch[2] and patch[1] < middle[1] < patch[3]
            assert not inside
        assert max(rule.x1, rule.x2) <= plan.corner[0] + plan.window[0] + 0.01


@pytest.mark.parametrize("size", [(297, 420), (420, 594), (1189, 841)])
def test_the_map_shows_the_grid_in_proportion(size: tuple[int, int], kit: Kit) -> None:
    plan = plan_tiles(size[0] * MM, size[1] * MM)
    assert plan is not None
    words = Words(kit.languages[0], kit.book)
    overlay, (left, top, right, bottom) = map_overlay(plan, words, META)
    assert (right - left) / (bottom - top) == pytest.approx(size[0] / size[1])
    assert left >= 10 * MM
    assert bottom <= plan.map_sheet[1] - 10 * MM
    labels = {
        i.line.text: i
        for i in overlay.items
        if isinstance(i, TextItem) and re.fullmatch(r"[A-Z]+\d+", i.line.text)
    }
    assert list(labels) == [tile.label for tile in plan.tiles]
    scale = (right - left) / plan.page[0]
    for tile in plan.tiles:
        item = labels[tile.label]
        x = (item.box[0] + item.box[2]) / 2
        assert left + tile.box[0] * scale < x < left + tile.box[2] * scale
        # its baseline lies in the tile too, which is counted from the foot of the page
        assert bottom - tile.box[3] * scale < item.y < bottom - tile.box[1] * scale
    panels = [i.box for i in overlay.items if isinstance(i, PanelItem)][1:]
    for n, one in enumerate(panels):
        for other in panels[:n]:
            assert one[0] >= other[2] or other[0] >= one[2] or one[1] >= other[3]


def test_pages_of_one_file_are_told_apart(pdfs: dict[str, bytes], kit: Kit) -> None:
    data = tiled(resized(pdfs[DEMO], 420, 297), kit)
    texts = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]
    assert len(texts) == 10
    assert "1-A2" in texts[2]
    assert "2-A2" in texts[7]


def test_same_page_same_bytes(chart: bytes, sheets: bytes, kit: Kit, tmp_path: Path) -> None:
    assert tiled(chart, kit) == sheets
    qpdf_finds_nothing(sheets, tmp_path)


# ---- the command


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "recipes").mkdir()
    shutil.copy(ROOT / "recipes" / "programme.yaml", tmp_path / "recipes")
    (tmp_path / "recipes" / "plain.yaml").write_text(PLAIN, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*args: str) -> tuple[int, str]:
    result = CliRunner(env={"COLUMNS": "200"}).invoke(command, list(args))
    return result.exit_code, result.output


def test_a_layout_larger_than_a_sheet_is_cut(folder: Path) -> None:
    layouts = folder / "templates" / "layouts"
    layouts.mkdir(parents=True)
    text = (ROOT / "templates" / "layouts" / "hand-card.yaml").read_text("utf-8")
    text = text.replace("width_mm: 148, height_mm: 210", "width_mm: 297, height_mm: 420")
    (layouts / "hand-card.yaml").write_text(text, encoding="utf-8")
    code, said = run("make", "--tile", "a4")
    assert code == 0, said
    assert "to print: out/plain-tiles.pdf" in said
    document = pypdfium2.PdfDocument(folder / "out" / "plain-tiles.pdf")
    assert len(document) == 10
    document.close()
    code, said = run("make", "--up")
    assert code == 1
    assert "print-too-large" in said
    assert not (folder / "out" / "print-a4.pdf").exists()


def test_up_writes_one_file_of_all_cards(folder: Path) -> None:
    (folder / "recipes" / "more.yaml").write_text(PLAIN, encoding="utf-8")
    code, said = run("make", "--up", "--flip", "short")
    assert code == 0, said
    assert said.endswith("to print: out/print-a4.pdf\n")
    reader = pypdf.PdfReader(folder / "out" / "print-a4.pdf")
    assert len(reader.pages) == 2
    assert "turn on the short edge" in reader.pages[0].extract_text()
    assert reader.pages[0].extract_text().count("Soft rice") == 2


def test_sheets_are_made_whole_or_not_at_all(folder: Path) -> None:
    assert run("make", "--up")[0] == 0
    before = (folder / "out" / "print-a4.pdf").read_bytes()
    (folder / "recipes" / "worse.yaml").write_text("recipe: 1\n", encoding="utf-8")
    code, said = run("make", "--up")
    assert code == 1
    assert said.count("print-incomplete") == 1
    assert "1 of 2 cards are missing (recipes/worse.yaml)" in said
    assert (folder / "out" / "print-a4.pdf").read_bytes() == before
    assert run("make", "--up", "recipes/plain.yaml")[0] == 0


@pytest.mark.parametrize("stem", ["print-a4", "Print-A4"])
def test_sheets_are_never_written_over_a_card(folder: Path, stem: str) -> None:
    (folder / "recipes" / f"{stem}.yaml").write_text(PLAIN, encoding="utf-8")
    code, said = run("make", "--up")
    assert code == 1
    assert said.count("out-twice") == 1


@pytest.mark.parametrize("wrong", [("--fill",), ("--copies", "3"), ("--flip", "short")])
def test_wishes_for_sheets_go_with_up(folder: Path, wrong: tuple[str, ...]) -> None:
    code, said = run("make", *wrong)
    assert code == 2
    assert "go with --up" in said
    assert not (folder / "out").exists()
