"""Cards on sheets: backs behind fronts, sizes true, marks where a printer reaches, text as text."""

from __future__ import annotations

import io
import math
import os
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pypdf
import pypdfium2
import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageOps
from pypdf.generic import (
    ArrayObject,
    DictionaryObject,
    NameObject,
    NumberObject,
    StreamObject,
)

from cards.batch.kit import Kit
from cards.batch.printing import Up, sheets_of
from cards.batch.stages import Run
from cards.card.compose import source_code
from cards.layout.office.affine import at
from cards.layout.office.sheet_marks import STRIP, cut_marks, strip_pages, strip_place
from cards.layout.office.sheet_plan import Flip, Grid, deal, plan_sheet
from cards.layout.pages import MM, QrItem, TextItem
from cards.pdf.assemble import page_sizes
from cards.pdf.impose import leaves
from cards.words.language import load_language
from tests.conftest import ROOT
from tests.printed import Drawn, fonts, lines, picture, resized, sizes
from tests.test_pdf import READERS, set_lines, squeezed

FLIPS: tuple[Flip, ...] = ("long", "short")
A5, A6 = (148 * MM, 210 * MM), (105 * MM, 148 * MM)  # ISO 216

sides = st.floats(40, 210)
grids = st.builds(
    lambda w, h, bleed: plan_sheet(w * MM, h * MM, bleed), sides, sides, st.booleans()
).filter(lambda grid: grid is not None)


@pytest.fixture(autouse=True)
def scratch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PYTEST_SCRATCH", str(tmp_path))


def imposed(cards: dict[str, bytes], kit: Kit, wish: Up | None = None) -> bytes:
    made = sheets_of(cards, wish or Up(), "out/print-a4.pdf", kit)
    assert made.value is not None, made.diagnostics
    return made.value


def corners(grid: Grid) -> list[tuple[float, float]]:
    width, height = grid.card
    return [(0.0, 0.0), (width, 0.0), (0.0, height), (width, height)]


# ---- where cards lie


@given(grids, st.sampled_from(FLIPS), st.data())
def test_every_point_of_a_front_has_its_own_back_behind_it(
    grid: Grid, flip: Flip, data: st.DataObject
) -> None:
    """Paper turned about an upright edge keeps heights, about a lying edge keeps breadths.

    A card turns like a page: what is u from the left on its front is u from the right on its back.
    """
    width, height = grid.sheet
    place = data.draw(st.integers(0, grid.places - 1))
    u = data.draw(st.floats(0, 1)) * grid.card[0]
    v = data.draw(st.floats(0, 1)) * grid.card[1]
    x, y = at(grid.front(place), u, v)
    back_x, back_y = at(grid.back(place, flip), grid.card[0] - u, v)
    long_edges_upright = height > width
    turned_about_upright_edge = long_edges_upright if flip == "long" else not long_edges_upright
    if turned_about_upright_edge:
        assert (width - back_x, back_y) == pytest.approx((x, y), abs=1e-6)
    else:
        assert (back_x, height - back_y) == pytest.approx((x, y), abs=1e-6)


@given(grids, st.sampled_from(FLIPS))
def test_nothing_is_mirrored_or_stretched(grid: Grid, flip: Flip) -> None:
    for place in range(grid.places):
        for matrix in (grid.front(place), grid.back(place, flip)):
            a, b, c, d, _, _ = matrix
            assert a * d - b * c == pytest.approx(1)
            assert a * a + b * b == pytest.approx(1)


@given(grids)
def test_cards_lie_on_the_sheet_and_beside_one_another(grid: Grid) -> None:
    boxes = []
    for place in range(grid.places):
        spots = [at(grid.front(place), *corner) for corner in corners(grid)]
        xs, ys = [x for x, _ in spots], [y for _, y in spots]
        boxes.append((min(xs), min(ys), max(xs), max(ys)))
        assert min(xs) >= -0.1 * MM
        assert min(ys) >= -0.1 * MM
        assert max(xs) <= grid.sheet[0] + 0.1 * MM
        assert max(ys) <= grid.sheet[1] + 0.1 * MM
    for n, one in enumerate(boxes):
        for other in boxes[:n]:
            assert (
                one[0] >= other[2] - 0.01
                or other[0] >= one[2] - 0.01
                or one[1] >= other[3] - 0.01
                or other[1] >= one[3] - 0.01
            )


