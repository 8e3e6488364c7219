"""All cards in one file, read by programs that did not write it."""

from __future__ import annotations

import io
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pypdf
import pypdfium2
import pytest
import zxingcpp
from PIL import ImageChops, ImageStat

from cards.batch.kit import Kit
from cards.batch.stages import Run, run_text
from cards.card.model import CardMeta
from cards.layout.pages import Pages
from cards.pdf.paint import Binding
from tests.bench.recipes import distinct
from tests.conftest import DEMO_FILES, ROOT
from tests.printed import fonts, picture
from tests.test_pdf import DEMOS, READERS, scratch, set_lines, squeezed  # noqa: F401
from tests.test_tags import Node, Tagged

META = CardMeta("All cards", "Two Wells Kitchen Circle", "en", "", "2026-11-25", "")

MOST_BYTES = 12_000
"""What a card may weigh in a file of many, with tree, bookmark and recipe; our own choice."""


def together(cards: list[tuple[Pages, dict[str, str]]]) -> bytes:
    binding = Binding()
    for pages, sources in cards:
        binding.add(pages, sources)
    return binding.bound(META)


def cards_of(runs: dict[str, Run]) -> list[tuple[Pages, dict[str, str]]]:
    return [(run.pages, run.sources) for run in runs.values() if run.pages is not None]


@pytest.fixture(scope="module")
def bound(demos: dict[str, Run]) -> bytes:
    return together(cards_of(demos))


@pytest.fixture(scope="module")
def many(kit: Kit) -> dict[str, Run]:
    """A hundred cards and more, no two alike in title, steps or amounts."""
    texts = [path.read_text(encoding="utf-8") for path in DEMO_FILES if "methi" not in path.name]
    runs = {}
    for number in range(140):
        name = f"recipes/r{number:03}.yaml"
        runs[name] = run_text(distinct(texts[number % len(texts)], number), name, kit)
    # a number more in each sentence is too much for some sides
    held = {name: run for name, run in runs.items() if run.pages is not None}
    assert len(held) > 100
    return held


@pytest.fixture(scope="module")
def tagged(bound: bytes) -> Tagged:
    return Tagged(bound)


@pytest.mark.parametrize("reader", READERS)
def test_every_line_of_every_card_comes_back(
    reader: str, demos: dict[str, Run], bound: bytes
) -> None:
    got = squeezed(READERS[reader](bound))
    lines = [line for run in demos.values() for line in set_lines(run)]
    assert len(lines) > 40 * len(demos)
    assert [line for line in lines if squeezed(line) not in got] == []


def test_pages_look_as_they_do_in_files_of_their_own(bound: bytes, pdfs: dict[str, bytes]) -> None:
    for number, data in enumerate(pdfs.values()):
        for side in (0, 1):
            one, other = picture(bound, 2 * number + side), picture(data, side)
            assert ImageStat.Stat(ImageChops.difference(one, other)).sum[0] == 0, (number, side)
    first, second = picture(bound, 0), picture(bound, 2)
    assert ImageStat.Stat(ImageChops.difference(first, second)).sum[0] > 0  # the control


def test_fonts_and_icons_come_once(bound: bytes, demos: dict[str, Run]) -> None:
    assert fonts(bound) == 2  # regular and bold, for twelve cards
    reader = pypdf.PdfReader(io.BytesIO(bound), strict=True)
    forms = reader.pages[0]["/Resources"]["/XObject"]
    drawn = {form.get_object().get_data() for form in forms.values()}
    assert len(drawn) == len(forms) > 50


def test_a_card_weighs_little(many: dict[str, Run]) -> None:
    cards = cards_of(many)
    assert len(together(cards)) / len(cards) < MOST_BYTES


