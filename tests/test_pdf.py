"""The files: read by programs that did not write them."""

from __future__ import annotations

import io
import os
import random
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pdfminer.high_level
import pypdf
import pypdfium2
import pytest
import qrcode
import qrcode.constants
import qrcode.util
import zxingcpp

from cards.batch.stages import Run
from cards.card.compose import source_code
from cards.layout.pages import MM, QrItem, TextItem
from cards.layout.qr import penalty, qr_rows
from cards.pdf.clusterfont import build_cluster_font, to_unicode
from cards.pdf.paint import paint
from cards.text.shape import shape
from tests.conftest import DEMO_FILES, ROOT

DEMOS = [p.stem for p in DEMO_FILES]


def by_pypdf(data: bytes) -> str:
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)


def by_pdfium(data: bytes) -> str:
    document = pypdfium2.PdfDocument(data)
    texts = [page.get_textpage().get_text_range() for page in document]
    document.close()
    return "\n".join(texts)


def by_pdfminer(data: bytes) -> str:
    return pdfminer.high_level.extract_text(io.BytesIO(data))


def by_command(*command: str) -> Callable[[bytes], str]:
    def run(data: bytes) -> str:
        if shutil.which(command[0]) is None:
            pytest.skip(f"{command[0]} is not installed")
        path = Path(os.environ["PYTEST_SCRATCH"]) / "card.pdf"
        path.write_bytes(data)
        words = [str(path) if w == "FILE" else w for w in command]
        return subprocess.run(words, capture_output=True, check=True, timeout=60).stdout.decode()

    return run


READERS = {
    "pypdf": by_pypdf,
    "pdfium": by_pdfium,
    "pdfminer": by_pdfminer,
    "pdftotext": by_command("pdftotext", "FILE", "-"),
    "mutool": by_command("mutool", "draw", "-F", "txt", "FILE"),
}


@pytest.fixture(autouse=True)
def scratch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PYTEST_SCRATCH", str(tmp_path))


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def set_lines(run: Run) -> list[str]:
    assert run.pages is not None
    return [
        item.line.text
        for page in run.pages.pages
        for item in page.items
        if isinstance(item, TextItem)
    ]


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("demo", DEMOS)
def test_every_line_comes_back_exactly(
    demo: str, reader: str, demos: dict[str, Run], pdfs: dict[str, bytes]
) -> None:
    """Every set line, in both scripts, is found in the extracted text; spaces apart."""
    got = squeezed(READERS[reader](pdfs[demo]))
    lines = set_lines(demos[demo])
    assert len(lines) > 40
    lost = [line for line in lines if squeezed(line) not in got]
    assert lost == []


@pytest.mark.parametrize("demo", DEMOS)
def test_words_keep_their_spaces(demo: str, demos: dict[str, Run], pdfs: dict[str, bytes]) -> None:
    got = " ".join(by_pdfium(pdfs[demo]).split())
    lost = [line for line in set_lines(demos[demo]) if " ".join(line.split()) not in got]
    assert lost == []