def where(grid: Grid, flip: Flip) -> list[tuple[int, int, str]]:
    """Column and row (from the top) of each back, and whether it is upright or upside down."""
    found = []
    for place in range(grid.places):
        matrix = grid.back(place, flip)
        x, y = at(matrix, grid.card[0] / 2, grid.card[1] / 2)
        column = int(x / grid.sheet[0] * grid.columns)
        row = grid.rows - 1 - int(y / grid.sheet[1] * grid.rows)
        found.append((column, row, "up" if matrix[3] > 0.5 else "down"))
    return found


def test_backs_of_the_usual_cards() -> None:
    """By hand, with a folded sheet of paper: A5 stands two on a lying sheet, A6 four upright."""
    two, four = plan_sheet(*A5), plan_sheet(*A6)
    assert two is not None
    assert four is not None
    assert (two.columns, two.rows, two.turned, two.sheet[0] > two.sheet[1]) == (2, 1, False, True)
    assert (four.columns, four.rows, four.turned) == (2, 2, False)
    assert where(two, "long") == [(0, 0, "down"), (1, 0, "down")]
    assert where(two, "short") == [(1, 0, "up"), (0, 0, "up")]
    assert where(four, "long") == [(1, 0, "up"), (0, 0, "up"), (1, 1, "up"), (0, 1, "up")]
    assert where(four, "short") == [(0, 1, "down"), (1, 1, "down"), (0, 0, "down"), (1, 0, "down")]


@pytest.mark.parametrize(
    ("width", "height", "bleed", "columns", "rows", "sheet"),
    [
        (148, 210, False, 2, 1, (297, 210)),
        (210, 148, False, 1, 2, (210, 297)),
        (105, 148, False, 2, 2, (210, 297)),
        (148, 105, False, 2, 2, (297, 210)),
        (210, 297, False, 1, 1, (210, 297)),
        (90, 130, False, 2, 2, (210, 297)),
        (148, 210, True, 1, 1, (210, 297)),
        (105, 148, True, 2, 1, (297, 210)),
    ],
)
def test_as_many_as_a_sheet_takes(
    width: float,
    height: float,
    bleed: bool,
    columns: int,
    rows: int,
    sheet: tuple[float, float],
) -> None:
    grid = plan_sheet(width * MM, height * MM, bleed)
    assert grid is not None
    assert (grid.columns, grid.rows) == (columns, rows)
    assert grid.sheet == pytest.approx([n * MM for n in sheet])


@given(
    st.lists(st.integers(), min_size=1, max_size=20, unique=True),
    st.integers(1, 8),
    st.integers(1, 9),
    st.booleans(),
)
def test_every_card_is_dealt_as_often_as_asked(
    cards: list[int], places: int, copies: int, fill: bool
) -> None:
    sheets = deal(cards, places, copies, fill)
    dealt = [card for sheet in sheets for card in sheet if card is not None]
    each = math.ceil(copies / places) * places if fill else copies
    assert dealt == [card for card in cards for _ in range(each)]
    assert all(len(sheet) == places for sheet in sheets)
    assert all(card is not None for sheet in sheets[:-1] for card in sheet)
    assert any(card is not None for card in sheets[-1])
    if fill:
        assert all(len(set(sheet)) == 1 for sheet in sheets)


def test_pages_make_leaves() -> None:
    assert leaves([2, 1, 4, 3]) == (
        (0, 0, 1),
        (1, 0, None),
        (2, 0, 1),
        (2, 2, 3),
        (3, 0, 1),
        (3, 2, None),
    )


# ---- marks