def test_the_file_is_sound(many: dict[str, Run], tmp_path: Path) -> None:
    if shutil.which("qpdf") is None:
        pytest.skip("qpdf is not installed")
    path = tmp_path / "many.pdf"
    path.write_bytes(together(cards_of(many)))
    done = subprocess.run(["qpdf", "--check", path], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "No syntax or stream encoding errors found" in done.stdout


def test_same_cards_same_bytes(demos: dict[str, Run], bound: bytes) -> None:
    assert together(cards_of(demos)) == bound
    assert together(cards_of(demos)[::-1]) != bound


def test_each_card_has_a_bookmark_to_its_front(bound: bytes, demos: dict[str, Run]) -> None:
    reader = pypdf.PdfReader(io.BytesIO(bound), strict=True)
    assert len(reader.outline) == len(demos)
    for number, (mark, run) in enumerate(zip(reader.outline, demos.values(), strict=True)):
        assert run.recipe is not None
        assert reader.get_destination_page_number(mark) == 2 * number  # type: ignore[arg-type]
        assert mark.title.startswith(run.recipe.title["en"])  # type: ignore[union-attr]


def test_cards_of_one_title_have_bookmarks_apart(demos: dict[str, Run]) -> None:
    card = cards_of(demos)[0]
    reader = pypdf.PdfReader(io.BytesIO(together([card, (card[0], {})])), strict=True)
    first, second = (mark.title for mark in reader.outline)  # type: ignore[union-attr]
    assert second == f"{first} (2)"


def test_each_card_is_a_part_of_the_tree(tagged: Tagged, pdfs: dict[str, bytes]) -> None:
    """A part says what the card's own file says, on its own two pages."""
    assert tagged.root.kind == "Document"
    parts = tagged.root.nodes()
    assert [part.kind for part in parts] == ["Part"] * len(pdfs)

    def told(file: Tagged, node: Node, first: int) -> list[tuple[str, str, str, str]]:
        return [
            (
                inner.kind,
                inner.alt,
                inner.language,
                "".join(
                    file.texts.get((page, number), "")
                    for page, number in (i for i in inner.inside if isinstance(i, tuple))
                    if page >= first
                ),
            )
            for inner in node.walk()
        ]

    for number, (part, data) in enumerate(zip(parts, pdfs.values(), strict=True)):
        assert {page for page, _ in part.marks()} == {2 * number, 2 * number + 1}
        alone = Tagged(data)
        assert told(tagged, part, 2 * number)[1:] == told(alone, alone.root, 0)[1:]


def test_every_page_finds_its_own_elements(bound: bytes) -> None:
    reader = pypdf.PdfReader(io.BytesIO(bound), strict=True)
    numbers = reader.root_object["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    for number, page in enumerate(reader.pages):
        assert page["/StructParents"] == numbers[2 * number] == number
        for parent in numbers[2 * number + 1]:
            home = parent.get_object().raw_get("/Pg")
            assert home.idnum == page.indirect_reference.idnum  # type: ignore[union-attr]


def test_each_card_carries_its_recipe(bound: bytes, demos: dict[str, Run]) -> None:
    reader = pypdf.PdfReader(io.BytesIO(bound), strict=True)
    sources = {name: text for run in demos.values() for name, text in run.sources.items()}
    assert len(sources) > len(demos)
    held = {name: reader.attachments[name] for name in sources}
    assert held == {name: [text.encode()] for name, text in sources.items()}
    for number, run in enumerate(demos.values()):
        files = reader.pages[2 * number]["/AF"]
        assert {file.get_object()["/Desc"] for file in files} == set(run.sources)


def test_codes_are_read(bound: bytes, demos: dict[str, Run]) -> None:
    document = pypdfium2.PdfDocument(bound)
    for number, run in enumerate(demos.values()):
        found = zxingcpp.read_barcodes(document[2 * number + 1].render(scale=2).to_pil())
        assert run.recipe is not None
        assert [code.text.endswith(run.recipe.digest) for code in found] == [True]
    document.close()


def open_date(path: Path) -> str:
    """The day a recipe says it was revised."""
    found = re.search(r"(?m)^revised: *([0-9-]+)", path.read_text(encoding="utf-8"))
    return found[1] if found else ""


def make(folder: Path, *more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "cards", "make", "--together", *more],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=120,
    )


def test_the_command_binds_what_it_makes(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "recipes", tmp_path / "recipes")
    done = make(tmp_path)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "to print: out/cards.pdf" in done.stdout
    reader = pypdf.PdfReader(tmp_path / "out" / "cards.pdf", strict=True)
    assert len(reader.pages) == 2 * len(DEMOS)
    assert reader.metadata is not None
    assert reader.metadata.title == "Two Wells Kitchen Circle"
    revised = [open_date(path) for path in DEMO_FILES]
    assert reader.metadata.creation_date_raw == f"D:{max(revised).replace('-', '')}"
    assert len(list((tmp_path / "out").glob("*-sheet.pdf"))) == len(DEMOS)


def test_nothing_is_bound_where_a_card_is_missing(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "recipes", tmp_path / "recipes")
    (tmp_path / "recipes" / "spoiled.yaml").write_text("recipe: 1\n", encoding="utf-8")
    done = make(tmp_path)
    assert done.returncode == 1
    assert "print-incomplete" in done.stdout
    assert "1 of 13 cards are missing (recipes/spoiled.yaml)" in done.stdout
    assert not (tmp_path / "out" / "cards.pdf").exists()
    assert (tmp_path / "out" / f"{DEMOS[0]}.pdf").exists()


def test_a_recipe_called_cards_keeps_its_file(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    shutil.copy(ROOT / "recipes" / "programme.yaml", tmp_path / "recipes")
    shutil.copy(DEMO_FILES[0], tmp_path / "recipes" / "cards.yaml")
    done = make(tmp_path)
    assert done.returncode == 1
    assert "out-twice" in done.stdout
    assert len(pypdf.PdfReader(tmp_path / "out" / "cards.pdf").pages) == 2