def test_a_file_without_the_cluster_map_loses_its_hindi(
    demos: dict[str, Run], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The control: the check above can fail."""
    from cards.pdf import embed as module

    monkeypatch.setattr(
        module,
        "to_unicode",
        lambda font: to_unicode(font).replace(
            "ि".encode("utf-16-be").hex().upper().encode(), b"0041"
        ),
    )
    run = demos[DEMOS[0]]
    assert run.pages is not None
    got = squeezed(by_pdfium(paint(run.pages)))
    assert any(squeezed(line) not in got for line in set_lines(run))


@pytest.mark.parametrize("demo", DEMOS)
def test_what_the_file_says_of_itself(
    demo: str, demos: dict[str, Run], pdfs: dict[str, bytes]
) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdfs[demo]), strict=True)
    run = demos[demo]
    assert run.recipe is not None
    assert reader.metadata is not None
    assert reader.metadata.title == " / ".join(run.recipe.title[c] for c in ("en", "hi"))
    assert reader.metadata.author == "Two Wells Kitchen Circle"
    assert run.recipe.digest in (reader.metadata.subject or "")
    assert reader.trailer["/Root"]["/Lang"] == "en"
    assert len(reader.pages) == 2
    width, height = (float(v) for v in reader.pages[0].mediabox[2:])
    assert width == pytest.approx(148 * MM, abs=0.1)  # A5, ISO 216
    assert height == pytest.approx(210 * MM, abs=0.1)


@pytest.mark.parametrize("demo", DEMOS)
def test_all_fonts_are_embedded_subsets(demo: str, pdfs: dict[str, bytes]) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdfs[demo]))
    names = set()
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            whole = font.get_object()
            child = whole["/DescendantFonts"][0].get_object()
            program = child["/FontDescriptor"]["/FontFile2"].get_object().get_data()
            assert program[:4] == b"\x00\x01\x00\x00"
            names.add(whole["/BaseFont"])
    assert names
    assert all(re.match(r"/[A-Z]{6}\+", name) for name in names)


@pytest.mark.parametrize("demo", DEMOS)
def test_the_file_is_small(demo: str, pdfs: dict[str, bytes]) -> None:
    assert len(pdfs[demo]) < 60_000


def test_same_pages_same_bytes(demos: dict[str, Run], pdfs: dict[str, bytes]) -> None:
    for name in reversed(DEMOS):
        run = demos[name]
        assert run.pages is not None
        assert paint(run.pages, run.sources) == pdfs[name]


def test_same_bytes_in_another_process_zone_and_hash_seed(tmp_path: Path) -> None:
    results = []
    for seed, zone in (("1", "Asia/Kolkata"), ("2", "America/Lima")):
        out = tmp_path / seed
        shutil.copytree(ROOT / "recipes", out / "recipes")
        env = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": "C.UTF-8"}
        subprocess.run(
            [sys.executable, "-m", "cards", "make", "recipes/pumpkin-rice-moong.yaml"],
            cwd=out,
            env=env,
            check=True,
            capture_output=True,
            timeout=120,
        )
        results.append((out / "out" / "pumpkin-rice-moong.pdf").read_bytes())
    assert results[0] == results[1]


@pytest.mark.parametrize("demo", DEMOS)
def test_qr_is_read_from_a_print_raster(
    demo: str, demos: dict[str, Run], pdfs: dict[str, bytes], kit: object
) -> None:
    """Rendered at 150 dpi by pdfium, read by zxing; neither wrote the code."""
    document = pypdfium2.PdfDocument(pdfs[demo])
    picture = document[1].render(scale=150 / 72, grayscale=True).to_pil()
    found = zxingcpp.read_barcodes(picture)
    document.close()
    run = demos[demo]
    assert run.recipe is not None
    assert [code.text for code in found] == [source_code(run.recipe, kit.programme)]  # type: ignore[attr-defined]
    assert found[0].text.startswith("https://two-wells.example/recipes/")
    assert found[0].text.endswith(run.recipe.digest)
    assert found[0].ec_level == "M"


@pytest.mark.parametrize("demo", DEMOS)
def test_qr_modules_and_quiet_zone(demo: str, demos: dict[str, Run]) -> None:
    """ISO/IEC 18004: quiet zone of four modules; side of a code 17 + 4 x version modules."""
    run = demos[demo]
    assert run.pages is not None
    code = next(i for p in run.pages.pages for i in p.items if isinstance(i, QrItem))
    assert (len(code.rows) - 17) % 4 == 0
    module = code.side / (len(code.rows) + 2 * 4)
    assert module >= 0.4 * MM
    others = [i for p in run.pages.pages for i in p.items if i is not code and p.name == "back"]
    for item in others:
        x1, y1, x2, y2 = item.box
        a1, b1, a2, b2 = code.box
        assert x2 <= a1 + 0.3 or x1 >= a2 - 0.3 or y2 <= b1 + 0.3 or y1 >= b2 - 0.3


def test_cluster_codes_follow_the_order_in_which_they_are_met(kit: object) -> None:
    shaped = shape("क्षेत्र किशमिश", kit.book, "regular", "hi")[0]  # type: ignore[attr-defined]
    font = build_cluster_font(shaped.face, shaped.clusters)
    met = list(dict.fromkeys(shaped.clusters))
    assert font.codes == dict(zip(met, range(1, len(met) + 1), strict=True))
    assert font == build_cluster_font(shaped.face, shaped.clusters)
    backward = build_cluster_font(shaped.face, reversed(met))
    assert list(backward.codes) == met[::-1]


def test_cluster_outlines_are_those_of_the_glyphs(kit: object) -> None:
    """fontTools draws the composite; its outline is the shaped glyphs' own, moved into place."""
    from fontTools.pens.recordingPen import DecomposingRecordingPen
    from fontTools.pens.statisticsPen import StatisticsPen
    from fontTools.ttLib import TTFont

    shaped = shape("क्षेत्र र्कि", kit.book, "regular", "hi")[0]  # type: ignore[attr-defined]
    font = build_cluster_font(shaped.face, shaped.clusters)
    built = TTFont(io.BytesIO(font.data))
    source = TTFont(shaped.face.path)
    for cluster, code in font.codes.items():
        glyph_set = built.getGlyphSet()
        pen = StatisticsPen(glyph_set)
        recording = DecomposingRecordingPen(glyph_set)
        glyph_set[built.getGlyphName(code)].draw(recording)
        recording.replay(pen)
        names = source.getGlyphSet()
        expected = 0.0
        for gid, _, _ in cluster.glyphs:
            one = StatisticsPen(names)
            names[source.getGlyphName(gid)].draw(one)
            expected += one.area
        assert pen.area == pytest.approx(expected, abs=1)
        assert built["hmtx"][built.getGlyphName(code)][0] == cluster.advance


@pytest.mark.parametrize("length", [0, 1, 20, 40, 60, 90, 130, 200])
def test_qr_modules_are_those_of_the_library(length: int) -> None:
    """Words and mask are found in another way than the library finds them, and are the same."""
    for seed in range(12):
        # figures and capitals are written in modes of their own
        letters = ("abc/0123.-क", "abc/0123.-क", "0123456789", "ABC 0123/.")[seed % 4]
        payload = "".join(random.Random(f"{length} {seed}").choices(letters, k=length))
        code = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M, border=0)
        code.add_data(payload.encode(), optimize=0)
        code.make(fit=True)
        expected = ["".join("1" if dark else "0" for dark in row) for row in code.get_matrix()]
        assert list(qr_rows(payload)) == expected
        lost = qrcode.util.lost_point(code.modules)
        rows, columns = (int("".join(each), 2) for each in (expected, turned(expected)))
        assert penalty(rows, columns, len(expected)) == lost


def turned(rows: list[str]) -> list[str]:
    return ["".join(column) for column in zip(*rows, strict=True)]