@given(grids)
def test_marks_lie_on_cuts_where_a_printer_reaches_and_no_card_is_drawn_on(grid: Grid) -> None:
    width, height = grid.sheet
    for rule in cut_marks(grid):
        y1, y2 = height - rule.y1, height - rule.y2
        assert rule.stroke >= 0.5
        for x, y in ((rule.x1, y1), (rule.x2, y2)):
            assert 4 * MM - 0.01 <= x <= width - 4 * MM + 0.01
            assert 4 * MM - 0.01 <= y <= height - 4 * MM + 0.01
        upright = rule.x1 == rule.x2
        cut = rule.x1 if upright else y1
        assert min(abs(cut - one) for one in grid.cuts(0 if upright else 1)) < 0.01
        for place in range(grid.places):
            spots = [at(grid.front(place), *corner) for corner in corners(grid)]
            low = [min(spot[n] for spot in spots) + 0.2 for n in (0, 1)]
            high = [max(spot[n] for spot in spots) - 0.2 for n in (0, 1)]
            inside_x = max(low[0], min(rule.x1, rule.x2)) < min(high[0], max(rule.x1, rule.x2))
            inside_y = max(low[1], min(y1, y2)) < min(high[1], max(y1, y2))
            across = low[0] < rule.x1 < high[0] if upright else low[1] < y1 < high[1]
            assert not (across and (inside_y if upright else inside_x))


@pytest.mark.parametrize("size", [A5, A5[::-1], A6, A6[::-1], (90 * MM, 130 * MM)])
def test_each_cut_has_marks_at_both_ends_unless_it_is_the_edge(size: tuple[float, float]) -> None:
    grid = plan_sheet(*size)
    assert grid is not None
    rules = cut_marks(grid)
    for axis in (0, 1):
        for cut in grid.cuts(axis):
            marks = [
                rule
                for rule in rules
                if (abs(rule.x1 - cut) < 0.01 and rule.x1 == rule.x2)
                or (abs(grid.sheet[1] - rule.y1 - cut) < 0.01 and rule.y1 == rule.y2)
            ]
            on_edge = min(cut, grid.sheet[axis] - cut) < 4 * MM
            assert (len(marks) >= 2) != on_edge


def test_bleed_moves_the_marks_out() -> None:
    """3 mm round the trim stay clear of marks, on every side of every card."""
    for size in (A5, A6):
        grid = plan_sheet(*size, bleed=True)
        assert grid is not None
        assert len(cut_marks(grid)) == 2 * (len(grid.cuts(0)) + len(grid.cuts(1)))
        for rule in cut_marks(grid):
            ys = sorted((grid.sheet[1] - rule.y1, grid.sheet[1] - rule.y2))
            for place in range(grid.places):
                spots = [at(grid.front(place), *corner) for corner in corners(grid)]
                low = [min(spot[n] for spot in spots) - 3 * MM + 0.01 for n in (0, 1)]
                high = [max(spot[n] for spot in spots) + 3 * MM - 0.01 for n in (0, 1)]
                clear_x = max(rule.x1, rule.x2) <= low[0] or min(rule.x1, rule.x2) >= high[0]
                assert clear_x or ys[1] <= low[1] or ys[0] >= high[1]


def hundred(found: list[Drawn]) -> list[Drawn]:
    return [line for line in found if abs(line.length - 100) < 0.5 and line.stroke == 0.5]


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize(
    "size", [(148, 210), (210, 148), (105, 148), (148, 105), (90, 130), (210, 297)]
)
def test_a_line_of_100_mm_on_every_page_and_the_two_behind_one_another(
    size: tuple[float, float], flip: Flip, pdfs: dict[str, bytes], kit: Kit
) -> None:
    card = resized(pdfs["egg-spinach-potato"], *size)
    data = imposed({"a": card}, kit, Up(flip=flip))
    front, back = (hundred(lines(data, page)) for page in (0, 1))
    assert len(front) == len(back) == 1
    for line in (*front, *back):
        assert line.length == pytest.approx(100, abs=0.01)
    (width, height), one, other = *sizes(data), front[0], back[0]
    ends = [(other.x1, other.y1), (other.x2, other.y2)]
    upright_axis = (height > width) == (flip == "long")
    behind = [(width - x, y) if upright_axis else (x, height - y) for x, y in ends]
    if size in ((90, 130), (210, 297)):
        # waste below the cards, or one card alone: at the foot of either side
        assert one.y1 == other.y1 == pytest.approx(5, abs=0.01)
        return
    pairs = zip(sorted(behind), sorted([(one.x1, one.y1), (one.x2, one.y2)]), strict=True)
    for there, here in pairs:
        assert there == pytest.approx(here, abs=0.01)


@given(grids, st.sampled_from([None, *FLIPS]))
def test_the_strip_lies_on_the_sheet(grid: Grid, flip: Flip | None) -> None:
    spots = [at(strip_place(grid, flip), x, y) for x in (0, STRIP[0]) for y in (0, STRIP[1])]
    for x, y in spots:
        assert 4 * MM - 0.01 <= x <= grid.sheet[0] - 4 * MM + 0.01
        assert 4 * MM - 0.01 <= y <= grid.sheet[1] - 4 * MM + 0.01


@pytest.mark.parametrize("code", ["en", "hi"])
def test_the_words_of_the_strip_keep_apart(code: str, kit: Kit, demos: dict[str, Run]) -> None:
    text = (ROOT / "templates" / "words" / f"{code}.yaml").read_text("utf-8")
    language = load_language(text, code, code).value
    run = demos["egg-spinach-potato"]
    assert language is not None
    assert run.card is not None
    note = language.phrase("print-sheet", sheet=500, sheets=500, side="front", edge="short")
    page = strip_pages([note], True, language, kit.book, run.card.meta).pages[0]
    said, told = (item for item in page.items if isinstance(item, TextItem))
    assert said.line.text == language.phrase("print-line")
    assert said.box[2] + 4 * MM < told.box[0]
    assert told.box[2] < STRIP[0]
    assert said.top > 0


# ---- what is printed


def qr_of(run: Run) -> tuple[float, float]:
    """The middle of the QR code on the card's back, from its lower left corner."""
    assert run.pages is not None
    code = next(i for i in run.pages.pages[1].items if isinstance(i, QrItem))
    return code.x + code.side / 2, run.pages.height - code.y - code.side / 2


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize("size", [(148, 210), (105, 148)])
def test_held_to_the_light_each_code_is_behind_its_own_title(
    size: tuple[float, float],
    flip: Flip,
    demos: dict[str, Run],
    pdfs: dict[str, bytes],
    kit: Kit,
) -> None:
    """Rendered by pdfium, read by zxing. The back is mirrored about the edge as paper is."""
    names = sorted(pdfs)[:4]
    scale = size[0] / 148
    cards = {name: resized(pdfs[name], *size) for name in names}
    data = imposed(cards, kit, Up(flip=flip))
    dpi = 240
    document = pypdfium2.PdfDocument(data)
    seen = []
    for sheet in range(0, len(document), 2):
        back = picture(data, sheet + 1, dpi)
        found = zxingcpp.read_barcodes(back)
        front = document[sheet]
        upright_axis = (front.get_height() > front.get_width()) == (flip == "long")
        for code in found:
            spots = [
                (p.x, p.y)
                for p in (
                    code.position.top_left,
                    code.position.top_right,
                    code.position.bottom_left,
                    code.position.bottom_right,
                )
            ]
            x, y = (sum(spot[n] for spot in spots) / 4 for n in (0, 1))
            if upright_axis:
                x = back.width - x
            else:
                y = back.height - y
            x, y = x * 72 / dpi, front.get_height() - y * 72 / dpi
            name = next(
                n for n in names if source_code(demos[n].recipe, kit.programme) == code.text
            )
            # from the code through the paper: where the front of this card must begin
            u, v = qr_of(demos[name])
            left, bottom = x - (148 * MM - u) * scale, y - v * scale
            text = front.get_textpage().get_text_bounded(
                left, bottom, left + 148 * MM * scale, bottom + 210 * MM * scale
            )
            assert demos[name].recipe is not None
            assert squeezed(demos[name].recipe.title["en"]) in squeezed(text)
            others = [demos[n].recipe.title["en"] for n in names if n != name]
            assert not any(squeezed(other) in squeezed(text) for other in others)
            seen.append(name)
    document.close()
    assert sorted(seen) == names


@pytest.fixture(scope="module")
def all_twelve(pdfs: dict[str, bytes], kit: Kit) -> bytes:
    return imposed(pdfs, kit)


@pytest.fixture(scope="module")
def all_short(pdfs: dict[str, bytes], kit: Kit) -> bytes:
    return imposed(pdfs, kit, Up(flip="short"))


def test_twelve_cards_are_six_sheets_of_a4(all_twelve: bytes, pdfs: dict[str, bytes]) -> None:
    assert len(pdfs) == 12
    assert len(pypdf.PdfReader(io.BytesIO(all_twelve)).pages) == 12
    assert sizes(all_twelve) == {(297, 210)}


@pytest.mark.parametrize(("count", "pages"), [(1, 2), (3, 4), (17, 18)])
def test_odd_counts_leave_the_last_place_empty(
    count: int, pages: int, pdfs: dict[str, bytes], kit: Kit
) -> None:
    files = list(pdfs.values())
    cards = {f"{n}": files[n % len(files)] for n in range(count)}
    data = imposed(cards, kit)
    assert len(pypdf.PdfReader(io.BytesIO(data)).pages) == pages
    front, back = picture(data, pages - 2), picture(data, pages - 1)
    half = front.width // 2 + 8
    # long edge: the sheet turns over its top edge, so the empty place stays on the right
    for side in (front, back):
        assert side.crop((half, 0, side.width, side.height)).getextrema()[0] == 255
        assert side.crop((0, 0, half - 30, side.height)).getextrema()[0] < 128


def test_copies_and_fill(pdfs: dict[str, bytes], kit: Kit) -> None:
    three = dict(list(pdfs.items())[:3])
    for wish, pages in (
        (Up(), 4),
        (Up(copies=3), 10),
        (Up(fill=True), 6),
        (Up(copies=3, fill=True), 12),
    ):
        assert len(pypdf.PdfReader(io.BytesIO(imposed(three, kit, wish))).pages) == pages
    filled = imposed(three, kit, Up(fill=True))
    page = pypdfium2.PdfDocument(filled)[0].get_textpage().get_text_range()
    assert page.count("Chicken and potato cakes") == 2


def test_one_sided_cards_have_no_backs(pdfs: dict[str, bytes], kit: Kit) -> None:
    single = resized(pdfs["egg-spinach-potato"], 148, 210, pages=1)
    data = imposed({"a": single, "b": single, "c": single}, kit)
    reader = pypdf.PdfReader(io.BytesIO(data))
    assert len(reader.pages) == 2
    assert "turn on" not in reader.pages[0].extract_text()
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/Duplex"] == "/Simplex"


def test_the_rim_stays_white(all_twelve: bytes) -> None:
    """What lies within 4 mm of the edge may not be printed."""
    for number in (0, 1):
        page = picture(all_twelve, number, 254)  # ten pixels a millimetre
        inner = page.crop((39, 39, page.width - 39, page.height - 39))
        rim = page.copy()
        rim.paste(255, (39, 39, page.width - 39, page.height - 39))
        assert rim.getextrema()[0] == 255
        assert inner.getextrema()[0] == 0


def test_the_cards_are_as_they_were(all_twelve: bytes, pdfs: dict[str, bytes]) -> None:
    """The left front of the first sheet, pixel for pixel, but for the strip on the cut."""
    page = picture(all_twelve, 0, 72)
    card = picture(next(iter(pdfs.values())), 0, 72)
    # half a millimetre of the sheet lies left of the card: too little to move a pixel far
    part = page.crop((1, 0, 1 + card.width - 14, card.height))
    mine = card.crop((0, 0, card.width - 14, card.height))
    ink, shown = (
        255 - sum(i * n for i, n in enumerate(p.histogram())) / (p.width * p.height)
        for p in (mine, part)
    )
    assert shown == pytest.approx(ink, rel=0.01)


@pytest.mark.parametrize("reader", ["pdfium", "pdftotext", "mutool"])
def test_every_line_of_every_card_comes_back(
    reader: str, demos: dict[str, Run], all_twelve: bytes, all_short: bytes
) -> None:
    wanted = [line for run in demos.values() for line in set_lines(run)]
    assert len(wanted) > 500
    for data in (all_twelve, all_short):
        got = squeezed(READERS[reader](data))
        assert [line for line in wanted if squeezed(line) not in got] == []


def test_fonts_come_once_and_copies_cost_next_to_nothing(
    all_twelve: bytes, pdfs: dict[str, bytes], kit: Kit
) -> None:
    own = sum(fonts(data) for data in pdfs.values())
    assert fonts(all_twelve) == own + 1  # and that of the strip
    assert len(all_twelve) < sum(len(data) for data in pdfs.values())
    ten = imposed(pdfs, kit, Up(copies=10))
    assert fonts(ten) == own + 1
    pages = len(pypdf.PdfReader(io.BytesIO(ten)).pages)
    assert pages == 120
    assert len(ten) - len(all_twelve) < 1000 * (pages - 12)


def test_the_print_dialog_begins_at_true_size(all_twelve: bytes, all_short: bytes) -> None:
    """ISO 32000-1, table 150."""
    for data, word in ((all_twelve, "/DuplexFlipLongEdge"), (all_short, "/DuplexFlipShortEdge")):
        root = pypdf.PdfReader(io.BytesIO(data)).trailer["/Root"]
        assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
        assert root["/ViewerPreferences"]["/Duplex"] == word
        assert root["/Lang"] == "en"


def test_same_cards_same_bytes(all_twelve: bytes, pdfs: dict[str, bytes], kit: Kit) -> None:
    assert imposed(pdfs, kit) == all_twelve
    reader = pypdf.PdfReader(io.BytesIO(all_twelve))
    assert "/ID" not in reader.trailer
    assert reader.metadata is not None
    assert reader.metadata.creation_date is None


def test_same_bytes_with_another_hash_seed(tmp_path: Path) -> None:
    found = []
    for seed in ("1", "2"):
        out = tmp_path / seed
        shutil.copytree(ROOT / "recipes", out / "recipes")
        subprocess.run(
            [sys.executable, "-m", "cards", "make", "--up", "recipes/egg-spinach-potato.yaml"],
            cwd=out,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)},
            check=True,
            capture_output=True,
            timeout=120,
        )
        found.append((out / "out" / "print-a4.pdf").read_bytes())
    assert found[0] == found[1]


def qpdf_finds_nothing(data: bytes, tmp_path: Path) -> None:
    if shutil.which("qpdf") is None:
        pytest.skip("qpdf is not installed")
    path = tmp_path / "sheets.pdf"
    path.write_bytes(data)
    done = subprocess.run(["qpdf", "--check", str(path)], capture_output=True, timeout=60)
    assert done.returncode == 0, done.stderr
    assert done.stderr == b""


def test_qpdf_finds_nothing_wrong(all_twelve: bytes, tmp_path: Path) -> None:
    qpdf_finds_nothing(all_twelve, tmp_path)


# ---- files of other hands


def tagged(data: bytes) -> bytes:
    """The card with a tree of tags, as a screen reader wants it."""
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(data))
    tree = DictionaryObject({NameObject("/Type"): NameObject("/StructTreeRoot")})
    root = writer._add_object(tree)
    marked = []
    for number, page in enumerate(writer.pages):
        content = StreamObject()
        inside = page.get_contents()
        assert inside is not None
        content.set_data(b"/P <</MCID 0>> BDC\n" + inside.get_data() + b"\nEMC")
        page[NameObject("/Contents")] = writer._add_object(content)
        page[NameObject("/StructParents")] = NumberObject(number)
        marked.append(
            writer._add_object(
                DictionaryObject(
                    {
                        NameObject("/S"): NameObject("/P"),
                        NameObject("/P"): root,
                        NameObject("/Pg"): page.indirect_reference,
                        NameObject("/K"): NumberObject(0),
                    }
                )
            )
        )
    tree[NameObject("/K")] = ArrayObject(marked)
    writer.root_object[NameObject("/StructTreeRoot")] = root
    writer.root_object[NameObject("/MarkInfo")] = DictionaryObject(
        {NameObject("/Marked"): NumberObject(1)}
    )
    stream = io.BytesIO()
    writer.write(stream)
    return stream.getvalue()


def test_tags_are_left_out_and_nothing_else(
    demos: dict[str, Run], pdfs: dict[str, bytes], kit: Kit, tmp_path: Path
) -> None:
    name = "egg-spinach-potato"
    source = tagged(pdfs[name])
    assert b"StructTreeRoot" in source
    data = imposed({name: source}, kit)
    reader = pypdf.PdfReader(io.BytesIO(data))
    objects = [reader.get_object(n) for n in range(1, reader.trailer["/Size"])]
    keys = {key for o in objects if isinstance(o, dict) for key in o}
    assert not keys & {"/StructTreeRoot", "/MarkInfo", "/StructParents", "/Pg"}
    got = squeezed(READERS["pdfium"](data))
    assert all(squeezed(line) in got for line in set_lines(demos[name]))
    assert picture(data, 0).tobytes() == picture(imposed({name: pdfs[name]}, kit), 0).tobytes()
    qpdf_finds_nothing(data, tmp_path)


@pytest.mark.parametrize("turn", [90, 180, 270])
def test_a_page_that_is_turned_is_laid_as_it_is_seen(
    turn: int, pdfs: dict[str, bytes], kit: Kit
) -> None:
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(pdfs["egg-spinach-potato"]))
    for page in writer.pages:
        page.rotate(turn)
    stream = io.BytesIO()
    writer.write(stream)
    card = stream.getvalue()
    want = (148, 210) if turn == 180 else (210, 148)
    assert page_sizes(card)[0] == pytest.approx([n * MM for n in want], abs=0.1)
    sheet = picture(imposed({"a": card}, kit), 0, 50)
    seen = picture(card, 0, 50)
    part = sheet.crop((0, 0, seen.width, seen.height))
    inked = (ImageOps.invert(image).resize((8, 8)).tobytes() for image in (part, seen))
    assert all(abs(a - b) < 12 for a, b in zip(*inked, strict=True))


def test_cards_of_two_sizes_are_refused_in_one_message(pdfs: dict[str, bytes], kit: Kit) -> None:
    one = pdfs["egg-spinach-potato"]
    made = sheets_of({"a": one, "b": resized(one, 105, 148)}, Up(), "out/print-a4.pdf", kit)
    assert made.value is None
    assert [d.kind for d in made.diagnostics] == ["print-sizes"]
    assert "a of 148 x 210 mm, b of 105 x 148 mm" in made.diagnostics[0].message
    # points that were rounded are no other size
    near = resized(one, 148.05, 209.95)
    assert sheets_of({"a": one, "b": near}, Up(), "x", kit).value is not None


def test_what_is_larger_than_a_sheet_is_refused(pdfs: dict[str, bytes], kit: Kit) -> None:
    one = pdfs["egg-spinach-potato"]
    for size, wish, cure in (
        ((297, 420), Up(), "--tile a4"),
        ((210, 297), Up(bleed=True), "leave out --bleed"),
    ):
        made = sheets_of({"a": resized(one, *size)}, wish, "out/print-a4.pdf", kit)
        assert made.value is None
        assert [d.kind for d in made.diagnostics] == ["print-too-large"]
        assert cure in made.diagnostics[0].hint


def test_hindi_first_speaks_hindi(kit: Kit, pdfs: dict[str, bytes]) -> None:
    turned = replace(kit, languages=kit.languages[::-1])
    got = squeezed(READERS["pdfium"](imposed(pdfs, turned)))
    assert squeezed("यह रेखा 100 मिमी लंबी है") in got
    assert "this line" not in got


def test_a_back_at_another_place_is_not_behind_its_front() -> None:
    """The control: the check of the register can fail."""
    grid = plan_sheet(*A5)
    assert grid is not None
    x, y = at(grid.front(0), 10, 10)
    wrong = at(grid.back(1, "long"), grid.card[0] - 10, 10)
    assert (wrong[0], grid.sheet[1] - wrong[1]) != pytest.approx((x, y), abs=1)
